package clean

import (
	"errors"
	"image"
	"image/color"
	"math/rand/v2"
	"testing"
)

// score compares coverage with the ink that is truly there: the share of what
// was found that is ink, and the share of the ink that was found.
func score(cover *image.Alpha, truth []bool, width int) (precision, recall float64) {
	both, found, ink := 0, 0, 0
	for at, there := range truth {
		seen := cover.AlphaAt(at%width, at/width).A >= 128
		if seen {
			found++
		}
		if there {
			ink++
		}
		if seen && there {
			both++
		}
	}
	return float64(both) / float64(found), float64(both) / float64(ink)
}

// leastScore is what the issue asks for.
const leastScore = 0.98

func TestCleanedInkIsTheInkThatWasThere(t *testing.T) {
	for name, how := range photos {
		img, truth := how.take(t)
		p, err := New(t.Context(), img)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if kind := p.Kind(); kind != OneInk {
			t.Errorf("%s: seen as %d", name, kind)
		}
		cover, err := p.Ink()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		precision, recall := score(cover, truth, how.width)
		t.Logf("%-16s precision %.4f recall %.4f", name, precision, recall)
		if precision < leastScore || recall < leastScore {
			t.Errorf("%s: precision %.4f, recall %.4f", name, precision, recall)
		}
	}
}

// What a soft edge covers matters in print: the ink's area, in whole pixels of
// it, is the true area.
func TestCleanedInkCoversTheAreaItCovered(t *testing.T) {
	how := photos["photo, red ink"]
	img, truth := how.take(t)
	cover, err := must(t, img).Ink()
	if err != nil {
		t.Fatal(err)
	}
	sum, ink, soft := 0.0, 0.0, 0
	for at, there := range truth {
		a := cover.AlphaAt(at%how.width, at/how.width).A
		sum += float64(a) / 255
		if a > 0 && a < 255 {
			soft++
		}
		if there {
			ink++
		}
	}
	if sum/ink < 0.985 || sum/ink > 1.015 || soft == 0 {
		t.Errorf("%.1f pixels of ink, truly %.1f; %d at soft edges", sum, ink, soft)
	}
	if b := cover.Rect; b.Dx() < 367 || b.Dx() > 373 { // the frame is 0.75 of 490 high
		t.Errorf("cropped to %v", b)
	}
}

func must(t *testing.T, img *image.NRGBA) *Picture {
	t.Helper()
	p, err := New(t.Context(), img)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// painted is a plain picture with what f says on it.
func painted(w, h int, f func(x, y int) color.NRGBA) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			img.SetNRGBA(x, y, f(x, y))
		}
	}
	return img
}

var (
	paperWhite = color.NRGBA{236, 234, 228, 255}
	nutBrown   = color.NRGBA{120, 70, 30, 255}
	leafGreen  = color.NRGBA{60, 130, 60, 255}
)

func nutAndLeaf(x, y int) color.NRGBA {
	switch {
	case (x-80)*(x-80)+(y-80)*(y-80) < 40*40:
		return nutBrown
	case (x-150)*(x-150)+(y-80)*(y-80) < 20*20:
		return leafGreen
	}
	return paperWhite
}

func TestKindsAreToldApart(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 2))
	for name, tc := range map[string]struct {
		img  *image.NRGBA
		want Kind
	}{
		"two colours": {painted(200, 160, nutAndLeaf), Coloured},
		"one colour": {painted(200, 160, func(x, y int) color.NRGBA {
			if c := nutAndLeaf(x, y); c != leafGreen {
				return c
			}
			return nutBrown
		}), OneInk},
		"a grey photo on a card": {painted(200, 160, func(x, y int) color.NRGBA {
			if x < 30 || x >= 170 || y < 30 || y >= 130 {
				return paperWhite
			}
			v := uint8(40 + x)
			return color.NRGBA{v, v, v, 255}
		}), Shaded},
		"no paper around": {painted(200, 160, func(x, y int) color.NRGBA {
			v := uint8(60 + 150*(y/80) + chance.IntN(20) - (x/100)*40)
			return color.NRGBA{v, v, v, 255}
		}), Other},
	} {
		if got := must(t, tc.img).Kind(); got != tc.want {
			t.Errorf("%s: %d, want %d", name, got, tc.want)
		}
	}
	for name, img := range map[string]*image.NRGBA{
		"bare paper": painted(200, 160, func(x, _ int) color.NRGBA {
			v := uint8(200 - x/4 + chance.IntN(7))
			return color.NRGBA{v, v, v, 255}
		}),
		"one pixel": painted(1, 1, func(int, int) color.NRGBA { return paperWhite }),
		"black":     painted(50, 50, func(int, int) color.NRGBA { return color.NRGBA{A: 255} }),
	} {
		if _, err := New(t.Context(), img); !errors.Is(err, ErrNoInk) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestColoursStayAndPaperGoes(t *testing.T) {
	p := must(t, painted(200, 160, nutAndLeaf))
	art, err := p.Colours()
	if err != nil {
		t.Fatal(err)
	}
	if want := image.Rect(39, 39, 172, 122); art.Rect != want { // circles of 40 and 20, with a soft pixel and a free one round them
		t.Errorf("cropped to %v, want %v", art.Rect, want)
	}
	if c := art.NRGBAAt(120, 80); c.A != 0 {
		t.Errorf("paper is %v", c)
	}
	for at, want := range map[image.Point]color.NRGBA{{80, 80}: nutBrown, {150, 80}: leafGreen} {
		got := art.NRGBAAt(at.X, at.Y)
		for i, d := range []int{ // in light that makes the paper white
			int(got.R) - int(want.R)*255/int(paperWhite.R), int(got.G) - int(want.G)*255/int(paperWhite.G), int(got.B) - int(want.B)*255/int(paperWhite.B),
		} {
			if d < -3 || d > 3 || got.A != 255 {
				t.Errorf("%v is %v, channel %d off by %d", at, got, i, d)
			}
		}
	}
}
