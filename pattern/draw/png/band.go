package png

import (
	"image"
	"image/color"
	stddraw "image/draw"
	"math"

	"github.com/fogleman/gg"

	"underflap/pattern/draw"
)

// layers paints bands: a stack of canvases, one for the page and one for each
// depth of clipping. None is larger than a page's width by a band's height.
type layers struct {
	width, rows int
	stack       [][]byte
	masked      []byte
	tiles       tiles
}

// canvas is what is drawn on: a part of the page, its corner at the origin.
type canvas struct {
	img *image.RGBA
	gg  *gg.Context
}

func newLayers(width, rows int) *layers {
	return &layers{width: width, rows: rows, tiles: tiles{}}
}

// canvas is the one at a depth, clear but for its earlier use, as large as what
// is to be drawn: drawing costs time outside a clip too.
func (l *layers) canvas(depth int, size image.Point) *canvas {
	for len(l.stack) <= depth {
		l.stack = append(l.stack, make([]byte, 4*l.width*(l.rows+guard)))
	}
	img := &image.RGBA{Pix: l.stack[depth][:4*size.X*size.Y], Stride: 4 * size.X, Rect: image.Rectangle{Max: size}}
	return &canvas{img, gg.NewContextForRGBA(img)}
}

// guard is a row above the band, drawn and not shown: the rasteriser rounds
// towards zero, so that what ends a part of a pixel above a canvas leaves a trace
// in its first row.
const guard = 1

// paint draws the band whose first row is top, below a guard. The picture is
// reused by the next call.
func (l *layers) paint(page *draw.Page, scale float64, top int) *image.RGBA {
	ground := l.canvas(0, image.Pt(l.width, l.rows+guard))
	stddraw.Draw(ground.img, ground.img.Rect, image.White, image.Point{}, stddraw.Src)
	m := draw.Matrix{A: scale, D: scale, F: float64(guard - top)}
	l.nodes(ground, 0, page.Nodes(), m)
	return ground.img
}

// visible is the part of a node's box that lies on the canvas, in whole pixels.
func (c *canvas) visible(box draw.Rect, m draw.Matrix) image.Rectangle {
	b := m.Bounds(box)
	size := c.img.Rect.Max
	return image.Rectangle{
		image.Pt(clampFloor(b.MinX-1, size.X), clampFloor(b.MinY-1, size.Y)),
		image.Pt(clampFloor(b.MaxX+2, size.X), clampFloor(b.MaxY+2, size.Y)),
	}
}

func clampFloor(v float64, most int) int {
	return int(math.Floor(math.Max(0, math.Min(v, float64(most)))))
}

func (l *layers) nodes(on *canvas, depth int, nodes []draw.Node, m draw.Matrix) {
	for _, n := range nodes {
		seen := on.visible(n.Bounds(), m)
		if seen.Empty() {
			continue
		}
		switch n := n.(type) {
		case *draw.Fill:
			on.fill(n.Path, m, n.Colour)
		case *draw.Text:
			on.fill(n.Font.Outlines(n.String, n.Size), m.After(n.At), n.Colour)
		case *draw.Stroke:
			on.stroke(n, m)
		case *draw.Layer:
			l.nodes(on, depth, n.Nodes, m)
		case *draw.Group:
			inner := m.After(n.Matrix)
			if len(n.Clip.Points) == 0 {
				l.nodes(on, depth, n.Nodes, inner)
			} else {
				l.clipped(on, depth, n, inner, seen)
			}
		case *draw.Use:
			box := n.Symbol.Bounds()
			for _, at := range n.At {
				placed := m.After(at)
				if !on.visible(box, placed).Empty() {
					l.nodes(on, depth, n.Symbol.Nodes, placed)
				}
			}
		case *draw.Picture:
			l.tiles.draw(on.img, n.Image, m.After(n.At))
		}
	}
}

// clipped draws the group on a canvas of its own and lays that over the one
// below through the clip's coverage, so that the edge is softened once.
func (l *layers) clipped(on *canvas, depth int, n *draw.Group, m draw.Matrix, seen image.Rectangle) {
	size := seen.Size()
	m = draw.Translate(-float64(seen.Min.X), -float64(seen.Min.Y)).After(m)
	above := l.canvas(depth+1, size)
	stddraw.Draw(above.img, above.img.Rect, image.Transparent, image.Point{}, stddraw.Src)
	l.nodes(above, depth+1, n.Nodes, m)

	// the mask is drawn last: a group inside this one uses the same one
	cover := l.canvas(depth+2, size)
	stddraw.Draw(cover.img, cover.img.Rect, image.Transparent, image.Point{}, stddraw.Src)
	cover.fill(n.Clip, m, draw.White)
	if l.masked == nil {
		l.masked = make([]byte, l.width*(l.rows+guard))
	}
	mask := &image.Alpha{Pix: l.masked[:size.X*size.Y], Stride: size.X, Rect: cover.img.Rect}
	for i := range mask.Pix {
		mask.Pix[i] = cover.img.Pix[4*i+3]
	}
	stddraw.DrawMask(on.img, seen, above.img, image.Point{}, mask, image.Point{}, stddraw.Over)
}

// trace hands a path to gg in pixels.
func trace(to *gg.Context, p draw.Path, m draw.Matrix) {
	p.Steps(func(v draw.Verb, points []draw.Point) {
		var q [3]draw.Point
		for i, pt := range points {
			q[i] = m.Apply(pt)
		}
		switch v {
		case draw.Move:
			to.MoveTo(q[0].X, q[0].Y)
		case draw.Line:
			to.LineTo(q[0].X, q[0].Y)
		case draw.Cubic:
			to.CubicTo(q[0].X, q[0].Y, q[1].X, q[1].Y, q[2].X, q[2].Y)
		case draw.Close:
			to.ClosePath()
		}
	})
}

func (on *canvas) fill(p draw.Path, m draw.Matrix, c draw.Colour) {
	to := on.gg
	to.SetColor(color.RGBA{c.R, c.G, c.B, 255})
	trace(to, p, m)
	to.Fill()
}

func (on *canvas) stroke(n *draw.Stroke, m draw.Matrix) {
	to := on.gg
	to.SetColor(color.RGBA{n.Colour.R, n.Colour.G, n.Colour.B, 255})
	to.SetLineWidth(n.Width * m.Size())
	to.SetLineCap(gg.LineCapRound)
	to.SetLineJoin(gg.LineJoinRound)
	trace(to, n.Path, m)
	to.Stroke()
}
