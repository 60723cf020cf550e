package scene

import (
	"math"
	"testing"
	"underflap/pattern/draw"
)

// A half plane blurred by a Gauss curve is half the complementary error function
// of the distance over the root of 2 deviations, the definition of erfc
// (Abramowitz and Stegun, 7.1.2).
func TestAShadowsEdgeFollowsTheErrorFunction(t *testing.T) {
	for _, blur := range []float64{0.7, 2.4, 6.5} {
		s := draw.NewSurface()
		soft{blur: blur, strength: 0.8, colour: dark}.cast(s, box(0, -60, 60, 60))
		pic := s.Nodes()[0].(*draw.Picture)
		into := pic.At.Inverse()
		size := pic.Image.Bounds().Size()
		at := func(x, y float64) float64 { // bilinear, at a place in millimetres
			u := into.Apply(draw.Point{X: x, Y: y})
			px, py := u.X*float64(size.X)-0.5, u.Y*float64(size.Y)-0.5
			ix, iy := int(math.Floor(px)), int(math.Round(py))
			a := func(i int) float64 { return float64(pic.Image.NRGBAAt(i, iy).A) / 255 }
			return a(ix) + (a(ix+1)-a(ix))*(px-float64(ix))
		}
		for d := -2.5; d <= 2.5; d += 0.125 {
			want := 0.8 * math.Erfc(-d/math.Sqrt2) / 2
			if got := at(d*blur, 0); math.Abs(got-want) > 0.014 {
				t.Errorf("blur %g, %g deviations inside: %.4f, want %.4f", blur, d, got, want)
			}
		}
	}
}

func TestPolygonsAreCutAtALevel(t *testing.T) {
	arrow := shape{{X: 0, Y: 10}, {X: 5, Y: -10}, {X: 10, Y: 10}, {X: 5, Y: 4}}
	whole, above, below := area(arrow), area(arrow.over(3)), area(arrow.under(3))
	if math.Abs(whole-above-below) > 1e-9 || math.Abs(above-0.5*13*13/20*10) > 1e-9 {
		t.Errorf("%g above and %g below of %g", above, below, whole)
	}
}

func area(s shape) float64 {
	sum := 0.0
	for i, p := range s {
		q := s[(i+1)%len(s)]
		sum += (p.X*q.Y - q.X*p.Y) / 2
	}
	return math.Abs(sum)
}
