package derived

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"
	"unicode"

	"underflap/palettes"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

func TestWhatIsAWish(t *testing.T) {
	for word, want := range map[string]bool{
		"complement:#c0572f": true, "Complement : firebrick": true, " tints:#c52": true, "envelope:kraft": true, "photo:C:\\post\\card.jpg": true,
		"photo:./post/card.jpg": true, "triad:": true,
		"orchard-table": false, "complement": false, "": false, ":": false, ":#c0572f": false, `C:\hedge.toml`: false, "c:hedge.gpl": false, "p:card.jpg": false,
		"./photo:card.gpl": false, "hedge:tints": false, "photograph:card.jpg": false,
	} {
		if got := Wish(word); got != want {
			t.Errorf("%q: %v", word, got)
		}
	}
	for word, want := range map[string]string{
		"photo:card.jpg": "card.jpg", `PHOTO: C:\post\card.jpg `: `C:\post\card.jpg`, "photo:a:b.png": "a:b.png", "tints:card.jpg": "", "card.jpg": "", "photo:": "",
	} {
		if got := Photo(word); got != want {
			t.Errorf("%q reads %q, want %q", word, got, want)
		}
	}
}

func TestWishesAreNamedForPeople(t *testing.T) {
	for word, want := range map[string]string{
		"complement:#C0572F": "complement of #c0572f", "neighbours:navy": "neighbours of navy", "TRIAD: #c52": "triad of #c52", "tints:Firebrick": "tints of firebrick",
		"envelope:kraft": "colours for a kraft envelope", "envelope:Ivory": "colours for an ivory envelope", "envelope:night blue": "colours for a night blue envelope",
		"envelope:#24304D": "colours for an envelope of #24304d", "envelope:azure": "colours for an azure envelope",
		"photo:" + asPNG(t, paint(200, 150, table)): "colours of card.png",
	} {
		p, _ := resolve(t, word)
		if p.Name != want {
			t.Errorf("%q is called %q, want %q", word, p.Name, want)
		}
	}
	p, remarks := resolve(t, "complement:grey")
	if len(remarks) != 1 || !strings.HasPrefix(remarks[0], "grey has no hue") {
		t.Errorf("%v: %q", p, remarks)
	}
	if _, remarks := resolve(t, "complement:#c0572f"); len(remarks) > 0 {
		t.Errorf("%q", remarks)
	}
}

// What is derived can be kept and exchanged: both kinds of file give it back.
func TestDerivedPalettesGoThroughFiles(t *testing.T) {
	long := paint(200, 150, table)
	for _, word := range []string{"complement:#c0572f", "neighbours:navy", "triad:gold", "tints:white", "envelope:night-blue", "envelope:lightgoldenrodyellow", "photo:" + asPNG(t, long)} {
		p, _ := resolve(t, word)
		var toml, gpl bytes.Buffer
		if err := errors.Join(p.WriteTOML(&toml), p.WriteGPL(&gpl)); err != nil {
			t.Fatal(err)
		}
		for kind, read := range map[string]func() (palettes.Palette, error){
			"TOML": func() (palettes.Palette, error) { return palettes.Parse("kept", toml.Bytes()) },
			"GPL":  func() (palettes.Palette, error) { return palettes.ParseGPL("kept", gpl.Bytes()) },
		} {
			got, err := read()
			if err != nil || got.Ground != p.Ground || !slices.Equal(got.Inks, p.Inks) {
				t.Errorf("%s in %s: %v, %v", word, kind, got, err)
			}
		}
	}
}

func TestAPhotosNameStandsOnOneShortLine(t *testing.T) {
	for name, want := range map[string]string{
		"card.jpg": "card.jpg", "new\nline\x1b.jpg": "new?line?.jpg",
		strings.Repeat("winter", 20) + ".jpg": "winterwinterwinterwinterw…terwinterwinterwinter.jpg",
	} {
		if got := printable(name); got != want {
			t.Errorf("%q became %q, want %q", name, got, want)
		}
	}
}

func TestWishesRefusedSayWhatIsAccepted(t *testing.T) {
	for word, says := range map[string]string{
		"complement:":            `palette: "complement:": nothing after the colon; accepted: complement:#c0572f`,
		"triad: ":                "accepted: triad:#c0572f",
		"photo:":                 "accepted: photo:card.jpg",
		"envelope:":              "accepted: envelope:kraft",
		"complement:bluish":      `palette: "complement:bluish": not a colour after the colon; accepted: complement:#c0572f, or a CSS colour name`,
		"tints:#12345":           "not a colour after the colon",
		"tints:#c0572f,#aabbcc":  "not a colour after the colon",
		"tints:kraft":            "not a colour after the colon", // a paper is no colour
		"envelope:oak":           "accepted: envelope: with kraft, manila,",
		"complement:tints:green": "not a colour",
		"orchard-table":          "accepted: complement:#c0572f, neighbours:#c0572f,",
	} {
		_, _, err := Resolve(t.Context(), filed.Disk{}, "palette", word)
		var refused *words.Refused
		if !errors.As(err, &refused) || refused.Field != "palette" || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v; want %q", word, err, says)
		}
	}
}

// FuzzWish: whatever is typed, a wish is refused in one readable line or gives a
// palette that keeps the project's differences. Files are left alone.
func FuzzWish(f *testing.F) {
	for _, seed := range []string{"complement:#c0572f", "neighbours:navy", "triad:#ffff00", "tints:black", "envelope:kraft", "envelope: night blue", "photo:card.jpg",
		`C:\hedge.toml`, "TINTS:#C52", "complement:", ":", "envelope:\x00", "tints:\xff\xfe", "envelope:#", "triad:#12345g", "neighbours:Ⅷ", "envelope:ivory\n"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, word string) {
		kind, of, ok := parts(word)
		if ok != Wish(word) || (Photo(word) != "") != (kind == photo && of != "") {
			t.Fatalf("%q: %v %q %q", word, ok, kind, Photo(word))
		}
		if kind == photo {
			return
		}
		p, remarks, err := Resolve(t.Context(), filed.Disk{}, "palette", word)
		if err != nil {
			var refused *words.Refused
			if !errors.As(err, &refused) || strings.ContainsFunc(err.Error(), func(r rune) bool { return !unicode.IsPrint(r) }) || len(err.Error()) > 700 {
				t.Fatalf("%q: %q", word, err)
			}
			return
		}
		if !ok || len(p.Inks) < 3 || len(p.Inks) > 6 || len(p.AlikeToAll()) > 0 {
			t.Fatalf("%q: %+v", word, p)
		}
		for _, line := range append(remarks, p.Name, p.About) {
			if line == "" || strings.ContainsFunc(line, func(r rune) bool { return !unicode.IsPrint(r) }) || len([]rune(line)) > 100 {
				t.Fatalf("%q: %q", word, line)
			}
		}
	})
}
