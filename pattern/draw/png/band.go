package png

import (
	"image"
	"image/color"
	stddraw "image/draw"
	"math"

	"github.com/fogleman/gg"

	"underflap/pattern/draw"
)

// layers paints bands: a stack of canvases as wide as the page and one band
// high, one for the page and one for each depth of clipping.
type layers struct {
	width, rows int
	stack       []*canvas
	mask        *image.Alpha
	tiles       tiles
}

type canvas struct {
	img *image.RGBA
	gg  *gg.Context
}

func newLayers(width, rows int) *layers {
	return &layers{width: width, rows: rows, tiles: tiles{}}
}

// canvas is the one at a depth, clear but for its earlier use.
func (l *layers) canvas(depth int) *canvas {
	for len(l.stack) <= depth {
		img := image.NewRGBA(image.Rect(0, 0, l.width, l.rows))
		l.stack = append(l.stack, &canvas{img: img, gg: gg.NewContextForRGBA(img)})
	}
	return l.stack[depth]
}

// paint draws the band whose first row is top. The picture is reused by the
// next call.
func (l *layers) paint(page *draw.Page, scale float64, top int) *image.RGBA {
	ground := l.canvas(0)
	stddraw.Draw(ground.img, ground.img.Rect, image.White, image.Point{}, stddraw.Src)
	m := draw.Matrix{A: scale, D: scale, F: -float64(top)}
	l.nodes(0, page.Nodes(), m)
	return ground.img
}

// visible is the part of a node's box that lies in the band, in whole pixels.
func (l *layers) visible(box draw.Rect, m draw.Matrix) image.Rectangle {
	b := m.Bounds(box)
	r := image.Rectangle{
		image.Pt(clampFloor(b.MinX-1, l.width), clampFloor(b.MinY-1, l.rows)),
		image.Pt(clampFloor(b.MaxX+2, l.width), clampFloor(b.MaxY+2, l.rows)),
	}
	return r
}

func clampFloor(v float64, most int) int {
	return int(math.Floor(math.Max(0, math.Min(v, float64(most)))))
}

func (l *layers) nodes(depth int, nodes []draw.Node, m draw.Matrix) {
	for _, n := range nodes {
		seen := l.visible(n.Bounds(), m)
		if seen.Empty() {
			continue
		}
		switch n := n.(type) {
		case *draw.Fill:
			rule := gg.FillRuleWinding
			if n.EvenOdd {
				rule = gg.FillRuleEvenOdd
			}
			l.canvas(depth).gg.SetFillRule(rule)
			l.fill(depth, n.Path, m, n.Colour)
			l.canvas(depth).gg.SetFillRule(gg.FillRuleWinding)
		case *draw.Text:
			l.fill(depth, n.Font.Outlines(n.String, n.Size), m.After(n.At), n.Colour)
		case *draw.Stroke:
			l.stroke(depth, n, m)
		case *draw.Layer:
			l.nodes(depth, n.Nodes, m)
		case *draw.Group:
			inner := m.After(n.Matrix)
			if len(n.Clip.Points) == 0 {
				l.nodes(depth, n.Nodes, inner)
			} else {
				l.clipped(depth, n, inner, seen)
			}
		case *draw.Use:
			box := n.Symbol.Bounds()
			for _, at := range n.At {
				placed := m.After(at)
				if !l.visible(box, placed).Empty() {
					l.nodes(depth, n.Symbol.Nodes, placed)
				}
			}
		case *draw.Picture:
			l.tiles.draw(l.canvas(depth).img, n.Image, m.After(n.At))
		}
	}
}

// clipped draws the group on a canvas of its own and lays that over the one
// below through the clip's coverage, so that the edge is softened once.
func (l *layers) clipped(depth int, n *draw.Group, m draw.Matrix, seen image.Rectangle) {
	above := l.canvas(depth + 1)
	if l.mask == nil {
		l.mask = image.NewAlpha(above.img.Rect)
	}
	stddraw.Draw(above.img, seen, image.Transparent, image.Point{}, stddraw.Src)
	l.nodes(depth+1, n.Nodes, m)

	// the mask is drawn last: a group inside this one uses the same one
	cover := l.canvas(depth + 2)
	stddraw.Draw(cover.img, seen, image.Transparent, image.Point{}, stddraw.Src)
	l.fill(depth+2, n.Clip, m, draw.White)
	for y := seen.Min.Y; y < seen.Max.Y; y++ {
		from, to := cover.img.PixOffset(seen.Min.X, y), l.mask.PixOffset(seen.Min.X, y)
		for i := range seen.Dx() {
			l.mask.Pix[to+i] = cover.img.Pix[from+4*i+3]
		}
	}
	stddraw.DrawMask(l.canvas(depth).img, seen, above.img, seen.Min, l.mask, seen.Min, stddraw.Over)
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

func (l *layers) fill(depth int, p draw.Path, m draw.Matrix, c draw.Colour) {
	to := l.canvas(depth).gg
	to.SetColor(color.RGBA{c.R, c.G, c.B, 255})
	trace(to, p, m)
	to.Fill()
}

func (l *layers) stroke(depth int, n *draw.Stroke, m draw.Matrix) {
	to := l.canvas(depth).gg
	to.SetColor(color.RGBA{n.Colour.R, n.Colour.G, n.Colour.B, 255})
	to.SetLineWidth(n.Width * m.Size())
	to.SetLineCap(gg.LineCapRound)
	to.SetLineJoin(gg.LineJoinRound)
	trace(to, n.Path, m)
	to.Stroke()
}
