package pattern

import (
	"math"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// StampTiles repeat a picture of the person's own, whole and never cut but by
// the liner's edge.
type StampTiles struct {
	Art     *draw.Art
	Size    float64 // width of the art
	Spacing float64 // free space between one and the next
	Lean    float64 // degrees each is turned about its own middle
	Repeat  Repeat
}

func init() {
	register(family{Stamps, "your own art, scanned, photographed or drawn: --stamp FILE", func(p *params, art *draw.Art) Motif {
		st := &StampTiles{Art: art}
		p.length(&st.Size, "size", 20, 2, 300, "width of the art")
		p.length(&st.Spacing, "spacing", 5, 0, 200, "free space between stamps")
		p.degrees(&st.Lean, "lean", 0, "turns each stamp about its own middle, clockwise")
		p.repeat(&st.Repeat, Brick)
		if art == nil {
			p.keep(&words.Refused{Field: "stamp", Why: "the pattern stamps needs art", Accepts: "--stamp, a picture or an SVG file"})
		}
		return st
	}})
}

// height of the art at its printed width.
func (st *StampTiles) height() float64 { return st.Art.HeightAt(st.Size) }

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
func (st *StampTiles) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	stamp := s.Symbol(key("stamp", st.Art.Key(st.Size, inks.Ink), st.Lean), func(s *draw.Surface) {
		s.Within(draw.Turn(st.Lean), func(s *draw.Surface) { st.Art.Draw(s, st.Size, inks.Ink) })
	})
	dx, dy := st.pitch()
	var at []draw.Matrix
	st.Repeat.each(area, dx, dy, math.Hypot(st.Size, st.height())/2, func(_, _ int, x, y float64) {
		at = append(at, draw.Translate(x, y))
	})
	s.Place(stamp, at...)
}
