package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Checks are a chequerboard. A check is on the centre line.
type Checks struct {
	Size, Height float64
	Inks         []int // of each row's checks, in turn
	Between      int   // ink of the other checks
}

func init() {
	register(family{"checks", "a chequerboard", func(p *params, _ *draw.Art) Motif {
		c := &Checks{}
		p.length(&c.Size, "size", 7, 0.5, 150, "width of a check")
		p.length(&c.Height, "height", 0, 0, 150, "height of a check; 0 is as high as wide")
		p.inks(&c.Inks, "inks", "1", "ink of the checks of each row in turn")
		p.count(&c.Between, "between", 0, 0, MostInks, "ink of the checks between them (0 is the ground)")
		if c.Height == 0 {
			c.Height = c.Size
		}
		p.between("height", c.Height, c.Size/10, math.Min(150, 10*c.Size))
		return c
	}})
}

// rows lays out every other check.
func (c *Checks) rows() *Recurrence {
	return &Recurrence{Repeat: Brick, DX: 2 * c.Size, DY: c.Height, Step: 0.5}
}

// Count implements Motif.
func (c *Checks) Count(area draw.Rect) float64 { return cells(area, 2*c.Size, c.Height) }

// Draw implements Motif. Those between lie as one sheet beneath, so that no
// hairline opens where four checks meet.
func (c *Checks) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	if c.Between != 0 {
		s.Fill(draw.Rectangle(area), inks.Ink(c.Between))
	}
	check := draw.Rect{MinX: -c.Size / 2, MinY: -c.Height / 2, MaxX: c.Size / 2, MaxY: c.Height / 2}
	c.rows().place(s, area, max(c.Size, c.Height)/2, c.Inks, func(ink int) *draw.Symbol {
		return s.Symbol(key("check", check, inks.Ink(ink)), func(s *draw.Surface) {
			s.Fill(draw.Rectangle(check), inks.Ink(ink))
		})
	})
}
