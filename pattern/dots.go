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
	Inks    []int   // one a row, in turn
	Recurrence
}

func init() {
	register(family{"dots", "round dots, square or staggered", func(p *params, _ *draw.Art) Motif {
		d := &Dots{}
		p.length(&d.Size, "size", 2.6, 0.3, 80, "diameter of a dot")
		p.length(&d.Spacing, "spacing", 6.5, 0.5, 200, "middle to middle")
		p.repeating(&d.Recurrence, Brick)
		p.inks(&d.Inks, "inks", "1", "ink of each row in turn")
		p.between("spacing", d.Spacing, d.Size/4, 200) // nearer, and dots only hide each other
		d.settle()
		return d
	}})
}

// settle gives the distances of columns and of rows.
func (d *Dots) settle() {
	d.DX, d.DY = d.Spacing, d.Spacing
	switch close := d.Spacing * math.Sqrt(3) / 2; d.Repeat {
	case Brick:
		d.DY = close
	case HalfDrop:
		d.DX = close
	}
	d.Recurrence.Spacing = math.Max(0, d.Spacing-d.Size)
}

// Count implements Motif.
func (d *Dots) Count(area draw.Rect) float64 { return d.count(area, d.Size/2) }

// Draw implements Motif.
func (d *Dots) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	d.place(s, area, d.Size/2, d.Inks, func(ink int) *draw.Symbol {
		return s.Symbol(key("dot", d.Size, inks.Ink(ink)), func(s *draw.Surface) {
			s.Fill(draw.Circle(0, 0, d.Size/2), inks.Ink(ink))
		})
	})
}
