package sheet

import "underflap/pattern/words"

// mostTried bounds the ways that are looked at: past it a sheet is so full that
// none gives room.
const mostTried = 16

// fair tells that a person lacks nothing: the rule is there, every fold shows,
// and the steps read well, if in fewer words.
func (m Marks) fair() bool {
	return m.HasRule && m.folds == "" && len(m.unnamed) == 0 && (m.unasked || m.noted && m.notes.given <= 1)
}

// Settle picks, among the ways that lie as deep, the first that leaves room for
// rule, fold marks and steps; where none does, the one that leaves the most. A
// plan is drawn and reported as it is settled.
func (p Plan) Settle() (Plan, Marks) {
	best := Mark(p)
	for i := 1; i < min(len(p.ways), mostTried) && !best.fair(); i++ { // p lies the first way
		other := p
		other.Placements = p.ways[i]
		if m := Mark(other); m.fair() || m.rank() > best.rank()+0.01 {
			p, best = other, m
		}
	}
	return p, best
}

// hidden says what of a liner lies where the printer leaves the sheet white.
func (p Plan) hidden() string {
	out := 0.0
	room := p.room()
	for _, pl := range p.Placements {
		box := p.CutLine(pl).Bounds()
		out = max(out, room.MinX-box.MinX, box.MaxX-room.MaxX, room.MinY-box.MinY, box.MaxY-room.MaxY)
	}
	if out < 0.05 {
		return ""
	}
	return "up to " + words.MM(out) + " of a liner's end lies where the printer leaves the sheet white: cut on straight to there, or to the sheet's edge"
}
