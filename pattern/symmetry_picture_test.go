package pattern

import (
	"math"
	"testing"

	"underflap/pattern/draw"
)

// element is a symmetry element of a cell as the diagrams of International
// Tables for Crystallography, volume A, draw it: places and directions are in
// parts of the cell's sides.
type element struct {
	order  int // of a turning point; 0 is a line
	x, y   float64
	dx, dy float64 // along a line: of a glide, how far
	glides bool
}

func turn(order int, x, y float64) element { return element{order: order, x: x, y: y} }
func line(x, y, dx, dy float64) element    { return element{x: x, y: y, dx: dx, dy: dy} }
func glide(x, y, dx, dy float64) element {
	return element{x: x, y: y, dx: dx, dy: dy, glides: true}
}

// The diagrams, from memory. What is lacking is what the next richer group, or
// one easily taken for this, would have.
const third = 1.0 / 3

var diagrams = map[string]struct{ has, lacks []element }{
	"p1": {nil, []element{turn(2, 0, 0), turn(2, 0.5, 0.5), line(0, 0, 1, 0), line(0, 0, 0, 1)}},
	"p2": {[]element{turn(2, 0, 0), turn(2, 0.5, 0), turn(2, 0, 0.5), turn(2, 0.5, 0.5)},
		[]element{turn(4, 0, 0), turn(2, 0.25, 0.25), line(0, 0, 1, 0), line(0, 0, 0, 1)}},
	"pm": {[]element{line(0, 0, 0, 1), line(0.5, 0, 0, 1)},
		[]element{line(0.25, 0, 0, 1), line(0, 0, 1, 0), turn(2, 0, 0), glide(0, 0, 0, 0.5), glide(0.25, 0, 0, 0.5)}},
	"pg": {[]element{glide(0, 0, 0, 0.5), glide(0.5, 0, 0, 0.5)},
		[]element{line(0, 0, 0, 1), line(0.25, 0, 0, 1), line(0.5, 0, 0, 1), turn(2, 0, 0), glide(0.25, 0, 0, 0.5)}},
	"cm": {[]element{line(0, 0, 0, 1), line(0.5, 0, 0, 1), glide(0.25, 0, 0, 0.5), glide(0.75, 0, 0, 0.5)},
		[]element{line(0, 0, 1, 0), turn(2, 0, 0), turn(2, 0.25, 0.25), line(0.25, 0, 0, 1)}},
	"p2mm": {[]element{turn(2, 0, 0), turn(2, 0.5, 0), turn(2, 0, 0.5), turn(2, 0.5, 0.5),
		line(0, 0, 0, 1), line(0.5, 0, 0, 1), line(0, 0, 1, 0), line(0, 0.5, 1, 0)},
		[]element{turn(4, 0, 0), turn(4, 0.5, 0.5), turn(2, 0.25, 0.25), glide(0.25, 0, 0, 0.5)}},
	"p2mg": {[]element{turn(2, 0, 0), turn(2, 0.5, 0), turn(2, 0, 0.5), turn(2, 0.5, 0.5),
		line(0.25, 0, 0, 1), line(0.75, 0, 0, 1), glide(0, 0, 0.5, 0), glide(0, 0.5, 0.5, 0)},
		[]element{line(0, 0, 0, 1), line(0, 0, 1, 0), line(0, 0.25, 1, 0), turn(2, 0.25, 0)}},
	"p2gg": {[]element{turn(2, 0, 0), turn(2, 0.5, 0), turn(2, 0, 0.5), turn(2, 0.5, 0.5),
		glide(0.25, 0, 0, 0.5), glide(0.75, 0, 0, 0.5), glide(0, 0.25, 0.5, 0), glide(0, 0.75, 0.5, 0)},
		[]element{line(0.25, 0, 0, 1), line(0, 0, 0, 1), line(0, 0.25, 1, 0), turn(4, 0, 0)}},
	"c2mm": {[]element{turn(2, 0, 0), turn(2, 0.5, 0), turn(2, 0.25, 0.25), turn(2, 0.25, 0.75),
		line(0, 0, 0, 1), line(0.5, 0, 0, 1), line(0, 0, 1, 0), line(0, 0.5, 1, 0), glide(0.25, 0, 0, 0.5), glide(0, 0.25, 0.5, 0)},
		[]element{turn(4, 0, 0), turn(4, 0.25, 0.25), line(0.25, 0, 0, 1)}},
	"p4": {[]element{turn(4, 0, 0), turn(4, 0.5, 0.5), turn(2, 0.5, 0), turn(2, 0, 0.5)},
		[]element{line(0, 0, 0, 1), line(0, 0, 1, 1), line(0.5, 0, 1, 1), line(0.25, 0, 0, 1), turn(4, 0.5, 0), glide(0.25, 0, 0, 0.5)}},
	"p4mm": {[]element{turn(4, 0, 0), turn(4, 0.5, 0.5), turn(2, 0.5, 0),
		line(0, 0, 0, 1), line(0.5, 0, 0, 1), line(0, 0, 1, 0), line(0, 0, 1, 1), line(0, 0, 1, -1), glide(0.5, 0, 0.5, 0.5), glide(0.5, 0, 0.5, -0.5)},
		[]element{turn(4, 0.5, 0), line(0.5, 0, 1, 1), line(0.25, 0, 0, 1)}},
	"p4gm": {[]element{turn(4, 0, 0), turn(4, 0.5, 0.5), turn(2, 0.5, 0),
		line(0.5, 0, 1, 1), line(0.5, 0, 1, -1), glide(0.25, 0, 0, 0.5), glide(0, 0.25, 0.5, 0), glide(0, 0, 0.5, 0.5)},
		[]element{line(0, 0, 0, 1), line(0, 0, 1, 0), line(0, 0, 1, 1), turn(4, 0.5, 0)}},
	"p3": {[]element{turn(3, 0, 0), turn(3, third, 2*third), turn(3, 2*third, third)},
		[]element{turn(6, 0, 0), turn(2, 0, 0), turn(2, 0.5, 0), line(0, 0, 1, 0), line(0, 0, 2, 1)}},
	"p3m1": {[]element{turn(3, 0, 0), turn(3, third, 2*third), turn(3, 2*third, third),
		line(0, 0, 1, -1), line(0, 0, 1, 2), line(0, 0, 2, 1), line(third, 2*third, 2, 1), glide(0.25, 0, 0.5, 1)},
		[]element{turn(6, 0, 0), turn(2, 0.5, 0), line(0, 0, 1, 0), line(0, 0, 0, 1), line(0, 0, 1, 1)}},
	"p31m": {[]element{turn(3, 0, 0), turn(3, third, 2*third), turn(3, 2*third, third),
		line(0, 0, 1, 0), line(0, 0, 0, 1), line(0, 0, 1, 1), glide(0, 0.5, 0.5, 0)},
		[]element{turn(6, 0, 0), turn(2, 0.5, 0), line(0, 0, 2, 1), line(0, 0, 1, -1), line(third, 2*third, 2, 1), line(third, 2*third, 1, 0)}},
	"p6": {[]element{turn(6, 0, 0), turn(3, third, 2*third), turn(2, 0.5, 0), turn(2, 0, 0.5), turn(2, 0.5, 0.5)},
		[]element{turn(6, third, 2*third), line(0, 0, 1, 0), line(0, 0, 2, 1)}},
	"p6mm": {[]element{turn(6, 0, 0), turn(3, third, 2*third), turn(2, 0.5, 0), line(0, 0, 1, 0), line(0, 0, 0, 1), line(0, 0, 1, 1),
		line(0, 0, 1, -1), line(0, 0, 1, 2), line(0, 0, 2, 1), glide(0.25, 0, 0.5, 1), glide(0, 0.5, 0.5, 0)},
		[]element{turn(6, third, 2*third), turn(6, 0.5, 0), line(0.25, 0, 1, 2)}},
}

// onPage is a cell where a design puts it.
type onPage struct{ corner, a, b draw.Point }

// cellOf says where a group's cell lies, its size apart in closed form: with its
// corner on the origin and its first side along x, but for three groups that
// then have a mirror on the centre line.
func cellOf(name string, d Design) onPage {
	r := d.Motif.(*flags).Recurrence
	o := r.orbitOf(d.Motif.(*flags).Size)
	long := math.Hypot(o.a.X, o.a.Y) * d.Scale
	angle, ratio, first := 90.0, 1.0, 0.0
	switch tabulated[name].lattice {
	case oblique:
		angle, ratio = r.Cell.Angle, r.Cell.Ratio
	case rectangular:
		ratio = r.Cell.Ratio
	case hexagonal:
		angle = 120
	}
	var corner float64 // from the origin along the first side
	switch name {
	case "p2mg":
		corner = -0.25
	case "p4gm":
		corner, first = -0.5, 45
	case "p31m":
		first = 90
	}
	along := func(degrees, far float64) draw.Point {
		sin, cos := math.Sincos((degrees + d.Turn) * math.Pi / 180)
		return draw.Point{X: far * cos, Y: far * sin}
	}
	return onPage{along(first, corner*long), along(first, long), along(first+angle, ratio*long)}
}

// the map of the page that an element stands for
func (c onPage) of(e element) draw.Matrix {
	at := func(x, y float64) draw.Point { return draw.Point{X: x*c.a.X + y*c.b.X, Y: x*c.a.Y + y*c.b.Y} }
	p, u := at(e.x, e.y), at(e.dx, e.dy)
	p = draw.Point{X: p.X + c.corner.X, Y: p.Y + c.corner.Y}
	switch {
	case e.order > 0:
		return turning(360/float64(e.order), p)
	case e.glides:
		return mirroring(p, u, math.Hypot(u.X, u.Y))
	}
	return mirroring(p, u, 0)
}

// every group in a few sizes and positions
func groupDesigns(name string) []Design {
	plain := flagged(Recurrence{Symmetry: name, Spacing: 0.6, Cell: Cell{Ratio: 1.37, Angle: 75}}, 2.5)
	turned := flagged(Recurrence{Symmetry: name, Spacing: 1.5, Cell: Cell{Ratio: 0.8, Angle: 110}}, 2)
	turned.Turn, turned.Scale = 20, 1.15
	return []Design{plain, turned}
}

// Every symmetry of a group's diagram leaves the drawn picture as it is, and
// what the group has not, changes it: flags have no symmetry to lend.
func TestPicturesHaveTheSymmetriesOfTheirGroup(t *testing.T) {
	const radius = 16
	worst, closest := 0.0, 9.0
	for name, diagram := range diagrams {
		for i, d := range groupDesigns(name) {
			picture, cell := likenessOf(t, d), cellOf(name, d)
			has := map[element]draw.Matrix{
				{dx: 1}: draw.Translate(cell.a.X, cell.a.Y), {dy: 1}: draw.Translate(cell.b.X, cell.b.Y)}
			for _, e := range diagram.has {
				has[e] = cell.of(e)
			}
			for e, m := range has {
				got := picture.changes(m, radius, 0.37)
				worst = math.Max(worst, got)
				if !(got < unchanged) {
					t.Errorf("%s, design %d: %+v moves %.2f of the ink", name, i, e, got)
				}
			}
			for _, e := range diagram.lacks {
				got := picture.changes(cell.of(e), radius, 0.37)
				closest = math.Min(closest, got)
				if !(got > changed) {
					t.Errorf("%s, design %d: %+v moves but %.2f of the ink", name, i, e, got)
				}
			}
		}
	}
	t.Logf("symmetries move up to %.3f of the ink, others %.3f or more", worst, closest)
}

// Groups with mirrors have one on the centre line, so that the halves of a flap
// mirror each other, at any scale and in any arrangement.
func TestAMirrorRunsUpTheMiddleOfTheFlap(t *testing.T) {
	for name, diagram := range diagrams {
		mirrors := false
		for _, e := range diagram.has {
			mirrors = mirrors || e.order == 0 && !e.glides
		}
		for seed, scale := range []float64{1, 0.8} {
			d := groupDesigns(name)[0]
			d.Scale, d.Seed = scale, uint64(seed)
			got := likenessOf(t, d).changes(mirroring(draw.Point{}, draw.Point{Y: 1}, 0), 20, 0.37)
			if mirrors != (got < unchanged) || mirrors == (got > changed) {
				t.Errorf("%s, seed %d: the halves differ in %.2f of the ink; the group has mirrors: %v", name, seed, got, mirrors)
			}
		}
	}
}
