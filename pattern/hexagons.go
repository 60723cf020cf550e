package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Hexagons are a honeycomb: solid or framed, with a smaller one in the middle.
// Staggered (brick, half-drop) they lie side by side with the same gap all
// around.
type Hexagons struct {
	Size  float64 // across two parallel sides
	Line  float64 // of the frame; 0 is solid
	Inner float64 // size of the one in the middle, as a part of it; 0 is none
	Inks  []int   // one a row, in turn
	Heart int     // ink of the middles
	Recurrence
}

func init() {
	register(family{"hexagons", "a honeycomb, solid or framed", func(p *params, _ *draw.Art) Motif {
		h := &Hexagons{}
		p.length(&h.Size, "size", 17, 1, 150, "across two parallel sides")
		p.length(&h.Spacing, "spacing", 2, 0.2, 200, "gap between one and the next")
		p.length(&h.Line, "line", 1.2, 0, 60, "thickness of the frame; 0 is solid")
		p.number(&h.Inner, "inner", 0.35, 0, 1, "size of the hexagon in the middle, as a part of the size; 0 is none")
		p.repeating(&h.Recurrence, Brick)
		p.inks(&h.Inks, "inks", "1", "ink of each row in turn")
		p.count(&h.Heart, "heart", 2, 0, MostInks, "ink of the middles; 0 is the ground")
		h.settle()
		return h
	}})
}

// radius is from the middle to a corner, of a hexagon of a size.
func (h *Hexagons) radius(size float64) float64 { return size / math.Sqrt(3) }

// settle gives the distances of columns and of rows.
func (h *Hexagons) settle() {
	h.DX, h.DY = h.Size+h.Spacing, 2*h.radius(h.Size)+h.Spacing
	switch h.Repeat {
	case Brick:
		h.DY = h.DX * math.Sqrt(3) / 2
	case HalfDrop:
		h.DX, h.DY = h.DX*math.Sqrt(3)/2, h.DX
	}
}

// Count implements Motif.
func (h *Hexagons) Count(area draw.Rect) float64 { return h.count(area, h.radius(h.Size)) }

// Draw implements Motif.
func (h *Hexagons) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	at := draw.Identity
	if h.Repeat == HalfDrop { // columns fit side by side, not rows
		at = draw.Turn(90)
	}
	h.place(s, area, h.radius(h.Size), h.Inks, func(ink int) *draw.Symbol {
		return s.Symbol(key("hexagon", h.Size, h.Line, h.Inner, h.Heart, at, ink, inks), func(s *draw.Surface) {
			s.Fill(framed(regular(6, h.radius(h.Size)), h.Size/2, h.Line).Transform(at), inks.Ink(ink))
			if h.Inner > 0 {
				s.Fill(polygon(regular(6, h.Inner*h.radius(h.Size))).Transform(at), inks.Ink(h.Heart))
			}
		})
	})
}
