package request

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"underflap/palettes"
	"underflap/pattern/words"
)

// hexes are ground and inks as one line.
func hexes(p palettes.Palette) string {
	list := []string{p.Ground.Hex()}
	for _, c := range p.Inks {
		list = append(list, c.Hex())
	}
	return strings.Join(list, " ")
}

func TestOwnColoursStandInThePalettesPlace(t *testing.T) {
	const orchard, rowan = "#b4472e #d6953a #7c8a48 #5b2b45", "#f2c9b0 #e2a24a #5f6d3c #f7eedd"
	for _, c := range []struct {
		w          Words
		want, name string
	}{
		{Words{}, "#f6ecd9 " + orchard, "orchard-table"},
		{Words{Palette: "rowan jelly"}, "#7c1f2b " + rowan, "rowan-jelly"},
		{Words{Ground: "Navy"}, "#000080 " + orchard, "orchard-table on navy"},
		{Words{Ground: "#123", Palette: "rowan-jelly"}, "#112233 " + rowan, "rowan-jelly on #123"},
		{Words{Inks: "goldenrod"}, "#f6ecd9 #daa520", ownColours},
		{Words{Inks: "#fff, rebeccapurple", Palette: "rowan-jelly"}, "#7c1f2b #ffffff #663399", "own inks on rowan-jelly"},
		{Words{Inks: "black", Ground: "white"}, "#ffffff #000000", ownColours},
	} {
		p, _, err := ResolvePalette(t.Context(), c.w)
		if err != nil || hexes(p) != c.want || p.Name != c.name {
			t.Errorf("%+v: %s, %s, %v", c.w, p.Name, hexes(p), err)
		}
		d, _, _, err := resolveDesign(t.Context(), c.w)
		if colours := d.Colours; err != nil || colours.Name != c.name || colours.Ground != p.Ground || !slices.Equal(colours.Inks, p.Inks) {
			t.Errorf("%+v: the design has %+v, %v", c.w, colours, err)
		}
	}
}

// Ours are checked once and for all; of a person's colours a remark says who
// cannot tell which apart, and nothing is refused.
func TestRemarksAreOnOwnColoursAlone(t *testing.T) {
	for _, name := range palettes.Names() {
		if _, remarks, err := ResolvePalette(t.Context(), Words{Palette: name}); err != nil || remarks != nil {
			t.Errorf("%s: %q, %v", name, remarks, err)
		}
	}
	for _, c := range []struct {
		w    Words
		says string
	}{
		{Words{Inks: "#a8462f, #6b6a2f", Ground: "white"}, "ink 1 #a8462f and ink 2 #6b6a2f look alike to green-blind eyes (deutan)"},
		{Words{Ground: "#b4472f"}, "the ground #b4472f and ink 1 #b4472e look alike"},
		{Words{Palette: "holly-lane", Ground: "ivory"}, "ink 1 #1f5c3f and ink 2 #b3202f look alike to red-blind eyes (protan)"},
	} {
		_, remarks, err := ResolvePalette(t.Context(), c.w)
		if err != nil || !slices.Contains(remarks, c.says) {
			t.Errorf("%+v: %q, %v", c.w, remarks, err)
		}
		c.w.Grey = true // what is printed are greys, which are kept apart
		if _, remarks, err := ResolvePalette(t.Context(), c.w); err != nil || remarks != nil {
			t.Errorf("%+v: %q, %v", c.w, remarks, err)
		}
	}
}

// paletteShelf is a shelf with these palette files.
func paletteShelf(t *testing.T, files map[string]string) Shelf {
	t.Helper()
	shelf := Shelf{t.TempDir()}
	if err := os.Mkdir(filepath.Join(shelf.Dir, PaletteFolder), 0o777); err != nil {
		t.Fatal(err)
	}
	for name, content := range files {
		if err := os.WriteFile(filepath.Join(shelf.Dir, PaletteFolder, name), []byte(content), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return shelf
}

const (
	twoTOML = "for = \"attic sale\"\nground = \"ivory\"\ninks = [\"navy\"]\n"
	twoGPL  = "GIMP Palette\r\nName: something else\r\n255 255 240\r\n0 0 128\tdeep\r\n"
)

func TestPalettesOfTheShelf(t *testing.T) {
	shelf := paletteShelf(t, map[string]string{
		"Winter Hedge.toml": twoTOML, "moss.gpl": twoGPL, "moss.toml": twoTOML, "disguised.toml": twoGPL,
		"barn-lantern.toml": twoTOML, "torn.toml": "ground = \"ivory\"\ninks = [\"nayv\"]\n", "torn.gpl": "GIMP Palette\n1 2\n",
		"notes.txt": "not looked at", ".hidden.toml": "not looked at", "what?.toml": twoTOML,
	})
	list, problems := shelf.Palettes()
	var names []string
	for _, p := range list {
		names = append(names, p.Name)
		if hexes(p.Palette) != "#fffff0 #000080" {
			t.Errorf("%s: %s", p.Name, hexes(p.Palette))
		}
	}
	if want := []string{"disguised", "moss", "winter-hedge"}; !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
	for _, says := range []string{
		"barn-lantern.toml: there is a palette barn-lantern already; give the file another name",
		"moss.toml: there is a palette moss already", "torn.gpl, line 2: blue", "torn.toml, line 2: ink 1: \"nayv\": not a colour", "what?.toml: a file's name may have",
	} {
		if !slices.ContainsFunc(problems, func(u *Unread) bool { return strings.Contains(u.Error(), says) }) {
			t.Errorf("no problem says %s: %v", says, problems)
		}
	}
	if len(problems) != 5 {
		t.Errorf("%d problems: %v", len(problems), problems)
	}
	for _, word := range []string{"winter-hedge", "Winter Hedge", " WINTER-hedge "} {
		if p, _, err := ResolvePalette(t.Context(), Words{Palette: word, Shelf: shelf}); err != nil || p.Name != "winter-hedge" {
			t.Errorf("%q: %s, %v", word, p.Name, err)
		}
	}
	for word, says := range map[string]string{"torn": "torn.gpl, line 2: blue", "gorse": "moss, winter-hedge, a file such as ./hedge.toml"} {
		_, _, err := ResolvePalette(t.Context(), Words{Palette: word, Shelf: shelf})
		var refused *words.Refused
		if !errors.As(err, &refused) || refused.Field != "palette" || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", word, err)
		}
	}
}

func TestPalettesAreKeptUnderNamesOfTheirOwn(t *testing.T) {
	shelf := paletteShelf(t, map[string]string{"moss.gpl": twoGPL, "Old Rose.toml": twoTOML})
	p, _, err := ResolvePalette(t.Context(), Words{Inks: "#1f5c3f, #b3202f", Ground: "#f8f6f0"})
	if err != nil {
		t.Fatal(err)
	}
	path, err := shelf.SavePalette(t.Context(), "Garden Hedge", p)
	if err != nil || filepath.Base(path) != "garden-hedge.toml" {
		t.Fatal(path, err)
	}
	got, remarks, err := ResolvePalette(t.Context(), Words{Palette: "garden hedge", Shelf: shelf})
	if err != nil || hexes(got) != hexes(p) || !got.Indistinct || remarks != nil {
		t.Errorf("%+v %q %v: kept with its mark, it is not told again each time", got, remarks, err)
	}
	if path, err := shelf.SavePalette(t.Context(), "old-rose", p); err != nil || filepath.Base(path) != "Old Rose.toml" {
		t.Error("in place of the one before:", path, err)
	}
	for name, says := range map[string]string{
		"Barn Lantern": "there is a palette of that name", "moss": "moss.gpl", "hedge.toml": "reads as a file's name", "../hedge": "a name of up to 60", "": "a name of up to 60",
	} {
		var refused *words.Refused
		if path, err := shelf.SavePalette(t.Context(), name, p); !errors.As(err, &refused) || refused.Field != "save-palette" || refused.Accepts == "" || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %s, %v", name, path, err)
		}
	}
}

// A folder that cannot be read is named once.
func TestAShelfThatIsNoFolderIsNamedOnce(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, PaletteFolder), nil, 0o666); err != nil {
		t.Fatal(err)
	}
	_, problems := Shelf{Dir: dir}.Palettes()
	if len(problems) != 1 || strings.Count(problems[0].Error(), dir) != 1 {
		t.Error(problems)
	}
}
