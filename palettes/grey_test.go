package palettes

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"underflap/pattern"
	"underflap/pattern/draw"
)

func anyColour(t *rapid.T, name string) draw.Colour {
	b := rapid.SliceOfN(rapid.Byte(), 3, 3).Draw(t, name)
	return draw.Colour{R: b[0], G: b[1], B: b[2]}
}

// Whatever the colours, greys are neutral, keep the order of lightness and, of up
// to seven, are apart: by GreysApart in lightness and by 8 in CIEDE2000.
func TestGreysAreNeutralInOrderAndApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := pattern.Colours{Ground: anyColour(t, "ground")}
		for i := range rapid.IntRange(1, pattern.MostInks).Draw(t, "inks") {
			c.Inks = append(c.Inks, anyColour(t, fmt.Sprint("ink", i)))
		}
		grey, remark := Grey(c)
		distinct := map[draw.Colour]bool{c.Ground: true}
		for _, ink := range c.Inks {
			distinct[ink] = true
		}
		least := GreysApart
		if n := len(distinct); n > 7 {
			least = 100/float64(n-1) - rounding
		}
		if (len(distinct) > 7) != (remark != "") {
			t.Fatalf("%d colours: %q", len(distinct), remark)
		}
		for i := range len(c.Inks) + 1 {
			a, as := c.Ink(i), grey.Ink(i)
			if as.R != as.G || as.G != as.B {
				t.Fatalf("%v is no grey", as)
			}
			for j := range i {
				b, bs := c.Ink(j), grey.Ink(j)
				d := ToLab(as).L - ToLab(bs).L
				switch {
				case a == b && as != bs:
					t.Fatalf("%v is %v and %v", a, as, bs)
				case a != b && math.Abs(d) < least:
					t.Fatalf("%v and %v are %v and %v, %.2f apart in lightness", a, b, as, bs, d)
				case a != b && len(distinct) <= 7 && Difference(as, bs) < 8:
					t.Fatalf("%v and %v are %.2f apart", as, bs, Difference(as, bs))
				case (ToLab(a).L-ToLab(b).L)*d < 0:
					t.Fatalf("%v and %v change places: %v and %v", a, b, as, bs)
				}
			}
		}
	})
}

// By hand: two that are alike part by half each; at the end of the scale the other
// takes the whole; what is apart stays.
func TestSpreadMovesAsLittleAsItCan(t *testing.T) {
	for _, c := range []struct{ given, want []float64 }{
		{[]float64{50, 50}, []float64{45, 55}},
		{[]float64{98, 100}, []float64{90, 100}},
		{[]float64{0, 0, 0}, []float64{0, 10, 20}},
		{[]float64{20, 60, 90}, []float64{20, 60, 90}},
		{[]float64{10, 50, 51, 52, 90}, []float64{10, 41, 51, 61, 90}},
	} {
		got := spread(c.given, 10)
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-9 {
				t.Errorf("%v: %v; want %v", c.given, got, c.want)
				break
			}
		}
	}
}

// No other way of keeping them apart moves them less: the answer of a least
// squares problem under convex bounds is the one point from which every allowed
// point lies on the far side (the projection theorem; Bertsekas, Convex
// Optimization Theory, 1.1.9; number from memory).
func TestSpreadIsTheNearest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "n")
		rising, other := make([]float64, n), make([]float64, n)
		const apart = 12.0
		free := 100 - apart*float64(n-1)
		level, base := 0.0, 0.0
		for i := range n {
			level += rapid.Float64Range(0, (100-level)/2).Draw(t, "step")
			rising[i] = level
			base += rapid.Float64Range(0, free-base).Draw(t, "allowed")
			other[i] = base + apart*float64(i)
		}
		at := spread(rising, apart)
		dot := 0.0
		for i := range n {
			dot += (rising[i] - at[i]) * (other[i] - at[i])
		}
		if dot > 1e-6 {
			t.Fatalf("%v: %v is nearer than %v", rising, other, at)
		}
	})
}

// The lightness of the sRGB primaries, as published from the matrix of IEC
// 61966-2-1: red 53.24, green 87.73, blue 32.30 (Lindbloom's calculator; from
// memory).
func TestAGreyHasTheLightnessOfItsColour(t *testing.T) {
	for c, l := range map[draw.Colour]float64{{R: 255}: 53.24, {G: 255}: 87.73, {B: 255}: 32.30} {
		if got := ToLab(draw.Grey(c)).L; math.Abs(got-l) > 0.2 { // eight bits
			t.Errorf("%s: grey of lightness %.2f; want %.2f", c.Hex(), got, l)
		}
	}
	for v := range 256 {
		c := draw.Colour{R: uint8(v), G: uint8(v), B: uint8(v)}
		if draw.Grey(c) != c || greyOfLightness(ToLab(c).L) != c {
			t.Errorf("%s changes: %s, %s", c.Hex(), draw.Grey(c).Hex(), greyOfLightness(ToLab(c).L).Hex())
		}
	}
}
