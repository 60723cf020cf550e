package sheet

import (
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// RuleLength is the length of the printed rule: what a maker measures to know
// that the printer did not rescale.
const RuleLength = 100.0

const (
	ruleHeight = 2.5
	ruleLine   = 0.2
	ruleType   = 2.6
	// room the rule takes with its words, along and across
	ruleAlong, ruleAcross = RuleLength + 4, ruleHeight + ruleType + 3
)

// Rule is the rule's place on the page: its bar is RuleLength by ruleHeight
// from X, Y, or standing up the page from there when Upright.
type Rule struct {
	X, Y    float64
	Upright bool
}

// Bar is the rectangle of the rule's bar on the page.
func (r Rule) Bar() geom.Box {
	if r.Upright {
		return geom.Box{MinX: r.X, MinY: r.Y, MaxX: r.X + ruleHeight, MaxY: r.Y + RuleLength}
	}
	return geom.Box{MinX: r.X, MinY: r.Y, MaxX: r.X + RuleLength, MaxY: r.Y + ruleHeight}
}

// box is the bar with the words below it (or right of it).
func (r Rule) box() geom.Box {
	b := r.Bar()
	const side, words = (ruleAlong - RuleLength) / 2, ruleAcross - ruleHeight
	if r.Upright {
		return geom.Box{MinX: b.MinX - 1, MinY: b.MinY - side, MaxX: b.MaxX + words - 1, MaxY: b.MaxY + side}
	}
	return geom.Box{MinX: b.MinX - side, MinY: b.MinY - 1, MaxX: b.MaxX + side, MaxY: b.MaxY + words - 1}
}

// rulesIn gives the places for a rule along the four edges of a room.
func rulesIn(room geom.Box) []Rule {
	const side = (ruleAlong - RuleLength) / 2
	var places []Rule
	if room.Width() >= ruleAlong && room.Height() >= ruleAcross {
		x := room.MinX + side
		places = append(places, Rule{X: x, Y: room.MaxY - ruleAcross + 1}, Rule{X: x, Y: room.MinY + 1})
	}
	if room.Height() >= ruleAlong && room.Width() >= ruleAcross {
		places = append(places, Rule{X: room.MinX + 1, Y: room.MaxY - side - RuleLength, Upright: true},
			Rule{X: room.MaxX - ruleAcross + 1, Y: room.MaxY - side - RuleLength, Upright: true})
	}
	return places
}

// draw draws the bar from fills alone, so that its ends are where they are
// said to be: every other centimetre solid between two fine lines.
func (r Rule) draw(s *draw.Surface, c draw.Colour) {
	at := draw.Translate(r.X, r.Y)
	if r.Upright {
		at = draw.Translate(r.X, r.Y+RuleLength).After(draw.Turn(270))
	}
	s.Within(at, func(s *draw.Surface) {
		fill := func(x0, y0, x1, y1 float64) {
			s.Fill(draw.Rectangle(draw.Rect{MinX: x0, MinY: y0, MaxX: x1, MaxY: y1}), c)
		}
		fill(0, 0, RuleLength, ruleLine)
		fill(0, ruleHeight-ruleLine, RuleLength, ruleHeight)
		for x := 0.0; x < RuleLength; x += 20 {
			fill(x, 0, x+10, ruleHeight)
		}
		fill(RuleLength-ruleLine, 0, RuleLength, ruleHeight)
		base := ruleHeight + 1.05*ruleType
		s.Text("0", draw.Regular, ruleType, draw.Translate(0, base), c)
		end := "100 mm"
		s.Text(end, draw.Regular, ruleType, draw.Translate(RuleLength-draw.Regular.Width(end, ruleType), base), c)
		say := "at actual size this rule is 100 mm long"
		s.Text(say, draw.Regular, ruleType, draw.Translate((RuleLength-draw.Regular.Width(say, ruleType))/2, base), c)
	})
}
