package scene

import (
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
)

// The shallowest liner that a sheet makes unasked reaches half down the pocket;
// its end must not show in the throat of any envelope that is sold.
func TestTheLinersEndNeverShowsInTheThroat(t *testing.T) {
	seen := 0
	for _, entry := range liner.Entries() {
		for _, form := range append([]liner.Shape{""}, liner.Shapes...) {
			for _, e := range []liner.Envelope{entry.Envelope(form), entry.Turned().Envelope(form)} {
				var panels []shape
				for _, c := range UsualPanels(e) {
					panels = append(panels, turned(c))
				}
				deepest := throat(panels, e.Width)
				if deepest > 0.46*e.Height || deepest < 1 {
					t.Errorf("%s %gx%g: the throat reaches %.1f down", e.Short, e.Width, e.Height, deepest)
				}
				for _, panel := range panels {
					for _, p := range panel {
						if p.X < -1e-9 || p.X > e.Width+1e-9 || p.Y < -1e-9 || p.Y > e.Height+1e-9 {
							t.Errorf("%s: a panel sticks out at %v", e.Short, p)
						}
					}
				}
				seen++
			}
		}
	}
	if seen < 300 {
		t.Errorf("%d envelopes were looked at", seen)
	}
}

// The throat of panels that are simple is known.
func TestThroatIsTheLowestOpenPlace(t *testing.T) {
	rectangle := geom.Contour{
		geom.Line(geom.Point{X: 0, Y: -7}, geom.Point{X: 100, Y: -7}), geom.Line(geom.Point{X: 100, Y: -7}, geom.Point{X: 100, Y: -50}),
		geom.Line(geom.Point{X: 100, Y: -50}, geom.Point{X: 0, Y: -50}), geom.Line(geom.Point{X: 0, Y: -50}, geom.Point{X: 0, Y: -7}),
	}
	if got := throat([]shape{turned(rectangle)}, 100); got != 7 {
		t.Errorf("%g, want 7", got)
	}
}
