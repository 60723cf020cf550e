package pattern

import (
	"underflap/pattern/draw"
)

// Confetti are small shapes of several kinds and inks, scattered so that none
// touches another.
type Confetti struct {
	Size   float64 // across the circle that every shape keeps within
	Shapes []string
	Inks   []int
	Recurrence
}

var confettiShapes = []string{"dots", "rings", "triangles", "squares", "dashes", "crosses", "stars"}

func init() {
	register(family{"confetti", "small shapes of several kinds and inks, scattered", func(p *params, _ *draw.Art) Motif {
		c := &Confetti{}
		p.length(&c.Size, "size", 6, 0.5, 80, "across the circle that every shape keeps within")
		p.names(&c.Shapes, "shapes", "dots,rings,triangles,dashes", confettiShapes, "the shapes, in any mixture")
		p.inks(&c.Inks, "inks", "1,2,3,4", "inks, in any mixture")
		p.recurrence(&c.Recurrence, c.Size, c.Size, 2.5, Toss)
		return c
	}})
}

// Count implements Motif.
func (c *Confetti) Count(area draw.Rect) float64 { return c.count(area, c.Size/2) }

// Draw implements Motif. A plane group keeps to one shape and ink, else the
// picture would lose its symmetry.
func (c *Confetti) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	type kind struct{ shape, ink int }
	at := map[kind][]draw.Matrix{}
	c.each(area, c.Size/2, func(p Place) {
		if c.Symmetry != "" {
			p.Column = 0
		}
		falls := seed(c.seed).chance(p.Column, p.Row)
		k := kind{falls.IntN(len(c.Shapes)), falls.IntN(len(c.Inks))}
		at[k] = append(at[k], p.At)
	})
	for i, shape := range c.Shapes {
		for j, ink := range c.Inks {
			if places := at[kind{i, j}]; len(places) > 0 {
				s.Place(s.Symbol(key("confetti", shape, c.Size, inks.Ink(ink)), func(s *draw.Surface) {
					piece(s, shape, c.Size/2, inks.Ink(ink))
				}), places...)
			}
		}
	}
}

// piece draws one shape within a radius. Their sizes differ so that none looks
// larger than the others.
func piece(s *draw.Surface, shape string, r float64, ink draw.Colour) {
	bar := func(long, thick float64) []draw.Point {
		return []draw.Point{{X: -long, Y: -thick}, {X: long, Y: -thick}, {X: long, Y: thick}, {X: -long, Y: thick}}
	}
	switch shape {
	case "dots":
		s.Fill(draw.Circle(0, 0, 0.55*r), ink)
	case "rings":
		s.Fill(annulus(0.76*r, 0.28*r), ink)
	case "triangles":
		s.Fill(polygon(regular(3, 0.85*r)), ink)
	case "squares":
		s.Fill(polygon(bar(0.52*r, 0.52*r)), ink)
	case "dashes":
		var p draw.Path
		p.Move(-0.75*r, 0)
		p.Line(0.75*r, 0)
		s.Stroke(p, ink, 0.36*r)
	case "crosses":
		s.Fill(polygon(bar(0.8*r, 0.16*r)), ink)
		s.Fill(polygon(bar(0.16*r, 0.8*r)), ink)
	case "stars":
		s.Fill(polygon(star(5, r, 0.45)), ink)
	}
}
