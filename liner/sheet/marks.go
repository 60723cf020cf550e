package sheet

import (
	"fmt"
	"math"

	"underflap/liner/geom"
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
	unasked bool   // no notes are wanted
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
	if !m.noted && !m.unasked {
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
		if p.Blank { // the fold runs across
			continue
		}
		ticks := p.ticks(i)
		for _, t := range ticks {
			room.takeBox(t.outer.Grow(1))
			if t.worded {
				room.takeBox(t.said.Grow(1))
			}
		}
	}
	chosen, bestRank := Marks{}, math.Inf(-1)
	consider := func(m Marks, base float64, said versions, free *freeRoom) {
		if rank := base - 500; rank > bestRank { // better than notes without a rule
			chosen, bestRank = m, rank
		}
		if p.Notes == NotesNone {
			return
		}
		rooms := free.rooms()
		for _, r := range rooms[:min(6, len(rooms))] {
			if b, rank, ok := said.best(r); ok && base+rank > bestRank {
				bestRank = base + rank
				chosen = Marks{Rule: m.Rule, HasRule: m.HasRule, notes: b, noted: true}
			}
		}
	}
	consider(Marks{}, 0, p.said(fmt.Sprintf("Measure a liner: it must be %s wide.", words.MM(p.Liner.Width()))), room)
	said := p.said(fmt.Sprintf("Measure the rule on this sheet: it must be %g mm long.", RuleLength))
	for _, rule := range rulesAmong(room.rooms()) {
		base := 1000.0 // the rule matters more than the words
		if rule.Slim {
			base--
		}
		without := room.clone()
		without.takeBox(rule.box().Grow(1))
		consider(Marks{Rule: rule, HasRule: true}, base, said, without)
	}
	chosen.folds, chosen.unasked = p.foldRemark(), p.Notes == NotesNone
	return chosen
}

// foldRemark says where a fold lies that no tick shows.
func (p Plan) foldRemark() string {
	for i := range p.Placements {
		if ticks := p.ticks(i); !p.Blank && !ticks[0].seen && !ticks[1].seen {
			return fmt.Sprintf("no room on the sheet for fold marks: the fold lies %s above the liner's straight end", words.MM(p.Depth))
		}
	}
	return ""
}

// rulesAmong gives places for a rule in the rooms, as many as are worth trying.
func rulesAmong(rooms []geom.Box) []Rule {
	const most = 8
	var places []Rule
	for _, r := range rooms {
		places = append(places, rulesIn(r)...)
		if len(places) >= most {
			return places[:most]
		}
	}
	return places
}
