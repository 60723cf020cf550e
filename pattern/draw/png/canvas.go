package png

import (
	"image"
	stddraw "image/draw"
	"math"

	"github.com/fogleman/gg"
	"github.com/golang/freetype/raster"

	"underflap/pattern/draw"
)

// canvas is one band of a page in true colour, always opaque. Strokes are gg's;
// fills take gg's own rasteriser with a painter that is quick on solid runs, and
// what stays the same from band to band is kept.
//
// Row 0 is not of the band: the rasteriser rounds towards zero and so draws what
// lies above its first row into it.
type canvas struct {
	*job
	top      int // the row of the page that row 0 is
	img      *image.RGBA
	gg       *gg.Context
	raster   *raster.Rasterizer
	solids   solids
	outlines outlines
	reaches  map[reachKey][]reach
	contents map[*draw.Group]draw.Rect
	within   int           // symbols being drawn, one in another
	kept     []*image.RGBA // what lies under a clipped group, for each depth
	depth    int           // of clips
	strip    strip
}

func newCanvas(j *job) *canvas {
	img := image.NewRGBA(image.Rect(0, 0, j.width, j.rows+1))
	r := raster.NewRasterizer(j.width, j.rows+1)
	r.UseNonZeroWinding = true
	return &canvas{job: j, img: img, gg: gg.NewContextForRGBA(img), raster: r,
		solids: solids{}, outlines: outlines{made: map[outlineKey]*outline{}}, reaches: map[reachKey][]reach{}, contents: map[*draw.Group]draw.Rect{}}
}

// paint draws the band whose first row is top.
func (c *canvas) paint(top int) {
	c.top = top - 1
	stddraw.Draw(c.img, c.img.Rect, image.White, image.Point{}, stddraw.Src)
	c.nodes(c.page.Nodes(), draw.Scale(c.scale))
}

// row is row y of the band, four bytes a pixel.
func (c *canvas) row(y int) []byte {
	at := (y + 1) * c.img.Stride
	return c.img.Pix[at : at+4*c.width]
}

// visible is the part of a node's box that lies on the canvas, in whole pixels
// with one to spare.
func (c *canvas) visible(box draw.Rect, m draw.Matrix) image.Rectangle {
	b := m.Bounds(box)
	y := float64(c.top)
	return image.Rectangle{
		image.Pt(clampFloor(b.MinX-1, c.width), clampFloor(b.MinY-1-y, c.rows+1)),
		image.Pt(clampFloor(b.MaxX+2, c.width), clampFloor(b.MaxY+2-y, c.rows+1)),
	}
}

func clampFloor(v float64, most int) int {
	return int(math.Floor(math.Max(0, math.Min(v, float64(most)))))
}

// nodes draws what m maps to pixels of the page.
func (c *canvas) nodes(nodes []draw.Node, m draw.Matrix) {
	if len(nodes) == 0 {
		return
	}
	c.touching(&nodes[0], m, len(nodes), func(i int) draw.Rect { return m.Bounds(nodes[i].Bounds()) }, func(i int) {
		switch n := nodes[i].(type) {
		case *draw.Fill:
			c.raster.UseNonZeroWinding = !n.EvenOdd
			c.fill(n, m, n.Colour, func() draw.Path { return n.Path })
			c.raster.UseNonZeroWinding = true
		case *draw.Text:
			c.fill(n, m.After(n.At), n.Colour, func() draw.Path { return n.Font.Outlines(n.String, n.Size) })
		case *draw.Stroke:
			c.stroke(n, m)
		case *draw.Layer:
			c.nodes(n.Nodes, m)
		case *draw.Group:
			if inner := m.After(n.Matrix); len(n.Clip.Points) == 0 {
				c.nodes(n.Nodes, inner)
			} else {
				c.clipped(n, inner)
			}
		case *draw.Use:
			c.use(n, m)
		case *draw.Picture:
			c.tiles.draw(c.img, c.top, n.Image, m.After(n.At), &c.strip)
		}
	})
}

func (c *canvas) use(n *draw.Use, m draw.Matrix) {
	box := n.Symbol.Bounds()
	c.touching(n, m, len(n.At), func(i int) draw.Rect { return m.After(n.At[i]).Bounds(box) }, func(i int) {
		c.within++
		c.nodes(n.Symbol.Nodes, m.After(n.At[i]))
		c.within--
	})
}

type reachKey struct {
	of any // what the things are in: *draw.Use, or the first of a list of nodes
	m  draw.Matrix
}

// reach is the rows of the page that a thing may touch, with one to spare.
type reach struct{ first, last int32 }

// touching calls f for those of count things whose boxes touch the band. Their
// reach is worked out once for all bands, except in symbols: those come under
// ever new matrices. When the job's context ends, so does the loop.
func (c *canvas) touching(of any, m draw.Matrix, count int, box func(int) draw.Rect, f func(int)) {
	reachOf := func(i int) reach {
		b := box(i)
		return reach{int32(clampFloor(b.MinY-1, c.height)), int32(clampFloor(b.MaxY+2, c.height))}
	}
	key := reachKey{of, m}
	known, ok := c.reaches[key]
	if !ok && c.within == 0 {
		known = make([]reach, count)
		for i := range known {
			known[i] = reachOf(i)
		}
		c.reaches[key] = known
	}
	first, last := int32(c.top), int32(c.top+c.rows)
	for i := range count {
		var r reach
		if known != nil {
			r = known[i]
		} else {
			r = reachOf(i)
		}
		if r.first <= last && r.last >= first {
			if c.ctx.Err() != nil {
				return
			}
			f(i)
		}
	}
}

// fill paints inside the path of a node, which is asked for once.
func (c *canvas) fill(n draw.Node, m draw.Matrix, colour draw.Colour, path func() draw.Path) {
	to := &ink{img: c.img, colour: colour, solid: c.solids.of(colour, c.width)}
	for _, rings := range c.outlines.of(n, m, path).parts {
		c.raster.Clear()
		if cover(c.raster, rings, m.E, m.F-float64(c.top), c.rows+1) {
			c.raster.Rasterize(to)
		}
	}
}

// clipped draws the group over what is there, and then puts that back where the
// clip does not cover it.
func (c *canvas) clipped(n *draw.Group, m draw.Matrix) {
	content, ok := c.contents[n]
	if !ok {
		content = n.Nodes[0].Bounds()
		for _, inner := range n.Nodes {
			content = content.Union(inner.Bounds())
		}
		c.contents[n] = content
	}
	box := c.visible(content, m)
	if len(c.kept) == c.depth {
		c.kept = append(c.kept, image.NewRGBA(c.img.Rect))
	}
	r := &restorer{img: c.img, kept: c.kept[c.depth], box: box, x: box.Min.X, y: box.Min.Y}
	for y := box.Min.Y; y < box.Max.Y; y++ {
		from, to := c.img.PixOffset(box.Min.X, y), c.img.PixOffset(box.Max.X, y)
		copy(r.kept.Pix[from:to], c.img.Pix[from:to])
	}
	c.depth++
	c.nodes(n.Nodes, m)
	c.depth--
	c.raster.Clear()
	for _, rings := range c.outlines.of(n, m, func() draw.Path { return n.Clip }).parts {
		cover(c.raster, rings, m.E, m.F-float64(c.top), c.rows+1)
	}
	c.raster.Rasterize(r)
	r.upTo(box.Min.X, box.Max.Y)
}
