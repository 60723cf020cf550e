package palettes

import (
	"github.com/lucasb-eyer/go-colorful"

	"underflap/pattern/draw"
)

// Contrast is the contrast ratio of WCAG 2 between two colours, from 1 to 21:
// whether one can be read on the other.
func Contrast(a, b draw.Colour) float64 {
	light, dark := luminance(a), luminance(b)
	if light < dark {
		light, dark = dark, light
	}
	return (light + 0.05) / (dark + 0.05)
}

// luminance is relative to white, as WCAG 2 defines it.
func luminance(c draw.Colour) float64 {
	r, g, b := colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255, B: float64(c.B) / 255}.LinearRgb()
	return 0.2126*r + 0.7152*g + 0.0722*b
}

// Lettering is black or white, whichever reads better on the colour.
func Lettering(on draw.Colour) draw.Colour {
	if black := (draw.Colour{}); Contrast(on, black) >= Contrast(on, draw.White) {
		return black
	}
	return draw.White
}
