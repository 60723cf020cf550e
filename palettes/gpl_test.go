package palettes

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"underflap/pattern/draw"
)

// What the published description allows (GIMP Palette Format Version 2,
// developer.gimp.org/core/standards/gpl), and what editors on other systems make
// of it.
func TestGPLIsReadAsItsDescriptionHasIt(t *testing.T) {
	want := []draw.Colour{{R: 246, G: 236, B: 217}, {R: 180, G: 71, B: 46}, {R: 0, G: 0, B: 0}}
	const plain = "GIMP Palette\nName: Hedge\nColumns: 3\n#\n246 236 217 cream cloth\n180  71  46\tWarm Rust 2\n0 0 0\n"
	for name, file := range map[string]string{
		"plain":           plain,
		"CRLF":            strings.ReplaceAll(plain, "\n", "\r\n"),
		"BOM":             "\xef\xbb\xbf" + plain,
		"old format":      strings.Replace(plain, "Name: Hedge\nColumns: 3\n", "", 1),
		"no last newline": strings.TrimSuffix(plain, "\n"),
		"blanks":          strings.ReplaceAll(plain, "\n", "\n  \n"),
		"comments":        strings.ReplaceAll(plain, "\n", "\n# 1 2 3 no colour\n"),
		"lined up":        strings.Replace(plain, "0 0 0\n", "  0   0   0\n", 1),
		"a name alone":    strings.Replace(plain, "Columns: 3\n", "", 1),
	} {
		p, err := ParseGPL("hedge", []byte(file))
		if err != nil || !slices.Equal(append([]draw.Colour{p.Ground}, p.Inks...), want) || p.Name != "hedge" || !IsGPL([]byte(file)) {
			t.Errorf("%s: %+v, %v", name, p, err)
		}
	}
}

func TestBadGPLIsRefusedWithItsLine(t *testing.T) {
	const head = "GIMP Palette\nName: Hedge\n"
	for file, says := range map[string]string{
		"":                                           "line 1: header; accepted: GIMP Palette",
		"Palette\n0 0 0\n":                           `line 1: header: "Palette"; accepted: GIMP Palette`,
		"\x1b[2J\n":                                  `line 1: header: "\\x1b[2J"`,
		head:                                         "line 3: colours: \"0\"; accepted: a ground and 1 to 12 inks",
		head + "1 2 3\n":                             "line 4: colours: \"1\"",
		head + "1 2 3\n4 5 256\n":                    `line 4: blue: "256"; accepted: a whole number from 0 to 255`,
		head + "1 2 3\n-4 5 6\n":                     `line 4: red: "-4"`,
		head + "1 2 3\n4 5.5 6\n":                    `line 4: green: "5.5"`,
		head + "1 2 3\n4 5\n":                        "line 4: blue; accepted",
		head + "1 2 3\nred\n":                        `line 4: red: "red"`,
		head + "Columns: 256\n1 2 3\n4 5 6\n":        `line 3: Columns: "256"`,
		head + "Columns: many\n1 2 3\n4 5 6\n":       `line 3: Columns: "many"`,
		head + "Channels: RGBA\n1 2 3 4\n":           `line 3: red: "Channels:"`,
		head + strings.Repeat("1 2 3\n", 14):         "line 16: colours: too many; accepted: a ground and 1 to 12 inks",
		head + "# for: a\x1b[2J\n1 2 3\n4 5 6\n":     "line 3: for: ",
		head + "# about: caf\xe9\n1 2 3\n4 5 6\n":    "line 3: about: ", // Latin-1, which no TOML may hold
		head + "#" + strings.Repeat("x", MostFile):   "longer than 64 kB",
		head + "1 2 3\n4 5 6\nName: late\n":          `line 5: red: "Name:"`,
		head + "1 2 3\n4 5 6\n99999999999999999 0 0": `line 5: red: "99999999999999999"`,
	} {
		_, err := ParseGPL("hedge", []byte(file))
		if err == nil || !strings.HasPrefix(err.Error(), says) || strings.ContainsAny(err.Error(), "\n\x1b") {
			t.Errorf("%.60q: %v, want %s", file, err, says)
		}
	}
}

// Of two slips it is always the first that is named.
func TestTheFirstSlipIsNamed(t *testing.T) {
	for range 30 {
		_, err := Parse("hedge", []byte("for = \"a\\tb\"\nabout = \"c\\td\"\nground = \"red\"\ninks = [\"blue\"]\n"))
		if err == nil || !strings.HasPrefix(err.Error(), "line 1: for: ") {
			t.Fatal(err)
		}
	}
}

// Every palette comes back from both formats as it was.
func TestPalettesComeBackFromTheirFiles(t *testing.T) {
	for _, p := range All() {
		var asTOML, asGPL bytes.Buffer
		if err := p.WriteTOML(&asTOML); err != nil {
			t.Fatal(err)
		}
		if err := p.WriteGPL(&asGPL); err != nil {
			t.Fatal(err)
		}
		for format, read := range map[string]func() (Palette, error){
			"toml": func() (Palette, error) { return Parse(p.Name, asTOML.Bytes()) },
			"gpl":  func() (Palette, error) { return ParseGPL(p.Name, asGPL.Bytes()) },
		} {
			got, err := read()
			if format == "gpl" { // it has no place for the mark, which follows from the colours
				got.Indistinct = p.Indistinct
			}
			if err != nil || got.Ground != p.Ground || !slices.Equal(got.Inks, p.Inks) || got.For != p.For || got.About != p.About || got.Indistinct != p.Indistinct {
				t.Errorf("%s as %s: %+v, %v", p.Name, format, got, err)
			}
		}
	}
}

// The file, byte for byte, so that a drawing program finds what the description
// promises: header lines in order, then colours with names.
func TestGPLIsWrittenAsItsDescriptionHasIt(t *testing.T) {
	p := palette("#f6ecd9", "#b4472e", "black")
	p.Name, p.About = "winter-hedge", "Cream and rust"
	var b strings.Builder
	if err := p.WriteGPL(&b); err != nil {
		t.Fatal(err)
	}
	const want = "GIMP Palette\nName: winter hedge\nColumns: 3\n# about: Cream and rust\n246 236 217\tground\n180  71  46\tink 1\n  0   0   0\tink 2\n"
	if b.String() != want {
		t.Errorf("%q", b.String())
	}
}

func FuzzPaletteFiles(f *testing.F) {
	for _, seed := range []string{
		"GIMP Palette\nName: Hedge\nColumns: 3\n#\n246 236 217 cream\n180  71  46\n", "GIMP Palette\r\n1 2 3\r\n4 5 6", "\xef\xbb\xbfGIMP Palette\n",
		"for = \"attic\"\nground = \"#fff\"\ninks = [\"red\"]\nindistinct = true\n", "inks = [1]", "ground = \"\x1b\"", "",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, read := range []func(string, []byte) (Palette, error){Parse, ParseGPL} {
			p, err := read("fuzz", data)
			if err != nil {
				if strings.ContainsAny(err.Error(), "\n\r") {
					t.Errorf("more than one line: %q", err)
				}
				continue
			}
			if len(p.Inks) < 1 || len(p.Inks) > 12 {
				t.Errorf("%d inks", len(p.Inks))
			}
			var b bytes.Buffer
			if err := p.WriteTOML(&b); err != nil {
				t.Fatal(err)
			}
			if again, err := Parse("fuzz", b.Bytes()); err != nil || again.Ground != p.Ground || !slices.Equal(again.Inks, p.Inks) || again.About != p.About {
				t.Errorf("%+v comes back as %+v, %v", p, again, err)
			}
		}
	})
}
