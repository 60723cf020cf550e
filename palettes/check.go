package palettes

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"underflap/pattern"
	"underflap/pattern/draw"
)

// The least CIEDE2000 differences within a palette, of which about 1 is just seen.
// We know of no published limit for patterned paper: these are our choice, common
// practice without a source, and were looked at on a screen.
const (
	// LeastToGround keeps motifs, which may be fine lines, from sinking into what
	// they lie on.
	LeastToGround = 10.0
	// LeastAmongInks may be less, since inks seldom touch one another.
	LeastAmongInks = 8.0
	// LeastInSight is asked between all colours where a kind of cone is missing. It
	// is half of what is asked of everybody, so that few palettes must be given up.
	LeastInSight = 5.0
)

// Likeness is two colours of a palette that look alike, by number: 0 is the
// ground, 1 the first ink.
type Likeness struct {
	First, Second int
	Difference    float64 // CIEDE2000
	To            []Sight // whom; none is everybody
}

// Alike lists the pairs of colours that are too close, the closest first: for
// everybody, or where a kind of cone is missing.
func (p Palette) Alike() []Likeness {
	return append(p.AlikeToAll(), p.AlikeInSomeSight()...)
}

// AlikeToAll are the pairs that nobody tells apart easily.
func (p Palette) AlikeToAll() []Likeness {
	var list []Likeness
	p.pairs(func(i, j int) {
		if d := Difference(p.Ink(i), p.Ink(j)); d < least(i) {
			list = append(list, Likeness{First: i, Second: j, Difference: d})
		}
	})
	return closestFirst(list)
}

// AlikeInSomeSight are the pairs that are told apart unless a kind of cone is
// missing.
func (p Palette) AlikeInSomeSight() []Likeness {
	var list []Likeness
	p.pairs(func(i, j int) {
		if Difference(p.Ink(i), p.Ink(j)) < least(i) {
			return
		}
		pair := Likeness{First: i, Second: j, Difference: LeastInSight}
		for _, sight := range Sights {
			if d := Difference(sight.Seen(p.Ink(i)), sight.Seen(p.Ink(j))); d < LeastInSight {
				pair.To = append(pair.To, sight)
				pair.Difference = min(pair.Difference, d)
			}
		}
		if pair.To != nil {
			list = append(list, pair)
		}
	})
	return closestFirst(list)
}

// Closest is the least difference of two colours, seen by a sight or, with nil, by
// everybody.
func (p Palette) Closest(sight *Sight) (pair Likeness) {
	pair.Difference = 1000
	seen := func(n int) draw.Colour {
		if sight == nil {
			return p.Ink(n)
		}
		return sight.Seen(p.Ink(n))
	}
	p.pairs(func(i, j int) {
		if d := Difference(seen(i), seen(j)); d < pair.Difference {
			pair.First, pair.Second, pair.Difference = i, j, d
		}
	})
	return pair
}

// pairs calls do for every two colours, the lower number first.
func (p Palette) pairs(do func(i, j int)) {
	for i := range p.Inks {
		for j := i + 1; j <= len(p.Inks); j++ {
			do(i, j)
		}
	}
}

// least is what is asked between colour i and any with a higher number.
func least(i int) float64 {
	if i == 0 {
		return LeastToGround
	}
	return LeastAmongInks
}

func closestFirst(list []Likeness) []Likeness {
	slices.SortStableFunc(list, func(a, b Likeness) int { return cmp.Compare(a.Difference, b.Difference) })
	return list
}

// CalledInk is what colour n of a palette is called: the ground, or ink 2.
func CalledInk(n int) string {
	if n == 0 {
		return "the ground"
	}
	return fmt.Sprintf("ink %d", n)
}

// named is the same with the colour itself.
func named(c pattern.Colours, n int) string { return CalledInk(n) + " " + c.Ink(n).Hex() }

// mostRemarks bounds how many pairs are named before the rest is only counted.
const mostRemarks = 3

// Remarks tells which colours look alike, and to whom, a line each.
func (p Palette) Remarks() []string {
	var lines []string
	alike := p.Alike()
	for i, pair := range alike {
		if i == mostRemarks {
			return append(lines, fmt.Sprintf("%d more pairs of colours look alike", len(alike)-i))
		}
		lines = append(lines, p.Say(pair))
	}
	return lines
}

// Say puts a likeness in words.
func (p Palette) Say(l Likeness) string {
	say := fmt.Sprintf("%s and %s look alike", named(p.Colours, l.First), named(p.Colours, l.Second))
	if l.To == nil {
		return say
	}
	var plain, names []string
	for _, s := range l.To {
		plain, names = append(plain, s.Plain), append(names, s.Name)
	}
	return fmt.Sprintf("%s to %s eyes (%s)", say, strings.Join(plain, " and "), strings.Join(names, ", "))
}
