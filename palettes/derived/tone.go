package derived

import (
	"math"

	"github.com/lucasb-eyer/go-colorful"

	"underflap/pattern/draw"
)

// tone is a colour in OKLCh: lightness from 0 to 1, chroma from 0 (grey) to
// about 0.32 (the purest a screen shows), hue in degrees from 0 to 360. OKLab is
// Björn Ottosson's, "A perceptual color space for image processing", 2020, with
// the matrices he gives for linear sRGB. The library goes by way of XYZ, and what
// it loses on the way puts blues of the screen outside it.
type tone struct{ L, C, H float64 }

func toneOf(c draw.Colour) tone {
	r, g, b := c.Linear()
	l := math.Cbrt(0.4122214708*r + 0.5363325363*g + 0.0514459929*b)
	m := math.Cbrt(0.2119034982*r + 0.6806995451*g + 0.1073969566*b)
	s := math.Cbrt(0.0883024619*r + 0.2817188376*g + 0.6299787005*b)
	light, chroma, hue := colorful.OkLabToOkLch(
		0.2104542553*l+0.7936177850*m-0.0040720468*s,
		1.9779984951*l-2.4285922050*m+0.4505937099*s,
		0.0259040371*l+0.7827717662*m-0.8086757660*s)
	return tone{light, chroma, hue}
}

// screen is the tone in sRGB, within it or not.
func (t tone) screen() colorful.Color {
	light, a, b := colorful.OkLchToOkLab(t.L, t.C, t.H)
	l := cube(light + 0.3963377774*a + 0.2158037573*b)
	m := cube(light - 0.1055613458*a - 0.0638541728*b)
	s := cube(light - 0.0894841775*a - 1.2914855480*b)
	return colorful.LinearRgb(
		4.0767416621*l-3.3077115913*m+0.2309699292*s,
		-1.2684380046*l+2.6097574011*m-0.3413193965*s,
		-0.0041960863*l-0.7034186147*m+1.7076147010*s)
}

func cube(v float64) float64 { return v * v * v }

// turned is the tone at another hue.
func (t tone) turned(degrees float64) tone {
	t.H = math.Mod(math.Mod(t.H+degrees, 360)+360, 360)
	return t
}

// at is the tone's hue at another lightness and chroma.
func (t tone) at(l, c float64) tone { return tone{l, c, t.H} }

// hueless tells greys, whose hue is an accident of rounding.
func (t tone) hueless() bool { return t.C < 0.015 }

// slack is how far past 0 and 1 a channel may lie to count as a colour of the
// screen: a hundredth of a step of 8 bits, for the digits that the matrices lack.
const slack = 1.0 / 255 / 100

// shown tells whether a screen's sRGB has the tone.
func (t tone) shown() bool {
	c := t.screen()
	for _, v := range []float64{c.R, c.G, c.B} {
		if !(v >= -slack && v <= 1+slack) {
			return false
		}
	}
	return true
}

// within is the tone itself where sRGB has it, and else the purest of the same
// lightness and hue that it has, to 1e-4 of chroma. No channel is clipped,
// which would turn the hue.
func (t tone) within() tone {
	t.L, t.C = min(max(t.L, 0), 1), max(t.C, 0)
	if t.shown() {
		return t
	}
	in, out := 0.0, t.C
	for out-in > 1e-5 {
		if t.C = (in + out) / 2; t.shown() {
			in = t.C
		} else {
			out = t.C
		}
	}
	t.C = in
	return t
}

// quiet is the tone with at most so much of the chroma that its lightness and hue
// can have: blue-greens shout at a chroma where red is still rust.
func (t tone) quiet(share float64) tone {
	t.C = min(t.C, share*t.at(t.L, 0.4).within().C)
	return t
}

// colour is the tone to 8 bits, brought within sRGB.
func (t tone) colour() draw.Colour {
	t = t.within()
	r, g, b := t.screen().Clamped().RGB255() // what is clamped is within slack
	return draw.Colour{R: r, G: g, B: b}
}
