package derived

import (
	"math"

	"github.com/lucasb-eyer/go-colorful"

	"underflap/pattern/draw"
)

// tone is a colour in OKLCh: lightness from 0 to 1, chroma from 0 (grey) to
// about 0.32 (the purest a screen shows), hue in degrees from 0 to 360. OKLab is
// Björn Ottosson's, "A perceptual color space for image processing", 2020.
type tone struct{ L, C, H float64 }

func toneOf(c draw.Colour) tone {
	l, chroma, h := colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}.OkLch()
	return tone{l, chroma, h}
}

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
// screen: an eighth of a step of 8 bits, so that it rounds into place.
const slack = 1.0 / 255 / 8

// shown tells whether a screen's sRGB has the tone.
func (t tone) shown() bool {
	c := colorful.OkLch(t.L, t.C, t.H)
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
	r, g, b := colorful.OkLch(t.L, t.C, t.H).Clamped().RGB255() // what is clamped is within slack
	return draw.Colour{R: r, G: g, B: b}
}
