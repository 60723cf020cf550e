package liner_test

import (
	"errors"
	"strings"
	"testing"

	"underflap/liner"
	"underflap/pattern/words"
)

func TestEveryRowOfTheSizeTableIsWhole(t *testing.T) {
	if n := len(liner.Entries()); n < 10 {
		t.Fatalf("the table has %d rows", n)
	}
	for _, e := range liner.Entries() {
		if e.Name == "" || len(e.Trade) == 0 || e.Trade[0] == "" {
			t.Errorf("%+v has no name or trade name", e)
		}
		size, flap, both := strings.Cut(e.Source, "; flap: ")
		if !both || size == "" || flap == "" {
			t.Errorf("%s: source %q", e.Name, e.Source)
		}
		// common practice, no source: flaps reach a third of the pocket and
		// not its bottom, and a square one is shallower than a pointed one
		for shape, depth := range map[string]float64{"pointed": e.Pointed, "square": e.Square} {
			if depth < e.Height/4 || depth > e.Height {
				t.Errorf("%s: a %s flap %v deep on a pocket %v high", e.Name, shape, depth, e.Height)
			}
		}
		if e.Square >= e.Pointed || e.Gum < 5 || e.Gum > e.Square/2 {
			t.Errorf("%s: flaps %v and %v deep, gum %v", e.Name, e.Pointed, e.Square, e.Gum)
		}
		// common practice, no source: each of these opens on its long side
		if e.Width <= e.Height {
			t.Errorf("%s: pocket %v wide and %v high", e.Name, e.Width, e.Height)
		}
	}
	for _, p := range liner.Papers() {
		if p.Name == "" || p.Short == "" || p.Source == "" || p.Width >= p.Height {
			t.Errorf("paper %+v", p)
		}
	}
}

func TestEveryRowsUsualFlapsCarryALiner(t *testing.T) {
	for _, e := range liner.Entries() {
		for _, shape := range liner.Shapes {
			envelope := e.Envelope(shape)
			l := mustLine(t, envelope, usualClearances)
			if l.Envelope.Flap.Depth != envelope.Flap.Depth || l.FlapHeight() < 10 {
				t.Errorf("%s %s: the liner rises %v on a flap %v deep", e.Name, shape, l.FlapHeight(), envelope.Flap.Depth)
			}
		}
	}
}

func TestAnEnvelopeIsFoundByEveryNameItHas(t *testing.T) {
	for _, e := range liner.Entries() {
		for _, name := range append([]string{e.Name}, e.Trade...) {
			for _, given := range []string{name, strings.ToLower(name), strings.ToUpper(name), "  " + name + " "} {
				if found, err := liner.LookUp(given); err != nil || found.Name != e.Name {
					t.Errorf("%q found %q, %v; want %s", given, found.Name, err, e.Name)
				}
			}
		}
	}
	for given, want := range map[string]string{
		"No. 10": "na_number-10_4.125x9.5in", "no10": "na_number-10_4.125x9.5in", "#10": "na_number-10_4.125x9.5in",
		"number 10": "na_number-10_4.125x9.5in", "com-10": "na_number-10_4.125x9.5in",
		"c6": "iso_c6_114x162mm", "dl": "iso_dl_110x220mm", "a-7": "na_a7_5.25x7.25in", "A7": "na_a7_5.25x7.25in",
		"monarch": "na_monarch_3.875x7.5in",
	} {
		if found, err := liner.LookUp(given); err != nil || found.Name != want {
			t.Errorf("%q found %q, %v; want %s", given, found.Name, err, want)
		}
	}
}

func TestAnUnknownEnvelopeIsRefusedWithTheNamesThatAreKnown(t *testing.T) {
	for _, given := range []string{"", "c66", "iso_c6", "envelope", "no. 11"} {
		_, err := liner.LookUp(given)
		var refused *words.Refused
		if !errors.As(err, &refused) {
			t.Errorf("%q: %v", given, err)
			continue
		}
		for _, name := range liner.EnvelopeNames() {
			if !strings.Contains(refused.Accepts, name) {
				t.Errorf("%q: the refusal does not list %s: %s", given, name, refused.Accepts)
			}
		}
	}
}

func TestAPaperIsFoundByNameOrRead(t *testing.T) {
	for given, want := range map[string][2]float64{
		"a4": {210, 297}, "A3": {297, 420}, "letter": {215.9, 279.4}, "na_legal_8.5x14in": {215.9, 355.6},
		"305x305": {305, 305}, "12x12in": {304.8, 304.8}, "210 x 148": {210, 148},
	} {
		p, err := liner.ParsePaper("paper", given)
		if err != nil || !alike(p.Width, want[0]) || !alike(p.Height, want[1]) {
			t.Errorf("%q: %v x %v, %v; want %v", given, p.Width, p.Height, err, want)
		}
	}
	for _, given := range []string{"", "a44", "10x10", "2000x2000", "210", "210x", "-210x297", "NaNxNaN"} {
		_, err := liner.ParsePaper("paper", given)
		var refused *words.Refused
		if !errors.As(err, &refused) || refused.Field != "paper" || !strings.Contains(refused.Accepts, "A4") {
			t.Errorf("%q: %v", given, err)
		}
	}
}

func alike(a, b float64) bool { return a-b < 1e-9 && b-a < 1e-9 }

// Common practice, no source: a 148 mm card wants 5 mm to spare on each side,
// a pocket 158 mm wide, which makers round to 160; C6 at 162 takes it too. The
// liner, 3 mm short of each side, must still stand out behind the card.
func TestALinerIsWiderThanTheCardItsEnvelopeIsMadeFor(t *testing.T) {
	const card, spare = 148.0, 5.0
	c6 := rowNamed(t, "iso_c6_114x162mm").Envelope(liner.Pointed)
	measured := c6
	measured.Name, measured.Width = "measured", 160
	for _, e := range []liner.Envelope{c6, measured} {
		l := mustLine(t, e, usualClearances)
		if each := (l.Envelope.Width - card) / 2; each < spare {
			t.Errorf("%s leaves %v mm each side of a %v mm card", e.Name, each, card)
		}
		if behind := (l.Width() - card) / 2; behind < 1 {
			t.Errorf("%s: the liner stands out %v mm each side of the card", e.Name, behind)
		}
	}
	if each := (mustLine(t, measured, usualClearances).Envelope.Width - card) / 2; each != 6 {
		t.Errorf("a pocket of 160 leaves %v mm each side, want 6", each)
	}
}
