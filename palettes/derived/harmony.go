package derived

import (
	"cmp"
	"math"
	"slices"

	"underflap/palettes"
	"underflap/pattern/draw"
)

// straw is the hue lent to colours that have none: greys sit well with warm
// straw and, opposite it, slate.
const straw = 75

// scheme is what is derived from one colour: by how much the hues of its inks
// are turned from the colour's own, and what part each has.
type scheme struct {
	kind, says, about string  // the word before the colon, and words for people
	inks              []part  // beside the colour itself
	night             float64 // hue of a deep ground, turned from the colour's own
}

// part is what an ink is for: how light it is and how pure, beside the colour.
type part struct {
	turn   float64 // degrees
	role   role
	purity float64 // of the colour's chroma
}

type role int

const (
	main  role = iota // at the lightness where its hue is most itself
	other             // as main, and kept from the colour's own lightness
	soft              // pale
	deep              // dark
	mid
)

var schemes = []scheme{
	{kind: "complement", says: "complement of", about: "pale and deep tones of both", night: 180, inks: []part{{180, other, 0.9}, {0, soft, 0.6}, {180, deep, 0.7}, {180, soft, 0.45}}},
	{kind: "neighbours", says: "neighbours of", about: "hues on either side of it", inks: []part{{-38, main, 0.9}, {38, main, 0.9}, {0, deep, 0.7}, {18, soft, 0.55}}},
	{kind: "triad", says: "triad of", about: "the hues a third of the wheel away", night: -120, inks: []part{{120, main, 0.75}, {-120, main, 0.75}, {0, soft, 0.5}, {-120, deep, 0.6}}},
	{kind: "tints", says: "tints of", about: "one hue from pale to deep", inks: []part{{0, soft, 0.6}, {0, deep, 0.8}, {0, mid, 0.85}, {0, main, 1}}},
}

// natural is the lightness at which a hue is most itself: yellow is light, and
// blue and violet are dark.
func natural(h float64) float64 { return 0.6 + 0.13*math.Cos((h-105)*math.Pi/180) }

// paleness is 0 for what is read on a pale ground, and 1 for soft tones.
func (p part) paleness() int {
	switch p.role {
	case soft, mid:
		return 1
	}
	return 0
}

// lightness of a part on a light or a deep ground, beside a colour so light.
func (p part) lightness(h, beside float64, night bool) float64 {
	up := 0.0
	if night {
		up = 0.13
	}
	switch p.role {
	case soft:
		return 0.81 + up/2
	case deep:
		return 0.35 + 1.8*up
	case mid:
		return 0.68 + up/2
	case other:
		l := natural(h) + up
		if math.Abs(l-beside) < 0.12 {
			return beside + math.Copysign(0.12, l-beside)
		}
		return l
	}
	return natural(h) + up
}

// from derives a palette from one colour. The colour itself is in it, unchanged:
// as the ground when it is as pale as paper, and else as the first ink, on a pale
// tint of its own hue where it stands out from that, and on a deep ground where
// it does not. Inks of loud colours are a little quieter than the colour, those
// of dull ones a little purer, and greys are lent the hue of straw.
func (s scheme) from(c draw.Colour) set {
	t := toneOf(c)
	if t.hueless() {
		t.H, t.C = straw, 0.015
	}
	purity := min(max(t.C, 0.055), 0.16)
	var made set
	night := false
	switch pale := groundTint(t); {
	case t.L >= 0.86 && t.C < 0.075:
		made.ground = c
	case t.L < 0.79 && palettes.Difference(pale, c) >= 18:
		made.ground, made.inks = pale, []draw.Colour{c}
	default:
		night = true
		made.ground, made.inks = nightGround(t.turned(s.night), c), []draw.Colour{c}
	}
	inks := s.inks
	if len(made.inks) == 0 { // the first ink is to be read on a pale ground
		inks = slices.Clone(inks)
		slices.SortStableFunc(inks, func(p, q part) int { return cmp.Compare(p.paleness(), q.paleness()) })
	}
	for _, p := range inks {
		made.addAll(5, p.of(t, purity, night))
	}
	return made
}

// of is the tone of a part beside a colour.
func (p part) of(t tone, purity float64, night bool) tone {
	hue := t.turned(p.turn)
	l := p.lightness(hue.H, t.L, night)
	if t.C > 0.14 && hue.H > 80 && hue.H < 130 && l < 0.75 {
		hue.H -= (hue.H - 80) * min(1, (0.75-l)/0.2) // dark yellow is ochre, not olive
	}
	return hue.at(l, purity*p.purity).quiet(0.8)
}

// groundTint is the pale ground of a hue. That of reds and oranges leans to
// cream, as a tint of them is the pink of plasters.
func groundTint(t tone) draw.Colour {
	if t.H < 75 || t.H > 345 {
		t.H = math.Mod(t.H+15, 360)/90*20 + 60
	}
	return t.at(0.952, min(0.028, 0.008+0.2*t.C)).colour()
}

// nightGround is the deep ground of a hue, from which a colour stands out.
// Yellow has no deep shade that is not mud, so that it becomes bark or bottle
// green.
func nightGround(t tone, c draw.Colour) draw.Colour {
	switch {
	case t.H > 80 && t.H < 112:
		t.H = 60
	case t.H >= 112 && t.H < 140:
		t.H = 150
	}
	for l := 0.30; l > 0.1; l -= 0.02 {
		if g := t.at(l, min(max(t.C, 0.03), 0.05)).colour(); palettes.Difference(g, c) >= 18 {
			return g
		}
	}
	return draw.Colour{}
}
