package setting_test

import (
	"strings"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
)

func TestANameIsCutOnlyWhereItIsTooWide(t *testing.T) {
	const name = "winter fair, mulled plum"
	whole := draw.Regular.Width(name, 4)
	if got := setting.Shortened(name, draw.Regular, 4, whole); got != name {
		t.Error(got)
	}
	for width := 4.0; width < whole; width += 0.5 {
		got := setting.Shortened(name, draw.Regular, 4, width)
		begun, cut := strings.CutSuffix(got, "…")
		if !cut || !strings.HasPrefix(name, begun) || draw.Regular.Width(got, 4) > width || strings.HasSuffix(begun, ",") || strings.HasSuffix(begun, " ") {
			t.Errorf("%g mm: %q", width, got)
		}
	}
}
