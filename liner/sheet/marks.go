package sheet

import (
	"fmt"
	"math"

	"underflap/pattern/words"
)

// clearance is what notes and rule keep from the bleed.
const clearance = 1.5

// Marks are the rule and the notes on a sheet, where they found room.
type Marks struct {
	Rule    Rule
	HasRule bool
	notes   block
	noted   bool
	folds   string // what to do where no fold tick can be printed
}

// Remarks says which marks found no room, one line each.
func (m Marks) Remarks() []string {
	var lines []string
	if !m.HasRule {
		lines = append(lines, fmt.Sprintf("no room on the sheet for the %g mm rule: measure the printed liner instead", RuleLength))
	}
	if m.folds != "" {
		lines = append(lines, m.folds)
	}
	if !m.noted {
		lines = append(lines, "no room on the sheet for the working steps: see the README")
	}
	return lines
}

// Mark finds room on the sheet for the rule and the working steps, clear of all
// artwork.
func Mark(p Plan) Marks {
	room := newFreeRoom(p.printable())
	for i, pl := range p.Placements {
		grown := p.Pieces[pl.Piece].Outline.Bleed(p.Bleed + clearance)
		room.takeShape(pl.OnPage(grown).Flatten(0.05))
		for _, t := range p.ticks(i) {
			room.takeBox(t.outer.Grow(1))
			if t.worded {
				room.takeBox(t.said.Grow(1))
			}
		}
	}
	chosen, bestRank := Marks{}, math.Inf(-1)
	consider := func(m Marks, free *freeRoom) {
		base, check := 0.0, fmt.Sprintf("Measure a liner: it must be %s wide.", words.MM(p.Liner.Width()))
		if m.HasRule {
			base = 1000 // the rule matters more than the words
			if m.Rule.Slim {
				base--
			}
			check = fmt.Sprintf("Measure the rule on this sheet: it must be %g mm long.", RuleLength)
		}
		said := versions{steps(p, check), shorter(p, check), shortest(p)}
		if rank := base - 500; rank > bestRank {
			chosen, bestRank = m, rank
		}
		for _, r := range free.rooms(6) {
			if b, rank, ok := said.best(r); ok && base+rank > bestRank {
				bestRank = base + rank
				chosen = Marks{Rule: m.Rule, HasRule: m.HasRule, notes: b, noted: true}
			}
		}
	}
	consider(Marks{}, room)
	const mostRooms, mostRules = 100_000, 8 // every room, until some rules were tried
	tried := 0
	for _, r := range room.rooms(mostRooms) {
		for _, rule := range rulesIn(r) {
			if tried++; tried > mostRules {
				break
			}
			without := room.clone()
			without.takeBox(rule.box().Grow(1))
			consider(Marks{Rule: rule, HasRule: true}, without)
		}
	}
	for i := range p.Placements {
		if t := p.ticks(i); !t[0].seen && !t[1].seen {
			chosen.folds = fmt.Sprintf("no room on the sheet for fold marks: the fold lies %s above the liner's straight end", words.MM(p.Depth))
		}
	}
	return chosen
}
