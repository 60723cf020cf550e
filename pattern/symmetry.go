package pattern

import (
	"context"
	"math"

	"underflap/pattern/draw"
	"underflap/pattern/draw/recall"
)

// Cell is the free part of a plane group's cell.
type Cell struct {
	Ratio float64 // height to width, where the group leaves it free
	Angle float64 // degrees between its sides, where the group leaves it free
}

// orbit is a plane group laid out for a motif of a size: the cell's sides and
// the motifs of one cell.
type orbit struct {
	a, b   draw.Point // the cell's sides, in millimetres
	area   float64
	motifs []draw.Matrix
}

// unitOrbit is an orbit whose first side is 1 long; apart is the least distance
// of two motifs.
type unitOrbit struct {
	orbit
	apart float64
}

type orbitKey struct {
	group string
	cell  Cell
}

// unitOrbits are the latest: a person may try many cells.
var unitOrbits = recall.New[orbitKey, unitOrbit](256)

// orbitOf lays out the group so that motifs keep the spacing.
func (r *Recurrence) orbitOf(reach float64) orbit {
	key := orbitKey{r.Symmetry, r.Cell}
	unit, _ := unitOrbits.Of(context.Background(), key, func() (unitOrbit, int64, error) { // milliseconds, and cannot fail
		return newOrbit(groupOf(r.Symmetry), r.Cell), 1, nil
	})
	size := (2*reach + r.Spacing) / unit.apart
	o := orbit{a: scaled(unit.a, size), b: scaled(unit.b, size), area: unit.area * size * size}
	for _, m := range unit.motifs {
		m.E, m.F = m.E*size, m.F*size
		o.motifs = append(o.motifs, m)
	}
	return o
}

func scaled(p draw.Point, k float64) draw.Point { return draw.Point{X: p.X * k, Y: p.Y * k} }

// sides are the cell's sides, the first one 1 long.
func (g planeGroup) sides(c Cell) (a, b draw.Point) {
	angle, ratio := 90.0, c.Ratio
	switch g.lattice {
	case oblique:
		angle = c.Angle
	case square:
		ratio = 1
	case hexagonal:
		angle, ratio = 120, 1
	}
	sin, cos := math.Sincos(angle * math.Pi / 180)
	if angle == 90 {
		sin, cos = 1, 0
	}
	turned := draw.Turn(laid[g.name].turn)
	return turned.Apply(draw.Point{X: 1}), turned.Apply(draw.Point{X: ratio * cos, Y: ratio * sin})
}

// newOrbit puts the motif where its neighbours are farthest away, so that no
// motif lies on a mirror or a turning point: a search over the cell, then around
// the best.
func newOrbit(g planeGroup, c Cell) unitOrbit {
	a, b := g.sides(c)
	ops := g.operations()
	at := func(x, y float64) draw.Point { return draw.Point{X: x*a.X + y*b.X, Y: x*a.Y + y*b.Y} }
	apart := func(x, y float64) float64 {
		least := math.Inf(1)
		for i, o := range ops {
			dx, dy := o.a*x+o.b*y+o.u-x, o.c*x+o.d*y+o.v-y
			dx, dy = dx-math.Round(dx), dy-math.Round(dy)
			for m := -2.0; m <= 2; m++ {
				for n := -2.0; n <= 2; n++ {
					if i == 0 && m == 0 && n == 0 {
						continue
					}
					p := at(dx+m, dy+n)
					least = math.Min(least, math.Hypot(p.X, p.Y))
				}
			}
		}
		return least
	}
	const grid = 36
	var x0, y0 float64
	best := apart(0, 0)
	consider := func(x, y float64) {
		if d := apart(x, y); d > best+1e-9 {
			best, x0, y0 = d, x, y
		}
	}
	for i := range grid {
		for j := range grid {
			consider((float64(i)+0.5)/grid, (float64(j)+0.5)/grid)
		}
	}
	for step := 0.5 / grid; step > 1e-7; step /= 2 {
		x, y := x0, y0
		for _, d := range [][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}, {1, 1}, {-1, -1}, {1, -1}, {-1, 1}} {
			consider(x+d[0]*step, y+d[1]*step)
		}
	}
	u := unitOrbit{orbit: orbit{a: a, b: b, area: math.Abs(a.X*b.Y - a.Y*b.X)}, apart: best}
	det := a.X*b.Y - a.Y*b.X
	lies := laid[g.name]
	for _, o := range ops {
		p := at(wrapped(o.a*x0+o.b*y0+o.u+lies.u), wrapped(o.c*x0+o.d*y0+o.v+lies.v))
		// the operation seen on the page: sides times operation times sides' inverse
		ux, uy := at(o.a, o.c), at(o.b, o.d) // where the sides go
		m := draw.Matrix{
			A: (ux.X*b.Y - uy.X*a.Y) / det, C: (uy.X*a.X - ux.X*b.X) / det,
			B: (ux.Y*b.Y - uy.Y*a.Y) / det, D: (uy.Y*a.X - ux.Y*b.X) / det,
			E: p.X, F: p.Y}
		u.motifs = append(u.motifs, m)
	}
	return u
}

func wrapped(v float64) float64 { return v - math.Floor(v) }

// orbits gives the places of a symmetry: cell by cell. All are of one orbit and
// share one ink, else the picture would lose its symmetry.
func (r *Recurrence) orbits(area draw.Rect, reach float64, f func(Place)) {
	o := r.orbitOf(reach)
	// the cells that the area touches, by its corners
	toCell := draw.Matrix{A: o.a.X, B: o.a.Y, C: o.b.X, D: o.b.Y}.Inverse()
	box := toCell.Bounds(area)
	for row := int(math.Floor(box.MaxY)); row >= int(math.Floor(box.MinY))-1; row-- {
		for column := int(math.Floor(box.MinX)) - 1; column <= int(math.Floor(box.MaxX)); column++ {
			x, y := float64(column)*o.a.X+float64(row)*o.b.X, float64(column)*o.a.Y+float64(row)*o.b.Y
			for _, m := range o.motifs {
				m.E, m.F = m.E+x, m.F+y
				f(Place{Column: column, At: m})
			}
		}
	}
}
