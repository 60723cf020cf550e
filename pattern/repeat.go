package pattern

import (
	"math"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Repeat says how motifs recur.
type Repeat string

// The repeats known so far.
const (
	Straight Repeat = "straight"  // in rows and columns
	Brick    Repeat = "brick"     // every other row moved by half a motif
	HalfDrop Repeat = "half-drop" // every other column moved by half a motif
)

var repeats = []Repeat{Straight, Brick, HalfDrop}

func repeatNames() []string {
	var names []string
	for _, r := range repeats {
		names = append(names, string(r))
	}
	return names
}

// ParseRepeat reads the name of a repeat; "square" is straight and "staggered"
// is brick, as makers of dotted paper say.
func ParseRepeat(field, given string) (Repeat, error) {
	switch given {
	case "square":
		return Straight, nil
	case "staggered":
		return Brick, nil
	}
	name, err := words.Choose(field, given, repeatNames())
	return Repeat(name), err
}

// each calls f for every place of the repeat whose motif, reaching at most
// reach from its middle, can touch area: rows from the bottom up, each from
// left to right. dx and dy part columns and rows; column 0 of row 0 is at the
// origin.
func (r Repeat) each(area draw.Rect, dx, dy, reach float64, f func(column, row int, x, y float64)) {
	area = area.Grow(reach)
	firstRow, lastRow := int(math.Floor(area.MinY/dy))-1, int(math.Ceil(area.MaxY/dy))+1
	firstColumn, lastColumn := int(math.Floor(area.MinX/dx))-1, int(math.Ceil(area.MaxX/dx))+1
	for row := lastRow; row >= firstRow; row-- {
		for column := firstColumn; column <= lastColumn; column++ {
			x, y := float64(column)*dx, float64(row)*dy
			if r == Brick && row%2 != 0 {
				x += dx / 2
			}
			if r == HalfDrop && column%2 != 0 {
				y += dy / 2
			}
			if x >= area.MinX && x <= area.MaxX && y >= area.MinY && y <= area.MaxY {
				f(column, row, x, y)
			}
		}
	}
}

// cells is how many repeats of dx by dy an area holds.
func cells(area draw.Rect, dx, dy float64) float64 {
	return area.Width() * area.Height() / (dx * dy)
}

// cycle picks from a list that begins again at its end, backwards too.
func cycle(list []int, i int) int {
	n := len(list)
	return list[((i%n)+n)%n]
}
