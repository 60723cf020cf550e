package palettes

import (
	"strings"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"underflap/pattern/draw"
)

// Colours of one palette must be told apart. The measure is CIEDE2000
// (CIE 142-2001) as go-colorful computes it, where 1.0 is about 100 of its
// units; 10 is a difference nobody overlooks (common practice, no source).
func TestInksStandOutFromTheGroundAndFromEachOther(t *testing.T) {
	const least = 0.10
	for _, p := range All() {
		colours := append([]draw.Colour{p.Ground}, p.Inks...)
		for i, a := range colours {
			for j, b := range colours[:i] {
				if d := lab(a).DistanceCIEDE2000(lab(b)); d < least {
					t.Errorf("%s: %s and %s (colours %d and %d) are only %.2f apart", p.Name, a.Hex(), b.Hex(), i, j, d)
				}
			}
		}
	}
}

func lab(c draw.Colour) colorful.Color {
	return colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}
}

func TestThereAreAtLeastThreePalettesForAHarvestSupperEachWithWords(t *testing.T) {
	supper := 0
	for _, p := range All() {
		if p.For == "harvest supper" {
			supper++
		}
		if p.About == "" || p.For == "" || strings.ContainsAny(p.Name, " _") {
			t.Errorf("%+v", p)
		}
	}
	if supper < 3 {
		t.Errorf("%d palettes for a harvest supper", supper)
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

func TestBadPaletteFilesAreRefusedWithFileAndField(t *testing.T) {
	for name, c := range map[string]struct{ file, says string }{
		"unknown key":      {"ground = \"#ffffff\"\ninks = [\"#000000\"]\nshine = 3", `palette barn: line 3, column 1: unknown key "shine"`},
		"not TOML":         {"ground = \"#ffffff\"\ninks = [", "palette barn: line 2"},
		"no ground":        {"inks = [\"#000000\"]", "barn.ground"},
		"ground no colour": {"ground = \"creamy\"\ninks = [\"#000000\"]", `barn.ground: "creamy"`},
		"no inks":          {"ground = \"#ffffff\"", "barn.inks"},
		"too many inks":    {"ground = \"#ffffff\"\ninks = [" + strings.Repeat(`"#000000",`, 13) + "]", "1 to 12"},
		"ink out of range": {"ground = \"#ffffff\"\ninks = [\"#000000\", \"#12345g\"]", `barn.inks[1]: "#12345g"`},
		"ink of a number":  {"ground = \"#ffffff\"\ninks = [7]", "palette barn: line 2"},
	} {
		_, err := Parse("barn", []byte(c.file))
		if err == nil || !strings.Contains(err.Error(), c.says) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v; want one line with %q", name, err, c.says)
		}
	}
}
