package pattern

import (
	"math"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// StampTiles repeat a picture of the person's own, whole and never cut but by
// the liner's edge.
type StampTiles struct {
	Art     *draw.Image
	Size    float64 // width of the art
	Spacing float64 // free space between one and the next
	Lean    float64 // degrees each is turned about its own middle
	Repeat  Repeat
}

func init() {
	register(family{Stamps, "your own art, from a PNG or JPEG: --stamp FILE", func(p *params, art *draw.Image) Motif {
		st := &StampTiles{Art: art}
		p.length(&st.Size, "size", 20, 2, 300, "width of the art")
		p.length(&st.Spacing, "spacing", 5, 0, 200, "free space between stamps")
		p.degrees(&st.Lean, "lean", 0, "turns each stamp about its own middle, clockwise")
		p.repeat(&st.Repeat, Brick)
		if art == nil {
			p.keep(&words.Refused{Field: "stamp", Why: "the pattern stamps needs art", Accepts: "a PNG or JPEG file"})
		}
		return st
	}})
}

// height of the art at its printed width.
func (st *StampTiles) height() float64 {
	size := st.Art.Bounds().Size()
	return st.Size * float64(size.Y) / float64(size.X)
}

// pitch is the distance of columns and of rows: the leaning art's extent and
// the space.
func (st *StampTiles) pitch() (dx, dy float64) {
	height := st.height()
	b := draw.Turn(st.Lean).Bounds(draw.Rect{MaxX: st.Size, MaxY: height})
	return b.Width() + st.Spacing, b.Height() + st.Spacing
}

// Count implements Motif.
func (st *StampTiles) Count(area draw.Rect) float64 {
	dx, dy := st.pitch()
	return cells(area, dx, dy)
}

// Draw implements Motif.
func (st *StampTiles) Draw(s *draw.Surface, area draw.Rect, _ Colours) {
	height := st.height()
	stamp := s.Symbol(key("stamp", st.Size, st.Lean), func(s *draw.Surface) {
		middle := draw.Matrix{A: st.Size, D: height, E: -st.Size / 2, F: -height / 2}
		s.Picture(st.Art, draw.Turn(st.Lean).After(middle))
	})
	dx, dy := st.pitch()
	var at []draw.Matrix
	st.Repeat.each(area, dx, dy, math.Hypot(st.Size, height)/2, func(_, _ int, x, y float64) {
		at = append(at, draw.Translate(x, y))
	})
	s.Place(stamp, at...)
}
