package derived

import (
	"underflap/palettes"
	"underflap/pattern/draw"
)

// The least CIEDE2000 differences of a derived palette: of an ink to the ground
// and of two inks. 10 is a difference nobody overlooks, 8 is enough for inks,
// which seldom touch (common practice, no source).
const (
	toGround = 10.0
	toInk    = 8.0
)

// set is a palette in the making.
type set struct {
	ground draw.Colour
	inks   []draw.Colour
}

// takes tells whether a colour keeps its distance from all that is in the set.
func (s *set) takes(c draw.Colour) bool {
	if palettes.Difference(c, s.ground) < toGround {
		return false
	}
	for _, ink := range s.inks {
		if palettes.Difference(c, ink) < toInk {
			return false
		}
	}
	return true
}

// add takes a tone as an ink. Where it would be lost beside the others, it is
// made lighter or darker, as little as will do, and if that does not help greyer
// or purer. False: there is no room for it.
func (s *set) add(want tone) bool {
	for _, purity := range []float64{1, 0.6, 1.5, 0.25, 0} {
		for step := 0.0; step < 1; step += 0.02 {
			for _, way := range []float64{1, -1} {
				l := want.L + way*step
				if l < 0.12 || l > 0.985 {
					continue
				}
				if c := want.at(l, want.C*purity).colour(); s.takes(c) {
					s.inks = append(s.inks, c)
					return true
				}
			}
		}
	}
	return false
}

// addAll takes tones until there are so many inks.
func (s *set) addAll(most int, wanted ...tone) {
	for _, t := range wanted {
		if len(s.inks) < most {
			s.add(t)
		}
	}
}
