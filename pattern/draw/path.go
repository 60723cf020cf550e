// Package draw is the drawing vocabulary: paths, symbols, pictures, text and
// named layers, recorded once on a Surface and replayed by the writers in its
// folders. Coordinates are millimetres, x to the right and y down the page.
package draw

import "math"

// Point is a place on the page or in a symbol.
type Point struct{ X, Y float64 }

// Rect is an upright rectangle.
type Rect struct{ MinX, MinY, MaxX, MaxY float64 }

// Width is the extent in x.
func (r Rect) Width() float64 { return r.MaxX - r.MinX }

// Height is the extent in y.
func (r Rect) Height() float64 { return r.MaxY - r.MinY }

// Grow moves every side outwards by d.
func (r Rect) Grow(d float64) Rect { return Rect{r.MinX - d, r.MinY - d, r.MaxX + d, r.MaxY + d} }

// Union is the smallest rectangle around both.
func (r Rect) Union(o Rect) Rect {
	return Rect{min(r.MinX, o.MinX), min(r.MinY, o.MinY), max(r.MaxX, o.MaxX), max(r.MaxY, o.MaxY)}
}

// empty is the neutral element of Union.
var empty = Rect{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}

// Matrix maps (x, y) to (A x + C y + E, B x + D y + F).
type Matrix struct{ A, B, C, D, E, F float64 }

// Identity leaves everything where it is.
var Identity = Matrix{A: 1, D: 1}

// Translate moves by (x, y).
func Translate(x, y float64) Matrix { return Matrix{A: 1, D: 1, E: x, F: y} }

// Scale enlarges about the origin.
func Scale(k float64) Matrix { return Matrix{A: k, D: k} }

// Turn turns clockwise, as seen on the page, by degrees about the origin.
// Quarter turns are exact.
func Turn(degrees float64) Matrix {
	degrees = math.Mod(degrees, 360)
	if degrees < 0 {
		degrees += 360
	}
	var sin, cos float64
	switch degrees {
	case 0:
		cos = 1
	case 90:
		sin = 1
	case 180:
		cos = -1
	case 270:
		sin = -1
	default:
		sin, cos = math.Sincos(degrees * math.Pi / 180)
	}
	return Matrix{A: cos, B: sin, C: -sin, D: cos}
}

// After is the map that applies first, then m.
func (m Matrix) After(first Matrix) Matrix {
	return Matrix{
		A: m.A*first.A + m.C*first.B, B: m.B*first.A + m.D*first.B,
		C: m.A*first.C + m.C*first.D, D: m.B*first.C + m.D*first.D,
		E: m.A*first.E + m.C*first.F + m.E, F: m.B*first.E + m.D*first.F + m.F,
	}
}

// Apply maps one point.
func (m Matrix) Apply(p Point) Point { return Point{m.A*p.X + m.C*p.Y + m.E, m.B*p.X + m.D*p.Y + m.F} }

// Bounds is the upright rectangle around the mapped rectangle.
func (m Matrix) Bounds(r Rect) Rect {
	out := empty
	for _, p := range []Point{{r.MinX, r.MinY}, {r.MaxX, r.MinY}, {r.MaxX, r.MaxY}, {r.MinX, r.MaxY}} {
		q := m.Apply(p)
		out = out.Union(Rect{q.X, q.Y, q.X, q.Y})
	}
	return out
}

// Inverse undoes m, which must not be flat.
func (m Matrix) Inverse() Matrix {
	det := m.A*m.D - m.B*m.C
	return Matrix{
		A: m.D / det, B: -m.B / det, C: -m.C / det, D: m.A / det,
		E: (m.C*m.F - m.D*m.E) / det, F: (m.B*m.E - m.A*m.F) / det,
	}
}

// Size is the factor by which m enlarges lengths; m must keep angles.
func (m Matrix) Size() float64 { return math.Sqrt(math.Abs(m.A*m.D - m.B*m.C)) }

// Verb is a step of a path.
type Verb byte

// The steps, with the number of points each takes.
const (
	Move  Verb = iota // 1: begin a new subpath
	Line              // 1
	Cubic             // 3: two controls and the end
	Close             // 0
)

// Path is one or more subpaths, filled by the non-zero rule unless said otherwise.
type Path struct {
	Verbs  []Verb
	Points []Point
}

// Move begins a subpath at p.
func (p *Path) Move(x, y float64) { p.add(Move, Point{x, y}) }

// Line runs straight to (x, y).
func (p *Path) Line(x, y float64) { p.add(Line, Point{x, y}) }

// Cubic runs along a Bézier curve.
func (p *Path) Cubic(c1, c2, end Point) { p.add(Cubic, c1, c2, end) }

// Close ends the subpath where it began.
func (p *Path) Close() { p.add(Close) }

// Append adds the subpaths of q.
func (p *Path) Append(q Path) {
	p.Verbs = append(p.Verbs, q.Verbs...)
	p.Points = append(p.Points, q.Points...)
}

func (p *Path) add(v Verb, points ...Point) {
	p.Verbs = append(p.Verbs, v)
	p.Points = append(p.Points, points...)
}

// last is the current point.
func (p *Path) last() Point { return p.Points[len(p.Points)-1] }

// Arc continues from the current point, which lies on the circle about c, by a
// turn in radians (positive is clockwise on the page). Bézier pieces of 45
// degrees or less keep within 5 millionths of the radius.
func (p *Path) Arc(c Point, turn float64) {
	from := p.last()
	r := math.Hypot(from.X-c.X, from.Y-c.Y)
	start := math.Atan2(from.Y-c.Y, from.X-c.X)
	n := int(math.Ceil(math.Abs(turn) / (math.Pi / 4)))
	step := turn / float64(n)
	k := 4.0 / 3 * math.Tan(step/4) * r
	at := func(i int) (Point, Point) {
		sin, cos := math.Sincos(start + step*float64(i))
		return Point{c.X + r*cos, c.Y + r*sin}, Point{-sin * k, cos * k}
	}
	for i := range n {
		a, ta := at(i)
		b, tb := at(i + 1)
		p.Cubic(Point{a.X + ta.X, a.Y + ta.Y}, Point{b.X - tb.X, b.Y - tb.Y}, b)
	}
}

// Circle is a disc's edge.
func Circle(x, y, r float64) Path {
	var p Path
	p.Move(x+r, y)
	p.Arc(Point{x, y}, 2*math.Pi)
	p.Points[len(p.Points)-1] = p.Points[0] // a hair's step between them would be stroked as a speck
	p.Close()
	return p
}

// Rectangle is r's edge.
func Rectangle(r Rect) Path {
	var p Path
	p.Move(r.MinX, r.MinY)
	p.Line(r.MaxX, r.MinY)
	p.Line(r.MaxX, r.MaxY)
	p.Line(r.MinX, r.MaxY)
	p.Close()
	return p
}

// Transform is the path with every point mapped.
func (p Path) Transform(m Matrix) Path {
	out := Path{Verbs: p.Verbs, Points: make([]Point, len(p.Points))}
	for i, q := range p.Points {
		out.Points[i] = m.Apply(q)
	}
	return out
}

// Bounds is a rectangle around the path: of its points, controls included.
func (p Path) Bounds() Rect {
	r := empty
	for _, q := range p.Points {
		r = r.Union(Rect{q.X, q.Y, q.X, q.Y})
	}
	return r
}

// Steps calls f with each verb and the points that belong to it.
func (p Path) Steps(f func(v Verb, points []Point)) {
	at := 0
	for _, v := range p.Verbs {
		n := [...]int{Move: 1, Line: 1, Cubic: 3, Close: 0}[v]
		f(v, p.Points[at:at+n])
		at += n
	}
}
