package geom

import "math"

// Profile is the upper edge of a region that stands on a baseline: a chain of
// segments that never runs leftwards. A jump is a vertical segment. An arc is a
// cap (the upper half of its circle, clockwise) or a hollow (the lower half,
// anticlockwise), never part of both.
type Profile Contour

// reach is one piece of an upper edge as a function of x on [from, to].
type reach struct {
	from, to float64
	slope, y float64 // straight: y + slope*(x-from)
	c        Point   // circular about c with radius r
	r        float64
	cap      bool // the upper half of the circle; else the lower
}

func (f reach) at(x float64) float64 {
	if f.r == 0 {
		return f.y + f.slope*(x-f.from)
	}
	h := math.Sqrt(math.Max(0, f.r*f.r-(x-f.c.X)*(x-f.c.X)))
	if f.cap {
		return f.c.Y + h
	}
	return f.c.Y - h
}

// segment is the piece of f over [a, b].
func (f reach) segment(a, b float64) Segment {
	p, q := Point{a, f.at(a)}, Point{b, f.at(b)}
	if f.r == 0 {
		return Line(p, q)
	}
	// left to right along the top is clockwise
	return Segment{A: p, B: q, C: f.c, R: f.r, CW: f.cap}
}

// reaches gives the profile's own pieces; jumps have none.
func (p Profile) reaches() []reach {
	var out []reach
	for _, s := range p {
		if s.B.X-s.A.X < tiny {
			continue
		}
		if s.R == 0 {
			out = append(out, reach{from: s.A.X, to: s.B.X, y: s.A.Y, slope: (s.B.Y - s.A.Y) / (s.B.X - s.A.X)})
		} else {
			out = append(out, reach{from: s.A.X, to: s.B.X, c: s.C, r: s.R, cap: s.CW})
		}
	}
	return out
}

// tiny separates points that are the same but for rounding, in millimetres.
const tiny = 1e-9

// steepest is the slope past which an edge is taken for a jump, as rounding in
// x would show in y; speck is what such rounding may leave.
const steepest, speck = 1e5, 1e-3

// Erode lowers the profile so that every point on or under the result is at
// least d from the old edge: the erosion of the region by a disc, exact for
// straight and circular edges. Ends of the profile count as edge. The result
// may be shorter than the profile, and empty.
//
// Every candidate is the lower half of a disc about a corner, or a segment
// moved d along its normal; at each x the lowest candidate is the eroded edge,
// since the infimum of h(x+t) - sqrt(d²-t²) lies at a corner or where a disc
// touches a segment.
func (p Profile) Erode(d float64) Profile {
	if d == 0 {
		return p
	}
	var candidates []reach
	corner := func(c Point) {
		candidates = append(candidates, reach{from: c.X - d, to: c.X + d, c: c, r: d})
	}
	for i, s := range p {
		if i == 0 {
			corner(s.A)
		}
		corner(s.B)
		switch run := s.B.X - s.A.X; {
		case run < tiny, s.R == 0 && math.Abs(s.B.Y-s.A.Y) > steepest*run: // a jump: its ends are enough
		case s.R == 0:
			length := s.Length()
			nx, ny := (s.B.Y-s.A.Y)/length, -run/length // down into the region
			candidates = append(candidates, reach{
				from: s.A.X + d*nx, to: s.B.X + d*nx, y: s.A.Y + d*ny, slope: (s.B.Y - s.A.Y) / run})
		case !s.CW: // a hollow grows
			candidates = append(candidates, s.scaled(s.R+d, false))
		case s.R > d+tiny: // a cap shrinks; a small one is all corners
			candidates = append(candidates, s.scaled(s.R-d, true))
		}
	}
	return lowest(candidates)
}

func (s Segment) scaled(r float64, cap bool) reach {
	k := r / s.R
	return reach{from: s.C.X + (s.A.X-s.C.X)*k, to: s.C.X + (s.B.X-s.C.X)*k, c: s.C, r: r, cap: cap}
}

// Flip turns the profile upside down, so that what was under it lies over it.
func (p Profile) Flip() Profile {
	return Profile(Contour(p).Map(func(q Point) Point { return Point{q.X, -q.Y} }, true))
}

// Dilate raises the profile so that the region under it grows by a disc of
// radius d; it also grows d beyond both ends.
func (p Profile) Dilate(d float64) Profile { return p.Flip().Erode(d).Flip() }

// Over is the profile on [left, right] wherever it is higher than floor, and
// floor elsewhere.
func (p Profile) Over(floor, left, right float64) Profile {
	flipped := []reach{{from: left, to: right, y: -floor}}
	for _, f := range p.Flip().reaches() {
		f.y += f.slope * (math.Max(f.from, left) - f.from)
		f.from, f.to = math.Max(f.from, left), math.Min(f.to, right)
		if f.to-f.from > tiny {
			flipped = append(flipped, f)
		}
	}
	return lowest(flipped).Flip()
}

// join appends s, bridging a jump with a vertical segment and closing a
// rounding gap without one.
func (p Profile) join(s Segment) Profile {
	if len(p) == 0 {
		return Profile{s}
	}
	at := p[len(p)-1].B
	switch gap := at.Distance(s.A); {
	case gap < 1e-7, gap < speck && s.R == 0:
		s.A = at
		return append(p, s)
	case gap < speck && p[len(p)-1].R == 0:
		p[len(p)-1].B = s.A
		return append(p, s)
	}
	return append(p, Line(at, s.A), s)
}

// Height is the profile's greatest y, or negative infinity when it is empty.
func (p Profile) Height() float64 {
	if len(p) == 0 {
		return math.Inf(-1)
	}
	return Contour(p).Bounds().MaxY
}
