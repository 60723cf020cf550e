package template

import (
	"math"

	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// cell is the grain, in millimetres, at which room for words is sought. What
// is asked to keep a distance from a cell's middle keeps cell/√2 less.
const cell = 0.8

// grid is a part of laid space, turned, as cells that are free or taken.
type grid struct {
	turn          float64 // degrees clockwise: words along the grid's rows
	x, y          float64 // its top left, turned
	columns, rows int
	taken         []int32 // how many cells are taken above and left of a corner
}

// newGrid looks at every cell of the box around points, turned.
func newGrid(turn float64, around []geom.Point, free func(geom.Point) bool) *grid {
	back, there := draw.Turn(-turn), draw.Turn(turn)
	var turned []geom.Point
	for _, p := range around {
		q := back.Apply(draw.Point(p))
		turned = append(turned, geom.Point(q))
	}
	b := bounds(turned)
	g := &grid{turn: turn, x: b.MinX, y: b.MinY, columns: max(0, int(b.Width()/cell)), rows: max(0, int(b.Height()/cell))}
	g.taken = make([]int32, (g.columns+1)*(g.rows+1))
	for r := range g.rows {
		sum := int32(0)
		for c := range g.columns {
			p := there.Apply(draw.Point{X: g.x + (float64(c)+0.5)*cell, Y: g.y + (float64(r)+0.5)*cell})
			if !free(geom.Point(p)) {
				sum++
			}
			g.taken[(r+1)*(g.columns+1)+c+1] = g.taken[r*(g.columns+1)+c+1] + sum
		}
	}
	return g
}

// spot is the free place for a box, width along the grid's rows, whose middle
// is nearest to a point: the map from the box, its top left in the origin, to
// laid space.
func (g *grid) spot(width, height float64, near geom.Point) (at draw.Matrix, ok bool) {
	w, h := int(math.Ceil(width/cell)), int(math.Ceil(height/cell))
	q := draw.Turn(-g.turn).Apply(draw.Point(near))
	best := math.Inf(1)
	stride := g.columns + 1
	for r := 0; r+h <= g.rows; r++ {
		for c := 0; c+w <= g.columns; c++ {
			if g.taken[(r+h)*stride+c+w]-g.taken[r*stride+c+w]-g.taken[(r+h)*stride+c]+g.taken[r*stride+c] > 0 {
				continue
			}
			x, y := g.x+float64(c)*cell, g.y+float64(r)*cell
			if d := math.Hypot(x+width/2-q.X, y+height/2-q.Y); d < best-1e-9 {
				best, ok = d, true
				at = draw.Turn(g.turn).After(draw.Translate(x, y))
			}
		}
	}
	return at, ok
}

// readable is the direction along a segment in which words are read without
// turning the page over: from -90 (up the page) to less than 90 degrees
// clockwise.
func (s segment) readable() float64 {
	turn := math.Atan2(s.b.Y-s.a.Y, s.b.X-s.a.X) * 180 / math.Pi
	turn = math.Round(turn*1e6) / 1e6 // quarter turns are exact
	for turn > 89.999 {
		turn -= 180
	}
	for turn < -90 {
		turn += 180
	}
	return turn
}
