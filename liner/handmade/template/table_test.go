package template_test

import (
	"testing"

	"underflap/liner/handmade"
	"underflap/liner/handmade/template"
)

// Inches worked by hand.
func TestTheTableForATerminalIsAligned(t *testing.T) {
	b := handmade.Blank{Measures: []handmade.Measure{{Name: "sheet, width", MM: 210}, {Name: "flap’s lean", MM: 1.5}, {Name: "side folds, from the middle", MM: 80.04}}}
	const want = "" +
		"measure                         mm  inches, to 1/16\n" +
		"sheet, width                 210.0  8 1/4 in\n" +
		"flap’s lean                    1.5  1/16 in\n" +
		"side folds, from the middle   80.0  3 1/8 in\n"
	if got := template.Text(b); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
