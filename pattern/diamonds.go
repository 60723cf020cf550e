package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Diamonds are upright rhombi, solid or framed, with a smaller one in the
// middle. Staggered (brick, half-drop) they lie side by side with the same gap
// along all four sides, as on a harlequin's coat.
type Diamonds struct {
	Width, Height float64
	Line          float64 // of the frame; 0 is solid
	Inner         float64 // size of the one in the middle, as a part of it; 0 is none
	Inks          []int   // one a row, in turn
	Heart         int     // ink of the middles
	Recurrence
}

func init() {
	register(family{"diamonds", "upright diamonds, solid or framed", func(p *params, _ *draw.Art) Motif {
		d := &Diamonds{}
		p.length(&d.Width, "width", 11, 1, 150, "from the left corner to the right one")
		p.length(&d.Height, "height", 18, 1, 150, "from the upper corner to the lower one")
		p.length(&d.Spacing, "spacing", 5.5, 0.2, 200, "gap between the sides of one and the next")
		p.length(&d.Line, "line", 0, 0, 60, "thickness of the frame; 0 is solid")
		p.number(&d.Inner, "inner", 0, 0, 1, "size of the diamond in the middle, as a part of the other; 0 is none")
		p.repeating(&d.Recurrence, Brick)
		p.inks(&d.Inks, "inks", "1,2", "ink of each row in turn")
		p.count(&d.Heart, "heart", 3, 0, MostInks, "ink of the middles; 0 is the ground")
		d.settle()
		return d
	}})
}

// inradius is from the middle to a side.
func (d *Diamonds) inradius() float64 {
	return d.Width * d.Height / 2 / math.Hypot(d.Width, d.Height)
}

// reach is from the middle to the farthest corner.
func (d *Diamonds) reach() float64 { return math.Max(d.Width, d.Height) / 2 }

// settle gives the distances of columns and of rows. Staggered, a diamond and
// half the gap around it is a larger diamond that tiles.
func (d *Diamonds) settle() {
	grown := 1 + d.Spacing/2/d.inradius()
	switch d.Repeat {
	case Brick:
		d.DX, d.DY = grown*d.Width, grown*d.Height/2
	case HalfDrop:
		d.DX, d.DY = grown*d.Width/2, grown*d.Height
	default:
		d.DX, d.DY = d.Width+d.Spacing, d.Height+d.Spacing
	}
}

// Count implements Motif.
func (d *Diamonds) Count(area draw.Rect) float64 { return d.count(area, d.reach()) }

// Draw implements Motif.
func (d *Diamonds) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	x, y := d.Width/2, d.Height/2
	corners := []draw.Point{{X: 0, Y: -y}, {X: x, Y: 0}, {X: 0, Y: y}, {X: -x, Y: 0}}
	d.place(s, area, d.reach(), d.Inks, func(ink int) *draw.Symbol {
		return s.Symbol(key("diamond", d.Width, d.Height, d.Line, d.Inner, d.Heart, ink, inks), func(s *draw.Surface) {
			s.Fill(framed(corners, d.inradius(), d.Line), inks.Ink(ink))
			if d.Inner > 0 {
				s.Fill(polygon(corners).Transform(draw.Scale(d.Inner)), inks.Ink(d.Heart))
			}
		})
	})
}
