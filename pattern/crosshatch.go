package pattern

import "underflap/pattern/draw"

// Crosshatch is two sets of fine lines that cross and leave diamonds. Both lean
// away from the upright by the same angle, so the halves mirror each other when
// both are of one ink.
type Crosshatch struct {
	Pinstripes
	Angle float64 // degrees between the two sets, at a diamond's upper corner
}

func init() {
	register(family{"crosshatch", "fine lines that cross and leave diamonds", func(p *params, _ *draw.Art) Motif {
		c := &Crosshatch{}
		p.pinstripes(&c.Pinstripes, 14, 2)
		p.number(&c.Angle, "angle", 60, 10, 170, "degrees between the lines at a diamond's top; 90 makes squares")
		p.inks(&c.Inks, "inks", "1", "ink of the lines that lean right, then of those that lean left")
		return c
	}})
}

// Count implements Motif: lines of both sets, which are as long as the area is
// across.
func (c *Crosshatch) Count(area draw.Rect) float64 {
	return 2 * c.Pinstripes.Count(draw.Turn(45).Bounds(area))
}

// Draw implements Motif.
func (c *Crosshatch) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	for i, lean := range []float64{c.Angle / 2, -c.Angle / 2} {
		set := c.Pinstripes
		set.Inks = []int{cycle(c.Inks, i)}
		m := draw.Turn(lean)
		s.Within(m, func(s *draw.Surface) { set.Draw(s, m.Inverse().Bounds(area), inks) })
	}
}
