package pattern

import (
	"underflap/pattern/draw"
)

// Stars have points around a middle, the first one up.
type Stars struct {
	Size   float64 // across the circle through the points
	Points int
	Waist  float64 // from the middle to the notches, as a part of that to the points
	Inks   []int   // one a row, in turn
	Recurrence
}

func init() {
	register(family{"stars", "stars of three to sixteen points", func(p *params, _ *draw.Art) Motif {
		st := &Stars{}
		p.length(&st.Size, "size", 8, 1, 150, "across the circle through the points")
		p.count(&st.Points, "points", 5, 3, 16, "points of a star")
		p.number(&st.Waist, "waist", 0.45, 0.1, 0.95, "from the middle to the notches, as a part of that to the points")
		p.inks(&st.Inks, "inks", "1", "ink of each row in turn")
		p.recurrence(&st.Recurrence, st.Size, st.Size, 7, Brick)
		return st
	}})
}

// star gives the corners of a star.
func star(points int, radius, waist float64) []draw.Point {
	corners := regular(2*points, radius)
	for i := 1; i < len(corners); i += 2 {
		corners[i] = scaled(corners[i], waist)
	}
	return corners
}

// Count implements Motif.
func (st *Stars) Count(area draw.Rect) float64 { return st.count(area, st.Size/2) }

// Draw implements Motif.
func (st *Stars) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	st.place(s, area, st.Size/2, st.Inks, func(ink int) *draw.Symbol {
		return s.Symbol(key("star", st.Size, st.Points, st.Waist, inks.Ink(ink)), func(s *draw.Surface) {
			s.Fill(polygon(star(st.Points, st.Size/2, st.Waist)), inks.Ink(ink))
		})
	})
}
