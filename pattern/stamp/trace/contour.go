// Package trace turns the coverage of one ink into paths, so that it prints
// sharp at any size. Lengths are pixels of the coverage.
package trace

import (
	"context"
	"image"

	"underflap/pattern/draw"
)

// half is the coverage that the outline runs along.
const half = 127.5

// contours are the closed lines along which the coverage is one half, between
// pixel middles by straight interpolation (marching squares: Lorensen and
// Cline, Marching Cubes, SIGGRAPH 1987, in the plane). Ink lies on the right of
// the way they run, y being down, so that a hole runs against what is around it. When
// ctx ends it stops.
func contours(ctx context.Context, cover *image.Alpha) [][]draw.Point {
	m := marcher{cover: cover, next: map[int]int{}}
	b := cover.Rect
	for y := -1; y < b.Dy() && ctx.Err() == nil; y++ {
		for x := -1; x < b.Dx(); x++ {
			m.cell(x, y)
		}
	}
	var all [][]draw.Point
	for _, start := range m.starts {
		if ctx.Err() != nil {
			break
		}
		if _, there := m.next[start]; !there {
			continue
		}
		var line []draw.Point
		for at := start; ; {
			line = append(line, m.crossing(at))
			next := m.next[at]
			delete(m.next, at)
			if at = next; at == start {
				break
			}
		}
		all = append(all, line)
	}
	return all
}

// marcher walks over the cells between four pixel middles each. An edge is a
// side of a cell that the outline crosses: twice the place of its first pixel,
// and one more when it runs down.
type marcher struct {
	cover  *image.Alpha
	next   map[int]int
	starts []int // in the order they were found
}

func (m *marcher) at(x, y int) float64 {
	b := m.cover.Rect
	if x < 0 || y < 0 || x >= b.Dx() || y >= b.Dy() {
		return 0
	}
	return float64(m.cover.Pix[y*m.cover.Stride+x])
}

func (m *marcher) edge(x, y, down int) int { return 2*((y+1)*(m.cover.Rect.Dx()+2)+x+1) + down }

// cell joins the edges of the cell whose upper left corner is the middle of
// pixel (x, y).
func (m *marcher) cell(x, y int) {
	a, b, c, d := m.at(x, y), m.at(x+1, y), m.at(x+1, y+1), m.at(x, y+1) // clockwise
	inked := [4]bool{a > half, b > half, c > half, d > half}
	side := [4]int{m.edge(x, y, 0), m.edge(x+1, y, 1), m.edge(x, y+1, 0), m.edge(x, y, 1)} // top, right, bottom, left
	joined := a+b+c+d > 4*half                                                             // the ink of two opposite corners meets in the middle
	for i := range side {
		if inked[i] || !inked[(i+1)%4] {
			continue // clockwise along side i it must turn from paper to ink
		}
		// the line leaves where the ink ends, clockwise; where four sides are
		// crossed it keeps to its own corner unless the ink is joined
		end := (i + 1) % 4
		for inked[end] && inked[(end+1)%4] {
			end = (end + 1) % 4
		}
		if joined && !inked[(i+2)%4] && inked[(i+3)%4] {
			end = (i + 3) % 4
		}
		m.next[side[end]] = side[i]
		m.starts = append(m.starts, side[end])
	}
}

// crossing is the place on an edge where the coverage is one half.
func (m *marcher) crossing(edge int) draw.Point {
	down, place := edge%2, edge/2
	x, y := place%(m.cover.Rect.Dx()+2)-1, place/(m.cover.Rect.Dx()+2)-1
	from, to := m.at(x, y), m.at(x+1-down, y+down)
	t := (half - from) / (to - from)
	p := draw.Point{X: float64(x) + 0.5, Y: float64(y) + 0.5}
	if down == 1 {
		p.Y += t
	} else {
		p.X += t
	}
	return p
}
