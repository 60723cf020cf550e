package template

import (
	"math"
	"sort"

	"underflap/liner/geom"
)

// segment is a straight line from a to b.
type segment struct{ a, b geom.Point }

func (s segment) length() float64 { return s.a.Distance(s.b) }

// at is the point t of the way along.
func (s segment) at(t float64) geom.Point {
	return geom.Point{X: s.a.X + (s.b.X-s.a.X)*t, Y: s.a.Y + (s.b.Y-s.a.Y)*t}
}

// distance is from a point to the nearest point of the segment.
func (s segment) distance(p geom.Point) float64 {
	dx, dy := s.b.X-s.a.X, s.b.Y-s.a.Y
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = max(0, min(1, ((p.X-s.a.X)*dx+(p.Y-s.a.Y)*dy)/l))
	}
	return p.Distance(s.at(t))
}

// near tells whether a point lies less than d from the segment.
func (s segment) near(p geom.Point, d float64) bool {
	return p.X > min(s.a.X, s.b.X)-d && p.X < max(s.a.X, s.b.X)+d && p.Y > min(s.a.Y, s.b.Y)-d && p.Y < max(s.a.Y, s.b.Y)+d && s.distance(p) < d
}

// within is the part of the segment inside a box (Liang and Barsky's way).
func (s segment) within(b geom.Box) (segment, bool) {
	from, to := 0.0, 1.0
	dx, dy := s.b.X-s.a.X, s.b.Y-s.a.Y
	for _, side := range [4][2]float64{{-dx, s.a.X - b.MinX}, {dx, b.MaxX - s.a.X}, {-dy, s.a.Y - b.MinY}, {dy, b.MaxY - s.a.Y}} {
		switch p, q := side[0], side[1]; {
		case p == 0 && q < 0:
			return segment{}, false
		case p < 0:
			from = max(from, q/p)
		case p > 0:
			to = min(to, q/p)
		}
	}
	if from >= to {
		return segment{}, false
	}
	out := s
	if from > 0 {
		out.a = s.at(from)
	}
	if to < 1 {
		out.b = s.at(to)
	}
	return out, true
}

// beside tells whether o runs along the segment, and between which shares of
// its length.
func (s segment) beside(o segment) (from, to float64, along bool) {
	const hair = 0.01
	dx, dy, long := s.b.X-s.a.X, s.b.Y-s.a.Y, s.length()
	share := func(p geom.Point) float64 { return ((p.X-s.a.X)*dx + (p.Y-s.a.Y)*dy) / (long * long) }
	off := func(p geom.Point) float64 { return math.Abs(dx*(p.Y-s.a.Y)-dy*(p.X-s.a.X)) / long }
	if off(o.a) > hair || off(o.b) > hair {
		return 0, 0, false
	}
	return min(share(o.a), share(o.b)), max(share(o.a), share(o.b)), true
}

// sides are the sides of a closed shape.
func sides(shape []geom.Point) []segment {
	out := make([]segment, len(shape))
	for i, p := range shape {
		out[i] = segment{p, shape[(i+1)%len(shape)]}
	}
	return out
}

// inside tells whether a point lies in a closed shape.
func inside(shape []geom.Point, p geom.Point) bool {
	in, a := false, shape[len(shape)-1]
	for _, b := range shape {
		if (a.Y <= p.Y) != (b.Y <= p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
		a = b
	}
	return in
}

// crossings are where a segment enters and leaves a closed shape, as shares of
// its length, in order.
func (s segment) crossings(shape []geom.Point) []float64 {
	dx, dy := s.b.X-s.a.X, s.b.Y-s.a.Y
	side := func(p geom.Point) float64 { return dx*(p.Y-s.a.Y) - dy*(p.X-s.a.X) }
	var at []float64
	for _, e := range sides(shape) {
		from, to := side(e.a), side(e.b)
		if (from <= 0) == (to <= 0) {
			continue
		}
		p := e.at(from / (from - to))
		at = append(at, ((p.X-s.a.X)*dx+(p.Y-s.a.Y)*dy)/(dx*dx+dy*dy))
	}
	sort.Float64s(at)
	return at
}

// bounds is the box around points.
func bounds(points []geom.Point) geom.Box {
	b := geom.Box{MinX: math.Inf(1), MinY: math.Inf(1), MaxX: math.Inf(-1), MaxY: math.Inf(-1)}
	for _, p := range points {
		b = b.Union(geom.Box{MinX: p.X, MinY: p.Y, MaxX: p.X, MaxY: p.Y})
	}
	return b
}

func corners(b geom.Box) []geom.Point {
	return []geom.Point{{X: b.MinX, Y: b.MinY}, {X: b.MaxX, Y: b.MinY}, {X: b.MaxX, Y: b.MaxY}, {X: b.MinX, Y: b.MaxY}}
}

func contains(b geom.Box, p geom.Point) bool {
	return p.X >= b.MinX && p.X <= b.MaxX && p.Y >= b.MinY && p.Y <= b.MaxY
}
