package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Band is one stripe of a sequence.
type Band struct {
	Width float64
	Ink   int // 0 is the ground
}

// Stripes are upright bands in a sequence that recurs; a design's turn lays
// them at any angle. The middle of the first band is the centre line, so a
// sequence that reads the same both ways mirrors itself.
type Stripes struct{ Bands []Band }

func init() {
	register(family{"stripes", "bands of any width and ink; --turn gives their angle", func(p *params, _ *draw.Art) Motif {
		st := &Stripes{}
		p.bands(&st.Bands, "bands", "3:1,3:0,1:2,3:0", "width and ink of each band, then again from the first")
		return st
	}})
}

// period is the width of a whole sequence.
func period(bands []Band) float64 {
	sum := 0.0
	for _, b := range bands {
		sum += b.Width
	}
	return sum
}

// Count implements Motif. A band is as long as the area and weighs as much as
// fifty dots.
func (st *Stripes) Count(area draw.Rect) float64 {
	return 50 * area.Width() / period(st.Bands) * float64(len(st.Bands))
}

// Draw implements Motif. Each band runs on under all that follow it, into the
// next sequence, and they are drawn over it: where two bands meet there is one
// edge and no gap, however fine they are.
func (st *Stripes) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	period := period(st.Bands)
	start := -st.Bands[0].Width / 2
	sequence := s.Symbol(key("stripes", st.Bands, area.MinY, area.MaxY, inks), func(s *draw.Surface) {
		x := start
		for _, b := range st.Bands {
			s.Fill(draw.Rectangle(draw.Rect{MinX: x, MinY: area.MinY, MaxX: start + 1.25*period, MaxY: area.MaxY}), inks.Ink(b.Ink))
			x += b.Width
		}
	})
	first := int(math.Floor((area.MinX-start)/period)) - 1
	last := int(math.Ceil((area.MaxX - start) / period))
	var at []draw.Matrix
	for i := first; i <= last; i++ {
		at = append(at, draw.Translate(float64(i)*period, 0))
	}
	s.Place(sequence, at...)
}
