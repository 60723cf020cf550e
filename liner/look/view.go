package look

import (
	"math"

	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// view maps liner space, y up from the fold, to the page, y down: x and y are
// where the left end of the fold lies on the page.
type view struct{ scale, x, y float64 }

func (v view) at(p geom.Point) draw.Point {
	return draw.Point{X: v.x + v.scale*p.X, Y: v.y - v.scale*p.Y}
}

func (v view) xy(x, y float64) draw.Point { return v.at(geom.Point{X: x, Y: y}) }

// path is an open chain of segments on the page.
func (v view) path(c geom.Contour) draw.Path {
	var p draw.Path
	p.Move(c[0].A.X, c[0].A.Y)
	for _, s := range c {
		if s.R != 0 {
			p.Arc(draw.Point{X: s.C.X, Y: s.C.Y}, s.Sweep())
		} else {
			p.Line(s.B.X, s.B.Y)
		}
	}
	return p.Transform(draw.Matrix{A: v.scale, D: -v.scale, E: v.x, F: v.y})
}

// closed is path with its ends joined.
func (v view) closed(c geom.Contour) draw.Path {
	p := v.path(c)
	p.Close()
	return p
}

// chain is a polyline on the page, arcs flattened finer than a line is wide.
func (v view) chain(c geom.Contour) []draw.Point {
	var out []draw.Point
	for _, p := range c.Flatten(0.02 / v.scale) {
		out = append(out, v.at(p))
	}
	return out
}

// dashed is a polyline as dashes, those within a window only.
func dashed(chain []draw.Point, on, off float64, window draw.Rect) draw.Path {
	var p draw.Path
	left, drawing := on, true // of the dash or gap that runs
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		for at := 0.0; at < length; {
			step := min(left, length-at)
			from, to := between(a, b, at/length), between(a, b, (at+step)/length)
			if drawing && meets(draw.Rect{MinX: min(from.X, to.X), MinY: min(from.Y, to.Y), MaxX: max(from.X, to.X), MaxY: max(from.Y, to.Y)}, window) {
				if n := len(p.Points); n == 0 || p.Points[n-1] != from {
					p.Move(from.X, from.Y)
				}
				p.Line(to.X, to.Y)
			}
			at += step
			if left -= step; left < 1e-9 {
				drawing = !drawing
				left = off
				if drawing {
					left = on
				}
			}
		}
	}
	return p
}

func between(a, b draw.Point, t float64) draw.Point {
	return draw.Point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t}
}

// meets tells whether two rectangles have a point in common.
func meets(a, b draw.Rect) bool {
	return a.MinX <= b.MaxX && b.MinX <= a.MaxX && a.MinY <= b.MaxY && b.MinY <= a.MaxY
}

// circle is where the enlarged detail is shown.
type circle struct {
	draw.Point
	r float64
}

func (c circle) box() draw.Rect {
	return draw.Rect{MinX: c.X - c.r, MinY: c.Y - c.r, MaxX: c.X + c.r, MaxY: c.Y + c.r}
}

// round is the circle's line, inside its box.
func (c circle) round() draw.Path { return draw.Circle(c.X, c.Y, c.r-lightWidth/2) }

// holds tells whether a point lies inside by at least a margin.
func (c circle) holds(p draw.Point, margin float64) bool {
	return math.Hypot(p.X-c.X, p.Y-c.Y) <= c.r-margin
}
