package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Ribbons are bands one below another, whose edges all follow the same line
// across, in waves of one length: chevrons where it is straight, waves where it
// curves. A crest is on the centre line, so the halves mirror each other. The
// width of a band is measured upright, and so is the same everywhere.
type Ribbons struct {
	Length float64 // from crest to crest
	Rise   float64 // from trough to crest
	Bands  []Band
}

// Count implements Motif. A wave of a band is drawn as a part of one long
// shape and weighs as much as two dots; and again as much for each sequence that
// its rise runs across, since that much more is painted over.
func (r *Ribbons) Count(area draw.Rect) float64 {
	period := period(r.Bands)
	return 2 * (1 + r.Rise/period) * cells(area, r.Length, period) * float64(len(r.Bands))
}

// draw draws the bands; wave goes on from the crest at x to the next one. As
// stripes do, each band runs on under all that follow it, so that there is one
// edge and no gap where two meet.
func (r *Ribbons) draw(s *draw.Surface, area draw.Rect, inks Colours, name string, wave func(p *draw.Path, x, y float64)) {
	period := period(r.Bands)
	start := -r.Bands[0].Width / 2
	from, to := math.Floor(area.MinX/r.Length)-1, math.Ceil(area.MaxX/r.Length)+1
	sequence := s.Symbol(key(name, *r, from, to, inks), func(s *draw.Surface) {
		y := start
		foot := start + r.Rise + 1.25*period
		for _, b := range r.Bands {
			var p draw.Path
			p.Move(from*r.Length, y)
			for i := from; i < to; i++ {
				wave(&p, i*r.Length, y)
			}
			p.Line(to*r.Length, foot)
			p.Line(from*r.Length, foot)
			p.Close()
			s.Fill(p, inks.Ink(b.Ink))
			y += b.Width
		}
	})
	first := int(math.Floor((area.MinY-start-r.Rise)/period)) - 1
	last := int(math.Ceil((area.MaxY - start) / period))
	var at []draw.Matrix
	for i := first; i <= last; i++ {
		at = append(at, draw.Translate(0, float64(i)*period))
	}
	s.Place(sequence, at...)
}
