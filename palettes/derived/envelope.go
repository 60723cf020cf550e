package derived

import (
	"strings"

	"underflap/palettes"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// paper is the paper of an envelope by a plain word. The values are by eye, as
// such papers look in daylight: common practice, no source. Two of the words,
// ivory and lavender, CSS has as well; of an envelope they mean the paper.
type paper struct {
	name   string
	colour draw.Colour
}

var papers = []paper{
	{"kraft", draw.Colour{R: 0xb8, G: 0x8e, B: 0x63}},
	{"manila", draw.Colour{R: 0xe6, G: 0xcb, B: 0x94}},
	{"buff", draw.Colour{R: 0xdd, G: 0xb8, B: 0x7f}},
	{"cream", draw.Colour{R: 0xf6, G: 0xec, B: 0xd2}},
	{"ivory", draw.Colour{R: 0xf8, G: 0xf3, B: 0xe3}},
	{"recycled", draw.Colour{R: 0xcf, G: 0xc8, B: 0xba}},
	{"blush", draw.Colour{R: 0xf0, G: 0xd3, B: 0xcb}},
	{"rose", draw.Colour{R: 0xc9, G: 0x96, B: 0x96}},
	{"lavender", draw.Colour{R: 0xcf, G: 0xc4, B: 0xe0}},
	{"pale-blue", draw.Colour{R: 0xc3, G: 0xd7, B: 0xe4}},
	{"dusty-blue", draw.Colour{R: 0x8f, G: 0xa6, B: 0xb8}},
	{"sage", draw.Colour{R: 0xa9, G: 0xb5, B: 0x9a}},
	{"moss", draw.Colour{R: 0x5f, G: 0x6f, B: 0x45}},
	{"forest", draw.Colour{R: 0x27, G: 0x47, B: 0x38}},
	{"terracotta", draw.Colour{R: 0xb8, G: 0x62, B: 0x44}},
	{"burgundy", draw.Colour{R: 0x65, G: 0x20, B: 0x30}},
	{"night-blue", draw.Colour{R: 0x24, G: 0x30, B: 0x4d}},
	{"charcoal", draw.Colour{R: 0x3b, G: 0x3b, B: 0x3d}},
}

// Papers are the words for envelope papers, beside CSS names and hex.
func Papers() []string {
	var names []string
	for _, p := range papers {
		names = append(names, p.name)
	}
	return names
}

// envelopePaper reads the colour of an envelope; says is how a sentence has it.
func envelopePaper(field, given, word string) (c draw.Colour, says string, err error) {
	if c, err = PaperColour(field, word); err != nil {
		return c, "", &words.Refused{Field: field, Given: given, Why: "no colour of an envelope that is known",
			Accepts: "envelope: with " + strings.Join(Papers(), ", ") + ", a CSS colour name, or a colour such as #c0572f"}
	}
	name := paperName(word)
	if strings.HasPrefix(name, "#") {
		return c, "an envelope of " + name, nil
	}
	return c, article(strings.ReplaceAll(name, "-", " ")) + " envelope", nil
}

func article(word string) string {
	if strings.ContainsAny(word[:1], "aeiou") {
		return "an " + word
	}
	return "a " + word
}

// forEnvelope are colours that go with an envelope's paper.
//
// A light envelope is lined deep: the ground is a night shade of the hue across
// from its own, so that the liner shows as soon as the flap opens, and the first
// ink is the envelope's own colour, which ties the two together. Any other
// envelope is lined light: the ground is a pale tint of its own hue, and the
// first ink is a dark one, or the envelope's colour if that is dark. Beside that
// three inks are neighbours of the envelope's hue, and one across from it is the
// contrast.
func forEnvelope(c draw.Colour) set {
	t := toneOf(c)
	if t.hueless() {
		t.H, t.C = straw, 0.015
	}
	purity := min(max(1.1*t.C, 0.065), 0.14)
	pale := groundTint(t)
	if t.L < 0.8 && palettes.Difference(pale, c) >= 15 {
		made := set{ground: pale, inks: []draw.Colour{c}}
		for _, p := range []part{{12, deep, 0.9}, {-30, main, 1}, {30, soft, 0.8}, {180, other, 1}} {
			made.addAll(5, p.of(t, purity, false))
		}
		if t.L > 0.55 && len(made.inks) > 1 {
			made.inks[0], made.inks[1] = made.inks[1], made.inks[0]
		}
		return made
	}
	made := set{ground: nightGround(t.turned(180), c), inks: []draw.Colour{c}}
	for _, p := range []part{{-25, main, 1.3}, {8, mid, 0.9}, {-50, main, 1.2}, {180, mid, 0.7}} {
		made.addAll(5, p.of(t, purity, true))
	}
	return made
}
