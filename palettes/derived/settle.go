package derived

import (
	"underflap/palettes"
	"underflap/pattern/draw"
)

// set is a palette in the making.
type set struct {
	ground draw.Colour
	inks   []draw.Colour
}

// takes tells whether a colour keeps the project's least differences from all
// that is in the set; with sights, where a kind of cone is missing too.
func (s *set) takes(c draw.Colour, sights bool) bool {
	if !apart(c, s.ground, palettes.LeastToGround, sights) {
		return false
	}
	for _, ink := range s.inks {
		if !apart(c, ink, palettes.LeastAmongInks, sights) {
			return false
		}
	}
	return true
}

func apart(a, b draw.Colour, least float64, sights bool) bool {
	if palettes.Difference(a, b) < least {
		return false
	}
	if sights {
		for _, sight := range palettes.Sights {
			if palettes.Difference(sight.Seen(a), sight.Seen(b)) < palettes.LeastInSight {
				return false
			}
		}
	}
	return true
}

// add takes a tone as an ink. Where it would be lost beside the others, to
// anybody or where a kind of cone is missing, it is made lighter or darker, as
// little as will do. If that would have to be much, everybody's sight must do,
// and the tone may be made greyer or purer. False: there is no room for it.
func (s *set) add(want tone) bool {
	if s.near(want, 0.2, true) {
		return true
	}
	for _, purity := range []float64{1, 0.6, 1.5, 0.25, 0} {
		if s.near(want.at(want.L, want.C*purity), 1, false) {
			return true
		}
	}
	return false
}

// near takes a tone or the first lighter or darker than it that goes.
func (s *set) near(want tone, farthest float64, sights bool) bool {
	for step := 0.0; step <= farthest; step += 0.02 {
		for _, way := range []float64{1, -1} {
			l := want.L + way*step
			if l < 0.12 || l > 0.985 {
				continue
			}
			if c := want.at(l, want.C).colour(); s.takes(c, sights) {
				s.inks = append(s.inks, c)
				return true
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
