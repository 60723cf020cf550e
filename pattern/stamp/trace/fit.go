package trace

import (
	"math"

	"underflap/pattern/draw"
)

// tolerance is how far the smooth outline may keep from the contour: less than
// the soft edge of a printed dot at any size worth printing.
const tolerance = 0.35

// curve is one cubic Bézier.
type curve [4]draw.Point

func plus(a, b draw.Point) draw.Point          { return draw.Point{X: a.X + b.X, Y: a.Y + b.Y} }
func minus(a, b draw.Point) draw.Point         { return draw.Point{X: a.X - b.X, Y: a.Y - b.Y} }
func times(a draw.Point, k float64) draw.Point { return draw.Point{X: a.X * k, Y: a.Y * k} }
func dot(a, b draw.Point) float64              { return a.X*b.X + a.Y*b.Y }
func distance(a, b draw.Point) float64         { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// unit is a's direction; nothing has none.
func unit(a draw.Point) draw.Point {
	if l := math.Hypot(a.X, a.Y); l > 0 {
		return times(a, 1/l)
	}
	return a
}

func (c curve) at(t float64) draw.Point {
	s := 1 - t
	return plus(plus(times(c[0], s*s*s), times(c[1], 3*s*s*t)), plus(times(c[2], 3*s*t*t), times(c[3], t*t*t)))
}

// fit covers points with curves that leave them by no more than the tolerance
// and keep the directions at both ends (P. Schneider, An Algorithm for
// Automatically Fitting Digitized Curves, Graphics Gems, 1990).
func fit(points []draw.Point, start, end draw.Point, add func(curve)) {
	first, last := points[0], points[len(points)-1]
	if len(points) == 2 {
		third := distance(first, last) / 3
		add(curve{first, plus(first, times(start, third)), plus(last, times(end, third)), last})
		return
	}
	t := chordLengths(points)
	worst := 0
	for range 5 {
		c := leastSquares(points, t, start, end)
		far, at := farthest(points, t, c)
		worst = at
		if far <= tolerance {
			add(c)
			return
		}
		if far > 4*tolerance {
			break
		}
		for i := range t {
			t[i] = nearer(c, points[i], t[i])
		}
	}
	middle := unit(minus(points[worst-1], points[worst+1]))
	fit(points[:worst+1], start, middle, add)
	fit(points[worst:], times(middle, -1), end, add)
}

func chordLengths(points []draw.Point) []float64 {
	t := make([]float64, len(points))
	for i := 1; i < len(points); i++ {
		t[i] = t[i-1] + distance(points[i-1], points[i])
	}
	for i := range t {
		t[i] /= t[len(t)-1]
	}
	return t
}

// leastSquares finds how far the two inner points lie along the end directions.
func leastSquares(points []draw.Point, t []float64, start, end draw.Point) curve {
	first, last := points[0], points[len(points)-1]
	var c00, c01, c11, x0, x1 float64
	for i, u := range t {
		s := 1 - u
		b1, b2 := 3*s*s*u, 3*s*u*u
		a0, a1 := times(start, b1), times(end, b2)
		rest := minus(points[i], plus(times(first, s*s*s+b1), times(last, b2+u*u*u)))
		c00 += dot(a0, a0)
		c01 += dot(a0, a1)
		c11 += dot(a1, a1)
		x0 += dot(a0, rest)
		x1 += dot(a1, rest)
	}
	span := distance(first, last)
	det := c00*c11 - c01*c01
	l, r := 0.0, 0.0
	if math.Abs(det) > 1e-12 {
		l, r = (x0*c11-x1*c01)/det, (c00*x1-c01*x0)/det
	}
	if least := 1e-3 * span; l < least || r < least || l > 3*span || r > 3*span {
		l, r = span/3, span/3 // the rule of thumb of the same source
	}
	return curve{first, plus(first, times(start, l)), plus(last, times(end, r)), last}
}

func farthest(points []draw.Point, t []float64, c curve) (far float64, at int) {
	at = len(points) / 2
	for i := 1; i < len(points)-1; i++ {
		if d := distance(c.at(t[i]), points[i]); d > far {
			far, at = d, i
		}
	}
	return far, at
}

// nearer is a step of Newton's method towards the place on the curve nearest to p.
func nearer(c curve, p draw.Point, t float64) float64 {
	s := 1 - t
	d0, d1, d2 := minus(c[1], c[0]), minus(c[2], c[1]), minus(c[3], c[2])
	first := times(plus(plus(times(d0, s*s), times(d1, 2*s*t)), times(d2, t*t)), 3)
	second := times(plus(times(minus(d1, d0), s), times(minus(d2, d1), t)), 6)
	off := minus(c.at(t), p)
	slope := dot(first, first) + dot(off, second)
	if math.Abs(slope) < 1e-12 {
		return t
	}
	return min(max(t-dot(off, first)/slope, 0), 1)
}
