package geom

import "math"

// Round replaces the corner at b, between straight edges from a and to c, by an
// arc of radius r that touches both. It returns the arc, and false when the
// edges are too short for that radius.
func Round(a, b, c Point, r float64) (Segment, bool) {
	if r > Roundest(a, b, c)+tiny {
		return Segment{}, false
	}
	la, lc := a.Distance(b), b.Distance(c)
	ux, uy := (a.X-b.X)/la, (a.Y-b.Y)/la
	vx, vy := (c.X-b.X)/lc, (c.Y-b.Y)/lc
	half := halfAngle(a, b, c)
	cut := r / math.Tan(half) // from the corner to where the arc touches
	p, q := Point{b.X + ux*cut, b.Y + uy*cut}, Point{b.X + vx*cut, b.Y + vy*cut}
	mx, my := ux+vx, uy+vy
	k := r / math.Sin(half) / math.Hypot(mx, my)
	centre := Point{b.X + mx*k, b.Y + my*k}
	cw := ux*vy-uy*vx > 0
	return Segment{A: p, B: q, C: centre, R: r, CW: cw}, true
}

// Roundest is the greatest radius for which Round finds room: the arc then uses
// up the shorter edge.
func Roundest(a, b, c Point) float64 {
	return math.Min(a.Distance(b), b.Distance(c)) * math.Tan(halfAngle(a, b, c))
}

// halfAngle is half the angle between the edges at b.
func halfAngle(a, b, c Point) float64 {
	dot := (a.X-b.X)*(c.X-b.X) + (a.Y-b.Y)*(c.Y-b.Y)
	return math.Acos(math.Max(-1, math.Min(1, dot/(a.Distance(b)*b.Distance(c))))) / 2
}

// Through is the centre of the circle through three points that are not in
// line.
func Through(a, b, c Point) Point {
	bx, by, cx, cy := b.X-a.X, b.Y-a.Y, c.X-a.X, c.Y-a.Y
	twice := 2 * (bx*cy - by*cx)
	b2, c2 := bx*bx+by*by, cx*cx+cy*cy
	return Point{a.X + (cy*b2-by*c2)/twice, a.Y + (bx*c2-cx*b2)/twice}
}
