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
// value is taken at a corner of one or where both have the same slope.
func (p Profile) Sum(q Profile) Profile {
	var flipped []reach // upside down, since the lowest is what is sought
	add := func(f reach) {
		f.y, f.slope, f.c.Y, f.cap = -f.y, -f.slope, -f.c.Y, !f.cap
		flipped = append(flipped, f)
	}
	a, b := p.reaches(), q.reaches()
	for _, f := range a {
		for _, corner := range q.corners() {
			add(f.slid(corner))
		}
	}
	for _, f := range b {
		for _, corner := range p.corners() {
			add(f.slid(corner))
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

// corners are the profile's ends and joints.
func (p Profile) corners() []Point {
	if len(p) == 0 {
		return nil
	}
	points := []Point{p[0].A}
	for _, s := range p {
		if s.B != points[len(points)-1] {
			points = append(points, s.B)
		}
	}
	return points
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
