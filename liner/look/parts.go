package look

import (
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// parts writes the names of fold and liner into the drawing, where there is
// room.
func (b *board) parts(f *figure) {
	e, v := f.Envelope, f.main
	for _, share := range []float64{0.5, 0.3, 0.15} {
		width := draw.Regular.Width("fold", smallType)
		at := v.xy(share*e.Width, 0)
		at.X, at.Y = at.X-width/2, at.Y+0.9*smallType+1
		if b.word("fold", at, faint, v.xy(0, 0).X+2, v.xy(0, -e.Height).Y-2) {
			break
		}
	}
	upper := geom.Contour(f.Outline(f.WantedPocketDepth()).Contour)
	width := draw.Regular.Width("liner", smallType)
	for _, share := range []float64{0.4, 0.3, 0.5} {
		at := v.xy(e.Width/2, share*f.FlapHeight())
		at.X -= width / 2
		box := textBox(width, smallType, at).Grow(1.5)
		if v.covers(upper, box) && b.word("liner", at, faint, box.MinX, box.MaxY) {
			return
		}
	}
}

// word writes a part's name unless something lies there, or it would start
// left of a place or reach lower than one.
func (b *board) word(name string, at draw.Point, c draw.Colour, left, low float64) bool {
	box := textBox(draw.Regular.Width(name, smallType), smallType, at)
	if box.MinX < left || box.MaxY > low || !b.free("part", box.Grow(clearLabel)) {
		return false
	}
	b.text("part", name, draw.Regular, smallType, at, c)
	return true
}

// covers tells whether a closed contour covers a box: all of its corners lie
// inside, and the middles of its sides.
func (v view) covers(c geom.Contour, box draw.Rect) bool {
	chain := v.chain(c)
	mx, my := (box.MinX+box.MaxX)/2, (box.MinY+box.MaxY)/2
	for _, p := range []draw.Point{{X: box.MinX, Y: box.MinY}, {X: mx, Y: box.MinY}, {X: box.MaxX, Y: box.MinY}, {X: box.MaxX, Y: my},
		{X: box.MaxX, Y: box.MaxY}, {X: mx, Y: box.MaxY}, {X: box.MinX, Y: box.MaxY}, {X: box.MinX, Y: my}} {
		odd := false
		for i := 1; i < len(chain); i++ {
			a, b := chain[i-1], chain[i]
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
				odd = !odd
			}
		}
		if !odd {
			return false
		}
	}
	return true
}
