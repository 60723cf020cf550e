package png

import (
	"image/color"

	"github.com/fogleman/gg"

	"underflap/pattern/draw"
)

// stroke lets gg draw a line along the path. Only pieces near the band are
// handed over: where one is left out the next begins with a round end, as its
// round join would look.
func (c *canvas) stroke(n *draw.Stroke, m draw.Matrix) {
	width := n.Width * m.Size()
	c.gg.SetColor(color.RGBA{n.Colour.R, n.Colour.G, n.Colour.B, 255})
	c.gg.SetLineWidth(width)
	c.gg.SetLineCap(gg.LineCapRound)
	c.gg.SetLineJoin(gg.LineJoinRound)
	low, high := -width/2-1, float64(c.rows)+2+width/2

	var start, at draw.Point
	down := false // the pen is at the end of a piece
	near := func(points ...draw.Point) bool {
		least, most := at.Y, at.Y
		for _, p := range points {
			least, most = min(least, p.Y), max(most, p.Y)
		}
		if most < low || least > high {
			down = false
		} else if !down {
			c.gg.MoveTo(at.X, at.Y)
			down = true
		}
		return down
	}
	line := func(to draw.Point) {
		if near(to) {
			c.gg.LineTo(to.X, to.Y)
		}
		at = to
	}
	n.Path.Steps(func(v draw.Verb, points []draw.Point) {
		var q [3]draw.Point
		for i, p := range points {
			q[i] = m.Apply(p)
			q[i].Y -= float64(c.top)
		}
		switch v {
		case draw.Move:
			start, at, down = q[0], q[0], false
		case draw.Line:
			line(q[0])
		case draw.Cubic:
			if near(q[0], q[1], q[2]) {
				c.gg.CubicTo(q[0].X, q[0].Y, q[1].X, q[1].Y, q[2].X, q[2].Y)
			}
			at = q[2]
		case draw.Close:
			line(start)
		}
	})
	c.gg.Stroke()
}
