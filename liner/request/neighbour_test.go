package request

import (
	"math"
	"testing"

	"underflap/pattern/draw/referee"
)

// However wide the bleed and narrow the gap, each liner shows its own pattern
// up to its own cut line: both liners of a sheet look alike, seen in their own
// turns.
func TestALinersBleedNeverLiesOnItsNeighbour(t *testing.T) {
	for _, words := range []Words{{Gap: "0", Bleed: "12"}, {Gap: "1", Bleed: "3"}, {Gap: "4", Bleed: "2"}, {Gap: "1", Bleed: "3", Layout: "straight"}} {
		words.Pattern = "scallops"
		made := makeOf(t, words)
		page := referee.PNG(t, encode(t, made, "png"), truthDPI)
		fit := Report(made.Plan, made.Marks)
		a, b := fit.Placements[0], fit.Placements[1]
		at := func(p Placement, u, v float64) float64 {
			switch p.Turn {
			case 0:
				return page.At(p.DX+u, p.DY+v)
			case 180:
				return page.At(p.DX-u, p.DY-v)
			}
			t.Fatalf("turned by %d", p.Turn)
			return 0
		}
		differ, looked := 0, 0
		for u := 10.0; u < 150; u += 0.37 { // over the pocket part, clear of the cut lines
			for v := 2.0; v < fit.PocketDepth-2; v += 0.37 {
				one, two := at(a, u, v), at(b, u, v)
				looked++
				if math.Abs(one-two) > 100 {
					differ++
				}
			}
		}
		if share := float64(differ) / float64(looked); share > 0.001 {
			t.Errorf("gap %s, bleed %s %s: %.4f of the pattern differs between the two liners", words.Gap, words.Bleed, made.Plan.Layout, share)
		}
	}
}
