package liner_test

import (
	"math"

	"underflap/liner/geom"
)

// ring is a closed polygon whose last point repeats the first. Tests measure
// with it, in the plainest way, what the code computes exactly.
type ring []geom.Point

// distance is from p to the nearest place on the ring.
func (r ring) distance(p geom.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(r); i++ {
		a, b := r[i-1], r[i]
		if min(a.X, b.X)-p.X < least && p.X-max(a.X, b.X) < least && min(a.Y, b.Y)-p.Y < least && p.Y-max(a.Y, b.Y) < least { // else it is farther
			least = min(least, toSegment(p, a, b))
		}
	}
	return least
}

// area is by the shoelace formula, positive anticlockwise.
func (r ring) area() float64 {
	sum := 0.0
	for i := 1; i < len(r); i++ {
		sum += r[i-1].X*r[i].Y - r[i].X*r[i-1].Y
	}
	return sum / 2
}

// crossing finds two sides, not neighbours, that touch.
func (r ring) crossing() (a, b geom.Point, found bool) {
	n := len(r) - 1
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if touch(r[i], r[i+1], r[j], r[j+1]) {
				return r[i], r[j], true
			}
		}
	}
	return a, b, false
}

// inside tells whether p lies in the polygon that the rings bound (even-odd).
func inside(p geom.Point, rings []ring) bool {
	in := false
	for _, r := range rings {
		for i := 1; i < len(r); i++ {
			a, b := r[i-1], r[i]
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
				in = !in
			}
		}
	}
	return in
}

func toSegment(p, a, b geom.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	along := 0.0
	if square := dx*dx + dy*dy; square > 0 {
		along = max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/square))
	}
	return p.Distance(geom.Point{X: a.X + along*dx, Y: a.Y + along*dy})
}

func touch(a, b, c, d geom.Point) bool {
	side := func(p, q, r geom.Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
		return true
	}
	return min(toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b)) < 1e-9
}

// densified has a point at least every step along the chain.
func densified(points []geom.Point, step float64) []geom.Point {
	out := []geom.Point{points[0]}
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		n := max(1, int(math.Ceil(a.Distance(b)/step)))
		for k := 1; k <= n; k++ {
			f := float64(k) / float64(n)
			out = append(out, geom.Point{X: a.X + (b.X-a.X)*f, Y: a.Y + (b.Y-a.Y)*f})
		}
	}
	return out
}
