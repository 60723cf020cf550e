package palettes

import (
	"strings"
	"testing"
)

func TestThereAreEightPalettesForEachOccasion(t *testing.T) {
	count := map[string]int{}
	for _, p := range All() {
		count[p.For]++
		if n := len(p.Inks); n < 3 || n > 6 {
			t.Errorf("%s has %d inks", p.Name, n)
		}
		if p.About == "" || strings.ContainsAny(p.Name, " _") || p.Name != strings.ToLower(p.Name) {
			t.Errorf("%+v", p)
		}
	}
	for _, occasion := range []string{"harvest supper", "small wedding", "winter fair"} {
		if count[occasion] != 8 {
			t.Errorf("%d palettes for a %s", count[occasion], occasion)
		}
	}
	if len(count) != 3 {
		t.Error(count)
	}
}

func TestInkZeroIsTheGroundAndInksBeginAgain(t *testing.T) {
	p, err := Named("palette", "Orchard Table")
	if err != nil {
		t.Fatal(err)
	}
	if p.Ink(0) != p.Ground || p.Ink(1) != p.Inks[0] || p.Ink(len(p.Inks)+1) != p.Inks[0] {
		t.Error("inks are miscounted")
	}
}

func TestBadPaletteFilesAreRefusedWithLineAndField(t *testing.T) {
	for name, c := range map[string]struct{ file, says string }{
		"unknown key":      {"ground = \"#ffffff\"\ninks = [\"#000000\"]\nshine = 3", `line 3, column 1: unknown key "shine"; accepted: for, about, ground, inks, indistinct`},
		"not TOML":         {"ground = \"#ffffff\"\ninks = [", "line 2, column "},
		"empty":            {"", "line 1: ground"},
		"no ground":        {"about = \"bare\"\ninks = [\"#000000\"]", "line 1: ground: not a colour; accepted: "},
		"ground no colour": {"for = \"attic\"\nground = \"creamy\"\ninks = [\"#000000\"]", `line 2: ground: "creamy": not a colour`},
		"ground a number":  {"ground = 7", "line 1, column 10: ground: another kind of value"},
		"no inks":          {"ground = \"#ffffff\"", `line 1: inks: 0 given; accepted: 1 to 12 inks`},
		"too many inks":    {"ground = \"#ffffff\"\ninks = [" + strings.Repeat(`"#000000",`, 13) + "]", `line 2: inks: 13 given; accepted: 1 to 12`},
		"ink out of range": {"ground = \"#ffffff\"\ninks = [\"#000000\",\n \"#12345g\"]", `line 2: ink 2: "#12345g"`},
		"ink of a number":  {"ground = \"#ffffff\"\ninks = [7]", "line 2, column "},
		"escape":           {"about = \"a\\u001b[2J\"\nground = \"#ffffff\"\ninks = [\"#000000\"]", `line 1: about: "a�[2J"`},
		"talkative":        {"ground = \"#ffffff\"\ninks = [\"#000000\"]\nfor = \"" + strings.Repeat("x", 101) + `"`, "line 3: for: "},
		"too long":         {strings.Repeat("#\n", MostFile/2+1), "longer than 64 kB"},
	} {
		_, err := Parse("barn", []byte(c.file))
		if err == nil || !strings.HasPrefix(err.Error(), c.says) || strings.ContainsAny(err.Error(), "\n\x1b") {
			t.Errorf("%s: %v; want one line with %q", name, err, c.says)
		}
	}
}

func TestInksAreReadOneByOne(t *testing.T) {
	got, err := ParseInks("inks", " #b4472e,goldenrod , #fff")
	if err != nil || len(got) != 3 || got[0].Hex() != "#b4472e" || got[1].Hex() != "#daa520" || got[2].Hex() != "#ffffff" {
		t.Error(got, err) // goldenrod is #daa520 in CSS Color Module Level 4
	}
	for given, says := range map[string]string{
		"":                               "inks; accepted: colours parted by commas",
		" ":                              "inks; accepted: colours",
		"#b4472e,":                       "inks: not a colour",
		"#b4472e;goldenrod":              `inks: "#b4472e;goldenrod": not a colour`,
		"russet":                         `inks: "russet": not a colour`,
		strings.Repeat("red,", 12) + "":  "inks", // the thirteenth is empty
		strings.Repeat("red,", 12) + "x": `inks: 13 given; accepted: 1 to 12 inks`,
	} {
		if _, err := ParseInks("inks", given); err == nil || !strings.HasPrefix(err.Error(), says) {
			t.Errorf("%q: %v", given, err)
		}
	}
}
