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

// Whatever its size, the card's foot is held by the panels, and its head is in
// the throat or above it.
func TestACardIsHeldByThePocket(t *testing.T) {
	for _, entry := range liner.Entries() {
		e := entry.Envelope("")
		lined, err := liner.New(e, liner.Clearances{SideGap: 3, GumClearance: 1.5, CornerRadius: liner.UsualCornerRadius(e)})
		if err != nil {
			t.Fatal(e.Short, err)
		}
		sc := Scene{Liner: lined}
		deepest := throat(sc.panels(), e.Width)
		for _, share := range []float64{0.25, 0.5, 0.9} {
			sc.Card = &Card{Width: e.Width * share, Height: e.Height * share}
			for _, v := range []View{Open, Half} {
				b := sc.cardShape(v).closed().Bounds()
				if b.MaxY < deepest+1 || b.MinY > deepest || b.MaxY > e.Height {
					t.Errorf("%s, %s, %g of the pocket: the card is from %.1f to %.1f below the fold, the throat %.1f deep", e.Short, v, share, b.MinY, b.MaxY, deepest)
				}
			}
		}
	}
}
