package pattern

import (
	"math"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// StampTiles repeat a picture of the person's own, whole and never cut but by
// the liner's edge.
type StampTiles struct {
	Art  *draw.Image
	Size float64 // width of the art
	Lean float64 // degrees each is turned about its own middle
	Recurrence
}

func init() {
	register(family{Stamps, "your own art, from a PNG or JPEG: --stamp FILE", func(p *params, art *draw.Image) Motif {
		st := &StampTiles{Art: art}
		p.length(&st.Size, "size", 20, 2, 300, "width of the art")
		p.degrees(&st.Lean, "lean", 0, "turns each stamp about its own middle, clockwise")
		width, height := st.Size, st.Size
		if art != nil {
			width, height = st.extent()
		}
		p.recurrence(&st.Recurrence, width, height, 5, Brick)
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

// extent is the leaning art's width and height.
func (st *StampTiles) extent() (width, height float64) {
	b := draw.Turn(st.Lean).Bounds(draw.Rect{MaxX: st.Size, MaxY: st.height()})
	return b.Width(), b.Height()
}

// reach is how far the art goes from its middle.
func (st *StampTiles) reach() float64 { return math.Hypot(st.Size, st.height()) / 2 }

// Count implements Motif.
func (st *StampTiles) Count(area draw.Rect) float64 { return st.count(area, st.reach()) }

// Draw implements Motif.
func (st *StampTiles) Draw(s *draw.Surface, area draw.Rect, _ Colours) {
	height := st.height()
	stamp := s.Symbol(key("stamp", st.Size, st.Lean), func(s *draw.Surface) {
		middle := draw.Matrix{A: st.Size, D: height, E: -st.Size / 2, F: -height / 2}
		s.Picture(st.Art, draw.Turn(st.Lean).After(middle))
	})
	st.place(s, area, st.reach(), []int{0}, func(int) *draw.Symbol { return stamp })
}
