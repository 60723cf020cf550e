package derived

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"underflap/pattern/draw"
)

// oklab is OKLab of sRGB channels from 0 to 1 as go-colorful has it, which goes by
// way of CIE XYZ and Ottosson's matrices for that.
func oklab(rgb [3]float64) [3]float64 {
	l, a, b := colorful.Color{R: rgb[0], G: rgb[1], B: rgb[2]}.OkLab()
	return [3]float64{l, a, b}
}

func channels(c draw.Colour) [3]float64 {
	return [3]float64{float64(c.R) / 255, float64(c.G) / 255, float64(c.B) / 255}
}

func away(p, q [3]float64) float64 {
	return math.Sqrt((p[0]-q[0])*(p[0]-q[0]) + (p[1]-q[1])*(p[1]-q[1]) + (p[2]-q[2])*(p[2]-q[2]))
}

// rounding is how far apart colours can be that are rounded to the same 8 bits,
// with the hundredth of a step that a channel may lie outside.
func rounding(c draw.Colour) (far float64) {
	at := oklab(channels(c))
	for corner := range 8 {
		rgb := channels(c)
		for i := range rgb {
			rgb[i] += (0.51 / 255) * float64(corner>>i&1*2-1)
		}
		far = max(far, away(at, oklab(rgb)))
	}
	return far
}

// Made tones, most of them outside sRGB: what comes of them has their lightness
// and hue, as the library has them and within rounding, and only chroma gave
// way, no more than had to.
func TestOnlyChromaGivesWay(t *testing.T) {
	chance := rand.New(rand.NewPCG(6, 28))
	outside := 0
	for range 20_000 {
		want := tone{chance.Float64(), 0.4 * chance.Float64(), 360 * chance.Float64()}
		got := want.within()
		if got.L != want.L || got.H != want.H || got.C > want.C {
			t.Fatalf("%v became %v", want, got)
		}
		if got.C < want.C {
			outside++
			if more := got.at(got.L, got.C+1e-4); more.shown() {
				t.Errorf("%v: chroma %.5f, and sRGB has %.5f", want, got.C, more.C)
			}
		}
		c := want.colour()
		h := got.H * math.Pi / 180
		meant := [3]float64{got.L, got.C * math.Cos(h), got.C * math.Sin(h)}
		if off, most := away(oklab(channels(c)), meant), rounding(c)+5e-4; off > most {
			t.Errorf("%v: %s is %.5f from it, rounding explains %.5f", want, c.Hex(), off, most)
		}
	}
	if outside < 10_000 {
		t.Errorf("only %d of the tones lay outside sRGB", outside)
	}
}

// The primaries of sRGB in oklch() of CSS Color 4, as implementations of it agree
// to six digits.
func TestPrimariesAreWhereCSSHasThem(t *testing.T) {
	for hex, want := range map[draw.Colour]tone{
		{R: 255}: {0.627955, 0.257683, 29.2339},
		{G: 255}: {0.866440, 0.294827, 142.4953},
		{B: 255}: {0.452014, 0.313214, 264.0520},
	} {
		if got := toneOf(hex); math.Abs(got.L-want.L) > 1e-5 || math.Abs(got.C-want.C) > 1e-5 || math.Abs(got.H-want.H) > 1e-3 {
			t.Errorf("%s: %v, want %v", hex.Hex(), got, want)
		}
		if want.colour() != hex {
			t.Errorf("%v is %s, want %s", want, want.colour().Hex(), hex.Hex())
		}
	}
}

func TestColoursOfAScreenStayAsTheyAre(t *testing.T) {
	for r := 0; r < 256; r += 5 {
		for g := 0; g < 256; g += 5 {
			for b := 0; b < 256; b += 3 {
				c := draw.Colour{R: uint8(r), G: uint8(g), B: uint8(b)}
				in := toneOf(c)
				if got := in.colour(); got != c || in.within() != in {
					t.Fatalf("%s became %s", c.Hex(), got.Hex())
				}
			}
		}
	}
}
