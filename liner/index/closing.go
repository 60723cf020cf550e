package index

import (
	"fmt"
	"math"
	"slices"

	"underflap/liner/sheet"
	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
	"underflap/pattern/words"
)

const (
	measure   = 34.0 // of the steps, in ems: they read well so
	leastSide = 42.0 // for totals beside them
	apart     = 1.5  // between steps, and between totals
)

// closing is the steps, and the totals beside or under them.
func (l layout) closing() []item {
	width := l.room.Width()
	steps := math.Min(width, measure*readType)
	if beside := width - steps - 2*gutter; beside >= leastSide && len(l.Totals) > 0 {
		how, sums := stacked(l.part("Order of work", l.worked(steps))), stacked(l.part("In all", l.totals(beside)))
		if whole := math.Max(how.height, sums.height); whole <= l.room.Height() {
			return []item{{height: whole, before: l.over(), notes: func(s *draw.Surface, at draw.Point) {
				how.notes(s, at)
				sums.notes(s, draw.Point{X: at.X + steps + 2*gutter, Y: at.Y})
			}}}
		}
	}
	return append(l.part("Order of work", l.worked(steps)), l.part("In all", l.totals(width))...)
}

// part is items under a heading, or nothing.
func (l layout) part(title string, items []item) []item {
	if len(items) == 0 {
		return nil
	}
	for i := range items {
		items[i].before = apart
	}
	items[0].before = 0
	return append([]item{l.heading(title)}, items...)
}

// stacked makes one item of several that have notes alone.
func stacked(items []item) item {
	var whole item
	var tops []float64
	for i, it := range items {
		if i > 0 {
			whole.height += it.before
		}
		tops = append(tops, whole.height)
		whole.height += it.height
	}
	whole.notes = func(s *draw.Surface, at draw.Point) {
		for i, it := range items {
			it.notes(s, draw.Point{X: at.X, Y: at.Y + tops[i]})
		}
	}
	return whole
}

// worked is the steps, each an item.
func (l layout) worked(width float64) (all []item) {
	for _, note := range l.steps() {
		b, _ := setting.Set([]setting.Note{note}, readType, width)
		all = append(all, item{height: b.Height, notes: func(s *draw.Surface, at draw.Point) { b.Draw(s, draw.Translate(at.X, at.Y), ink) }})
	}
	return all
}

func (l layout) totals(width float64) (all []item) {
	for _, total := range l.Totals {
		c := set(width, l.room.Height()/2, para{text: total, font: draw.Regular, size: readType, colour: ink, most: 5})
		all = append(all, item{height: c.height, notes: c.draw})
	}
	return all
}

// steps are the working steps for all sheets. Nothing in them asks for glue below
// the fold: the part in the pocket has to slide as the flap opens (common practice,
// no source).
func (l layout) steps() []setting.Note {
	trimmed, parted := false, false
	for _, s := range l.Sheets {
		if len(s.Marks.Cuts()) > 0 {
			trimmed = true
		} else if len(s.Plan.Placements) > 1 {
			parted = true
		}
	}
	cut := "Cut each liner on its thin line."
	switch {
	case trimmed && parted:
		cut = "Sheets with numbered cuts: trim straight through the paper, in turn. The others: cut the liners apart between them. Then cut each liner on its thin line."
	case trimmed:
		cut = "Trim straight through the paper at the numbered cuts, in turn. Then cut each liner on its thin line."
	case parted:
		cut = "Cut the liners apart between them, then each on its thin line."
	}
	steps := []string{
		"Print at actual size, 100%, with scaling off. " + l.measured() + " Let the ink dry.",
		"Score before you cut: lay a ruler from one dashed fold mark to the other and run a blunt point along it.",
		cut,
		"Stack the liners by their letters.",
		"Fold on the score, pattern inside, and slide each liner into its envelope. Glue the flap part only: the part in the pocket stays loose, so that it can slide.",
	}
	var notes []setting.Note
	for i, step := range steps {
		notes = append(notes, setting.Note{Number: fmt.Sprint(i + 1), Text: step})
	}
	return append(notes, setting.Note{Text: "Blades are sharp: use a mat and a metal ruler, keep fingers behind the edge and cut away from yourself. If the glue smells of solvent, open a window.", Bold: true})
}

// measured says what to measure before all is printed: not every sheet has room
// for a rule.
func (l layout) measured() string {
	ruled := slices.IndexFunc(l.Sheets, func(s Sheet) bool { return s.Marks.HasRule })
	switch {
	case len(l.Sheets) == 0:
		return ""
	case ruled == 0:
		return fmt.Sprintf("Measure the rule on the first sheet before you print the rest: it must be %g mm long.", sheet.RuleLength)
	case ruled > 0:
		return fmt.Sprintf("First print a sheet with a rule and measure it: it must be %g mm long.", sheet.RuleLength)
	}
	first := l.Sheets[0]
	return fmt.Sprintf("Measure a liner %s before you print the rest: it must be %s wide.", l.Lines[first.Lines[0]].Letter, words.MM(first.Plan.Pieces[0].Liner.Width()))
}
