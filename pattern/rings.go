package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Rings are circles drawn as lines, one inside another. They may link, as chains
// do.
type Rings struct {
	Size  float64 // outer diameter
	Line  float64 // thickness of a ring
	Rings int     // one inside another
	Gap   float64 // between a ring and the next one in
	Link  float64 // how far it reaches into the next ones, as a part of the size
	Inks  []int   // of the outer ring, one a row, in turn
	Inner []int   // of the rings inside it, from the outside in, in turn
	Recurrence
}

func init() {
	register(family{"rings", "single, concentric or linked rings", func(p *params, _ *draw.Art) Motif {
		g := &Rings{}
		p.length(&g.Size, "size", 12, 2, 150, "outer diameter of a ring")
		p.length(&g.Line, "line", 1, 0.1, 40, "thickness of a ring")
		p.count(&g.Rings, "rings", 2, 1, 12, "rings one inside another, as many as find room")
		p.length(&g.Gap, "gap", 1.8, 0.2, 60, "between a ring and the next one inside")
		p.length(&g.Spacing, "spacing", 4, 0, 200, "free space between one and the next")
		p.number(&g.Link, "link", 0, 0, 0.5, "in place of a spacing: how far rings reach into the next ones, as a part of the size")
		p.repeating(&g.Recurrence, Brick)
		p.inks(&g.Inks, "inks", "1", "ink of each row in turn")
		p.inks(&g.Inner, "inner", "2", "ink of the rings inside, from the outside in, in turn")
		p.between("line", g.Line, 0.1, g.Size/2)
		g.settle()
		return g
	}})
}

// settle gives the distances of columns and of rows: as close as rings lie.
func (g *Rings) settle() {
	apart := g.Size + g.Spacing
	if g.Link > 0 {
		apart, g.Spacing = g.Size*(1-g.Link), 0
	}
	g.DX, g.DY = apart, apart
	switch close := apart * math.Sqrt(3) / 2; g.Repeat {
	case Brick:
		g.DY = close
	case HalfDrop:
		g.DX = close
	}
}

// Count implements Motif.
func (g *Rings) Count(area draw.Rect) float64 {
	return g.count(area, g.Size/2) * float64(g.Rings)
}

// Draw implements Motif. Inner rings come first, so that linked ones lie over one
// another alike on both halves of a flap.
func (g *Rings) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	inner := s.Symbol(key("rings", g.Size, g.Line, g.Rings, g.Gap, g.Inner, inks), func(s *draw.Surface) {
		for i := 1; i < g.Rings; i++ {
			s.Fill(annulus(g.Size/2-float64(i)*(g.Line+g.Gap), g.Line), inks.Ink(cycle(g.Inner, i-1)))
		}
	})
	g.place(s, area, g.Size/2, []int{0}, func(int) *draw.Symbol { return inner })
	g.place(s, area, g.Size/2, g.Inks, func(ink int) *draw.Symbol {
		return s.Symbol(key("ring", g.Size, g.Line, inks.Ink(ink)), func(s *draw.Surface) {
			s.Fill(annulus(g.Size/2, g.Line), inks.Ink(ink))
		})
	})
}

// annulus is a ring about the origin; where there is no room for its hole, a
// disc, or nothing. A circle as a stroke would be a little rougher in a PNG.
func annulus(radius, line float64) draw.Path {
	if radius <= 0 {
		return draw.Path{}
	}
	p := draw.Circle(0, 0, radius)
	if radius > line {
		p.Append(draw.Circle(0, 0, radius-line).Transform(draw.Matrix{A: 1, D: -1})) // the other way round
	}
	return p
}
