package geom_test

import (
	"math"
	"math/rand/v2"
	"sort"

	"underflap/liner/geom"
)

// The plain way to erode, which looks at everything everywhere: the greatest y
// such that a disc of radius d about (x, y) stays under the edge, the least of
// h(x+t) - √(d² - t²) over every t. Tests compare with it what the code
// computes piece by piece.

// lowestDisc is that height over a chain of straight pieces. On one piece, of
// slope m, the function is convex and least where the disc touches it, at
// t = -m·d/√(1+m²), or at the end nearer to there. It is infinite where no
// piece is within d.
func lowestDisc(chain []geom.Point, x, d float64) float64 {
	least := math.Inf(1)
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		from, to := max(a.X, x-d), min(b.X, x+d)
		if from > to {
			continue
		}
		if a.X == b.X { // a jump: its lower end is in the way
			least = min(least, min(a.Y, b.Y)-math.Sqrt(max(0, d*d-(a.X-x)*(a.X-x))))
			continue
		}
		m := (b.Y - a.Y) / (b.X - a.X)
		s := max(from, min(to, x-m*d/math.Sqrt(1+m*m)))
		least = min(least, a.Y+m*(s-a.X)-math.Sqrt(max(0, d*d-(s-x)*(s-x))))
	}
	return least
}

// reader reads a profile's height in steps of log n.
type reader struct{ geom.Profile }

// at is the profile's height at x, on its lower side where it jumps; infinite
// beyond its ends.
func (p reader) at(x float64) float64 {
	low := math.Inf(1)
	for i := sort.Search(len(p.Profile), func(i int) bool { return p.Profile[i].B.X >= x }); i < len(p.Profile) && p.Profile[i].A.X <= x; i++ {
		s := p.Profile[i]
		switch up := math.Sqrt(max(0, s.R*s.R-(x-s.C.X)*(x-s.C.X))); {
		case s.A.X == s.B.X:
			low = min(low, s.A.Y, s.B.Y)
		case s.R == 0:
			low = min(low, s.A.Y+(s.B.Y-s.A.Y)*(x-s.A.X)/(s.B.X-s.A.X))
		case s.CW:
			low = min(low, s.C.Y+up)
		default:
			low = min(low, s.C.Y-up)
		}
	}
	return low
}

// mismatch is by how much got lies outside what want takes on within a hair of
// x. The hair lets a jump, and an edge as steep as one, stand a little to
// either side.
func mismatch(got float64, want func(x float64) float64, x, hair float64) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, k := range []float64{-1, -0.5, 0, 0.5, 1} {
		y := want(x + k*hair)
		low, high = min(low, y), max(high, y)
	}
	if math.IsInf(got, 1) && math.IsInf(high, 1) {
		return 0
	}
	return max(low-got, got-high)
}

// chainOf draws a chain of n points from left to right, of one of the kinds
// that a person's trace, or a mistake in it, may be.
func chainOf(r *rand.Rand, kind string, n int) []geom.Point {
	width := 40 + 300*r.Float64()
	chain := make([]geom.Point, n)
	for i := range chain {
		x := width * float64(i) / float64(n-1)
		y := 60 * math.Sin(math.Pi*x/width)
		switch kind {
		case "smooth":
		case "shaky": // a flap followed by hand
			y += 0.3 * r.NormFloat64()
		case "rough":
			y = 80 * r.Float64()
		case "spikes":
			if i%7 == 3 {
				y += 40 * r.Float64()
			}
		case "slits":
			if i%7 == 3 {
				y *= r.Float64()
			}
		case "steps": // a pixel outline: level, jump, level
			if i%2 == 1 {
				x = chain[i-1].X
			}
			y = math.Round(y / 4)
		case "needles": // there and back, without a width, and points given twice
			if i%7 == 3 || i%7 == 4 || i%11 == 0 && i > 0 {
				x = chain[i-1].X
			}
			if i%7 == 3 {
				y *= 2 * r.Float64()
			} else if i%11 == 0 && i > 0 {
				y = chain[i-1].Y
			}
		case "plateaus": // whole numbers: pieces in line and equal heights
			x, y = float64(i), math.Round(y/10)*10
		case "slants": // pieces in line, so that candidates meet end to end
			x = float64(i)
			y = math.Min(x, float64(n-1)-x)
		case "crowded": // points closer than anything that is measured
			if i > 0 {
				x = chain[i-1].X + math.Pow(10, -8+9*r.Float64())
			}
			y = 20 + 5*r.Float64() // so that jumps (see hairOf) are at most 5 high
		}
		chain[i] = geom.Point{X: x, Y: y}
	}
	return chain
}

var chainKinds = []string{"smooth", "shaky", "rough", "spikes", "slits", "steps", "needles", "plateaus", "slants", "crowded"}

// hairOf is how far sideways an eroded edge may stand. Edges steeper than 1e5,
// which only a crowded chain has, are taken for jumps: at most 5 mm high, they
// run at most 0.00005 mm.
func hairOf(kind string) float64 {
	if kind == "crowded" {
		return 5.1e-5
	}
	return 1e-7
}

func profileThrough(chain []geom.Point) geom.Profile {
	var p geom.Profile
	for i := 1; i < len(chain); i++ {
		p = append(p, geom.Line(chain[i-1], chain[i]))
	}
	return p
}
