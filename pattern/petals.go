package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Petals are rosettes: leaves of two arcs around a middle, as a pair of
// compasses draws them, with a round eye.
type Petals struct {
	Size   float64 // across the circle through the tips
	Petals int
	Full   float64 // how full a petal is: at 1 it touches the next ones
	Hollow float64 // across the circle that the petals begin on, as a part of the size
	Eye    float64 // diameter of the eye, as a part of the size; 0 is none
	Inks   []int   // of the petals, one a row, in turn
	Heart  int     // ink of the eye
	Recurrence
}

func init() {
	register(family{"petals", "rosettes of petals drawn with compasses", func(p *params, _ *draw.Art) Motif {
		f := &Petals{}
		p.length(&f.Size, "size", 17, 1, 150, "across the circle through the tips of the petals")
		p.count(&f.Petals, "petals", 6, 3, 24, "petals of a rosette")
		p.number(&f.Full, "full", 1, 0.1, 1, "how full a petal is; at 1 it touches the next ones")
		p.number(&f.Hollow, "hollow", 0.14, 0, 0.8, "across the circle that the petals begin on, as a part of the size")
		p.number(&f.Eye, "eye", 0.12, 0, 1, "diameter of the eye in the middle, as a part of the size; 0 is none")
		p.inks(&f.Inks, "inks", "1", "ink of the petals of each row in turn")
		p.count(&f.Heart, "heart", 2, 0, MostInks, "ink of the eye; 0 is the ground")
		p.recurrence(&f.Recurrence, f.Size, f.Size, 5, Brick)
		return f
	}})
}

// halfAngle is between a petal's arcs and its axis at both ends. A petal stays
// within this angle of its axis, so at pi / Petals the next one is touched.
func (f *Petals) halfAngle() float64 { return f.Full * math.Pi / float64(f.Petals) }

// petal is the one that points up: two arcs over one chord.
func (f *Petals) petal() draw.Path {
	foot, tip := -f.Hollow*f.Size/2, -f.Size/2
	turn := 2 * f.halfAngle()
	middle := (foot - tip) / 2 / math.Tan(f.halfAngle()) // of an arc, beside the axis
	var p draw.Path
	p.Move(0, foot)
	p.Arc(draw.Point{X: middle, Y: (foot + tip) / 2}, turn)
	p.Arc(draw.Point{X: -middle, Y: (foot + tip) / 2}, turn)
	p.Close()
	return p
}

// Count implements Motif.
func (f *Petals) Count(area draw.Rect) float64 { return f.count(area, f.Size/2) * float64(f.Petals) }

// Draw implements Motif.
func (f *Petals) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	f.place(s, area, f.Size/2, f.Inks, func(ink int) *draw.Symbol {
		return s.Symbol(key("petals", f.Size, f.Petals, f.Full, f.Hollow, f.Eye, f.Heart, ink, inks), func(s *draw.Surface) {
			petal := f.petal()
			for i := range f.Petals {
				s.Fill(petal.Transform(draw.Turn(360*float64(i)/float64(f.Petals))), inks.Ink(ink))
			}
			if f.Eye > 0 {
				s.Fill(draw.Circle(0, 0, f.Eye*f.Size/2), inks.Ink(f.Heart))
			}
		})
	})
}
