// Package derived makes palettes: from one colour, for an envelope, and of a
// photo. Colours are turned, lightened and made greyer in OKLCh, where equal
// steps look equal. Every ink of a derived palette stands out from its ground and
// from the other inks.
package derived

import (
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"underflap/palettes"
	"underflap/pattern/draw"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

const (
	envelope = "envelope"
	photo    = "photo"
)

// Kinds are the words before the colon of a wish.
func Kinds() []string {
	var kinds []string
	for _, s := range schemes {
		kinds = append(kinds, s.kind)
	}
	return append(kinds, envelope, photo)
}

// parts takes a wish apart; ok is false for a word that is none. A letter of a
// drive ("C:\hedge.toml") is no kind.
func parts(word string) (kind, of string, ok bool) {
	before, after, found := strings.Cut(word, ":")
	before = strings.TrimSpace(before)
	for _, k := range Kinds() {
		if found && strings.EqualFold(before, k) {
			return k, strings.TrimSpace(after), true
		}
	}
	return "", "", false
}

// Wish tells whether a word for a palette asks for a derived one, such as
// "complement:#c0572f" or "photo:card.jpg".
func Wish(word string) bool {
	_, _, ok := parts(word)
	return ok
}

// Photo is the file that a wish reads, "" when it reads none.
func Photo(word string) string {
	if kind, of, ok := parts(word); ok && kind == photo {
		return of
	}
	return ""
}

// Envelope is the colour of the envelope that a wish is for; ok is false when it
// is for none that is known.
func Envelope(word string) (c draw.Colour, ok bool) {
	kind, of, _ := parts(word)
	if kind != envelope {
		return c, false
	}
	c, err := PaperColour("palette", of)
	return c, err == nil
}

// Resolve derives the palette that a word wishes; field is what to blame, and
// photos come from a source. The remarks say what a person should know of it, a line each. Its name is words
// for people: "colours for a kraft envelope". When ctx ends it stops and gives the
// context's error.
func Resolve(ctx context.Context, from filed.Source, field, word string) (p palettes.Palette, remarks []string, err error) {
	kind, of, ok := parts(word)
	if !ok {
		return p, nil, &words.Refused{Field: field, Given: word, Why: "no palette is derived like that", Accepts: Examples()}
	}
	if of == "" {
		return p, nil, &words.Refused{Field: field, Given: word, Why: "nothing after the colon", Accepts: example(kind)}
	}
	var made set
	switch kind {
	case photo:
		if made, remarks, err = ofPhoto(ctx, from, field, of); err != nil {
			return p, nil, err
		}
		p.Name = "colours of " + printable(filepath.Base(of))
		p.About = capital(p.Name) + ", as they are in the photo"
	case envelope:
		c, says, err := envelopePaper(field, word, of)
		if err != nil {
			return p, nil, err
		}
		made, p.Name, p.About = forEnvelope(c), "colours for "+says, capital(says)+", hues beside its own and one across from it"
	default:
		c, err := palettes.Colour(field, of)
		if err != nil {
			return p, nil, &words.Refused{Field: field, Given: word, Why: "not a colour after the colon", Accepts: example(kind) + ", or a CSS colour name such as " + kind + ":firebrick"}
		}
		for _, s := range schemes {
			if s.kind == kind {
				p.Name = s.says + " " + strings.ToLower(of)
				made, p.About = s.from(c), capital(p.Name)+", "+s.about
			}
		}
		if toneOf(c).hueless() {
			remarks = append(remarks, fmt.Sprintf("%s has no hue; the others are taken from straw and slate", strings.ToLower(of)))
		}
	}
	p.Ground, p.Inks = made.ground, made.inks
	return p, remarks, nil
}

var examples = []string{"complement:#c0572f", "neighbours:#c0572f", "triad:#c0572f", "tints:#c0572f", "envelope:kraft", "photo:card.jpg"}

// Examples are wishes of every kind, for a line that says what is accepted.
func Examples() string { return strings.Join(examples, ", ") }

// example is how a wish of a kind is written.
func example(kind string) string {
	for _, e := range examples {
		if strings.HasPrefix(e, kind+":") {
			return e
		}
	}
	panic("derived: a kind without an example")
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] } // of our own words, in ASCII

// printable is a file's name as it may stand in a heading and a line.
func printable(name string) string {
	const half = 25 // runes, of a name that is shortened in the middle
	runes := []rune(words.Printable(name))
	if len(runes) > 2*half {
		runes = slices.Concat(runes[:half], []rune("…"), runes[len(runes)-half:])
	}
	return string(runes)
}
