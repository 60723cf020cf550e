package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Dots are discs of one size, square or staggered. Staggered dots (brick,
// half-drop) have their nearest neighbours all at the same spacing.
type Dots struct {
	Size    float64 // diameter
	Spacing float64 // middle to middle
	Repeat  Repeat
	Inks    []int // one a row, in turn
}

func init() {
	register(family{"dots", "round dots, square or staggered", func(p *params, _ *draw.Art) Motif {
		d := &Dots{}
		p.length(&d.Size, "size", 2.6, 0.3, 80, "diameter of a dot")
		p.length(&d.Spacing, "spacing", 6.5, 0.5, 200, "middle to middle")
		p.repeat(&d.Repeat, Brick)
		p.inks(&d.Inks, "inks", "1", "ink of each row in turn")
		p.between("spacing", d.Spacing, d.Size/4, 200) // nearer, and dots only hide each other
		return d
	}})
}

// pitch is the distance of columns and of rows.
func (d *Dots) pitch() (dx, dy float64) {
	switch close := d.Spacing * math.Sqrt(3) / 2; d.Repeat {
	case Brick:
		return d.Spacing, close
	case HalfDrop:
		return close, d.Spacing
	}
	return d.Spacing, d.Spacing
}

// Count implements Motif.
func (d *Dots) Count(area draw.Rect) float64 {
	dx, dy := d.pitch()
	return cells(area, dx, dy)
}

// Draw implements Motif.
func (d *Dots) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	dx, dy := d.pitch()
	at := map[int][]draw.Matrix{}
	d.Repeat.each(area, dx, dy, d.Size/2, func(column, row int, x, y float64) {
		ink := cycle(d.Inks, row)
		at[ink] = append(at[ink], draw.Translate(x, y))
	})
	for ink := range MostInks + 1 {
		dot := s.Symbol(key("dot", d.Size, inks.Ink(ink)), func(s *draw.Surface) {
			s.Fill(draw.Circle(0, 0, d.Size/2), inks.Ink(ink))
		})
		s.Place(dot, at[ink]...)
	}
}
