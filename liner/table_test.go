package liner_test

import (
	"errors"
	"regexp"
	"slices"
	"strings"
	"testing"

	"underflap/liner"
	"underflap/pattern/words"
)

// plain is a name as people may type it: the rule by which names are compared,
// said again.
func plain(name string) string {
	return strings.NewReplacer(" ", "", ".", "", "-", "", "#", "no").Replace(strings.ToLower(name))
}

func TestEveryRowOfTheSizeTableIsWhole(t *testing.T) {
	if n := len(liner.Entries()); n < 90 {
		t.Fatalf("the table has %d rows", n)
	}
	for _, e := range liner.Entries() {
		if e.Name == "" || len(e.Trade) == 0 || e.Trade[0] == "" || len(e.Flaps) == 0 {
			t.Errorf("%+v has no name, trade name or flap", e)
			continue
		}
		if e.SizeSource == "" || e.FlapSource == "" {
			t.Errorf("%s: sources %q and %q", e.Name, e.SizeSource, e.FlapSource)
		}
		// common practice, no source: a flap on the long side reaches a quarter of
		// the pocket down, one on the short side, as pockets have it, much less;
		// neither reaches the bottom. Gum takes up to half a flap, or there is none.
		least, most := e.Height/4, e.Height
		if e.Width < e.Height {
			least, most = 0.15*e.Width, e.Width/2
		}
		depths := map[liner.Shape]float64{}
		for _, f := range e.Flaps {
			if depths[f.Shape] != 0 || !slices.Contains(liner.Shapes, f.Shape) {
				t.Errorf("%s: a second or unknown flap %s", e.Name, f.Shape)
			}
			depths[f.Shape] = f.Depth
			if f.Depth < least || f.Depth > most {
				t.Errorf("%s: a %s flap %v deep on a pocket %v wide and %v high", e.Name, f.Shape, f.Depth, e.Width, e.Height)
			}
			if f.Gum != 0 && (f.Gum < 5 || f.Gum > f.Depth/2) {
				t.Errorf("%s: a %s flap %v deep, gum %v", e.Name, f.Shape, f.Depth, f.Gum)
			}
			shows, wanted := f.Depth-f.Gum-liner.DefaultGumClearance, 4.0
			if f.Shape == liner.Pointed && min(e.Width, e.Height) >= 40 {
				wanted = 15
			}
			if shows < wanted {
				t.Errorf("%s: %v of a liner shows on a %s flap", e.Name, shows, f.Shape)
			}
		}
		// a pointed flap is the deepest on its envelope, a square one the shallowest
		for shape, depth := range depths {
			if shape != liner.Square && depths[liner.Square] >= depth || shape != liner.Pointed && depths[liner.Pointed] != 0 && depths[liner.Pointed] <= depth {
				t.Errorf("%s: flaps %v deep", e.Name, depths)
			}
		}
	}
	for _, p := range liner.Papers() {
		if p.Name == "" || p.Short == "" || p.Source == "" || p.Width > p.Height || p.Width == p.Height && !strings.Contains(p.Name, "_craft-") {
			t.Errorf("paper %+v", p)
		}
	}
	if n := len(liner.Cards()); n < 20 {
		t.Fatalf("there are %d cards", n)
	}
	for _, c := range liner.Cards() {
		if c.Name == "" || len(c.Trade) == 0 || c.Trade[0] == "" || c.Source == "" || c.Width > c.Height {
			t.Errorf("card %+v", c)
		}
	}
}

// Common practice, no source: an envelope for a card opens on its long side.
// These are pockets for sheets, which open on the short one.
func TestOnlyPocketsForSheetsOpenOnTheirShortSide(t *testing.T) {
	pocket := regexp.MustCompile(`^(iso_(c[0-4]|b[0-4]|e4)|na_(9x11|arch-a|10x1[345])|jpn_(chou\d+|kaku\d|kahu)|prc_(9|10))_`)
	for _, e := range liner.Entries() {
		if opens := e.Width < e.Height; opens != pocket.MatchString(e.Name) {
			t.Errorf("%s: pocket %v wide and %v high", e.Name, e.Width, e.Height)
		}
	}
}

func TestRowsStandByFamilyWithWhatAHomeCardMakerHoldsFirst(t *testing.T) {
	families := []string{"ISO", "North America", "US announcement", "Squares", "Japan", "China", "Other"}
	at := 0
	for i, e := range liner.Entries() {
		for at < len(families) && families[at] != e.Family {
			at++
		}
		if at == len(families) {
			t.Fatalf("row %d, %s, is of the family %q", i+1, e.Name, e.Family)
		}
		if square := e.Width == e.Height; square != (e.Family == "Squares") && e.Name != "om_invite_220x220mm" {
			t.Errorf("%s (%v x %v) is of the family %q", e.Name, e.Width, e.Height, e.Family)
		}
	}
	if first := liner.EnvelopeNames()[:5]; !slices.Equal(first, []string{"C6", "C5", "DL", "B6", "C7"}) {
		t.Errorf("the table begins with %v", first)
	}
}

// "C6" and "c-6" must not mean two things, and an ISO A size is a sheet: only
// the US announcement envelopes are called by such names.
func TestNoTwoRowsShareAName(t *testing.T) {
	sheet := regexp.MustCompile(`^a\d+$`)
	has := map[string]string{}
	for _, e := range liner.Entries() {
		for _, name := range append([]string{e.Name}, e.Trade...) {
			key := plain(name)
			if other, taken := has[key]; taken || key == "" || strings.TrimSpace(name) != name {
				t.Errorf("%q is %s and %s", name, other, e.Name)
			}
			has[key] = e.Name
			if sheet.MatchString(key) && e.Family != "US announcement" {
				t.Errorf("%s is called %q", e.Name, name)
			}
		}
	}
	has = map[string]string{}
	for _, c := range liner.Cards() {
		for _, name := range append([]string{c.Name}, c.Trade...) {
			key := plain(name)
			if other, taken := has[key]; taken || key == "" || strings.TrimSpace(name) != name {
				t.Errorf("%q is the card %s and %s", name, other, c.Name)
			}
			has[key] = c.Name
			// 5.5x8.5 is 55x85 without its dots
			if strings.Contains(name, ".") && name != c.Name && !strings.Contains(key, "in") {
				t.Errorf("card %s is called %q without a unit", c.Name, name)
			}
		}
	}
	has = map[string]string{}
	for _, p := range liner.Papers() {
		for _, name := range []string{p.Name, p.Short} {
			if other, taken := has[plain(name)]; taken || strings.Contains(name, "|") {
				t.Errorf("%q is the paper %s and %s", name, other, p.Name)
			}
			has[plain(name)] = p.Name
		}
	}
}

// A pocket under 40 mm is none that anybody lines; its liner may be refused.
func TestEveryRowsUsualFlapsCarryALiner(t *testing.T) {
	made := 0
	for _, e := range liner.Entries() {
		if min(e.Width, e.Height) < 40 {
			continue
		}
		for _, shape := range liner.Shapes {
			envelope := e.Envelope(shape)
			l := mustLine(t, envelope, usualClearances)
			least := 10.0
			if min(e.Width, e.Height) < 80 {
				least = 4
			}
			if l.Envelope.Flap.Depth != envelope.Flap.Depth || l.FlapHeight() < least {
				t.Errorf("%s %s: the liner rises %v on a flap %v deep", e.Name, shape, l.FlapHeight(), envelope.Flap.Depth)
			}
		}
		for i, f := range e.Flaps {
			envelope := e.Envelope(f.Shape)
			if envelope.Flap.Shape != f.Shape || envelope.Flap.Depth != f.Depth || envelope.Gum != f.Gum || envelope.GuessedFlap {
				t.Errorf("%s: the usual %+v became %+v", e.Name, f, envelope)
			}
			if i == 0 && e.Envelope("").Flap.Shape != f.Shape {
				t.Errorf("%s: %s is the commonest flap, not %s", e.Name, f.Shape, e.Envelope("").Flap.Shape)
			}
			made++
		}
	}
	if made < 150 {
		t.Errorf("%d liners were made", made)
	}
}

func TestAnEnvelopeIsFoundByEveryNameItHas(t *testing.T) {
	for _, e := range liner.Entries() {
		for _, name := range append([]string{e.Name}, e.Trade...) {
			for _, given := range []string{name, strings.ToLower(name), strings.ToUpper(name), "  " + name + " ", strings.ReplaceAll(name, " ", "-")} {
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

		"a-2": "na_a2_4.375x5.75in", "a-6": "na_a6_4.75x6.5in", "#6 3/4": "na_personal_3.625x6.5in", "no. 7 3/4": "na_monarch_3.875x7.5in",
		"4 bar": "na_a1_3.625x5.125in", "a1": "na_a1_3.625x5.125in", "lee": "na_lee_5.25x7.25in", "9 x 12": "na_arch-a_9x12in",
		"c6/c5": "iso_c6c5_114x229mm", "C65": "iso_c6c5_114x229mm", "6.5in square": "na_square-6-5_6.5x6.5in", "6 in square": "na_square-6_6x6in",
		"155 mm square": "om_square-155_155x155mm", "chou3": "jpn_chou3_120x235mm", "naga 3": "jpn_chou3_120x235mm",
		"kaku 2": "jpn_kaku2_240x332mm", "you-4": "jpn_you4_105x235mm", "prc5": "prc_5_110x220mm", "prc 10": "prc_10_324x458mm",
		"c1": "iso_c1_648x917mm", "c10": "iso_c10_28x40mm", "no 11": "na_number-11_4.5x10.375in",
		// what people hold, and not PWG 5101.1's odd sizes of those names
		"chou 2": "jpn_chou2_119x277mm", "prc 6": "prc_6_120x230mm", "pwg chou 2": "jpn_chou2_111.1x146mm", "pwg prc 6": "prc_6_120x320mm",
	} {
		if found, err := liner.LookUp(given); err != nil || found.Name != want {
			t.Errorf("%q found %q, %v; want %s", given, found.Name, err, want)
		}
	}
}

func TestAnUnknownEnvelopeIsRefusedWithNamesThatAreKnownAndWhereTheOthersAre(t *testing.T) {
	for _, given := range []string{"", "c66", "iso_c6", "envelope", "no. 13", "a4"} {
		_, err := liner.LookUp(given)
		var refused *words.Refused
		if !errors.As(err, &refused) {
			t.Errorf("%q: %v", given, err)
			continue
		}
		for _, name := range append(liner.EnvelopeNames()[:5:5], "underflap sizes") {
			if !strings.Contains(refused.Accepts, name) {
				t.Errorf("%q: the refusal does not list %s: %s", given, name, refused.Accepts)
			}
		}
	}
}

func TestAPaperIsFoundByNameOrRead(t *testing.T) {
	for _, p := range liner.Papers() {
		for _, name := range []string{p.Name, p.Short, strings.ToLower(p.Short)} {
			if found, err := liner.ParsePaper("paper", name); err != nil || found != p {
				t.Errorf("%q found %+v, %v; want %s", name, found, err, p.Name)
			}
		}
	}
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

func TestACardIsFoundByEveryNameItHasBeforeASizeIsRead(t *testing.T) {
	for _, c := range liner.Cards() {
		for _, name := range append([]string{c.Name}, c.Trade...) {
			for _, given := range []string{name, strings.ToUpper(name)} {
				if found, err := liner.ParseCard("card", given); err != nil || found.Name != c.Name {
					t.Errorf("%q found %+v, %v; want %s", given, found, err, c.Name)
				}
			}
		}
	}
	for given, want := range map[string][2]float64{
		"a6": {105, 148}, "A7": {74, 105}, "5x7": {127, 177.8}, "5 x 7 in": {127, 177.8}, "dl card": {99, 210}, "hagaki": {100, 148},
		"half letter": {139.7, 215.9}, "5.5x8.5in": {139.7, 215.9}, "55x85": {55, 85}, "148x105": {148, 105},
	} {
		if c, err := liner.ParseCard("card", given); err != nil || !alike(c.Width, want[0]) || !alike(c.Height, want[1]) {
			t.Errorf("%q: %v x %v, %v; want %v", given, c.Width, c.Height, err, want)
		}
	}
}

// Common practice, no source: 2.5 mm to spare along each side is the least that
// makers of square envelopes leave, and half a C6 more than any leaves.
func TestEveryCardHasAnEnvelopeThatTakesIt(t *testing.T) {
	for _, c := range liner.Cards() {
		fits := liner.Fits(liner.Entries(), c, 2.5, 2.5)
		if len(fits) == 0 || fits[0].Short > 57 || fits[0].Long > 57 {
			t.Errorf("%s: %v", c.Name, fits)
		}
	}
}
