package request

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/words"
)

// attic is an empty shelf whose folder has a name that globs and shells would
// stumble over.
func attic(t *testing.T) Shelf {
	t.Helper()
	return Shelf{Dir: filepath.Join(t.TempDir(), "Tarn Lane [press] *", "underflap")}
}

// measuredBy is an envelope of words.
func measuredBy(t *testing.T, w Words) liner.Envelope {
	t.Helper()
	found, err := ResolveEnvelope(w)
	if err != nil {
		t.Fatal(err)
	}
	return found.Envelope
}

// onShelf lists the files of envelopes, hidden ones too.
func onShelf(t *testing.T, s Shelf) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Join(s.Dir, "envelopes"))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestAnEnvelopeIsKeptUnderThePlainFormOfItsName(t *testing.T) {
	for name, file := range map[string]string{
		"winter-fair":            "winter-fair.toml",
		"Winter Fair":            "winter-fair.toml",
		"  winter fair  ":        "winter-fair.toml",
		"Été à côté":             "été-à-côté.toml",
		"Größe 7½x10":            "",
		"秋の収穫":                   "秋の収穫.toml",
		"No. 3 (blue)":           "",
		"v1.2":                   "v1.2.toml",
		"Anna's & Ben's":         "anna's-&-ben's.toml",
		"160×115":                "160×115.toml",
		"e\u0301te\u0301":        "e\u0301te\u0301.toml", // letters and combining marks
		strings.Repeat("ü", 60):  strings.Repeat("ü", 60) + ".toml",
		strings.Repeat("ü", 61):  "",
		"":                       "",
		"  ":                     "",
		".":                      "",
		"..":                     "",
		".hidden":                "",
		"../attic":               "",
		"a/b":                    "",
		`a\b`:                    "",
		"/tmp/a":                 "",
		"a\x00b":                 "",
		"a\nb":                   "",
		"a:b":                    "",
		"a*b":                    "",
		"a\u202eb":               "", // an override of writing direction
		"c6":                     "",
		"No. 10":                 "",
		"na_a2_4.375x5.75in":     "",
		"envelope\xff\xfebroken": "",
	} {
		shelf := attic(t)
		e := measuredBy(t, Words{Pocket: "160x115", FlapDepth: "70"})
		path, err := shelf.SaveEnvelope(t.Context(), name, e)
		if file == "" {
			var refused *words.Refused
			if !errors.As(err, &refused) || refused.Field != "save-envelope" || refused.Accepts == "" {
				t.Errorf("%q: %q, %v", name, path, err)
			}
			if _, err := os.Stat(filepath.Dir(shelf.Dir)); err == nil {
				t.Errorf("%q: a folder was made", name)
			}
			continue
		}
		if err != nil || path != filepath.Join(shelf.Dir, "envelopes", file) || !slices.Equal(onShelf(t, shelf), []string{file}) {
			t.Errorf("%q: %q, %v, and the shelf holds %q", name, path, err, onShelf(t, shelf))
			continue
		}
		for _, again := range []string{name, strings.ToUpper(name), strings.TrimSpace(strings.ReplaceAll(name, " ", "-"))} {
			saved, ok, err := shelf.Envelope(again)
			if !ok || err != nil || saved.Name != strings.TrimSpace(name) || saved.Short != strings.TrimSpace(name) || saved.Width != 160 {
				t.Errorf("%q as %q: %+v, %v, %v", name, again, saved, ok, err)
			}
		}
		if found, err := ResolveEnvelope(Words{Envelope: name, Shelf: shelf}); err != nil || found.Short != strings.TrimSpace(name) {
			t.Errorf("%q: %+v, %v", name, found, err)
		}
	}
}

// What people mean by one name is one envelope, the one saved last.
func TestNamesThatMeanTheSameAreOneEnvelope(t *testing.T) {
	shelf := attic(t)
	for i, name := range []string{"a-b", "ab", "A.B", "a b"} {
		depth := []string{"50", "55", "60", "65"}[i]
		if _, err := shelf.SaveEnvelope(t.Context(), name, measuredBy(t, Words{Pocket: "160x115", FlapDepth: depth})); err != nil {
			t.Fatal(err)
		}
		for _, again := range []string{"a-b", "ab", "A.B", "a b", name} {
			if saved, ok, err := shelf.Envelope(again); !ok || err != nil || words.MM(saved.Flap.Depth) != depth+" mm" || saved.Name != name {
				t.Errorf("saved %q last: %q is %q with a flap of %g mm (%v)", name, again, saved.Name, saved.Flap.Depth, err)
			}
		}
		if held := onShelf(t, shelf); len(held) != 1 {
			t.Errorf("the shelf holds %q", held)
		}
	}
}

func TestEveryEnvelopeOfTheTableIsReadAsItWasSaved(t *testing.T) {
	shelf := attic(t)
	for _, row := range liner.Entries() {
		for _, flap := range row.Flaps {
			e := row.Envelope(flap.Shape)
			if _, err := shelf.SaveEnvelope(t.Context(), "copy", e); err != nil {
				t.Fatal(err)
			}
			checkCopy(t, shelf, e)
		}
	}
}

// checkCopy reads the envelope called copy and compares it with what was saved.
func checkCopy(t rapid.TB, shelf Shelf, e liner.Envelope) {
	t.Helper()
	saved, ok, err := shelf.Envelope("copy")
	if !ok || err != nil {
		t.Fatalf("%s, %s flap: %v", e.Short, e.Flap.Shape, err)
	}
	near := func(a, b float64) bool { return a-b < 2e-6 && b-a < 2e-6 }
	f, g := e.Flap, saved.Flap
	if !near(saved.Width, e.Width) || !near(saved.Height, e.Height) || !near(saved.Gum, e.Gum) || f.Shape != g.Shape || !near(f.Depth, g.Depth) ||
		!near(f.Shoulder, g.Shoulder) || !near(f.Taper, g.Taper) || !near(f.BaseGap, g.BaseGap) || !near(f.TipRadius, g.TipRadius) || !near(f.CornerRadius, g.CornerRadius) ||
		!slices.EqualFunc(f.Trace, g.Trace, func(p, q geom.Point) bool { return near(p.X, q.X) && near(p.Y, q.Y) }) {
		t.Fatalf("saved %+v, read %+v", e, saved.Envelope)
	}
	if saved.Envelope.Name != "saved" || saved.GuessedFlap {
		t.Fatalf("read %+v", saved.Envelope)
	}
}

// Whatever a person measures and the tool takes, it also keeps.
func TestEveryMeasuredEnvelopeIsReadAsItWasSaved(t *testing.T) {
	shelf := attic(t)
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, least, most float64) string {
			return rapid.SampledFrom([]func(float64) string{number, func(v float64) string { return number(v/25.4) + "in" }}).Draw(t, name+" unit")(
				rapid.Float64Range(least, most).Draw(t, name))
		}
		w := Words{Pocket: number(rapid.Float64Range(30, 700).Draw(t, "width")) + "x" + number(rapid.Float64Range(30, 700).Draw(t, "height")),
			FlapDepth: mm("depth", 5, 300), Flap: string(rapid.SampledFrom(liner.Shapes).Draw(t, "shape")), Gum: mm("gum", 0, 20)}
		for _, m := range []struct {
			field string
			word  *string
		}{{"shoulder", &w.Shoulder}, {"taper", &w.Taper}, {"base-gap", &w.BaseGap}, {"tip-radius", &w.TipRadius}, {"flap-corner-radius", &w.FlapCornerRadius}} {
			if slices.Contains(liner.Shape(w.Flap).Takes(), m.field) && rapid.Bool().Draw(t, "with "+m.field) && (m.field != "flap-corner-radius" || w.Flap != "square") {
				*m.word = mm(m.field, 0, 12)
			}
		}
		found, _, err := ResolveLiner(w)
		if err != nil {
			t.Skip("no envelope") // measurements that cannot go together
		}
		if _, err := shelf.SaveEnvelope(t.Context(), "copy", found.Envelope); err != nil {
			t.Fatal(err)
		}
		checkCopy(t, shelf, found.Envelope)
	})
}

func TestATracedFlapIsReadAsItWasSaved(t *testing.T) {
	shelf := attic(t)
	rapid.Check(t, func(t *rapid.T) {
		e := liner.Envelope{Width: 160, Height: 115, Gum: 6}
		x := 0.0
		for range rapid.IntRange(3, 40).Draw(t, "points") {
			e.Flap.Trace = append(e.Flap.Trace, geom.Point{X: x, Y: rapid.Float64Range(5, 115).Draw(t, "height")})
			x += rapid.Float64Range(0, 4).Draw(t, "step")
		}
		e.Flap = liner.TracedFlap(e.Flap.Trace)
		if _, err := shelf.SaveEnvelope(t.Context(), "copy", e); err != nil {
			t.Fatal(err)
		}
		checkCopy(t, shelf, e)
	})
}

// Envelopes folded by hand lose nothing on the shelf but the way they are made.
func TestAnEnvelopeFoldedByHandIsReadAsItWasSaved(t *testing.T) {
	shelf := attic(t)
	for _, w := range []Words{{Handmade: "four-corner", Card: "a6"}, {Handmade: "two-panel", Card: "a6", From: "a4"}, {Handmade: "four-corner", Pocket: "160x115", From: "210x210", StraightBottom: true},
		{Handmade: "two-panel", Card: "a5", FlapDepth: "44"}, {Handmade: "two-panel", Card: "600x400", From: "1300x1300"}} {
		e := measuredBy(t, w)
		if _, err := shelf.SaveEnvelope(t.Context(), "copy", e); err != nil {
			t.Fatal(err)
		}
		checkCopy(t, shelf, e)
	}
}

// A liner that keeps less from gum or edge than is usual has an envelope too.
func TestAnEnvelopeThatNeedsItsOwnClearancesIsReadAsItWasSaved(t *testing.T) {
	shelf := attic(t)
	for _, w := range []Words{{Pocket: "160x115", Flap: "square", FlapDepth: "15", Gum: "12", GumClearance: "0.5"}, {Pocket: "160x115", Flap: "square", FlapDepth: "6", Gum: "0", Border: "2"}} {
		found, _, err := ResolveLiner(w)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := shelf.SaveEnvelope(t.Context(), "copy", found.Envelope); err != nil {
			t.Fatal(err)
		}
		checkCopy(t, shelf, found.Envelope)
	}
}
