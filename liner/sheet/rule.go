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
	ruleSide   = 2.0 // free beyond both ends
	ruleWords  = "at actual size this rule is 100 mm long"
	slimWords  = "100 mm at 100%"
)

// ruleRoom is the room a rule takes with its words, along and across, and how
// much of that lies before the bar: the words stand below the bar or, for a
// slim rule, behind its end.
func ruleRoom(slim bool) (along, across, edge float64) {
	if slim {
		return RuleLength + 2*ruleSide + draw.Regular.Width(slimWords, ruleType) + 1, ruleHeight + 1.2, 0.6
	}
	return RuleLength + 2*ruleSide, ruleHeight + ruleType + 3, 1
}

// Rule is the rule's place on the page: its bar is RuleLength by ruleHeight
// from X, Y, or standing up the page from there when Upright. A Slim one has its
// words behind its end instead of below.
type Rule struct {
	X, Y    float64
	Upright bool
	Slim    bool
}

// Bar is the rectangle of the rule's bar on the page.
func (r Rule) Bar() geom.Box {
	if r.Upright {
		return geom.Box{MinX: r.X, MinY: r.Y, MaxX: r.X + ruleHeight, MaxY: r.Y + RuleLength}
	}
	return geom.Box{MinX: r.X, MinY: r.Y, MaxX: r.X + RuleLength, MaxY: r.Y + ruleHeight}
}

// box is the bar with its words.
func (r Rule) box() geom.Box {
	b := r.Bar()
	along, across, edge := ruleRoom(r.Slim)
	behind, below := along-RuleLength-ruleSide, across-ruleHeight-edge
	if r.Upright {
		return geom.Box{MinX: b.MinX - edge, MinY: b.MinY - behind, MaxX: b.MaxX + below, MaxY: b.MaxY + ruleSide}
	}
	return geom.Box{MinX: b.MinX - ruleSide, MinY: b.MinY - edge, MaxX: b.MaxX + behind, MaxY: b.MaxY + below}
}

// rulesIn gives the places for a rule in the corners of a room, lying and
// standing; slim ones only where no other goes in.
func rulesIn(room geom.Box) []Rule {
	var places []Rule
	for _, slim := range []bool{false, true} {
		along, across, edge := ruleRoom(slim)
		if room.Width() >= along && room.Height() >= across {
			for _, x := range []float64{room.MinX, room.MaxX - along} {
				for _, y := range []float64{room.MaxY - across, room.MinY} {
					places = append(places, Rule{X: x + ruleSide, Y: y + edge, Slim: slim})
				}
			}
		}
		if room.Height() >= along && room.Width() >= across {
			for _, y := range []float64{room.MaxY, room.MinY + along} {
				for _, x := range []float64{room.MinX, room.MaxX - across} {
					places = append(places, Rule{X: x + edge, Y: y - ruleSide - RuleLength, Upright: true, Slim: slim})
				}
			}
		}
		if len(places) > 0 {
			break
		}
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
		text := func(line string, x, base float64) { s.Text(line, draw.Regular, ruleType, draw.Translate(x, base), c) }
		if r.Slim {
			text(slimWords, RuleLength+2, ruleHeight/2+0.36*ruleType)
			return
		}
		base, end := ruleHeight+1.05*ruleType, "100 mm"
		text("0", 0, base)
		text(ruleWords, (RuleLength-draw.Regular.Width(ruleWords, ruleType))/2, base)
		text(end, RuleLength-draw.Regular.Width(end, ruleType), base)
	})
}
