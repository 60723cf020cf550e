package pattern

import (
	"math"
	"testing"

	"underflap/pattern/draw"
)

// Schattschneider's chart ("The plane symmetry groups: their recognition and
// notation", American Mathematical Monthly 85, 1978; from memory): what tells
// the groups apart by their pictures alone.
type recognised struct {
	turns   int  // the highest order of a turning point
	mirrors int  // directions of mirrors
	glides  bool // along lines that are no mirrors
	centred bool // all of those turning points lie on mirrors
}

var chart = map[string]recognised{
	"p1": {1, 0, false, false}, "p2": {2, 0, false, false},
	"pm": {1, 1, false, false}, "pg": {1, 0, true, false}, "cm": {1, 1, true, false},
	"p2mm": {2, 2, false, true}, "p2mg": {2, 1, true, false}, "p2gg": {2, 0, true, false}, "c2mm": {2, 2, true, false},
	"p4": {4, 0, false, false}, "p4mm": {4, 4, true, true}, "p4gm": {4, 2, true, false},
	"p3": {3, 0, false, false}, "p3m1": {3, 3, true, true}, "p31m": {3, 3, true, false},
	"p6": {6, 0, false, false}, "p6mm": {6, 6, true, true},
}

// The group is told from the picture with nothing known but that it is a
// pattern: a symmetry carries one spot to another, so there are only so many to
// try. No picture has a symmetry more than its group, nor one less.
func TestAGroupIsRecognisedFromItsPicture(t *testing.T) {
	told := map[recognised]string{}
	for name, want := range chart {
		if other, ok := told[want]; ok {
			t.Fatalf("the chart does not tell %s from %s", name, other)
		}
		told[want] = name
		for i, d := range groupDesigns(name) {
			if got := likenessOf(t, d).recognise(t, d.Turn); got != want {
				t.Errorf("%s, design %d: the picture shows %+v, want %+v", name, i, got, want)
			}
		}
	}
}

// recognise finds all symmetries that carry the spot nearest the middle to
// another; lines are sought every 15 degrees from a direction.
func (l likeness) recognise(t *testing.T, from float64) recognised {
	const radius, around, near = 14, 24, 0.25
	blots := l.blots()
	if len(blots) == 0 {
		return recognised{}
	}
	first := blots[0]
	for _, b := range blots {
		if math.Hypot(b.X, b.Y) < math.Hypot(first.X, first.Y) {
			first = b
		}
	}
	is := func(m draw.Matrix) bool {
		if l.changes(m, radius, 1.9) > 2*changed { // most are none by far
			return false
		}
		got := l.changes(m, radius, 0.47)
		if got > unchanged && got < changed {
			t.Errorf("a map that moves %.2f of the ink is neither a symmetry nor none", got)
		}
		return got < unchanged
	}
	carrying := func(m draw.Matrix) []draw.Matrix {
		var all []draw.Matrix
		to := m.Apply(first)
		for _, b := range blots {
			if math.Hypot(b.X-first.X, b.Y-first.Y) > around {
				continue
			}
			if m.E, m.F = b.X-to.X, b.Y-to.Y; is(m) {
				all = append(all, m)
			}
		}
		return all
	}

	var seen recognised
	var centres []draw.Point
	seen.turns = 1
	for _, order := range []int{6, 4, 3, 2} {
		m := turning(360/float64(order), draw.Point{})
		if found := carrying(m); len(found) > 0 {
			for _, m := range found { // c = m(c)
				det := (1-m.A)*(1-m.D) - m.B*m.C
				centres = append(centres, draw.Point{X: ((1-m.D)*m.E + m.C*m.F) / det, Y: (m.B*m.E + (1-m.A)*m.F) / det})
			}
			seen.turns = order
			break
		}
	}

	var mirrors []draw.Point // their directions
	for degrees := from; degrees < from+179; degrees += 15 {
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		u := draw.Point{X: cos, Y: sin}
		var lines, glides []float64 // how far from the middle
		for _, m := range carrying(mirroring(draw.Point{}, u, 0)) {
			along, across := m.E*cos+m.F*sin, (m.F*cos-m.E*sin)/2
			if math.Abs(along) < near {
				lines = append(lines, across)
			} else {
				glides = append(glides, across)
			}
		}
		if len(lines) > 0 {
			seen.mirrors++
			mirrors = append(mirrors, u)
		}
		for _, across := range glides {
			on := is(mirroring(draw.Point{X: -sin * across, Y: cos * across}, u, 0))
			seen.glides = seen.glides || !on
		}
	}
	seen.centred = len(mirrors) > 0 && len(centres) > 0
	for _, c := range centres {
		on := false
		for _, u := range mirrors {
			on = on || is(mirroring(c, u, 0))
		}
		seen.centred = seen.centred && on
	}
	return seen
}

// A cell holds as many motifs as the Tables give the general position: counted
// in the picture, spots that no translation carries to one another.
func TestACellHoldsTheTablesMultiplicity(t *testing.T) {
	for name, want := range tabulated {
		for i, d := range groupDesigns(name) {
			cell := cellOf(name, d)
			toCell := draw.Matrix{A: cell.a.X, B: cell.a.Y, C: cell.b.X, D: cell.b.Y}.Inverse()
			var apart []draw.Point // one spot of each kind, in parts of the sides
			blots := likenessOf(t, d).blots()
			for _, b := range blots {
				p := toCell.Apply(b)
				known := false
				for _, q := range apart {
					dx, dy := p.X-q.X, p.Y-q.Y
					dx, dy = dx-math.Round(dx), dy-math.Round(dy)
					known = known || math.Hypot(dx*cell.a.X+dy*cell.b.X, dx*cell.a.Y+dy*cell.b.Y) < 0.3
				}
				if !known {
					apart = append(apart, p)
				}
			}
			if len(apart) != want.multiplicity || len(blots) < 3*want.multiplicity/2 {
				t.Errorf("%s, design %d: %d motifs a cell among %d, the Tables say %d", name, i, len(apart), len(blots), want.multiplicity)
			}
		}
	}
}
