package sheet

import (
	"underflap/pattern/words"
)

// placed is one layout's answer for some pieces: their common pocket depth and
// the ways they lie as deep, the likeliest first, worked out when asked for: most
// who ask want the depth alone.
type placed struct {
	layout string
	depth  float64
	ways   func() [][]Placement
}

// A layoutFunc places n equal liners on one sheet at the greatest pocket depth
// up to the full one. It reports false when they do not fit at the least.
type layoutFunc func(t Task, n int) (placed, bool)

// way is one layout: how it places, and how many go on one sheet at the pocket
// depth of the task.
type way struct {
	place layoutFunc
	most  func(t Task) int
}

// The layouts.
const (
	Straight = "straight"
	Nested   = "nested"
)

// layouts is where a new way of placing pieces is added.
var layouts = map[string]way{
	Straight: {straight, mostStraight},
	Nested:   {nested, mostNested},
	"":       {deeper, func(t Task) int { return max(mostStraight(t), mostNested(t)) }},
}

// Layouts lists the layouts by name.
var Layouts = []string{Nested, Straight}

// layout finds a layout by name; "" is the deeper of all, and among equals the
// straight one, whose cuts are easier.
func layout(name string) (way, error) {
	if name == "" {
		return layouts[name], nil
	}
	chosen, err := words.Choose("layout", name, Layouts)
	return layouts[chosen], err
}

// worthNesting is the depth, in millimetres, that nesting must gain to be worth
// cuts that are not straight.
const worthNesting = 0.05

func deeper(t Task, n int) (placed, bool) {
	plain, ok := straight(t, n)
	if ok && plain.depth >= t.Liner.WantedPocketDepth()-worthNesting {
		return plain, true
	}
	if close, fits := nested(t, n); fits && (!ok || close.depth > plain.depth+worthNesting) {
		return close, true
	}
	return plain, ok
}

// reaches tells whether n liners fit at a depth in any layout.
func reaches(t Task, n int, depth float64) bool {
	if t.Liner.LeastPocketDepth() > depth {
		return false
	}
	t.Liner.PocketDepth = depth
	if plain, ok := straight(t, n); ok && plain.depth >= depth-1e-9 {
		return true
	}
	return nests(t, n)
}

// MostPerSheet bounds the liners on one sheet.
const MostPerSheet = 120

// spared is the pocket depth, in millimetres, that one more liner on the sheet
// is worth. Common practice, no source: the end of a liner is not seen.
const spared = 1.0

// wanted is how many liners a sheet is to carry.
func (w way) wanted(t Task) int {
	n := t.PerSheet
	switch {
	case n == 0:
		n = 2
	case n == Most:
		shallow := t
		shallow.Liner.PocketDepth = max(t.Liner.WantedPocketDepth()-spared, t.Liner.LeastPocketDepth())
		n = max(1, min(w.most(shallow), MostPerSheet))
	}
	if t.Count > 0 {
		n = min(n, t.Count)
	}
	return n
}
