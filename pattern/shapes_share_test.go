package pattern

import (
	"math"
	"testing"
)

// How much single shapes ink, in closed form, on our PNG and on MuPDF and
// librsvg: to 0.2 % at 600 DPI, as in inked_share_test.go.
func TestShapesInkTheClosedForm(t *testing.T) {
	disc := func(diameter float64) float64 { return math.Pi / 4 * diameter * diameter }
	ring := func(diameter, line float64) float64 { return disc(diameter) - disc(diameter-2*line) }
	triangle := func(side float64) float64 { return math.Sqrt(3) / 4 * side * side }
	lens := func(chord, half float64) float64 { // two arcs over a chord, each at an angle to it
		r := chord / 2 / math.Sin(half)
		return r * r * (2*half - math.Sin(2*half))
	}
	wave := func(height, length float64) float64 { // how long a cosine is, by Simpson's rule
		const n = 2000
		sum := 0.0
		for i := range n + 1 {
			slope := math.Pi * height / length * math.Sin(2*math.Pi*float64(i)/n)
			weight := 4.0 - 2*float64((i+1)%2)
			if i == 0 || i == n {
				weight = 1
			}
			sum += weight * math.Hypot(1, slope)
		}
		return sum * length / 3 / n
	}
	side := 9 + math.Sqrt(3)*2 // of a triangle with half the gap around it
	side3 := math.Sqrt(3)
	diamonds := func(width, height, gap float64) float64 { // how much wider and higher with the gap
		return 1 + gap/(width*height/math.Hypot(width, height))
	}
	cases := []struct {
		name   string
		motif  Motif
		dx, dy float64 // a rectangle that recurs
		want   float64 // millimetres inked of it
	}{
		{"rings", settled("rings", "size=9", "line=1.3", "rings=1", "spacing=2"), 11, 11 * side3, 2 * ring(9, 1.3)},
		{"three rings one inside another", settled("rings", "size=10", "line=1", "rings=3", "gap=0.8", "repeat=straight", "spacing=1"), 11, 11,
			ring(10, 1) + ring(6.4, 1) + ring(2.8, 1)},
		{"rings around a dot", settled("rings", "size=10", "line=1.4", "rings=3", "gap=1", "repeat=straight", "spacing=1"), 11, 11,
			ring(10, 1.4) + ring(5.2, 1.4) + disc(0.4)},
		{"hexagons in a honeycomb", settled("hexagons", "size=10", "spacing=1", "line=0", "inner=0"), 11, 11 * side3, 11 * 11 * side3 * 100 / 121},
		{"framed hexagons in columns", settled("hexagons", "size=10", "spacing=1", "line=1.5", "inner=0.4", "repeat=half-drop"), 11 * side3, 11,
			11 * 11 * side3 * (100 - 49 + 16) / 121},
		{"hexagons in rows", settled("hexagons", "size=9", "spacing=2", "line=0", "inner=0", "repeat=straight"), 11, 18/side3 + 2, 81 * side3 / 2},
		{"harlequin", settled("diamonds", "width=7", "height=11", "spacing=2"), 7 * diamonds(7, 11, 2), 11 * diamonds(7, 11, 2), 77},
		{"framed diamonds", settled("diamonds", "width=8", "height=10", "spacing=1", "line=1", "inner=0.3", "repeat=straight"), 9, 11,
			40 * (1 - math.Pow(1-1/(40/math.Hypot(8, 10)), 2) + 0.09)},
		{"triangles", settled("triangles", "size=9", "gap=2", "line=1"), side, side * side3, 2 * (2*triangle(9) - triangle(9-2*side3))},
		{"stars of five points", settled("stars", "size=9", "spacing=2", "waist=0.4"), 11, 22, 2 * 5 * 4.5 * 1.8 * math.Sin(math.Pi/5)},
		{"stars of eight points", settled("stars", "size=9", "points=8", "waist=0.7", "spacing=2", "repeat=half-drop"), 22, 11, 2 * 8 * 4.5 * 3.15 * math.Sin(math.Pi/8)},
		{"petals that touch", settled("petals", "size=48", "hollow=0", "eye=0", "spacing=6", "repeat=straight"), 54, 54, 6 * lens(24, math.Pi/6)},
		{"petals around an eye", settled("petals", "size=48", "petals=9", "full=0.7", "hollow=0.4", "eye=0.3", "spacing=6", "repeat=straight"), 54, 54,
			9*lens(14.4, 0.7*math.Pi/9) + disc(14.4)},
		{"truchet", settled("truchet", "size=10", "lines=1", "line=2"), 10, 10, math.Pi * 5 * 2},
		{"truchet of three lines", settled("truchet", "size=11", "lines=3", "line=0.7", "gap=0.6"), 11, 11, 3 * math.Pi * 5.5 * 0.7},
		{"one wave", settled("guilloche", "height=8", "rise=10", "wave=11", "swell=0", "lines=1", "line=0.8"), 11, 10, 0.8 * wave(8, 11)},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			page := pageOf(Design{Name: "x", Motif: c.motif, Colours: blackOnWhite, Scale: 1}, 70)
			const from = 100
			whole := func(d float64) int { return from + int(math.Round(math.Floor(55/d)*d/dot)) }
			want := c.want / (c.dx * c.dy)
			within := map[string]float64{"png": 0.002, "mupdf": 0.002, "librsvg": 0.002}
			switch c.motif.(type) {
			case *Truchet, *Guilloche: // gg strokes curves up to 0.7 % too wide: it steps along them by whole pixels
				within["png"] = 0.01
			}
			for name, raster := range draws(t, page) {
				got := raster.InkedShare(from, from, whole(c.dx), whole(c.dy))
				if math.Abs(got-want) > within[name]*want {
					t.Errorf("%s: inked share %.5f, closed form %.5f", name, got, want)
				}
			}
		})
	}
}
