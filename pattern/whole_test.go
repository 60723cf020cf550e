package pattern

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// A part of the area has the places of the whole, to the bit, and all that can
// touch it: a liner may be drawn in any number of pieces.
func TestAPartHasThePlacesOfTheWhole(t *testing.T) {
	sorted := func(all []Place) []Place {
		slices.SortFunc(all, func(a, b Place) int {
			return cmp.Or(cmp.Compare(a.At.E, b.At.E), cmp.Compare(a.At.F, b.At.F), cmp.Compare(a.At.A, b.At.A))
		})
		return all
	}
	chance := rand.New(rand.NewPCG(1, 2))
	for name, r := range everyRecurrence() {
		const reach = 3.0
		whole := placesOf(&r, box(400), reach)
		for range 8 {
			x, y := 200*chance.Float64()-100, 200*chance.Float64()-100
			part := draw.Rect{MinX: x, MinY: y, MaxX: x + 20 + 60*chance.Float64(), MaxY: y + 20 + 60*chance.Float64()}
			touch := part.Grow(reach)
			want := sorted(slices.DeleteFunc(slices.Clone(whole), func(p Place) bool {
				return p.At.E < touch.MinX || p.At.E > touch.MaxX || p.At.F < touch.MinY || p.At.F > touch.MaxY
			}))
			got := sorted(placesOf(&r, part, reach))
			if len(want) < 1 || !slices.Equal(got, want) {
				t.Errorf("%s: %d places in %v, and the whole has %d there", name, len(got), part, len(want))
			}
		}
	}
}

// Whatever the area's edge cuts through is there up to the edge.
func TestNoMotifIsMissingAtTheEdge(t *testing.T) {
	const side, dpi, pixels = 45.72, 75, 135
	for name, r := range everyRecurrence() {
		d := flagged(r, 4)
		drawn := func(area draw.Rect) []byte {
			page := draw.NewPage(side, side)
			page.Layer(draw.Artwork, func(s *draw.Surface) {
				s.Within(draw.Translate(side/2, side/2), func(s *draw.Surface) { d.Draw(s, area) })
			})
			return referee.PNG(t, written(t, page, "png", dpi), dpi).Grey
		}
		alone, part := drawn(box(side)), drawn(box(side+60))
		// not the page's outermost pixels: the rasteriser rounds towards zero, and
		// shows there a trace of what ends a part of a pixel outside
		for i := range alone {
			if x, y := i%pixels, i/pixels; alone[i] != part[i] && min(x, y) > 0 && max(x, y) < pixels-1 {
				t.Errorf("%s: an area drawn by itself is at pixel %d, %d not what a larger one shows there", name, x, y)
				break
			}
		}
	}
}

// The count that bounds a liner is near what is drawn.
func TestPlacesAreCountedAboutRight(t *testing.T) {
	check := func(name string, r Recurrence) {
		const reach = 2.0
		area := box(700)
		drawn, count := float64(len(placesOf(&r, area, reach))), r.count(area, reach)
		if math.Abs(count-drawn) > 0.06*drawn {
			t.Errorf("%s: about %.0f motifs, %.0f drawn", name, count, drawn)
		}
	}
	for name, r := range everyRecurrence() {
		check(name, r)
		if r.Repeat == Toss {
			for _, density := range []float64{0.5, 0.2} {
				r.Density = density
				check(name, r)
			}
		}
	}
}
