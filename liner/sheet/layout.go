package sheet

import (
	"underflap/pattern/words"
)

// placed is one layout's answer for some pieces: their common pocket depth and
// where each lies.
type placed struct {
	depth float64
	at    []Placement
}

// A layoutFunc places n equal liners on one sheet at the greatest pocket depth
// up to the full one. It reports false when they do not fit at the least.
type layoutFunc func(t Task, n int) (placed, bool)

// layouts is where a new way of placing pieces is added.
var layouts = map[string]layoutFunc{
	"straight": straight,
}

// Layouts lists the layouts by name.
var Layouts = []string{"straight"}

func layout(name string) (layoutFunc, error) {
	chosen, err := words.Choose("layout", name, Layouts)
	return layouts[chosen], err
}
