package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Triangles of equal sides fill the paper, pointing up and down in turn, with
// the same gap along every side.
type Triangles struct {
	Size float64 // length of a side
	Gap  float64 // between one and the next
	Line float64 // of the frame of those that point down; 0 is solid
	Up   []int   // ink of those that point up, one a row, in turn
	Down []int   // of those that point down
}

func init() {
	register(family{"triangles", "triangles pointing up and down in turn", func(p *params, _ *draw.Art) Motif {
		t := &Triangles{}
		p.length(&t.Size, "size", 15, 1, 150, "length of a side")
		p.length(&t.Gap, "gap", 2, 0.2, 60, "between one triangle and the next")
		p.length(&t.Line, "line", 0.7, 0, 40, "thickness of the frame of those that point down; 0 is solid")
		p.inks(&t.Up, "up", "1", "ink of those that point up, of each row in turn")
		p.inks(&t.Down, "down", "2", "ink of those that point down, of each row in turn; 0 leaves them out")
		return t
	}})
}

// rows are the middles of the bases of a tiling by triangles with half the gap
// around each.
func (t *Triangles) rows() Recurrence {
	side := t.Size + math.Sqrt(3)*t.Gap
	return Recurrence{Repeat: Brick, DX: side, DY: side * math.Sqrt(3) / 2, Step: 0.5}
}

// Count implements Motif.
func (t *Triangles) Count(area draw.Rect) float64 {
	rows := t.rows()
	return 2 * cells(area, rows.DX, rows.DY)
}

// Draw implements Motif.
func (t *Triangles) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	rows := t.rows()
	corners := regular(3, t.Size/math.Sqrt(3))
	inradius := t.Size / math.Sqrt(12)
	for _, way := range []struct {
		inks []int
		line float64
		at   draw.Matrix
	}{
		{t.Up, 0, draw.Translate(0, -rows.DY/3)},
		{t.Down, t.Line, draw.Matrix{A: 1, D: -1, E: rows.DX / 2, F: -rows.DY * 2 / 3}},
	} {
		rows.place(s, area, rows.DX*1.2, way.inks, func(ink int) *draw.Symbol {
			return s.Symbol(key("triangle", t.Size, t.Gap, way.line, way.at, ink, inks), func(s *draw.Surface) {
				if ink != 0 {
					s.Fill(framed(corners, inradius, way.line).Transform(way.at), inks.Ink(ink))
				}
			})
		})
	}
}
