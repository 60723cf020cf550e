package desk

import (
	"net/url"
	"slices"
	"strings"
	"testing"

	"underflap/liner/request"
)

// What the program says to people on a command line, and how the page says it.
func TestLinesAreSaidAsThePageCallsThings(t *testing.T) {
	for given, want := range map[string]string{
		"pocket depth reduced by 0.4 mm to 108.6 mm so that two liners fit on A4; with --per-sheet 1 it is 109 mm": "the part in the pocket ends 0.4 mm sooner, 108.6 mm below the fold, so that two liners fit on A4; alone on its sheet it would reach 109 mm",
		"two would fit with --paper a3 or --paper super-b or --pocket-depth 48":                                    "two would fit with A3 paper or Super B paper or a pocket depth of 48 mm",
		"a larger paper with --paper WxH": "a larger paper",
		"folded from A4; write --from a4, or another sheet, with fold and with sheet alike, so that envelope and liner match": "folded from A4; another sheet can be named under “More about folding”",
		"for a card of A7 write --card a7": "for a card of A7 choose “For a card”",
		"; --stamp-colour takes another":   "; “Print it in” takes another",
		"with --gum 0 and --gum-clearance": "with “Width of the gum” 0 and “Gum clearance”",
	} {
		if got := (speech{}).line(given); got != want {
			t.Errorf("%q: %q, want %q", given, got, want)
		}
	}
	said := (speech{}).lines([]string{"acorn photo.png: cleaned", "folded from A4"})
	if want := []string{"acorn photo.png: cleaned", "Folded from A4"}; !slices.Equal(said, want) {
		t.Errorf("%q, want %q", said, want)
	}
}

// The lines that are turned another way are still those that the program says.
func TestThePageKnowsTheLinesOfTheProgram(t *testing.T) {
	s := serve(t, nil)
	for query, want := range map[string]string{
		"envelope=a7&paper=letter":              "below the fold, so that two liners fit on Letter; alone on its sheet it would reach 128.4 mm",
		"envelope=c5":                           "two would fit with A3 paper or Tabloid paper or a pocket depth of 48 mm",
		"pocket=294x200&flap-depth=90":          "Try A3 paper or Legal paper or a side gap of 3.5 mm.",
		"card=500x500":                          "Try a larger paper.",
		"pocket=152x230&flap-depth=70":          "if it is on the long side, change A for B",
		"envelope=c5&units=in":                  "or a pocket depth of 1.89 in",
		"handmade=four-corner&card=a6":          "Folded from A4; another sheet can be named under “More about folding”",
		"envelope=a7":                           "for a card of A7 choose “For a card”",
		"ink-saver=usual&units=in":              "sq in a sheet",
		"count=25":                              "25 liners: 13 sheets of A4, up to 2 on each",
		"count=24":                              "24 liners: 12 sheets of A4, 2 on each",
		"room=5":                                "Room beside which card? Try with “For a card”.",
		"pocket=6x4&units=in":                   "Try a length such as 2 3/4.",
		"envelope=a7&paper=100x100":             "Try A4 paper or A3 paper.",
		"printer=attic":                         "Nothing is kept for it yet. Try a name that is offered, or leave it empty and type what the printed rule measures.",
		"pocket=160x115&flap-depth=70":          "A warm white 160 × 115 mm envelope on a table, open, from above, lined with dots in orchard table.",
		"registration-arm=25":                   "No registration marks are wanted. Try “all” under “Marks for a cutting machine”.",
		"registration=all&hidden-foot=3":        "Try without “Marks for a cutting machine”.",
		"envelope-colour=navy&count=1":          "A navy C6 envelope on a table",
		"envelope-colour=%23d2b48c":             "A C6 envelope of colour #d2b48c on a table",
		"envelope=a6&envelope-colour=%23000000": "An A6 envelope of colour #000000",
		"pocket=6x4&flap-depth=2&units=in":      "A sheet of A4 with 2 liners for 6 × 4 in",
	} {
		form, err := url.ParseQuery(query)
		if err != nil {
			t.Fatal(err)
		}
		p := s.previewed(t, form)
		said := slices.Clone(p.Remarks)
		for _, problem := range p.Problems {
			said = append(said, problem.Says)
		}
		if p.Copies != nil {
			said = append(said, p.Copies.Says, p.Says, p.Look.About, p.Sheet.About)
		}
		if all := strings.Join(said, "\n"); !strings.Contains(all, want) || strings.Contains(all, "in in ") {
			t.Errorf("%s: %q is not in\n%s", query, want, all)
		}
	}
}

// Nothing on the page speaks of flags, axes or defaults, and no two boxes beside
// each other have one name.
func TestControlsHaveNamesOfTheirOwnInPlainWords(t *testing.T) {
	p, _ := choices(request.Shelf{})
	names := map[string]bool{}
	for _, list := range [][]Control{p.EnvelopeMore, p.FoldMore, p.PatternMore, p.ColoursMore, p.PictureMore, p.PaperMore} {
		for _, c := range list {
			if names[c.Label] || c.Label == "From" || strings.HasPrefix(c.Label, "Correct") || strings.Contains(c.Help, "default") {
				t.Errorf("%s is called %q: %s", c.Name, c.Label, c.Help)
			}
			names[c.Label] = true
		}
	}
	for _, s := range p.Schemes {
		if s.About == "" {
			t.Errorf("nobody who has not seen a colour wheel knows what %s is", s.Label)
		}
	}
	known := new(request.Look).Fields()
	for _, table := range []map[string]string{called, belongs} {
		for name := range table {
			if !slices.ContainsFunc(known, func(f request.Field) bool { return f.Name == name }) {
				t.Errorf("there is no field %s", name)
			}
		}
	}
}

// A control that is hidden says nothing; one that is shown with a way of choosing
// an envelope is not refused for it.
func TestControlsAreShownWhereTheyMeanSomething(t *testing.T) {
	s := serve(t, nil)
	ways := map[string]string{"size": "envelope=c6", "card": "card=a6", "measure": "pocket=160x115&flap-depth=70", "fold": "handmade=four-corner&card=a6"}
	given := map[string]string{"flap-side": "short"}
	for field, show := range belongs {
		for way, words := range ways {
			form, _ := url.ParseQuery(words)
			form.Set(field, "2")
			if word := given[field]; word != "" {
				form.Set(field, word)
			}
			if field == "taper" {
				form.Set("flap", "square")
			}
			if way == "fold" {
				form.Del("flap")
			}
			refused := false
			for _, p := range s.previewed(t, form).Problems {
				refused = refused || p.Field == field
			}
			_, list, _ := strings.Cut(show, "=")
			if shown := slices.Contains(strings.Split(list, "|"), way); shown == refused {
				t.Errorf("%s with %s: shown %t, refused %t", field, way, shown, refused)
			}
		}
	}
}

func TestKeptPrintersAreOffered(t *testing.T) {
	shelf := request.Shelf{Dir: t.TempDir()}
	if _, err := shelf.SavePrinter(t.Context(), "Back room", request.Correction{X: 1.01, Y: 1}); err != nil {
		t.Fatal(err)
	}
	p, _ := choices(shelf)
	i := slices.IndexFunc(p.PaperMore, func(c Control) bool { return c.Name == "printer" })
	if got, want := p.PaperMore[i].Offers, []string{"back-room"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if !p.PaperMore[i].Fixed {
		t.Error("they are no list to choose from")
	}
}
