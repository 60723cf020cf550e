package pattern

import (
	"strings"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Repeat says how motifs recur, in the words of the textile trade.
type Repeat string

// The repeats.
const (
	Straight Repeat = "straight"  // in rows and columns
	Brick    Repeat = "brick"     // every next row moved along by a part of a motif
	HalfDrop Repeat = "half-drop" // every next column moved down by a part of a motif
	Mirror   Repeat = "mirror"    // every other column and row turned over
	Toss     Repeat = "toss"      // scattered and turned, never touching
)

var repeats = []Repeat{Straight, Brick, HalfDrop, Mirror, Toss}

// RepeatNames lists the repeats.
func RepeatNames() []string { return namesOf(repeats) }

func namesOf(list []Repeat) []string {
	var names []string
	for _, r := range list {
		names = append(names, string(r))
	}
	return names
}

// ParseRepeat reads the name of a repeat; "square" is straight and "staggered"
// is brick, as makers of dotted paper say.
func ParseRepeat(field, given string) (Repeat, error) {
	switch strings.ToLower(strings.TrimSpace(given)) {
	case "square":
		return Straight, nil
	case "staggered":
		return Brick, nil
	}
	name, err := words.Choose(field, given, RepeatNames())
	return Repeat(name), err
}

// cells is how many repeats of dx by dy an area holds.
func cells(area draw.Rect, dx, dy float64) float64 {
	return area.Width() * area.Height() / (dx * dy)
}

// cycle picks from a list that begins again at its end, backwards too.
func cycle[T any](list []T, i int) T {
	n := len(list)
	return list[((i%n)+n)%n]
}
