package pattern

import (
	"math"
	"testing"

	"underflap/pattern/draw"
)

// flags is a family for tests: a pennant on a pole, which has no symmetry of its
// own, so that every symmetry of a picture comes from where the flags are.
type flags struct {
	Size float64 // how far a flag reaches from its middle
	Recurrence
}

func (f *flags) Count(area draw.Rect) float64 { return f.count(area, f.Size) }

func (f *flags) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	f.place(s, area, f.Size, []int{1}, func(ink int) *draw.Symbol {
		return s.Symbol(key("flag", f.Size, inks.Ink(ink)), func(s *draw.Surface) {
			var p draw.Path
			p.Move(-0.55, -0.8)
			p.Line(0.85, -0.45)
			p.Line(-0.15, -0.1)
			p.Line(-0.15, 0.95)
			p.Line(-0.55, 0.8)
			p.Close()
			s.Fill(p.Transform(draw.Scale(f.Size)), inks.Ink(ink))
		})
	})
}

// flagged is a design of flags that go where r says.
func flagged(r Recurrence, size float64) Design {
	return Design{Name: "flags", Motif: &flags{Size: size, Recurrence: r}, Colours: blackOnWhite, Scale: 1}
}

// box is a square around the origin.
func box(side float64) draw.Rect {
	return draw.Rect{MinX: -side / 2, MinY: -side / 2, MaxX: side / 2, MaxY: side / 2}
}

func placesOf(r *Recurrence, area draw.Rect, reach float64) []Place {
	var all []Place
	r.each(area, reach, func(p Place) { all = append(all, p) })
	return all
}

// everyRecurrence has each repeat and each plane group once, with cells that
// have no symmetry beyond what their group needs.
func everyRecurrence() map[string]Recurrence {
	all := map[string]Recurrence{}
	for _, repeat := range repeats {
		all[string(repeat)] = Recurrence{Repeat: repeat, DX: 9, DY: 7, Step: 0.3, Alternate: 35, Density: 1, Spacing: 1}
	}
	for _, g := range planeGroups {
		all[g.name] = Recurrence{Symmetry: g.name, Spacing: 1, Cell: Cell{Ratio: 1.37, Angle: 75}}
	}
	return all
}

// same tells whether two maps carry every point near the origin to the same
// place, within a hair.
func same(a, b draw.Matrix, hair float64) bool {
	for _, d := range []float64{a.A - b.A, a.B - b.B, a.C - b.C, a.D - b.D, a.E - b.E, a.F - b.F} {
		if math.Abs(d) > hair {
			return false
		}
	}
	return true
}

// A flag stays within its reach, on which spacing rests.
func TestAFlagKeepsWithinItsReach(t *testing.T) {
	page := pageOf(flagged(Recurrence{Repeat: Straight, DX: 100, DY: 100}, 10), 30)
	draw.Walk(page.Nodes(), func(n draw.Node) {
		if use, ok := n.(*draw.Use); ok {
			for _, p := range use.Symbol.Nodes[0].(*draw.Fill).Path.Points {
				if far := math.Hypot(p.X, p.Y); far > 10 {
					t.Errorf("a flag of 10 reaches %g", far)
				}
			}
		}
	})
}
