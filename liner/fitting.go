package liner

import (
	"cmp"
	"math"
	"slices"
	"strings"
)

// Fitting is an envelope that a card goes into, with the room left along the
// long and the short side, both ends together.
type Fitting struct {
	Entry
	Long, Short float64
}

// Fits lists those entries that a card goes into with at least the given room
// to spare along its long and its short side, tightest first: least area, and
// among those alike to a square centimetre in their order.
func Fits(entries []Entry, c Card, long, short float64) []Fitting {
	var out []Fitting
	for _, e := range entries {
		f := Fitting{Entry: e, Long: max(e.Width, e.Height) - max(c.Width, c.Height), Short: min(e.Width, e.Height) - min(c.Width, c.Height)}
		if f.Long >= long-1e-6 && f.Short >= short-1e-6 {
			out = append(out, f)
		}
	}
	slices.SortStableFunc(out, func(a, b Fitting) int { return cmp.Compare(a.area(), b.area()) })
	return out
}

// area of the pocket in whole square centimetres.
func (f Fitting) area() float64 { return math.Round(f.Width * f.Height / 100) }

// Pick chooses among those that fit, tightest first, the one to take: the
// tightest one from the card's own part of the world that is at most a quarter
// larger than the tightest of all. Envelopes of no part of the world, which the
// person saved, are at home everywhere. ok is false when there are none.
func Pick(fits []Fitting, c Card) (f Fitting, ok bool) {
	if len(fits) == 0 {
		return f, false
	}
	for _, f := range fits {
		if f.area() <= 1.25*fits[0].area() && atHome(f.Name, c.Name) {
			return f, true
		}
	}
	return fits[0], true
}

// atHome compares where two media names are from: the part before the first
// underscore, of which PWG's other metric sizes go with ISO.
func atHome(envelope, card string) bool {
	from := func(name string) string {
		class, _, named := strings.Cut(name, "_")
		if class == "om" {
			return "iso"
		}
		if !named {
			return ""
		}
		return class
	}
	return from(envelope) == "" || from(envelope) == from(card)
}
