package pattern

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

func TestFadesAreReadOrRefused(t *testing.T) {
	for given, want := range map[string]Fade{
		"": {}, "  ": {},
		"ink": {FadeInk, 0.15}, "size": {FadeSize, 0.4}, "INK": {FadeInk, 0.15}, " Size ": {FadeSize, 0.4},
		"ink:30%": {FadeInk, 0.3}, "ink:30": {FadeInk, 0.3}, "ink: 30 %": {FadeInk, 0.3}, "ink:0": {FadeInk, 0}, "ink:100%": {FadeInk, 1},
		"ink:12.5%": {FadeInk, 0.125}, "size:5%": {FadeSize, 0.05}, "size:50": {FadeSize, 0.5}, "size : 100": {FadeSize, 1},
	} {
		if got, err := ParseFade("fade", given); err != nil || got.Of != want.Of || math.Abs(got.To-want.To) > 1e-12 {
			t.Errorf("%q is read as %v (%v), want %v", given, got, err, want)
		}
	}
	for _, bad := range []string{"colour", "ink:", "ink:%", "ink:-1", "ink:101", "ink:half", "ink:nan", "ink:inf", "ink:20%%", "ink:20:30", "size:4", "size:0",
		"size:", ":20", "20%", "ink size", "ink,size", "inks"} {
		_, err := ParseFade("fade", bad)
		refused := (*words.Refused)(nil)
		if !errors.As(err, &refused) || refused.Field != "fade" || refused.Given != bad || refused.Accepts == "" {
			t.Errorf("%q: %v", bad, err)
		}
	}
}

// Fields have no motifs to make smaller; ink can fade of all, own art under a veil.
func TestAFadeThatAFamilyCannotMakeIsRefused(t *testing.T) {
	for _, c := range []struct {
		motif     Motif
		ink, size bool
	}{
		{settled("dots"), true, true}, {&flags{Size: 2, Recurrence: Recurrence{DX: 9, DY: 9}}, true, true},
		{settled("stripes"), true, false}, {settled("scallops"), true, false}, {&StampTiles{}, true, true},
	} {
		for fade, can := range map[FadeOf]bool{FadeInk: c.ink, FadeSize: c.size, "": true} {
			d := Design{Name: "x", Motif: c.motif, Colours: blackOnWhite, Scale: 1, Fade: Fade{Of: fade, To: 0.5}, Depth: 50}
			if err := d.checkFade(); can != (err == nil) {
				t.Errorf("%T fading in %q: %v", c.motif, fade, err)
			}
		}
	}
}

// laidDown is one motif as it is recorded on a page.
type laidDown struct {
	at     draw.Matrix
	colour draw.Colour
}

// motifsOn are the placed motifs of a page in the order they are drawn, the
// origin in its middle.
func motifsOn(page *draw.Page) []laidDown {
	var all []laidDown
	var walk func([]draw.Node, draw.Matrix)
	walk = func(nodes []draw.Node, m draw.Matrix) {
		for _, n := range nodes {
			switch n := n.(type) {
			case *draw.Layer:
				walk(n.Nodes, m)
			case *draw.Group:
				walk(n.Nodes, m.After(n.Matrix))
			case *draw.Use:
				for _, at := range n.At {
					all = append(all, laidDown{m.After(at), n.Symbol.Nodes[0].(*draw.Fill).Colour})
				}
			}
		}
	}
	walk(page.Nodes(), draw.Translate(-page.Width/2, -page.Height/2))
	return all
}

const fadeDepth = 30.0 // of a page 90 high: a third above the fold's line is the flap, a third lies past the foot

// fadingDesigns are flags in every recurrence, straight and turned.
func fadingDesigns(fade Fade) map[string]Design {
	all := map[string]Design{}
	for name, r := range everyRecurrence() {
		plain := flagged(r, 2)
		plain.Fade, plain.Depth = fade, fadeDepth
		all[name] = plain
		turned := plain
		turned.Turn, turned.Scale, turned.Seed = 25, 0.7, 3
		all[name+", turned"] = turned
	}
	return all
}

// Motif by motif: the same ones as without a fade, each in one tint, which is
// full down to the fold, what was asked at the foot, and in a straight line
// between, to two of 255 levels.
func TestInkFadesMotifByMotif(t *testing.T) {
	for _, to := range []float64{0, 0.15, 0.6, 1} {
		for name, d := range fadingDesigns(Fade{FadeInk, to}) {
			ink, ground := draw.Colour{R: 200, G: 30, B: 0}, draw.Colour{R: 250, G: 240, B: 255}
			d.Colours = Colours{Name: "red", Ground: ground, Inks: []draw.Colour{ink}}
			faded := motifsOn(pageOf(d, 90))
			d.Fade = Fade{}
			plain, wanted := map[draw.Matrix]bool{}, 0
			touch := box(90 + 2*2*d.Scale)
			touches := func(m draw.Matrix) bool { return math.Abs(m.E) < touch.MaxX && math.Abs(m.F) < touch.MaxY }
			for _, p := range motifsOn(pageOf(d, 90)) {
				plain[p.at] = true
				if touches(p.at) {
					wanted++
				}
			}
			for _, p := range faded {
				if !plain[p.at] {
					t.Fatalf("%s: a motif that is not there without a fade, or is there twice", name)
				}
				delete(plain, p.at)
				if touches(p.at) {
					wanted--
				}
				left := 1 - (1-to)*math.Max(0, math.Min(1, p.at.F/fadeDepth))
				levels := func(got, ink, ground uint8) float64 {
					return math.Abs(float64(got) - float64(ground) - left*(float64(ink)-float64(ground)))
				}
				off := max(levels(p.colour.R, ink.R, ground.R), levels(p.colour.G, ink.G, ground.G), levels(p.colour.B, ink.B, ground.B))
				if off > 2.51 || (p.at.F <= 0 || p.at.F >= fadeDepth) && off > 0.51 {
					t.Errorf("%s to %g: at %.2f below the fold the tint %v is off by %.1f levels", name, to, p.at.F, p.colour, off)
				}
			}
			if wanted != 0 {
				t.Errorf("%s to %g: %d motifs are missing", name, to, wanted)
			}
			slices.SortFunc(faded, func(a, b laidDown) int { return cmp.Compare(a.at.F, b.at.F) })
			if !slices.IsSortedFunc(faded, func(a, b laidDown) int { return int(a.colour.G) - int(b.colour.G) }) {
				t.Errorf("%s to %g: a motif is stronger than one above it", name, to)
			}
		}
	}
}

// What overlaps lies as without a fade: rows from the bottom up.
func TestAFadeKeepsTheOrderOfRows(t *testing.T) {
	d := flagged(Recurrence{Repeat: Straight, DX: 3, DY: 2}, 4)
	d.Fade, d.Depth = Fade{FadeInk, 0.2}, fadeDepth
	if !slices.IsSortedFunc(motifsOn(pageOf(d, 90)), func(a, b laidDown) int { return int(math.Round(b.at.F - a.at.F)) }) {
		t.Error("a row lies over one above it")
	}
}

// Sizes follow the same straight line, each motif about its own middle.
func TestSizesFadeMotifByMotif(t *testing.T) {
	for _, to := range []float64{0.05, 0.4, 1} {
		for name, d := range fadingDesigns(Fade{FadeSize, to}) {
			faded := motifsOn(pageOf(d, 90))
			d.Fade = Fade{}
			plain := motifsOn(pageOf(d, 90))
			if len(faded) != len(plain) {
				t.Fatalf("%s to %g: %d motifs, %d without a fade", name, to, len(faded), len(plain))
			}
			for i, p := range faded {
				left := 1 - (1-to)*math.Max(0, math.Min(1, p.at.F/fadeDepth))
				if want := plain[i].at.After(draw.Scale(left)); !same(p.at, want, 1e-9) || p.colour != plain[i].colour {
					t.Fatalf("%s to %g: a motif is drawn at %v, want %v", name, to, p.at, want)
				}
			}
		}
	}
}

// Without a pocket part there is nothing to fade along, and what fades to all of
// itself does not.
func TestAFadeToNothingLessIsNone(t *testing.T) {
	for name, motif := range map[string]Motif{"dots": settled("dots", "size=6", "spacing=4", "inks=1,2"), "stripes": settled("stripes"), "scallops": settled("scallops")} {
		d := Design{Name: name, Motif: motif, Colours: Colours{Name: "two", Ground: draw.White, Inks: []draw.Colour{{}, {R: 120}}}, Scale: 1}
		plain := written(t, pageOf(d, 40), "png", 72)
		d.Fade, d.Depth = Fade{FadeInk, 1}, 15
		if !slices.Equal(written(t, pageOf(d, 40), "png", 72), plain) {
			t.Errorf("%s: a fade to all of the ink changes the picture", name)
		}
		d.Fade, d.Depth = Fade{FadeInk, 0.1}, 0
		if !slices.Equal(written(t, pageOf(d, 40), "png", 72), plain) {
			t.Errorf("%s: a fade over no depth changes the picture", name)
		}
	}
}
