package palettes

import (
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"underflap/pattern/draw"
)

// Each row of a matrix of Machado, Oliveira and Fernandes 2009 sums to 1, so that
// greys are seen as they are; the published six digits leave 1e-6.
func TestSightLeavesGreysAlone(t *testing.T) {
	for _, s := range Sights {
		for _, row := range s.matrix {
			if sum := row[0] + row[1] + row[2]; math.Abs(sum-1) > 1.0001e-6 {
				t.Errorf("%s: a row sums to %.7f", s.Name, sum)
			}
		}
		for v := range 256 {
			grey := draw.Colour{R: uint8(v), G: uint8(v), B: uint8(v)}
			if s.Seen(grey) != grey {
				t.Errorf("%s: %s is seen as %s", s.Name, grey.Hex(), s.Seen(grey).Hex())
			}
		}
	}
}

// Worked by hand from the published matrices: the primaries of linear RGB give a
// column each, cut off to 0..1, and the sRGB curve (IEC 61966-2-1) makes codes of it:
// 255(1.055 v^(1/2.4) - 0.055), or 255 x 12.92 v up to 0.0031308. For red and protan,
// 0.152286 is 108.8, 0.114503 is 95.0, and -0.003882 is cut to 0.
func TestSightOfPrimaries(t *testing.T) {
	red, green, blue := draw.Colour{R: 255}, draw.Colour{G: 255}, draw.Colour{B: 255}
	for name, want := range map[string][3]draw.Colour{
		"protan": {{R: 109, G: 95, B: 0}, {R: 255, G: 229, B: 0}, {R: 0, G: 89, B: 255}},
		"deutan": {{R: 163, G: 144, B: 0}, {R: 239, G: 214, B: 58}, {R: 0, G: 61, B: 251}},
		"tritan": {{R: 255, G: 0, B: 15}, {R: 0, G: 247, B: 217}, {R: 0, G: 107, B: 150}},
	} {
		for _, s := range Sights {
			if s.Name != name {
				continue
			}
			for i, c := range []draw.Colour{red, green, blue} {
				if got := s.Seen(c); got != want[i] {
					t.Errorf("%s sees %s as %s, by hand %s", name, c.Hex(), got.Hex(), want[i].Hex())
				}
			}
		}
	}
}

// What the conversions stand on. The pairs of XYZ and Oklab are the table in Björn
// Ottosson, "A perceptual color space for image processing", 2020; the sRGB curve's
// are of IEC 61966-2-1: code 0.5 is 0.21404 linear, and its straight part ends at
// 0.04045. The Oklab of sRGB's red, green and blue are those of CSS Color Module
// Level 4, from memory.
func TestColourSpacesAgainstPublishedValues(t *testing.T) {
	near := func(what string, got, want [3]float64, within float64) {
		for i := range got {
			if math.Abs(got[i]-want[i]) > within {
				t.Errorf("%s: %.4f, published %.3f", what, got, want)
				return
			}
		}
	}
	three := func(a, b, c float64) [3]float64 { return [3]float64{a, b, c} }
	for _, c := range []struct{ xyz, lab [3]float64 }{
		{three(0.950, 1.000, 1.089), three(1.000, 0.000, 0.000)},
		{three(1, 0, 0), three(0.450, 1.236, -0.019)},
		{three(0, 1, 0), three(0.922, -0.671, 0.263)},
		{three(0, 0, 1), three(0.153, -1.415, -0.449)},
	} {
		near("Oklab", three(colorful.XyzToOkLab(c.xyz[0], c.xyz[1], c.xyz[2])), c.lab, 0.0011)
	}
	for _, c := range []struct {
		rgb colorful.Color
		lab [3]float64
	}{
		{colorful.Color{R: 1}, three(0.628, 0.225, 0.126)}, {colorful.Color{G: 1}, three(0.866, -0.234, 0.179)}, {colorful.Color{B: 1}, three(0.452, -0.032, -0.312)},
	} {
		near("Oklab of a primary", three(c.rgb.OkLab()), c.lab, 0.001)
	}
	near("linear", three(colorful.Color{R: 0.5, G: 0.04045, B: 1}.LinearRgb()), three(0.21404, 0.0031308, 1), 1e-5)
}

func TestColourSpacesComeBack(t *testing.T) {
	for v := 0; v < 1<<24; v += 4099 {
		c := colorful.Color{R: float64(v>>16) / 255, G: float64(v>>8&255) / 255, B: float64(v&255) / 255}
		r, g, b := colorful.LinearRgb(c.LinearRgb()).RGB255()
		if int(r)<<16|int(g)<<8|int(b) != v {
			t.Fatalf("%06x comes back from linear RGB as %02x%02x%02x", v, r, g, b)
		}
		// the library's matrices to and fro were rounded apart, which costs a code at most
		r, g, b = colorful.OkLab(c.OkLab()).RGB255()
		if off := func(got uint8, want int) bool { return int(got)-want > 1 || want-int(got) > 1 }; off(r, v>>16) || off(g, v>>8&255) || off(b, v&255) {
			t.Fatalf("%06x comes back from Oklab as %02x%02x%02x", v, r, g, b)
		}
	}
}
