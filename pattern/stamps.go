package pattern

import (
	"math"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// StampTiles repeat a picture of the person's own, whole and never cut but by
// the liner's edge.
type StampTiles struct {
	Art  *draw.Art
	Size float64 // width of the art
	Lean float64 // degrees each is turned about its own middle
	Recurrence
}

func init() {
	register(family{Stamps, "your own art, scanned, photographed or drawn: --stamp FILE", func(p *params, art *draw.Art) Motif {
		st := &StampTiles{Art: art}
		p.length(&st.Size, "size", 20, 2, 300, "width of the art")
		p.degrees(&st.Lean, "lean", 0, "turns each stamp about its own middle, clockwise")
		width, height := st.Size, st.Size
		if art != nil {
			width, height = st.extent()
		}
		p.recurrence(&st.Recurrence, width, height, 5, Brick)
		if art == nil {
			p.keep(&words.Refused{Field: "stamp", Why: "the pattern stamps needs art", Accepts: "--stamp, a picture or an SVG file"})
		}
		return st
	}})
}

// height of the art at its printed width.
func (st *StampTiles) height() float64 { return st.Art.HeightAt(st.Size) }

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
func (st *StampTiles) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	st.place(s, area, st.reach(), []int{0}, func(int) *draw.Symbol {
		return s.Symbol(key("stamp", st.Art.Key(st.Size, inks.Ink), st.Lean), func(s *draw.Surface) {
			s.Within(draw.Turn(st.Lean), func(s *draw.Surface) { st.Art.Draw(s, st.Size, inks.Ink) })
		})
	})
}
