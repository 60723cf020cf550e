package pattern

import (
	"errors"
	"math"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// The table of plane groups against what International Tables for
// Crystallography, volume A, say beside each group: multiplicity of the general
// position, order of the point group, lattice. Written down from memory here
// too, but by themselves.
var tabulated = map[string]struct {
	multiplicity, point int
	lattice             lattice
}{
	"p1": {1, 1, oblique}, "p2": {2, 2, oblique},
	"pm": {2, 2, rectangular}, "pg": {2, 2, rectangular}, "cm": {4, 2, rectangular},
	"p2mm": {4, 4, rectangular}, "p2mg": {4, 4, rectangular}, "p2gg": {4, 4, rectangular}, "c2mm": {8, 4, rectangular},
	"p4": {4, 4, square}, "p4mm": {8, 8, square}, "p4gm": {8, 8, square},
	"p3": {3, 3, hexagonal}, "p3m1": {6, 6, hexagonal}, "p31m": {6, 6, hexagonal}, "p6": {6, 6, hexagonal}, "p6mm": {12, 12, hexagonal},
}

// then is the operation that applies first, then o, brought back to one cell.
func (o operation) then(first operation) operation {
	return operation{
		a: o.a*first.a + o.b*first.c, b: o.a*first.b + o.b*first.d, u: wrapped(o.a*first.u + o.b*first.v + o.u),
		c: o.c*first.a + o.d*first.c, d: o.c*first.b + o.d*first.d, v: wrapped(o.c*first.u + o.d*first.v + o.v),
	}
}

// A list of operations is a group when it holds the identity, no operation
// twice, and of any two the product: all but for whole translations.
func TestPlaneGroupsAreGroups(t *testing.T) {
	if len(planeGroups) != 17 || len(tabulated) != 17 {
		t.Fatalf("%d plane groups, and the Tables have 17", len(planeGroups))
	}
	for _, g := range planeGroups {
		ops := g.operations()
		known, linear := map[operation]bool{}, map[operation]bool{}
		for _, o := range ops {
			o.u, o.v = wrapped(o.u), wrapped(o.v)
			known[o] = true
			linear[operation{a: o.a, b: o.b, c: o.c, d: o.d}] = true
		}
		want := tabulated[g.name]
		if len(ops) != want.multiplicity || len(known) != want.multiplicity || len(linear) != want.point || g.lattice != want.lattice {
			t.Errorf("%s: %d operations, %d of them different, point group of %d; want %v", g.name, len(ops), len(known), len(linear), want)
		}
		if !known[operation{a: 1, d: 1}] {
			t.Errorf("%s lacks the identity", g.name)
		}
		if known[operation{a: 1, d: 1, u: 0.5, v: 0.5}] != (g.name[0] == 'c') {
			t.Errorf("%s: centred or not, against its name", g.name)
		}
		for _, first := range ops {
			for _, o := range ops {
				if !known[o.then(first)] {
					t.Errorf("%s: %v after %v is no operation of it", g.name, o, first)
				}
			}
		}
	}
}

// Every operation keeps lengths on every cell that the group leaves free, both
// in the table and as it is laid out for drawing; and some operation of each
// group would not on a cell that it does not leave free.
func TestOperationsKeepLengthsOnTheirLattice(t *testing.T) {
	bends := func(o operation, a, b draw.Point) float64 { // how far the sides' lengths and angle change
		at := func(x, y float64) draw.Point { return draw.Point{X: x*a.X + y*b.X, Y: x*a.Y + y*b.Y} }
		dot := func(p, q draw.Point) float64 { return p.X*q.X + p.Y*q.Y }
		ua, ub := at(o.a, o.c), at(o.b, o.d)
		return math.Abs(dot(ua, ua)-dot(a, a)) + math.Abs(dot(ub, ub)-dot(b, b)) + math.Abs(dot(ua, ub)-dot(a, b))
	}
	for _, g := range planeGroups {
		for _, c := range []Cell{{1, 75}, {0.25, 45}, {1.7, 75}, {4, 135}} {
			a, b := g.sides(c)
			for _, o := range g.operations() {
				if bends(o, a, b) > 1e-9 {
					t.Errorf("%s, cell %v: %v is no isometry", g.name, c, o)
				}
			}
			r := Recurrence{Symmetry: g.name, Cell: c, Spacing: 1}
			for _, m := range r.orbitOf(2).motifs {
				if math.Abs(m.A*m.A+m.B*m.B-1)+math.Abs(m.C*m.C+m.D*m.D-1)+math.Abs(m.A*m.C+m.B*m.D) > 1e-9 {
					t.Errorf("%s, cell %v: a motif is drawn bent: %v", g.name, c, m)
				}
			}
		}
		free := []planeGroup{{lattice: oblique}, {lattice: rectangular}}
		for i, wider := range free[:min(int(g.lattice), 2)] {
			a, b := wider.sides(Cell{1.37, 75})
			worst := 0.0
			for _, o := range g.operations() {
				worst = math.Max(worst, bends(o, a, b))
			}
			if worst < 0.1 {
				t.Errorf("%s would do on lattice %d too", g.name, i)
			}
		}
	}
}

// Motifs of every group keep the spacing, and two of them keep no more: the
// cell is as small as can be for where they lie.
func TestMotifsOfAGroupKeepTheSpacing(t *testing.T) {
	for _, g := range planeGroups {
		for _, c := range []Cell{{1, 90}, {0.25, 45}, {1.37, 75}, {4, 135}} {
			for _, spacing := range []float64{0, 2.5} {
				const reach = 1.5
				r := Recurrence{Symmetry: g.name, Cell: c, Spacing: spacing}
				all := placesOf(&r, box(60), reach)
				least := math.Inf(1)
				for i, p := range all {
					for _, q := range all[i+1:] {
						least = math.Min(least, math.Hypot(p.At.E-q.At.E, p.At.F-q.At.F)-2*reach)
					}
				}
				if math.Abs(least-spacing) > 1e-6 {
					t.Errorf("%s, cell %v: motifs are %g apart, spacing %g", g.name, c, least, spacing)
				}
			}
		}
	}
}

// Where mirrors close a triangle around every motif (Coxeter's kaleidoscopes,
// Regular Polytopes, chapter 5), it lies best in the middle of the circle that
// touches all three; in p2mm, of the rectangle.
func TestMirrorsLeaveMotifsTheRoomOfTheirTriangle(t *testing.T) {
	incircle := func(a, b, c float64) float64 { // Heron's
		s := (a + b + c) / 2
		return math.Sqrt((s - a) * (s - b) * (s - c) / s)
	}
	third := 1 / math.Sqrt(3)
	for name, radius := range map[string]float64{
		"p2mm": 0.25,
		"p4mm": incircle(0.5, 0.5, math.Sqrt2/2),
		"p3m1": incircle(third, third, third),
		"p6mm": incircle(third, third/2, 0.5),
	} {
		r := Recurrence{Symmetry: name, Cell: Cell{1, 90}, Spacing: 0}
		o := r.orbitOf(1)
		if side := math.Hypot(o.a.X, o.a.Y); math.Abs(side-1/radius) > 1e-5*side {
			t.Errorf("%s: a motif of radius 1 has a cell of %.6f, the triangle needs %.6f", name, side, 1/radius)
		}
	}
}

// The cell's ratio and angle are taken exactly where the Tables leave a and b,
// and the angle, free.
func TestACellIsFreeWhereItsGroupLeavesItFree(t *testing.T) {
	try := func(words map[string]string) (Recurrence, error) {
		p := params{given: map[string]Setting{}}
		for name, word := range words {
			p.given[name] = Setting{"set " + name, word}
		}
		var r Recurrence
		p.recurrence(&r, 10, 10, 2, Straight)
		return r, p.finish("flags")
	}
	check := func(words map[string]string, name string, free bool) {
		t.Helper()
		_, err := try(words)
		var refused interface{ Flag() string }
		if free != (err == nil) || err != nil && !errors.As(err, &refused) {
			t.Errorf("%v: %v, and the group leaves %s free: %v", words, err, name, free)
		}
	}
	for name, want := range tabulated {
		check(map[string]string{"symmetry": name}, "nothing", true)
		check(map[string]string{"symmetry": name, "cell-ratio": "1.5"}, "cell-ratio", want.lattice == oblique || want.lattice == rectangular)
		check(map[string]string{"symmetry": name, "cell-angle": "80"}, "cell-angle", want.lattice == oblique)
		check(map[string]string{"symmetry": name, "repeat": "brick"}, "repeat", false)
	}
	check(map[string]string{"cell-ratio": "1.5"}, "cell-ratio", false)
	check(map[string]string{"cell-angle": "80"}, "cell-angle", false)
	for _, bad := range []string{"0.2", "5", "-1", "nan", "wide", ""} {
		check(map[string]string{"symmetry": "pm", "cell-ratio": bad}, "cell-ratio", false)
	}
	for _, bad := range []string{"44", "136", "inf", "steep"} {
		check(map[string]string{"symmetry": "p1", "cell-angle": bad}, "cell-angle", false)
	}

	r, err := try(map[string]string{"symmetry": "p2", "cell-ratio": "1.5", "cell-angle": "60"})
	o := r.orbitOf(3)
	if ratio, angle := math.Hypot(o.b.X, o.b.Y)/math.Hypot(o.a.X, o.a.Y), math.Atan2(o.b.Y, o.b.X)*180/math.Pi; err != nil ||
		math.Abs(ratio-1.5) > 1e-9 || math.Abs(angle-60) > 1e-9 {
		t.Errorf("a cell of 1.5 and 60 degrees is laid out as %g and %g degrees (%v)", ratio, angle, err)
	}
}

// Groups are known by their full and short names of the Tables, in any case.
func TestGroupsAreKnownByBothNames(t *testing.T) {
	for given, want := range map[string]string{
		"p1": "p1", "p2": "p2", "pm": "pm", "pg": "pg", "cm": "cm", "pmm": "p2mm", "pmg": "p2mg", "pgg": "p2gg", "cmm": "c2mm",
		"p4": "p4", "p4m": "p4mm", "p4g": "p4gm", "p3": "p3", "p3m1": "p3m1", "p31m": "p31m", "p6": "p6", "p6m": "p6mm",
		"p2mm": "p2mm", "p2mg": "p2mg", "p2gg": "p2gg", "c2mm": "c2mm", "p4mm": "p4mm", "p4gm": "p4gm", "p6mm": "p6mm",
		"PMG": "p2mg", "P4MM": "p4mm", " p6 ": "p6", "P4M": "p4mm", " pgg": "p2gg",
	} {
		if got, err := ParseSymmetry("symmetry", given); got != want {
			t.Errorf("%q is read as %q (%v), want %s", given, got, err, want)
		}
	}
	for _, bad := range []string{"", "p5", "p3m", "p7", "c4", "pmmm", "none of these"} {
		_, err := ParseSymmetry("symmetry", bad)
		if refused := (*words.Refused)(nil); !errors.As(err, &refused) {
			t.Errorf("%q: %v", bad, err)
		}
	}
}
