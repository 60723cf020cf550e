package pattern

import "underflap/pattern/draw"

// Houndstooth is the tooth that four threads of ink and four of ground make in
// a twill, two over and two under, its steps drawn as slants. Teeth of ink and
// teeth of ground are the same shape and fill the plane. It has no upright
// mirror line; turned by -45 degrees it mirrors itself about the centre line.
type Houndstooth struct {
	Size       float64 // from tooth to tooth
	Ink, Other int
}

func init() {
	register(family{"houndstooth", "broken checks of pointed teeth; --turn -45 makes the halves mirror", func(p *params, _ *draw.Art) Motif {
		h := &Houndstooth{}
		p.length(&h.Size, "size", 11, 1, 200, "from tooth to tooth")
		p.count(&h.Ink, "ink", 1, 0, MostInks, "ink of the teeth")
		p.count(&h.Other, "between", 0, 0, MostInks, "ink of the teeth between them (0 is the ground)")
		return h
	}})
}

// tooth is the outline in quarters of a size, from the upper left corner of its
// body, a square of two. Where threads of ink cross threads of ground the twill
// shows as slants one quarter wide: a long one up from the body and one to the
// right, and the ends of two more below and on the left.
var tooth = []draw.Point{
	{X: 0, Y: 0}, {X: 2, Y: -2}, {X: 2, Y: -1}, {X: 1, Y: 0}, {X: 2, Y: 0},
	{X: 2, Y: 1}, {X: 3, Y: 0}, {X: 4, Y: 0}, {X: 2, Y: 2},
	{X: 1, Y: 2}, {X: 0, Y: 3}, {X: 0, Y: 2},
	{X: -1, Y: 2}, {X: 0, Y: 1},
}

// Count implements Motif.
func (h *Houndstooth) Count(area draw.Rect) float64 { return cells(area, h.Size, h.Size) }

// Draw implements Motif. The other teeth are one sheet beneath; teeth of one
// kind touch each other at points only.
func (h *Houndstooth) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	if h.Other != 0 {
		s.Fill(draw.Rectangle(area), inks.Ink(h.Other))
	}
	shape := s.Symbol(key("tooth", h.Size, inks.Ink(h.Ink)), func(s *draw.Surface) {
		var p draw.Path
		for i, q := range tooth {
			x, y := (q.X-1)*h.Size/4, (q.Y-1)*h.Size/4 // the body's middle is the origin
			if i == 0 {
				p.Move(x, y)
			} else {
				p.Line(x, y)
			}
		}
		p.Close()
		s.Fill(p, inks.Ink(h.Ink))
	})
	var at []draw.Matrix
	rows := Recurrence{Repeat: Straight, DX: h.Size, DY: h.Size}
	rows.each(area, h.Size, func(p Place) { at = append(at, p.At) })
	s.Place(shape, at...)
}
