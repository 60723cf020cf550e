package palettes_test

import (
	"slices"
	"strings"
	"testing"

	"underflap/palettes"
	"underflap/pattern"
	"underflap/pattern/draw"
)

// W3C Compositing and Blending Level 1, 10.1.2: multiply is B(cb, cs) = cb x cs.
// By hand, of 255: 201x180 = 141.88, 167x71 = 46.50, 124x46 = 22.37 and
// 201x246 = 193.91, 167x236 = 154.56, 124x217 = 105.52.
func TestInksMultiplyWithThePaper(t *testing.T) {
	kraft := draw.Colour{R: 201, G: 167, B: 124}
	got := palettes.OnPaper(pattern.Colours{Ground: draw.Colour{R: 246, G: 236, B: 217}, Inks: []draw.Colour{{R: 180, G: 71, B: 46}, draw.White, {}}}, kraft)
	want := []draw.Colour{{R: 194, G: 155, B: 106}, {R: 142, G: 46, B: 22}, kraft, {}}
	if all := append([]draw.Colour{got.Ground}, got.Inks...); !slices.Equal(all, want) {
		t.Errorf("%v; want %v", all, want)
	}
}

func TestWhitePaperChangesNothing(t *testing.T) {
	for _, p := range palettes.All() {
		on := palettes.OnPaper(p.Colours, draw.White)
		if on.Ground != p.Ground || !slices.Equal(on.Inks, p.Inks) {
			t.Errorf("%s: %v", p.Name, on)
		}
		if said := palettes.PaperDoubts(p.Colours, draw.White, every); len(said) > 0 {
			t.Errorf("%s on white: %q", p.Name, said)
		}
	}
}

func every(int) bool { return true }

func TestWhatIsLostOnColouredPaperIsSaid(t *testing.T) {
	kraft, black := draw.Colour{R: 201, G: 167, B: 124}, draw.Colour{}
	cream, red, dark := draw.Colour{R: 250, G: 244, B: 232}, draw.Colour{R: 180, G: 40, B: 40}, draw.Colour{R: 40, G: 40, B: 60}
	sky, pale := draw.Colour{R: 120, G: 190, B: 250}, draw.Colour{R: 255, G: 160, B: 160}
	for name, c := range map[string]struct {
		colours pattern.Colours
		paper   draw.Colour
		says    []string
	}{
		"a dark ink on white":       {pattern.Colours{Ground: cream, Inks: []draw.Colour{red, dark}}, draw.White, nil},
		"white ground":              {pattern.Colours{Ground: draw.White, Inks: []draw.Colour{dark}}, kraft, []string{"the ground #ffffff prints nothing: the paper stays bare there and shows #c9a77c"}},
		"cream ground on kraft":     {pattern.Colours{Ground: cream, Inks: []draw.Colour{dark}}, kraft, []string{"the ground #faf4e8 is lighter than the paper and cannot come out: it prints as bare paper"}},
		"pale ink on kraft":         {pattern.Colours{Ground: dark, Inks: []draw.Colour{pale}}, kraft, []string{"ink 1 #ffa0a0 is lighter than the paper and cannot come out: it prints darker than the paper, as #c9694e"}},
		"everything on black":       {pattern.Colours{Ground: dark, Inks: []draw.Colour{red}}, black, []string{"the ground #28283c is lighter than the paper and cannot", "ink 1 #b42828 is lighter than the paper and cannot", "ink 1 #b42828 vanishes on the ground #28283c"}},
		"yellow paper and its blue": {pattern.Colours{Ground: dark, Inks: []draw.Colour{{R: 255, G: 255, B: 255}, {R: 255, G: 255, B: 40}}}, draw.Colour{R: 255, G: 255}, []string{"ink 1 #ffffff prints nothing", "ink 2 #ffff28 is lighter than the paper and cannot come out: it prints as bare paper", "ink 1 #ffffff and ink 2 #ffff28 look alike on this paper"}},
		"two inks become one":       {pattern.Colours{Ground: draw.Colour{R: 30}, Inks: []draw.Colour{{R: 200, G: 40, B: 250}, {R: 200, G: 40, B: 20}}}, draw.Colour{R: 230, G: 200, B: 10}, []string{"ink 1 #c828fa and ink 2 #c82814 look alike on this paper"}},
		"fine on ivory":             {pattern.Colours{Ground: draw.Colour{R: 240, G: 225, B: 190}, Inks: []draw.Colour{red, sky}}, draw.Colour{R: 255, G: 255, B: 240}, nil},
	} {
		said := palettes.PaperDoubts(c.colours, c.paper, every)
		if len(said) != len(c.says) {
			t.Errorf("%s: %q", name, said)
			continue
		}
		for i, want := range c.says {
			if !strings.HasPrefix(said[i], want) || strings.Contains(said[i], "\n") {
				t.Errorf("%s: %q; want %q", name, said[i], want)
			}
		}
	}
}

// What counts as lost is our choice, 5 by CIEDE2000: greys on yellow paper from
// white to black, over nothing and over one another.
func TestWhatIsLostIsTooNear(t *testing.T) {
	paper := draw.Colour{R: 250, G: 230, B: 120}
	for v := range 255 {
		ink := draw.Colour{R: uint8(v), G: uint8(v), B: uint8(v)}
		c := pattern.Colours{Ground: draw.Colour{R: 40, B: 60}, Inks: []draw.Colour{ink}}
		said := strings.Join(palettes.PaperDoubts(c, paper, func(n int) bool { return n == 1 }), "\n")
		lost := palettes.Difference(draw.Multiply(paper, ink), paper) < 5
		if says := strings.Contains(said, "vanishes on this paper") || strings.Contains(said, "prints as bare paper"); says != lost {
			t.Errorf("%s: %q", ink.Hex(), said)
		}
	}
}

// What looks alike on white paper as well is not the paper's fault.
func TestThePaperIsNotBlamedForColoursAlikeOnWhite(t *testing.T) {
	tan := draw.Colour{R: 210, G: 180, B: 140}
	for _, c := range []pattern.Colours{
		{Ground: draw.Colour{R: 90, G: 20, B: 20}, Inks: []draw.Colour{{R: 91, G: 21, B: 20}}},
		{Ground: draw.Colour{R: 90, G: 20, B: 20}, Inks: []draw.Colour{{R: 20, G: 60, B: 20}, {R: 21, G: 61, B: 20}}},
	} {
		if said := palettes.PaperDoubts(c, tan, every); len(said) > 0 {
			t.Errorf("%v: %q", c, said)
		}
	}
}

func TestColoursThatTheDesignDoesNotShowAreNotSpokenOf(t *testing.T) {
	c := pattern.Colours{Ground: draw.Colour{R: 60}, Inks: []draw.Colour{draw.White, {R: 20, G: 90}}}
	said := palettes.PaperDoubts(c, draw.Colour{R: 230, G: 200, B: 150}, func(n int) bool { return n == 2 })
	if len(said) > 0 {
		t.Error(said)
	}
}
