package geom

import "math"

// Sum is the upper edge of the Minkowski sum of the regions under two profiles:
// at dx the greatest p(x) + q(dx-x). With q the flipped lower edge of another
// region, mirrored left to right, it tells how high that region must lie to
// clear the first one at a slide. Exact for straight and circular edges.
//
// Every candidate is an edge of one slid by a corner of the other, or two edges
// that touch along their whole turning: straight on round, round on round. At
// each dx the highest candidate is the edge of the sum, since the greatest
// value is taken at a corner of one or where both have the same slope. An edge
// touches a corner only where its slope lies between those that meet there.
func (p Profile) Sum(q Profile) Profile {
	p, q = p.upright(), q.upright()
	flipped := make([]reach, 0, 4*(len(p)+len(q))) // upside down, since the lowest is what is sought
	add := func(f reach) {
		f.y, f.slope, f.c.Y, f.cap = -f.y, -f.slope, -f.c.Y, !f.cap
		flipped = append(flipped, f)
	}
	a, b := p.reaches(), q.reaches()
	onP, onQ := p.corners(), q.corners()
	for _, f := range a {
		for _, c := range onQ {
			if c.touches(f) {
				add(f.slid(c.Point))
			}
		}
	}
	for _, f := range b {
		for _, c := range onP {
			if c.touches(f) {
				add(f.slid(c.Point))
			}
		}
	}
	for _, f := range a {
		for _, g := range b {
			if s, ok := rolled(f, g); ok {
				add(s)
			}
			if s, ok := rolled(g, f); ok && !(f.r != 0 && g.r != 0 && f.cap && g.cap) {
				add(s)
			}
		}
	}
	return lowest(flipped).Flip()
}

// upright is the profile with edges as steep as a jump made jumps, so that what
// is under it only grows: over the hair's breadth that such an edge runs,
// rounding would be a hole in a sum's edge.
func (p Profile) upright() Profile {
	var out Profile
	for _, s := range p {
		run, rise := s.B.X-s.A.X, s.B.Y-s.A.Y
		if s.R != 0 || run < tiny || math.Abs(rise) <= steepest*run {
			out = append(out, s)
			continue
		}
		top := Point{s.A.X, s.B.Y}
		if rise < 0 {
			top = Point{s.B.X, s.A.Y}
		}
		out = append(out, Line(s.A, top), Line(top, s.B))
	}
	return out
}

// corner is an end or a joint of a profile, with the directions of the edges
// that meet there, as angles up from the right; at an end, upright.
type corner struct {
	Point
	left, right float64
}

// touches tells whether f, with the corner slid along under it, touches it
// anywhere. A corner that points down touches nothing. The angle is generous:
// where an arc stands upright, rounding in x makes much of it, and a touch too
// many does no harm.
func (c corner) touches(f reach) bool {
	const generous = 1e-3
	low, high := f.angles()
	return c.left > c.right-generous && high > c.right-generous && low < c.left+generous
}

// angles are the least and the greatest direction of a piece.
func (f reach) angles() (low, high float64) {
	if f.r == 0 {
		a := math.Atan(f.slope)
		return a, a
	}
	low, high = math.Asin(max(-1, (f.from-f.c.X)/f.r)), math.Asin(min(1, (f.to-f.c.X)/f.r))
	if f.cap {
		return -high, -low
	}
	return low, high
}

// corners are the profile's ends and joints.
func (p Profile) corners() []corner {
	out := make([]corner, 0, len(p)+1)
	for i, s := range p {
		from, to := s.directions()
		if i == 0 {
			out = append(out, corner{s.A, math.Pi / 2, from})
		} else {
			out[i].right = from
		}
		out = append(out, corner{s.B, to, -math.Pi / 2})
	}
	return out
}

// directions are those in which a segment of a profile begins and ends.
func (s Segment) directions() (from, to float64) {
	if s.R == 0 {
		a := math.Atan2(s.B.Y-s.A.Y, s.B.X-s.A.X)
		return a, a
	}
	from, to = math.Asin(max(-1, (s.A.X-s.C.X)/s.R)), math.Asin(min(1, (s.B.X-s.C.X)/s.R))
	if s.CW {
		return -from, -to
	}
	return from, to
}

func (f reach) slid(by Point) reach {
	f.from, f.to, f.y = f.from+by.X, f.to+by.X, f.y+by.Y
	f.c = Point{f.c.X + by.X, f.c.Y + by.Y}
	return f
}

// rolled is what f contributes rolled along a cap: a straight edge is slid to
// where the cap has its slope, a cap grows, and a hollow that the cap rolls in
// shrinks. ok is false where they never have the same slope.
func rolled(f, cap reach) (s reach, ok bool) {
	if cap.r == 0 || !cap.cap {
		return s, false
	}
	if f.r == 0 {
		n := math.Hypot(1, f.slope)
		touch := Point{cap.c.X - cap.r*f.slope/n, cap.c.Y + cap.r/n}
		if touch.X < cap.from || touch.X > cap.to {
			return s, false
		}
		return f.slid(touch), true
	}
	// by the direction of the normal: x of the unit normal that points up
	low, high := (cap.from-cap.c.X)/cap.r, (cap.to-cap.c.X)/cap.r
	if f.cap {
		low, high = math.Max(low, (f.from-f.c.X)/f.r), math.Min(high, (f.to-f.c.X)/f.r)
		s = reach{c: Point{f.c.X + cap.c.X, f.c.Y + cap.c.Y}, r: f.r + cap.r, cap: true}
		s.from, s.to = s.c.X+s.r*low, s.c.X+s.r*high
		return s, high > low
	}
	if f.r <= cap.r+tiny {
		return s, false
	}
	low, high = math.Max(low, -(f.to-f.c.X)/f.r), math.Min(high, -(f.from-f.c.X)/f.r)
	s = reach{c: Point{f.c.X + cap.c.X, f.c.Y + cap.c.Y}, r: f.r - cap.r}
	s.from, s.to = s.c.X-s.r*high, s.c.X-s.r*low
	return s, high > low
}

// Upper is the upper edge of a closed contour, seen from above: a profile. What
// lies under an overhang is filled.
func (c Contour) Upper() Profile { return c.Map(upsideDown, true).Lower().Flip() }

// Lower is the lower edge of a closed contour, seen from below, from left to
// right.
func (c Contour) Lower() Profile {
	var all []reach
	for _, s := range c {
		for _, part := range s.halves() {
			if part.B.X < part.A.X {
				part = part.Reversed()
			}
			if part.B.X-part.A.X >= tiny {
				all = append(all, Profile{part}.reaches()...)
			}
		}
	}
	return lowest(all)
}

func upsideDown(p Point) Point { return Point{p.X, -p.Y} }

// halves cuts an arc where it stands upright, so that no part turns back.
func (s Segment) halves() []Segment {
	if s.R == 0 {
		return []Segment{s}
	}
	from, turn := math.Atan2(s.A.Y-s.C.Y, s.A.X-s.C.X), s.Sweep()
	var parts []Segment
	last := s.A
	cut := func(p Point) {
		if p.Distance(last) > tiny {
			parts = append(parts, Segment{A: last, B: p, C: s.C, R: s.R, CW: s.CW})
			last = p
		}
	}
	step := math.Pi
	if turn < 0 {
		step = -math.Pi
	}
	for at := math.Ceil(from/step) * step; (at-from)/turn < 1; at += step {
		if (at-from)/turn > 1e-12 {
			cut(Point{s.C.X + s.R*math.Round(math.Cos(at)), s.C.Y})
		}
	}
	cut(s.B)
	return parts
}
