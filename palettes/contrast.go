package palettes

import "underflap/pattern/draw"

// Contrast is the contrast ratio of WCAG 2 between two colours, from 1 to 21:
// whether one can be read on the other.
func Contrast(a, b draw.Colour) float64 {
	light, dark := a.Luminance(), b.Luminance()
	if light < dark {
		light, dark = dark, light
	}
	return (light + 0.05) / (dark + 0.05)
}

// Lettering is black or white, whichever reads better on the colour.
func Lettering(on draw.Colour) draw.Colour {
	if black := (draw.Colour{}); Contrast(on, black) >= Contrast(on, draw.White) {
		return black
	}
	return draw.White
}
