package liner_test

import (
	"math"
	"testing"

	"underflap/liner"
)

// bleedOff is how far the edge of a bleed strays from its distance, by
// measuring from the bleed to the outline point by point.
func bleedOff(o liner.Outline, d float64) float64 {
	cut, worst := ring(o.Flatten(0.002)), 0.0
	for _, p := range densified(o.Bleed(d).Flatten(0.002), 1) {
		worst = max(worst, math.Abs(cut.distance(p)-d))
	}
	return worst
}

// A bleed is a Minkowski sum with a disc (the design's "pattern past the cut line").
func TestTheBleedOfEveryUsualLinerIsItsDistanceWide(t *testing.T) {
	t.Parallel()
	for _, l := range tableLiners(t) {
		for _, d := range []float64{1, 2, 3.5} {
			if off := bleedOff(l.Outline(l.LeastPocketDepth()), d); off > 0.02 {
				t.Errorf("%s: a bleed of %v strays by %.4f (%+v, %+v)", l.Envelope.Name, d, off, l.Envelope.Flap, l.Clearances)
			}
		}
	}
}

// Sides that lean in by less than half a millimetre are measured often enough,
// and are where rounding bites: their slope is in the thousands.
func TestTheBleedOfNearlyUprightSidesIsItsDistanceWide(t *testing.T) {
	t.Parallel()
	compared := 0
	for _, taper := range []float64{0.02, 0.05, 0.1, 0.2, 0.3} {
		for _, depth := range []float64{30, 45, 64, 88, 120} {
			for _, side := range []float64{0, 1, 2, 3} {
				for _, gum := range []float64{1, 4, 12} {
					e := liner.Envelope{Width: 229, Height: 162, Gum: gum,
						Flap: liner.Flap{Shape: liner.Square, Depth: depth, Taper: taper, BaseGap: 1, TipRadius: 4}}
					l := mustLine(t, e, liner.Clearances{SideGap: side, GumClearance: 1.5, CornerRadius: 4})
					for _, d := range []float64{2, 3} {
						if off := bleedOff(l.Outline(90), d); off > 0.02 {
							t.Errorf("taper %v, flap %v deep, gum %v, side gap %v: a bleed of %v strays by %.4f", taper, depth, gum, side, d, off)
						}
						compared++
					}
				}
			}
		}
	}
	if compared != 600 {
		t.Errorf("compared %d bleeds", compared)
	}
}
