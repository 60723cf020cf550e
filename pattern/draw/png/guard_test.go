package png

import (
	"testing"

	"underflap/pattern/draw"
)

// Bands put together are the page drawn in one piece wherever a shape
// ends: a part of a pixel above a band too, and inside clips.
func TestBandsAreOnePiece(t *testing.T) {
	const side, rows, bands = 12.7, 16, 8
	page := draw.NewPage(side, side)
	thorns := func(s *draw.Surface) {
		for i := range 60 {
			var p draw.Path
			x, y := float64(i%10)*1.3, float64(i/10)*2.03+float64(i)*0.017
			p.Move(x, y)
			p.Line(x+0.9, y+0.2)
			p.Line(x+0.4, y+1.7)
			p.Close()
			s.Fill(p, draw.Colour{R: uint8(4 * i)})
		}
	}
	thorns(page.Surface)
	page.Clipped(draw.Circle(6, 6, 5), func(s *draw.Surface) {
		s.Fill(draw.Rectangle(draw.Rect{MaxX: side, MaxY: side}), draw.Colour{G: 200, B: 90})
		s.Within(draw.Turn(40), thorns)
		s.Clipped(draw.Circle(7, 5, 3), func(s *draw.Surface) {
			s.Fill(draw.Rectangle(draw.Rect{MaxX: side, MaxY: side}), draw.Colour{G: 90, B: 200})
			s.Within(draw.Turn(-30), thorns)
		})
	})
	scale := rows * bands / side
	whole := newLayers(rows*bands, rows*bands).paint(page, scale, 0)
	for band := range bands {
		part := newLayers(rows*bands, rows).paint(page, scale, band*rows)
		from := (guard + band*rows) * whole.Stride
		most := 0
		for i, v := range part.Pix[guard*part.Stride:] {
			most = max(most, int(v)-int(whole.Pix[from+i]), int(whole.Pix[from+i])-int(v))
		}
		if most > 10 { // the rasteriser counts in 64ths of a pixel
			t.Errorf("band %d differs by %d levels from what the whole page shows there", band, most)
		}
	}
}
