package png

import (
	"image/color"

	"github.com/fogleman/gg"

	"underflap/pattern/draw"
)

// stroke lets gg draw a line along the path. Only what is near the band is handed
// over: where steps are cut off or left out a round end lies beyond the band, and
// looks in it as the whole line would.
func (c *canvas) stroke(n *draw.Stroke, m draw.Matrix) {
	width := n.Width * m.Size()
	c.gg.SetColor(color.RGBA{n.Colour.R, n.Colour.G, n.Colour.B, 255})
	c.gg.SetLineWidth(width)
	c.gg.SetLineCap(gg.LineCapRound)
	c.gg.SetLineJoin(gg.LineJoinRound)
	dx, dy := m.E, m.F-float64(c.top)
	low, high := -width/2-2-dy, float64(c.rows)+3+width/2-dy
	for _, rings := range c.outlines.of(n, m, func() draw.Path { return n.Path }).parts {
		for _, ring := range rings {
			var pen draw.Point
			down := false
			for i, to := range ring.points[1:] {
				from := ring.points[i]
				if max(from.Y, to.Y) < low || min(from.Y, to.Y) > high {
					down = false
					continue
				}
				a, b := within(from, to, low, high), within(to, from, low, high)
				if !down || a != pen {
					c.gg.MoveTo(a.X+dx, a.Y+dy)
				}
				c.gg.LineTo(b.X+dx, b.Y+dy)
				pen, down = b, true
			}
		}
	}
	c.gg.Stroke()
}
