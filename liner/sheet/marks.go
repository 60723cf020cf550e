package sheet

import (
	"fmt"
	"slices"

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
	hidden  string // what to do where the cut line can not be printed
	trims   []trim
	labels  []label
	unnamed []string // where the liners lie that have no name beside them
}

// rank compares sheets by their marks: the rule matters most, then that the
// folds show, then that anything is said, then how much and how large.
func (m Marks) rank() float64 {
	rank := 0.0
	if m.HasRule {
		rank += 1000
	}
	if m.Rule.Slim {
		rank--
	}
	if m.folds != "" {
		rank -= 700
	}
	rank -= 5 * float64(len(m.unnamed))
	if !m.noted {
		return rank - 500
	}
	return rank + m.notes.rank()
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
	if m.hidden != "" {
		lines = append(lines, m.hidden)
	}
	lines = append(lines, m.unnamed...)
	return lines
}

// taken is the printable part of the sheet without all that rule and notes keep
// clear of: the liners with their bleed, fold ticks, the marks of trimmer cuts,
// names.
func taken(p Plan, trims []trim, labels []label) *freeRoom {
	free := newFreeRoom(p.noteRoom())
	bleeds := make([][]geom.Point, len(p.Pieces))
	for i, piece := range p.Pieces {
		bleeds[i] = piece.Outline.Bleed(p.Bleed + clearance).Flatten(0.05)
	}
	for i, pl := range p.Placements {
		var shape []geom.Point
		for _, q := range bleeds[pl.Piece] {
			shape = append(shape, pl.page(q))
		}
		free.takeShape(shape)
		if p.Blank { // the fold runs across
			continue
		}
		for _, t := range p.ticks(i) {
			free.takeBox(t.outer.Grow(1))
			if t.worded {
				free.takeBox(t.said.Grow(1))
			}
		}
	}
	for _, cut := range trims {
		for _, m := range cut.marks {
			free.takeBox(m.line.Grow(1))
			free.takeBox(m.number.Grow(1))
		}
	}
	for _, l := range labels {
		free.takeBox(l.box.Grow(1))
	}
	return free
}

// Mark finds room on the sheet for the rule and the working steps, clear of all
// artwork.
func Mark(p Plan) Marks {
	trims := p.trims()
	labels, unnamed := p.labels(trims)
	free := taken(p, trims, labels)
	k := marking{free: free, rooms: free.rooms()}
	bare := Marks{unasked: p.Notes == NotesNone, folds: p.foldRemark(), hidden: p.hidden(), trims: trims,
		labels: labels, unnamed: p.unnamedRemarks(unnamed)}
	check := fmt.Sprintf("Measure the rule on this sheet: it must be %g mm long.", RuleLength)
	var plain, slim []Marks
	for _, r := range k.rules() {
		m := bare
		m.Rule, m.HasRule = r, true
		if r.Slim {
			slim = append(slim, m)
		} else {
			plain = append(plain, m)
		}
	}
	if len(plain)+len(slim) == 0 {
		a := "a liner"
		if p.mixed() {
			a = "the liner for " + p.Pieces[0].Name
		}
		check = fmt.Sprintf("Measure %s: it must be %s wide.", a, words.MM(p.Liner.Width()))
		plain = []Marks{bare}
	}
	if !bare.unasked {
		k.trials = p.said(check, len(trims)).trials()
	}
	return k.better(k.better(bare, plain), slim)
}

// marking is the search for room on one sheet.
type marking struct {
	free   *freeRoom
	rooms  []cells // before rule and notes take any
	trials []trial
}

// better is the best of some marks, alike but for the place of their rule, with
// the notes as full and large as go beside one; or what there is, when that is
// as good.
func (k marking) better(than Marks, alike []Marks) Marks {
	if len(alike) == 0 {
		return than
	}
	best := alike[0]
	if best.rank() <= than.rank() {
		best = than
	}
	for _, t := range k.trials {
		m := alike[0]
		m.noted, m.notes = true, block{size: t.size, given: t.given}
		if m.rank() <= best.rank() {
			break
		}
		var fitting []cells // notes that go in beside a rule go in without one
		for _, r := range k.rooms {
			if _, ok := t.fit(k.free.box(r)); ok {
				fitting = append(fitting, r)
			}
		}
		for _, m := range alike {
			for _, r := range without(fitting, k.ruled(m), t.area()) {
				if b, ok := t.fit(k.free.box(r)); ok {
					m.noted, m.notes = true, b
					return m
				}
			}
		}
	}
	return best
}

// ruled are the cells that the rule takes.
func (k marking) ruled(m Marks) cells {
	if !m.HasRule {
		return cells{}
	}
	return k.free.touched(m.Rule.box().Grow(1))
}

// rules gives places for a rule in the rooms, as many as are worth trying.
func (k marking) rules() []Rule {
	const most = 200
	var places []Rule
	for _, r := range k.rooms {
		for _, rule := range rulesIn(k.free.box(r)) {
			if !slices.Contains(places, rule) {
				places = append(places, rule)
			}
		}
		if len(places) >= most {
			break
		}
	}
	return places
}

// foldRemark says where a fold lies that no tick shows.
func (p Plan) foldRemark() string {
	for i, pl := range p.Placements {
		if ticks := p.ticks(i); !p.Blank && !ticks[0].seen && !ticks[1].seen {
			end := "the liner's straight end"
			if p.mixed() {
				end = "the straight end of the liner for " + p.Pieces[pl.Piece].Name
			}
			return fmt.Sprintf("no room on the sheet for fold marks: the fold lies %s above %s", words.MM(p.Pieces[pl.Piece].Depth), end)
		}
	}
	return ""
}
