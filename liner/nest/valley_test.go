package nest

import (
	"math"
	"testing"

	"underflap/liner/geom"
)

// A disc between two others that lie is lowest where it touches both, which is
// where two circles about their centres cross: at no corner of either edge.
func TestADiscIsLowestInTheValleyBetweenTwo(t *testing.T) {
	disc := func(r float64) geom.Contour {
		a, b, c := geom.Point{X: r}, geom.Point{X: -r}, geom.Point{}
		return geom.Contour{geom.Arc(a, b, c, false), geom.Arc(b, a, c, false)}
	}
	const gap, large, small = 2.0, 20.0, 10.0
	m := NewMix(gap, disc(large), disc(small))
	a, b := geom.Point{X: 20, Y: 20}, geom.Point{X: 61.3, Y: 24.7}
	room := Room{Width: 81.3, Height: 120}
	far := large + gap + small
	half := a.Distance(b) / 2
	up := math.Sqrt(far*far - half*half)
	want := geom.Point{X: (a.X+b.X)/2 - up*(b.Y-a.Y)/(2*half), Y: (a.Y+b.Y)/2 + up*(b.X-a.X)/(2*half)}
	lowest := drop{y: math.Inf(1)}
	for _, d := range m.drops(room, []spot{{poseOf(0, 0), a.X, a.Y}, {poseOf(0, 0), b.X, b.Y}}, poseOf(1, 0)) {
		if d.y < lowest.y {
			lowest = d
		}
	}
	if got := (geom.Point{X: lowest.x, Y: lowest.y}); got.Distance(want) > 1e-6 {
		t.Errorf("the lowest place is %v, want %v", got, want)
	}
}

// Two rectangles one above the other need the sum of their heights and the gap, and
// no room that is a thousandth less.
func TestARoomAThousandthTooLowTakesNoTwo(t *testing.T) {
	side := func(w, h float64) geom.Contour {
		p := []geom.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}}
		return geom.Contour{geom.Line(p[0], p[1]), geom.Line(p[1], p[2]), geom.Line(p[2], p[3]), geom.Line(p[3], p[0])}
	}
	m := NewMix(4, side(100, 40), side(90, 30))
	for short, want := range map[float64]bool{0: true, 0.0009: false} {
		if ways := (Room{Width: 110, Height: 74 - short}).Two(m, 0, 1); len(ways) > 0 != want {
			t.Errorf("%g too low: %d ways", short, len(ways))
		}
	}
}
