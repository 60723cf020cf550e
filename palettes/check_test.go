package palettes

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"underflap/pattern/draw"
)

// The least differences are stated beside their constants; the measure is held to
// its published pairs in difference_test.go.
func TestColoursOfOurPalettesTellApart(t *testing.T) {
	for _, p := range All() {
		for i, a := range p.Inks {
			if d := Difference(p.Ground, a); d < 10 {
				t.Errorf("%s: ink %d is %.1f from the ground", p.Name, i+1, d)
			}
			for j, b := range p.Inks[:i] {
				if d := Difference(a, b); d < 8 {
					t.Errorf("%s: inks %d and %d are %.1f apart", p.Name, j+1, i+1, d)
				}
			}
		}
		if alike := p.AlikeToAll(); alike != nil {
			t.Errorf("%s: %v", p.Name, alike)
		}
	}
}

// A palette says that it is indistinct when a kind of cone leaves two colours
// alike, and only then.
func TestIndistinctPalettesSaySo(t *testing.T) {
	marked := 0
	for _, p := range All() {
		least := 100.0
		for _, s := range Sights {
			for i := range len(p.Inks) + 1 {
				for j := range i {
					least = min(least, Difference(s.Seen(p.Ink(i)), s.Seen(p.Ink(j))))
				}
			}
		}
		if p.Indistinct != (least < 5) {
			t.Errorf("%s: indistinct is %v, the least difference %.2f", p.Name, p.Indistinct, least)
		}
		if p.Indistinct != (len(p.AlikeInSomeSight()) > 0) {
			t.Errorf("%s: indistinct is %v, but %v", p.Name, p.Indistinct, p.Remarks())
		}
		if p.Indistinct {
			marked++
		}
	}
	if marked == 0 || marked > 4 {
		t.Errorf("%d palettes are indistinct: most should serve everybody, and one should prove the mark", marked)
	}
}

func TestDefaultPaletteServesEverybody(t *testing.T) {
	p, err := Named("palette", Default)
	if err != nil || len(p.Alike()) > 0 {
		t.Error(err, p.Remarks())
	}
}

func palette(colours ...string) Palette {
	var p Palette
	for i, hex := range colours {
		c, err := Colour("test", hex)
		switch {
		case err != nil:
			panic(err)
		case i == 0:
			p.Ground = c
		default:
			p.Inks = append(p.Inks, c)
		}
	}
	return p
}

func TestRemarksNameTheColoursAndWhoseEyes(t *testing.T) {
	for _, c := range []struct {
		p    Palette
		want []string
	}{
		{palette("white", "black", "#0072b2"), nil},
		{palette("white", "#fffff0", "black"), []string{"the ground #ffffff and ink 1 #fffff0 look alike"}},
		{palette("white", "red", "black", "#fe0000"), []string{"ink 1 #ff0000 and ink 3 #fe0000 look alike"}},
		// red and a brownish green of a lightness: what people know as red-green blindness
		{palette("white", "#a8462f", "#6b6a2f"), []string{"ink 1 #a8462f and ink 2 #6b6a2f look alike to green-blind eyes (deutan)"}},
		{palette("black", "red", "#fe0000", "#fd0000", "#fc0000"), []string{"look alike", "look alike", "look alike", "3 more pairs of colours look alike"}},
	} {
		got := c.p.Remarks()
		if len(got) != len(c.want) {
			t.Errorf("%v: %q", c.p.Inks, got)
			continue
		}
		for i := range got {
			if !strings.HasSuffix(got[i], c.want[i]) {
				t.Errorf("%q, want %q", got[i], c.want[i])
			}
		}
	}
}

// The limits are what README and DEVELOPERS say: 10 from the ground, 8 between
// inks. Greys look the same to every eye.
func TestTheLeastDifferencesAreThoseWeSay(t *testing.T) {
	grey := func(v int) string { return fmt.Sprintf("#%02[1]x%02[1]x%02[1]x", v) }
	for v := range 256 {
		p := palette(grey(110), grey(v))
		if said, near := len(p.Remarks()) > 0, Difference(p.Ground, p.Inks[0]) < 10; said != near {
			t.Errorf("ground %s and ink %s, %.2f apart: %q", p.Ground.Hex(), p.Inks[0].Hex(), Difference(p.Ground, p.Inks[0]), p.Remarks())
		}
		p = palette("#ff0000", grey(110), grey(v))
		if said, near := len(p.AlikeToAll()) > 0, Difference(p.Inks[0], p.Inks[1]) < 8; said != near {
			t.Errorf("inks %s and %s, %.2f apart: %q", p.Inks[0].Hex(), p.Inks[1].Hex(), Difference(p.Inks[0], p.Inks[1]), p.Remarks())
		}
	}
}

func TestClosestPair(t *testing.T) {
	p := palette("white", "black", "#0072b2", "#0073b2")
	if got := p.Closest(nil); got.First != 2 || got.Second != 3 || math.Abs(got.Difference-Difference(p.Inks[1], p.Inks[2])) > 1e-12 {
		t.Error(got)
	}
	for i := range Sights {
		if got := p.Closest(&Sights[i]); got.First != 2 || got.Second != 3 {
			t.Error(Sights[i].Name, got)
		}
	}
}

// The worked examples of WCAG 2: black on white is 21:1 (its definition of contrast
// ratio), #777 on white just fails the 4.5:1 of success criterion 1.4.3 and #767676
// just meets it (4.48 and 4.54, as WebAIM's article on contrast gives them).
func TestContrastIsThatOfWCAG(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want float64
	}{{"black", "white", 21}, {"white", "black", 21}, {"#777", "white", 4.48}, {"#767676", "white", 4.54}, {"#c0572f", "#c0572f", 1}} {
		p := palette(c.a, c.b)
		if got := Contrast(p.Ground, p.Inks[0]); math.Abs(got-c.want) > 0.005 {
			t.Errorf("%s on %s: %.4f, want %.2f", c.a, c.b, got, c.want)
		}
	}
}

// Of black and white one always has at least the square root of 21 to one, since
// the two ratios multiply to 21: 4.5:1 is met on every colour.
func TestLetteringReadsOnEveryColour(t *testing.T) {
	for r := 0; r < 256; r += 15 {
		for g := 0; g < 256; g += 15 {
			for b := 0; b < 256; b += 15 {
				c := draw.Colour{R: uint8(r), G: uint8(g), B: uint8(b)}
				if got := Contrast(c, Lettering(c)); got < math.Sqrt(21)-1e-9 {
					t.Fatalf("%s: %.2f", c.Hex(), got)
				}
			}
		}
	}
}
