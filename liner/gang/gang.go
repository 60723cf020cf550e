// Package gang decides which liners share sheets of paper: several kinds ganged
// up on one sheet, as printers say, where that takes fewer sheets than each kind
// on its own. Lengths are millimetres.
package gang

import (
	"context"

	"underflap/liner/sheet"
)

// Line is liners of one kind, as many as its plan counts.
type Line struct {
	Name  string
	Plan  sheet.Plan  // on sheets of their own, settled; all liners of the line have its depth
	Marks sheet.Marks // of a full sheet of them
	Stock string      // lines of another stock lie on other sheets: another paper in the tray, another printer
	Apart bool        // shares no sheet
}

// Sheet is sheets that are alike.
type Sheet struct {
	Plan   sheet.Plan // of one of them: a piece for every line on it, and Count is all its placements
	Marks  sheet.Marks
	Lines  []int // for each piece of the plan the line it is of
	Copies int
}

// Share lays every liner of every line on a sheet: on the fewest it finds, of
// these with the fewest that lines share, and never on more than Alone. Lines
// share where their tasks agree in all but the liner and their stock is the same;
// a line for which the straight layout or a hidden foot was asked keeps to
// itself, and so does whatever gains nothing. The same lines have the same
// answer. When ctx ends it stops and gives the context's error.
func Share(ctx context.Context, lines []Line) ([]Sheet, error) {
	var all []Sheet
	for _, g := range groups(lines) {
		shared, err := g.share(ctx)
		if err != nil {
			return nil, err
		}
		all = append(all, shared...)
	}
	inOrder(all)
	return all, ctx.Err()
}

// Alone gives every line sheets of its own.
func Alone(lines []Line) []Sheet {
	var all []Sheet
	for i, line := range lines {
		all = append(all, line.alone(i)...)
	}
	return all
}

// alone is the sheets of one line: full ones, and one that carries what is left.
func (l Line) alone(at int) []Sheet {
	var all []Sheet
	n := l.Plan.PerSheet()
	if full := l.Plan.Count / n; full > 0 {
		all = append(all, l.own(at, n, full))
	}
	if left := l.Plan.Count % n; left > 0 {
		all = append(all, l.own(at, left, 1))
	}
	return all
}

// own is sheets with n liners of one line, as its plan lays them.
func (l Line) own(at, n, copies int) Sheet {
	s := Sheet{Plan: l.Plan.Part(n), Marks: l.Marks, Lines: []int{at}, Copies: copies}
	if n < l.Plan.PerSheet() {
		s.Marks = sheet.Mark(s.Plan)
	}
	return s
}

// Sheets counts them.
func Sheets(all []Sheet) int {
	n := 0
	for _, s := range all {
		n += s.Copies
	}
	return n
}
