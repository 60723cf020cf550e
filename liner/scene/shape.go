package scene

import (
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// shape is a closed polygon in scene space, or one that is closed when drawn.
type shape []draw.Point

// finer is how far chords lie from their arcs at most: less than any output shows.
const finer = 0.004

// turned carries a chain of liner space to scene space.
func turned(c geom.Contour) shape {
	var out shape
	for _, p := range c.Flatten(finer) {
		out = append(out, draw.Point{X: p.X, Y: -p.Y})
	}
	return out
}

// box is an upright rectangle.
func box(x0, y0, x1, y1 float64) shape {
	return shape{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

func (s shape) open() draw.Path {
	var p draw.Path
	for i, q := range s {
		if i == 0 {
			p.Move(q.X, q.Y)
		} else {
			p.Line(q.X, q.Y)
		}
	}
	return p
}

func (s shape) closed() draw.Path {
	p := s.open()
	p.Close()
	return p
}

// together is a path around shapes that all run the same way round, so that
// they may overlap.
func together(shapes ...shape) draw.Path {
	var p draw.Path
	for _, one := range shapes {
		p.Append(one.closed())
	}
	return p
}

// over is the part of the polygon above a level, where y is less.
func (s shape) over(level float64) shape {
	return s.cut(func(p draw.Point) float64 { return level - p.Y })
}

// under is the part of the polygon below a level.
func (s shape) under(level float64) shape {
	return s.cut(func(p draw.Point) float64 { return p.Y - level })
}

// cut keeps where inside is not negative (Sutherland and Hodgman's clip against
// one line).
func (s shape) cut(inside func(draw.Point) float64) shape {
	var out shape
	for i, p := range s {
		q := s[(i+1)%len(s)]
		a, b := inside(p), inside(q)
		if a >= 0 {
			out = append(out, p)
		}
		if a*b < 0 {
			t := a / (a - b)
			out = append(out, draw.Point{X: p.X + (q.X-p.X)*t, Y: p.Y + (q.Y-p.Y)*t})
		}
	}
	return out
}

// mapped carries every point through m.
func (s shape) mapped(m draw.Matrix) shape {
	out := make(shape, len(s))
	for i, p := range s {
		out[i] = m.Apply(p)
	}
	return out
}

// eased is the polygon with its corners rounded by r where there is room.
func (s shape) eased(r float64) shape {
	var c geom.Contour
	at := func(i int) geom.Point { p := s[(i+len(s))%len(s)]; return geom.Point{X: p.X, Y: p.Y} }
	for i := range s {
		a, b, n := at(i-1), at(i), at(i+1)
		most := min(r, 0.49*geom.Roundest(a, b, n))
		if arc, ok := geom.Round(a, b, n, most); ok && most > 0.05 {
			c = append(c, arc)
		} else {
			c = append(c, geom.Line(b, b))
		}
	}
	var out shape
	for _, p := range c {
		if p.R == 0 {
			out = append(out, draw.Point{X: p.A.X, Y: p.A.Y})
			continue
		}
		for _, q := range (geom.Contour{p}).Flatten(finer) {
			out = append(out, draw.Point{X: q.X, Y: q.Y})
		}
	}
	return out
}
