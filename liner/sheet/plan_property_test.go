package sheet_test

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/sheet"
	"underflap/pattern/words"
)

// The promises of plan_test.go for envelopes, papers, margins and gaps of any
// size, and any number of liners.
func TestEveryPlanKeepsItsPromises(t *testing.T) {
	placed, refusals := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		between := func(name string, least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, name) }
		e := liner.Envelope{Name: "measured", Short: "measured", Width: between("width", 60, 300), Height: between("height", 60, 220), Gum: between("gum", 0, 15)}
		e.Flap = liner.UsualFlap(rapid.SampledFrom(liner.Shapes).Draw(t, "shape"), between("flap depth", 30, min(e.Height, 110)), e.Width)
		c := liner.Clearances{SideGap: between("side gap", 0, 8), GumClearance: between("gum clearance", 0, 3), CornerRadius: between("corner radius", 0, 6)}
		if rapid.Bool().Draw(t, "depth asked for") {
			c.PocketDepth = between("pocket depth", 10, e.Height)
		}
		l, err := liner.New(e, c)
		if err != nil {
			t.Skip(err)
		}
		task := sheet.Task{Liner: l, PrinterMargin: between("margin", 0, 15), Bleed: between("bleed", 0, 4), Gap: between("gap", 0, 20), Layout: "straight",
			PerSheet: rapid.IntRange(0, 2).Draw(t, "per sheet"), Count: rapid.IntRange(0, 9).Draw(t, "count"),
			Paper: liner.Paper{Name: "custom", Short: "custom", Width: between("paper width", 100, 450), Height: between("paper height", 100, 450)}}
		p, err := sheet.Arrange(task)
		_, one := bestDepth(task, 1)
		_, two := bestDepth(task, 2)
		if err != nil {
			var refused *words.Refused
			if !errors.As(err, &refused) || refused.Accepts == "" {
				t.Fatalf("%T %v", err, err)
			}
			if one && task.PerSheet < 2 || two {
				t.Fatalf("refused, though it fits: %v", err)
			}
			refusals++
			return
		}
		checkPlan(t, "plan", task, p)
		want := task.PerSheet
		if want == 0 {
			want = 1
			if two && task.Count != 1 {
				want = 2
			}
		}
		if task.Count == 1 { // no room is kept for a second liner that nobody wants
			want = 1
		}
		if p.PerSheet() != want {
			t.Fatalf("%d on a sheet, want %d", p.PerSheet(), want)
		}
		placed++
	})
	if placed < 20 || refusals < 1 {
		t.Errorf("%d plans placed, %d refused: the property was hardly tried", placed, refusals)
	}
}
