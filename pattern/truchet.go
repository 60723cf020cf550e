package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Truchet are square tiles with two quarter arcs each, turned one way or the
// other by chance, so that the arcs join into winding lines and rings. The left
// half mirrors the right one.
type Truchet struct {
	Size  float64 // side of a tile
	Lines int     // side by side
	Line  float64 // thickness
	Gap   float64 // between two lines
	Ink   int
	seed
}

func init() {
	register(family{"truchet", "winding lines of quarter arcs", func(p *params, _ *draw.Art) Motif {
		t := &Truchet{}
		p.length(&t.Size, "size", 12, 1, 120, "side of a tile: lines are half of it from the next ones' middle")
		p.count(&t.Lines, "lines", 2, 1, 6, "lines side by side")
		p.length(&t.Line, "line", 0, 0, 40, "thickness of a line; 0 is what looks well")
		p.length(&t.Gap, "gap", 0, 0, 40, "between lines side by side; 0 is what looks well")
		p.count(&t.Ink, "ink", 1, 0, MostInks, "ink of the lines")
		t.settle(p)
		return t
	}})
}

// settle fills in thickness and gap, and keeps the two arcs of a tile apart.
func (t *Truchet) settle(p *params) {
	lines, gaps := float64(t.Lines), float64(t.Lines-1)
	room := (math.Sqrt2 - 1) * t.Size // between the middles of the two arcs, and for one's lines
	if t.Line == 0 {
		t.Line = math.Min(0.15, 0.36/(lines+1.5*gaps)) * t.Size
	}
	p.between("line", t.Line, 0, room/lines)
	if t.Lines == 1 {
		t.Gap = 0
		return
	}
	if t.Gap == 0 {
		t.Gap = 0.8 * (room - lines*t.Line) / gaps
	}
	p.between("gap", t.Gap, 0, math.Max(0, room-lines*t.Line)/gaps)
}

// Count implements Motif.
func (t *Truchet) Count(area draw.Rect) float64 {
	return 2 * float64(t.Lines) * cells(area, t.Size, t.Size)
}

// falling tells which way a tile lies: its arcs are about the upper left and the
// lower right corner, or about the other two.
func (t *Truchet) falling(column, row int) bool {
	if column < 0 {
		return !t.falling(-1-column, row)
	}
	return t.chance(column, row).IntN(2) == 0
}

// Draw implements Motif. Arcs meet at right angles to the tiles' sides, and their
// round ends lie within the next arcs, so that no hairline opens between tiles.
func (t *Truchet) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	tile := s.Symbol(key("truchet", t.Size, t.Lines, t.Line, t.Gap, inks.Ink(t.Ink)), func(s *draw.Surface) {
		h := t.Size / 2
		for i := range t.Lines {
			r := h + (float64(i)-float64(t.Lines-1)/2)*(t.Line+t.Gap)
			for _, c := range []float64{-h, h} {
				var arc draw.Path
				arc.Move(c-math.Copysign(r, c), c)
				arc.Arc(draw.Point{X: c, Y: c}, math.Pi/2)
				s.Stroke(arc, inks.Ink(t.Ink), t.Line)
			}
		}
	})
	area = area.Grow(t.Line / 2) // round ends reach beyond a tile
	var at []draw.Matrix
	for row := int(math.Floor(area.MinY / t.Size)); float64(row)*t.Size <= area.MaxY; row++ {
		for column := int(math.Floor(area.MinX / t.Size)); float64(column)*t.Size <= area.MaxX; column++ {
			m := draw.Translate((float64(column)+0.5)*t.Size, (float64(row)+0.5)*t.Size)
			if !t.falling(column, row) {
				m.A = -1
			}
			at = append(at, m)
		}
	}
	s.Place(tile, at...)
}
