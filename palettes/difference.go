package palettes

import (
	"math"

	"github.com/lucasb-eyer/go-colorful"

	"underflap/pattern/draw"
)

// Lab is a colour in CIE 1976 L*a*b* on its usual scale: L from 0 to 100.
type Lab struct{ L, A, B float64 }

// ToLab converts an sRGB colour, as seen in daylight (D65).
func ToLab(c draw.Colour) Lab {
	l, a, b := colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}.Lab()
	return Lab{100 * l, 100 * a, 100 * b}
}

// Difference is the CIEDE2000 difference of two colours: about 1 is the least
// the eye sees, 100 parts black from white.
func Difference(a, b draw.Colour) float64 { return ToLab(a).Difference(ToLab(b)) }

// Difference is CIEDE2000 after Sharma, Wu and Dalal, Color Research and
// Application 30(1), 2005, with all weights 1. go-colorful's own takes the mean
// hue of opposite hues the other way round and so misses one of the paper's pairs.
func (p Lab) Difference(q Lab) float64 {
	const radian = math.Pi / 180
	// chroma, with a* stretched for greys
	mean7 := math.Pow((math.Hypot(p.A, p.B)+math.Hypot(q.A, q.B))/2, 7)
	stretch := 1 + 0.5*(1-math.Sqrt(mean7/(mean7+math.Pow(25, 7))))
	c1, c2 := math.Hypot(stretch*p.A, p.B), math.Hypot(stretch*q.A, q.B)
	h1, h2 := hue(stretch*p.A, p.B), hue(stretch*q.A, q.B)

	turn, mean := h2-h1, (h1+h2)/2
	switch {
	case c1*c2 == 0:
		turn, mean = 0, h1+h2
	case math.Abs(h1-h2) > 180:
		turn -= math.Copysign(360, turn)
		if h1+h2 < 360 {
			mean += 180
		} else {
			mean -= 180
		}
	}
	dL, dC := q.L-p.L, c2-c1
	dH := 2 * math.Sqrt(c1*c2) * math.Sin(turn/2*radian)

	l50, c := (p.L+q.L)/2-50, (c1+c2)/2
	t := 1 - 0.17*math.Cos((mean-30)*radian) + 0.24*math.Cos(2*mean*radian) +
		0.32*math.Cos((3*mean+6)*radian) - 0.20*math.Cos((4*mean-63)*radian)
	sL := 1 + 0.015*l50*l50/math.Sqrt(20+l50*l50)
	sC := 1 + 0.045*c
	sH := 1 + 0.015*c*t
	c7 := math.Pow(c, 7)
	blue := (mean - 275) / 25
	rotate := -2 * math.Sqrt(c7/(c7+math.Pow(25, 7))) * math.Sin(60*math.Exp(-blue*blue)*radian)
	dL, dC, dH = dL/sL, dC/sC, dH/sH
	return math.Sqrt(dL*dL + dC*dC + dH*dH + rotate*dC*dH)
}

// hue is in degrees from 0 to 360, and 0 for a grey.
func hue(a, b float64) float64 {
	if a == 0 && b == 0 {
		return 0
	}
	h := math.Atan2(b, a) * 180 / math.Pi
	if h < 0 {
		h += 360
	}
	return h
}
