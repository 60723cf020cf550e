// Package liner knows envelopes and the liner that fits inside one: the size
// table, the shapes of flaps, the clearances, and the outline that is cut and
// folded. Lengths are millimetres. Liner space has its origin at the left end
// of the fold, x to the right along it and y up into the flap, so the part of
// the liner in the pocket has y < 0.
package liner

import (
	"fmt"

	"underflap/liner/geom"
	"underflap/pattern/words"
)

// Envelope is what a liner is made for: a pocket, its flap, and the gum along
// the flap's free edge.
type Envelope struct {
	Name   string  // self-describing PWG name, or one by its rule
	Short  string  // what people call it: "C6"
	Width  float64 // pocket, along the fold
	Height float64 // pocket, from fold to bottom
	Flap   Flap
	Gum    float64 // width of the gum strip; 0 when the flap has none

	GuessedFlap bool // depth and gum are in proportion, not those of the trade
}

// Check refuses measurements that make no envelope.
func (e Envelope) Check() error {
	_, err := e.flapProfile()
	return err
}

// flapProfile is the flap's free edge, where flap and pocket go together.
func (e Envelope) flapProfile() (geom.Profile, error) {
	if e.Flap.Depth > e.Height {
		field := "flap-depth"
		if e.Flap.Shape == Traced {
			field = "profile"
		}
		return nil, &words.Refused{Field: field, Given: words.MM(e.Flap.Depth),
			Why: fmt.Sprintf("deeper than the pocket, which is %s high", words.MM(e.Height)), Accepts: "up to " + words.MMDown(e.Height)}
	}
	return e.Flap.Profile(e.Width)
}

// Measured is the name of an envelope that is no row of the size table.
const Measured = "measured"

// Clearances say how far the liner keeps from the envelope's edges.
type Clearances struct {
	SideGap      float64 // liner to pocket side
	GumClearance float64 // liner to gum
	Border       float64 // liner to flap edge when there is no gum; 0: UngummedBorder
	PocketDepth  float64 // how far below the fold the liner reaches; 0: as far as it should
	CornerRadius float64 // easing of the two bottom corners
}

// Default clearances. Common practice, no source: a liner 3 mm short of each
// side still slides, 1.5 mm keeps glue and gum apart, 4 mm corners do not catch.
const (
	DefaultSideGap      = 3.0
	DefaultGumClearance = 1.5
	DefaultCornerRadius = 4.0
	BottomGap           = 5.0 // left free above the pocket's bottom
	UngummedBorder      = 5.0 // liner to flap edge when there is no gum
)

// UsualCornerRadius is the default easing of the bottom corners, less in a very
// small pocket.
func UsualCornerRadius(e Envelope) float64 {
	return min(DefaultCornerRadius, e.Width/8, e.Height/8)
}

// Liner is an envelope's liner before its pocket depth is settled: sheets may
// shorten it so that two fit.
type Liner struct {
	Envelope Envelope
	Clearances
	flapProfile geom.Profile // the flap's free edge
	upper       geom.Profile // the liner's upper edge over the pocket part's width
}

// Margin is the distance the flap part keeps from the flap's free edge.
func (l Liner) Margin() float64 {
	if l.Envelope.Gum == 0 {
		if l.Border > 0 {
			return l.Border
		}
		return UngummedBorder
	}
	return l.Envelope.Gum + l.GumClearance
}

// New computes the liner of e. It returns a *words.Refused naming the
// measurement to look at when envelope, flap and clearances cannot go together.
func New(e Envelope, c Clearances) (Liner, error) {
	mm := words.MM
	if 4*c.SideGap > e.Width {
		return Liner{}, &words.Refused{Field: "side-gap", Given: mm(c.SideGap),
			Why: fmt.Sprintf("leaves little of a pocket %s wide", mm(e.Width)), Accepts: "up to " + words.MMDown(e.Width/4)}
	}
	profile, err := e.flapProfile()
	if err != nil {
		return Liner{}, err
	}
	l := Liner{Envelope: e, Clearances: c, flapProfile: profile}
	m := l.Margin()
	l.upper = profile.Erode(m).Over(0, c.SideGap, e.Width-c.SideGap)
	if l.FlapHeight() < leastFlapPart {
		field, given, accepts := "gum", e.Gum, "a narrower gum or a deeper flap"
		switch {
		case e.Flap.Shape == Traced:
			field, given, accepts = "profile", e.Flap.Depth, "points along a deeper flap, or a narrower --gum"
		case e.Gum == 0:
			field, given, accepts = "flap-depth", e.Flap.Depth, "a deeper flap"
		}
		return Liner{}, &words.Refused{Field: field, Given: mm(given),
			Why:     fmt.Sprintf("leaves no room for a liner on a flap %s deep (it keeps %s from the flap's edge)", mm(e.Flap.Depth), mm(m)),
			Accepts: accepts}
	}
	if c.PocketDepth > e.Height {
		return Liner{}, &words.Refused{Field: "pocket-depth", Given: mm(c.PocketDepth),
			Why: fmt.Sprintf("deeper than the pocket, which is %s high", mm(e.Height)), Accepts: "up to " + words.MMDown(e.Height)}
	}
	if c.CornerRadius > e.Width/4 || c.CornerRadius > l.LeastPocketDepth() {
		return Liner{}, &words.Refused{Field: "corner-radius", Given: mm(c.CornerRadius), Accepts: "up to " + words.MMDown(min(e.Width/4, l.LeastPocketDepth()))}
	}
	return l, nil
}

// Doubts are measurements that can be worked with but look like slips, a line
// each.
func (l Liner) Doubts() []string {
	var lines []string
	mm := words.MM
	if l.FlapHeight() < 0.4*l.Envelope.Flap.Depth {
		lines = append(lines, fmt.Sprintf("only %s of the liner shows on a flap %s deep: is the gum really %s wide?", mm(l.FlapHeight()), mm(l.Envelope.Flap.Depth), mm(l.Envelope.Gum)))
	}
	if free := l.Envelope.Height - l.WantedPocketDepth(); free < BottomGap-0.05 {
		lines = append(lines, fmt.Sprintf("a pocket depth of %s leaves %s at the pocket's bottom: the liner may buckle", mm(l.PocketDepth), mm(free)))
	}
	if e := l.Envelope; e.GuessedFlap {
		lines = append(lines, fmt.Sprintf("%s is not usually sold with this flap, and a depth of %s with %s of gum is a guess: measure both and give --flap-depth and --gum", e.Short, mm(e.Flap.Depth), mm(e.Gum)))
	}
	if trace := l.Envelope.Flap.Trace; len(trace) > 0 {
		w := l.Envelope.Width
		if left, right := trace[0].X, w-trace[len(trace)-1].X; max(left, right) > 0.15*w {
			lines = append(lines, fmt.Sprintf("the traced flap ends %s short of the pocket's side: trace the whole edge, from left to right", mm(max(left, right))))
		}
	}
	if e := l.Envelope; e.Name == Measured && e.Width < e.Height {
		lines = append(lines, fmt.Sprintf("the flap is on the short side of this pocket, %s wide; if it is on the long side, write --pocket %sx%s", mm(e.Width), words.Tenth(e.Height), words.Tenth(e.Width)))
	}
	return lines
}

// leastFlapPart is the least height of liner on the flap worth cutting.
const leastFlapPart = 2.0

// FullPocketDepth is how far below the fold a liner can usefully reach: down to
// BottomGap above the pocket's bottom.
func (l Liner) FullPocketDepth() float64 { return l.Envelope.Height - BottomGap }

// WantedPocketDepth is the depth asked for, else the full one.
func (l Liner) WantedPocketDepth() float64 {
	if l.PocketDepth > 0 {
		return l.PocketDepth
	}
	return l.FullPocketDepth()
}

// LeastPocketDepth is the shallowest a sheet may make it unasked: half the
// pocket's height, so that its end never shows.
func (l Liner) LeastPocketDepth() float64 {
	if l.PocketDepth > 0 {
		return l.PocketDepth
	}
	return l.Envelope.Height / 2
}

// FlapProfile is the flap's free edge from left to right.
func (l Liner) FlapProfile() geom.Profile { return l.flapProfile }

// Width is the liner's greatest width, in the pocket.
func (l Liner) Width() float64 { return l.Envelope.Width - 2*l.SideGap }

// FlapHeight is how far the liner rises above the fold.
func (l Liner) FlapHeight() float64 { return l.upper.Height() }
