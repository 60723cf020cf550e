package pattern

import (
	"strings"

	"underflap/pattern/words"
)

// The 17 plane groups with their general positions: International Tables for
// Crystallography, volume A, "The 17 plane groups" (written down from memory and
// checked in groups_test.go for closing under composition, for their order and
// for the lattice they need).

// lattice is what a group leaves free of its cell.
type lattice int

const (
	oblique     lattice = iota // both sides and the angle
	rectangular                // both sides
	square                     // nothing but the size
	hexagonal                  // nothing but the size; the sides are at 120 degrees
)

// operation carries x, y, in parts of the cell's sides, to
// a x + b y + u, c x + d y + v.
type operation struct {
	a, b, c, d float64
	u, v       float64
}

type planeGroup struct {
	name, short string
	lattice     lattice
	centred     bool
	positions   string // as the Tables print them
}

var planeGroups = []planeGroup{
	{"p1", "p1", oblique, false, "x,y"},
	{"p2", "p2", oblique, false, "x,y;-x,-y"},
	{"pm", "pm", rectangular, false, "x,y;-x,y"},
	{"pg", "pg", rectangular, false, "x,y;-x,y+1/2"},
	{"cm", "cm", rectangular, true, "x,y;-x,y"},
	{"p2mm", "pmm", rectangular, false, "x,y;-x,-y;-x,y;x,-y"},
	{"p2mg", "pmg", rectangular, false, "x,y;-x,-y;-x+1/2,y;x+1/2,-y"},
	{"p2gg", "pgg", rectangular, false, "x,y;-x,-y;-x+1/2,y+1/2;x+1/2,-y+1/2"},
	{"c2mm", "cmm", rectangular, true, "x,y;-x,-y;-x,y;x,-y"},
	{"p4", "p4", square, false, "x,y;-x,-y;-y,x;y,-x"},
	{"p4mm", "p4m", square, false, "x,y;-x,-y;-y,x;y,-x;-x,y;x,-y;y,x;-y,-x"},
	{"p4gm", "p4g", square, false, "x,y;-x,-y;-y,x;y,-x;-x+1/2,y+1/2;x+1/2,-y+1/2;y+1/2,x+1/2;-y+1/2,-x+1/2"},
	{"p3", "p3", hexagonal, false, "x,y;-y,x-y;-x+y,-x"},
	{"p3m1", "p3m1", hexagonal, false, "x,y;-y,x-y;-x+y,-x;-y,-x;-x+y,y;x,x-y"},
	{"p31m", "p31m", hexagonal, false, "x,y;-y,x-y;-x+y,-x;y,x;x-y,-y;-x,-x+y"},
	{"p6", "p6", hexagonal, false, "x,y;-y,x-y;-x+y,-x;-x,-y;y,-x+y;x-y,x"},
	{"p6mm", "p6m", hexagonal, false, "x,y;-y,x-y;-x+y,-x;-x,-y;y,-x+y;x-y,x;-y,-x;-x+y,y;x,x-y;y,x;x-y,-y;-x,-x+y"},
}

// lies is how a cell lies on the page.
type lies struct {
	turn float64 // degrees, clockwise, of the first side from x
	u, v float64 // the cell's corner, in parts of the sides
}

// laid has the groups whose cell would not, with its corner on the origin and
// its first side along x, bring a mirror to the middle of the flap. Those with
// mirrors all have one there.
var laid = map[string]lies{
	"p2mg": {u: -0.25},
	"p4gm": {turn: 45, u: -0.5},
	"p31m": {turn: 90},
}

// SymmetryNames lists the plane groups in the order of the Tables.
func SymmetryNames() []string {
	var names []string
	for _, g := range planeGroups {
		names = append(names, g.name)
	}
	return names
}

// ParseSymmetry reads the name of a plane group, in full or as it is shortened:
// p4mm or p4m.
func ParseSymmetry(field, given string) (string, error) {
	for _, g := range planeGroups {
		if strings.EqualFold(strings.TrimSpace(given), g.short) {
			return g.name, nil
		}
	}
	return words.Choose(field, given, SymmetryNames())
}

func groupOf(name string) planeGroup {
	for _, g := range planeGroups {
		if g.name == name {
			return g
		}
	}
	return planeGroups[0]
}

// operations are the group's within one cell, those of the centring included.
func (g planeGroup) operations() []operation {
	var all []operation
	for _, position := range strings.Split(g.positions, ";") {
		first, second, _ := strings.Cut(position, ",")
		var o operation
		o.a, o.b, o.u = coordinate(first)
		o.c, o.d, o.v = coordinate(second)
		all = append(all, o)
	}
	if g.centred {
		for _, o := range all {
			o.u, o.v = o.u+0.5, o.v+0.5
			all = append(all, o)
		}
	}
	return all
}

// coordinate reads one coordinate such as -x+y or y+1/2.
func coordinate(text string) (x, y, shift float64) {
	if rest, ok := strings.CutSuffix(text, "+1/2"); ok {
		text, shift = rest, 0.5
	}
	sign := 1.0
	for _, r := range text {
		switch r {
		case '-':
			sign = -1
		case '+':
			sign = 1
		case 'x':
			x = sign
		case 'y':
			y = sign
		}
	}
	return x, y, shift
}
