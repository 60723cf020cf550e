package vector

import (
	"math"

	"underflap/pattern/draw"
)

// fineness is the share of a path's extent by which chords may leave its
// curves: 0.01 mm on art 40 mm wide. mostPieces bounds the chords of one curve.
const fineness, mostPieces = 1.0 / 4000, 128

// piecesOf is how many chords of equal steps leave a curve by no more than off
// (the bound on its second derivative over eight, by the square of a step).
func piecesOf(a, b, c, d draw.Point, off float64) int {
	bend := max(math.Hypot(a.X-2*b.X+c.X, a.Y-2*b.Y+c.Y), math.Hypot(b.X-2*c.X+d.X, b.Y-2*c.Y+d.Y))
	if off <= 0 {
		return 1
	}
	return min(max(int(math.Ceil(math.Sqrt(0.75*bend/off))), 1), mostPieces)
}

// chords calls f with the points along a path, step for step; first tells that
// a subpath begins there, closed that it ends where it began, and smooth that
// the path runs on through the point without a corner.
func chords(p draw.Path, f func(at draw.Point, first, closed, smooth bool)) {
	var at, start draw.Point
	b := p.Bounds()
	off := fineness * max(b.Width(), b.Height())
	p.Steps(func(v draw.Verb, q []draw.Point) {
		switch v {
		case draw.Move:
			at, start = q[0], q[0]
			f(at, true, false, false)
		case draw.Line:
			at = q[0]
			f(at, false, false, false)
		case draw.Cubic:
			pieces := piecesOf(at, q[0], q[1], q[2], off)
			for i := 1; i <= pieces; i++ {
				t := float64(i) / float64(pieces)
				s := 1 - t
				a, b, c, d := s*s*s, 3*s*s*t, 3*s*t*t, t*t*t
				f(draw.Point{X: a*at.X + b*q[0].X + c*q[1].X + d*q[2].X, Y: a*at.Y + b*q[0].Y + c*q[1].Y + d*q[2].Y}, false, false, i < pieces)
			}
			at = q[2]
		case draw.Close:
			at = start
			f(at, false, true, false)
		}
	})
}

// extent is the rectangle around a path's points, not its control points.
func extent(p draw.Path) draw.Rect {
	var r draw.Rect
	begun := false
	chords(p, func(at draw.Point, _, _, _ bool) {
		one := draw.Rect{MinX: at.X, MinY: at.Y, MaxX: at.X, MaxY: at.Y}
		if begun {
			one = one.Union(r)
		}
		r, begun = one, true
	})
	return r
}
