package pattern

import "underflap/pattern/draw"

// Basketweave is square blocks of a few strands side by side, lying across and
// standing upright by turns. A block is on the centre line.
type Basketweave struct {
	Width   float64 // of a strand with the gap beside it
	Strands int     // in a block
	Gap     float64 // between strands, where the ground shows
	Inks    []int   // of the strands that lie, then of those that stand
}

func init() {
	register(family{"basketweave", "blocks of strands, lying and standing by turns", func(p *params, _ *draw.Art) Motif {
		b := &Basketweave{}
		p.length(&b.Width, "width", 3, 0.5, 60, "from strand to strand")
		p.count(&b.Strands, "strands", 4, 1, 8, "strands side by side")
		p.length(&b.Gap, "gap", 0.7, 0, 30, "between strands, where the ground shows")
		p.inks(&b.Inks, "inks", "1", "ink of the strands that lie, then of those that stand")
		p.between("gap", b.Gap, 0, 0.8*b.Width)
		return b
	}})
}

func (b *Basketweave) block() float64 { return b.Width * float64(b.Strands) }

// Count implements Motif.
func (b *Basketweave) Count(area draw.Rect) float64 {
	return cells(area, b.block(), b.block()) * float64(b.Strands)
}

// Draw implements Motif. Without a gap there are no strands to tell apart: the
// standing blocks are one sheet beneath the lying ones, and no hairline opens.
func (b *Basketweave) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	side := b.block()
	lying, standing := inks.Ink(cycle(b.Inks, 0)), inks.Ink(cycle(b.Inks, 1))
	if b.Gap == 0 {
		s.Fill(draw.Rectangle(area), standing)
	}
	rows := Recurrence{Repeat: Brick, DX: 2 * side, DY: side, Step: 0.5}
	var lie, stand []draw.Matrix
	rows.each(area.Grow(side), side, func(p Place) {
		lie = append(lie, p.At)
		stand = append(stand, p.At.After(draw.Translate(side, 0)).After(draw.Turn(90)))
	})
	s.Place(b.strands(s, lying), lie...)
	if b.Gap > 0 {
		s.Place(b.strands(s, standing), stand...)
	}
}

// strands is a lying block.
func (b *Basketweave) strands(s *draw.Surface, ink draw.Colour) *draw.Symbol {
	half := b.block() / 2
	return s.Symbol(key("strands", *b, ink), func(s *draw.Surface) {
		if b.Gap == 0 {
			s.Fill(draw.Rectangle(draw.Rect{}.Grow(half)), ink)
			return
		}
		for i := range b.Strands {
			y := b.Width*float64(i) - half
			strand := draw.Rect{MinX: -half, MinY: y, MaxX: half, MaxY: y + b.Width}
			s.Fill(draw.Rectangle(strand.Grow(-b.Gap/2)), ink)
		}
	})
}
