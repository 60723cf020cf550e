package look

import "underflap/pattern/draw"

// inside tells whether a lies inside b.
func inside(a, b draw.Rect) bool {
	return a.MinX >= b.MinX-1e-9 && a.MaxX <= b.MaxX+1e-9 && a.MinY >= b.MinY-1e-9 && a.MaxY <= b.MaxY+1e-9
}

// hits tells whether a line passes through a box: clipping it at the box's
// four sides leaves something.
func (l Line) hits(box draw.Rect) bool {
	from, to := 0.0, 1.0
	clip := func(start, run, least, most float64) bool {
		if run == 0 {
			return start >= least && start <= most
		}
		a, b := (least-start)/run, (most-start)/run
		from, to = max(from, min(a, b)), min(to, max(a, b))
		return from <= to
	}
	return clip(l.A.X, l.B.X-l.A.X, box.MinX, box.MaxX) && clip(l.A.Y, l.B.Y-l.A.Y, box.MinY, box.MaxY)
}

// crosses tells whether two lines cross or lie on one another; lines that only
// meet at their ends do not.
func (l Line) crosses(o Line) bool {
	side := func(a, b, p draw.Point) float64 { return (b.X-a.X)*(p.Y-a.Y) - (b.Y-a.Y)*(p.X-a.X) }
	a, b := side(l.A, l.B, o.A), side(l.A, l.B, o.B)
	c, d := side(o.A, o.B, l.A), side(o.A, o.B, l.B)
	const tiny = 1e-6
	if a*b < -tiny && c*d < -tiny {
		return true
	}
	if abs(a) > tiny || abs(b) > tiny { // not in one line
		return false
	}
	along := func(p draw.Point) float64 { return (p.X-l.A.X)*(l.B.X-l.A.X) + (p.Y-l.A.Y)*(l.B.Y-l.A.Y) }
	length := along(l.B)
	low, high := min(along(o.A), along(o.B)), max(along(o.A), along(o.B))
	return low < length-tiny && high > tiny
}

func abs(v float64) float64 { return max(v, -v) }
