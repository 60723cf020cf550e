package request

import (
	"math"
	"testing"

	"underflap/pattern/draw/referee"
)

// However wide the bleed and narrow the gap, each liner shows its own pattern
// up to its own cut line: both liners of a sheet look alike.
func TestALinersBleedNeverLiesOnItsNeighbour(t *testing.T) {
	for _, words := range []Words{{Gap: "0", Bleed: "12"}, {Gap: "1", Bleed: "3"}, {Gap: "4", Bleed: "2"}} {
		words.Pattern = "scallops"
		made := makeOf(t, words)
		page := referee.PNG(t, encode(t, made, "png"), truthDPI)
		fit := Report(made.Plan, made.Marks)
		a, b := fit.Placements[0], fit.Placements[1]
		differ, looked := 0, 0
		for u := 10.0; u < 150; u += 0.37 { // over the pocket part, clear of the cut lines
			for v := 2.0; v < fit.PocketDepth-2; v += 0.37 {
				one, two := page.At(a.DX+u, a.DY+v), page.At(b.DX+u, b.DY+v)
				looked++
				if math.Abs(one-two) > 100 {
					differ++
				}
			}
		}
		if share := float64(differ) / float64(looked); share > 0.001 {
			t.Errorf("gap %s, bleed %s: %.4f of the pattern differs between the two liners", words.Gap, words.Bleed, share)
		}
	}
}
