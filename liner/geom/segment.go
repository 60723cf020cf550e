// Package geom is the plane geometry of liners: straight and circular
// segments, closed contours of them, and the exact offset of a profile (the
// upper edge of a region seen from the fold). Lengths are millimetres; x runs
// right along the fold, y up into the flap.
package geom

import "math"

// Point is a place in liner space, in millimetres.
type Point struct{ X, Y float64 }

// Distance is the length from p to q.
func (p Point) Distance(q Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// Segment runs from A to B: straight when R is zero, else along the circle of
// radius R about C, the short way, clockwise when CW. An arc spans at most half
// a turn.
type Segment struct {
	A, B Point
	C    Point
	R    float64
	CW   bool
}

// Line is the straight segment from a to b.
func Line(a, b Point) Segment { return Segment{A: a, B: b} }

// Arc is the arc from a to b about c, clockwise or not.
func Arc(a, b, c Point, cw bool) Segment {
	return Segment{A: a, B: b, C: c, R: c.Distance(a), CW: cw}
}

// Sweep is the signed angle an arc turns through, positive anticlockwise.
func (s Segment) Sweep() float64 {
	from := math.Atan2(s.A.Y-s.C.Y, s.A.X-s.C.X)
	to := math.Atan2(s.B.Y-s.C.Y, s.B.X-s.C.X)
	turn := to - from
	if s.CW {
		for turn > 0 {
			turn -= 2 * math.Pi
		}
		return turn
	}
	for turn < 0 {
		turn += 2 * math.Pi
	}
	return turn
}

// Length is the segment's length in millimetres.
func (s Segment) Length() float64 {
	if s.R == 0 {
		return s.A.Distance(s.B)
	}
	return s.R * math.Abs(s.Sweep())
}

// Split cuts an arc into equal parts that each turn through at most angle
// radians; a straight segment is returned as it is.
func (s Segment) Split(angle float64) []Segment {
	if s.R == 0 {
		return []Segment{s}
	}
	turn := s.Sweep()
	n := int(math.Ceil(math.Abs(turn)/angle - 1e-9))
	if n <= 1 {
		return []Segment{s}
	}
	from := math.Atan2(s.A.Y-s.C.Y, s.A.X-s.C.X)
	parts := make([]Segment, n)
	at := s.A
	for i := range parts {
		end := s.B
		if i < n-1 {
			sin, cos := math.Sincos(from + turn*float64(i+1)/float64(n))
			end = Point{s.C.X + s.R*cos, s.C.Y + s.R*sin}
		}
		parts[i] = Segment{A: at, B: end, C: s.C, R: s.R, CW: s.CW}
		at = end
	}
	return parts
}

// Reversed is the same segment walked from B to A.
func (s Segment) Reversed() Segment {
	s.A, s.B, s.CW = s.B, s.A, !s.CW
	return s
}

// Contour is a chain of segments, each beginning where the last one ended. An
// outline is a contour that ends where it began.
type Contour []Segment

// Flatten gives the contour as points, arcs replaced by chords that lie within
// tolerance of them. The last point of a closed contour repeats the first.
func (c Contour) Flatten(tolerance float64) []Point {
	if len(c) == 0 {
		return nil
	}
	points := []Point{c[0].A}
	for _, s := range c {
		angle := math.Pi
		if s.R > tolerance {
			angle = 2 * math.Acos(1-tolerance/s.R)
		}
		for _, part := range s.Split(angle) {
			points = append(points, part.B)
		}
	}
	return points
}

// Map carries every segment through f, which must keep lengths (a turn and a
// slide). flips says that f turns clockwise into anticlockwise.
func (c Contour) Map(f func(Point) Point, flips bool) Contour {
	out := make(Contour, len(c))
	for i, s := range c {
		out[i] = Segment{A: f(s.A), B: f(s.B), C: f(s.C), R: s.R, CW: s.CW != flips}
	}
	return out
}

// Reversed walks the contour backwards.
func (c Contour) Reversed() Contour {
	out := make(Contour, len(c))
	for i, s := range c {
		out[len(c)-1-i] = s.Reversed()
	}
	return out
}

// Box is an upright rectangle.
type Box struct{ MinX, MinY, MaxX, MaxY float64 }

// Width is the box's extent in x.
func (b Box) Width() float64 { return b.MaxX - b.MinX }

// Height is the box's extent in y.
func (b Box) Height() float64 { return b.MaxY - b.MinY }

// Empty tells whether nothing lies inside the box.
func (b Box) Empty() bool { return b.Width() < tiny || b.Height() < tiny }

// Union is the smallest box around both.
func (b Box) Union(o Box) Box {
	return Box{math.Min(b.MinX, o.MinX), math.Min(b.MinY, o.MinY), math.Max(b.MaxX, o.MaxX), math.Max(b.MaxY, o.MaxY)}
}

// Grow moves every side outwards by d.
func (b Box) Grow(d float64) Box { return Box{b.MinX - d, b.MinY - d, b.MaxX + d, b.MaxY + d} }

// Meets tells whether two boxes have some area in common.
func (b Box) Meets(o Box) bool {
	return !b.Empty() && !o.Empty() && b.MinX < o.MaxX && b.MaxX > o.MinX && b.MinY < o.MaxY && b.MaxY > o.MinY
}

// Moved is the box slid.
func (b Box) Moved(dx, dy float64) Box {
	return Box{b.MinX + dx, b.MinY + dy, b.MaxX + dx, b.MaxY + dy}
}

// Within clips the box to another.
func (b Box) Within(o Box) Box {
	return Box{math.Max(b.MinX, o.MinX), math.Max(b.MinY, o.MinY), math.Min(b.MaxX, o.MaxX), math.Min(b.MaxY, o.MaxY)}
}

// Bounds is the smallest box around the contour, bulges of arcs included.
func (c Contour) Bounds() Box {
	b := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	add := func(p Point) { b = b.Union(Box{p.X, p.Y, p.X, p.Y}) }
	for _, s := range c {
		add(s.A)
		add(s.B)
		if s.R == 0 {
			continue
		}
		from, turn := math.Atan2(s.A.Y-s.C.Y, s.A.X-s.C.X), s.Sweep()
		for k := -4; k <= 4; k++ { // the four points of the compass that the arc passes
			along := (float64(k)*math.Pi/2 - from) / turn
			if along > 0 && along < 1 {
				sin, cos := math.Sincos(float64(k) * math.Pi / 2)
				add(Point{s.C.X + s.R*cos, s.C.Y + s.R*sin})
			}
		}
	}
	return b
}

// Area is the enclosed area of a closed contour in square millimetres,
// positive when it runs anticlockwise (Green's theorem, arcs exact).
func (c Contour) Area() float64 {
	sum := 0.0
	for _, s := range c {
		sum += (s.A.X*s.B.Y - s.B.X*s.A.Y) / 2
		if s.R != 0 {
			turn := s.Sweep()
			sum += s.R * s.R / 2 * (turn - math.Sin(turn))
		}
	}
	return sum
}
