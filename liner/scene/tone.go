package scene

import "underflap/pattern/draw"

// UsualEnvelope and UsualTable are the colours when none are asked for: a warm
// white paper on grey linen.
var (
	UsualEnvelope = draw.Colour{R: 0xf5, G: 0xef, B: 0xe3}
	UsualTable    = draw.Colour{R: 0xcf, G: 0xc7, B: 0xbb}
)

// grey is the lightness of a colour from 0 to 1, by the weights of Rec. 709 on
// sRGB values: near enough to tell light paper from dark.
func grey(c draw.Colour) float64 {
	return (0.2126*float64(c.R) + 0.7152*float64(c.G) + 0.0722*float64(c.B)) / 255
}

// inside is the inside of the envelope's paper: nearly its back's colour, as in
// paper dyed throughout, a little paler so that flap and back are told apart.
func inside(c draw.Colour) draw.Colour {
	if grey(c) < 0.45 {
		return draw.Mix(c, draw.White, 0.05)
	}
	return draw.Mix(c, draw.White, 0.08)
}

// edge is the line along a cut edge of paper: darker than the paper, or lighter
// where it is dark already.
func edge(c draw.Colour, much float64) draw.Colour {
	if grey(c) < 0.3 {
		return draw.Mix(c, draw.White, 1.2*much)
	}
	return draw.Mix(c, dark, much)
}

// gum is dried gum on paper: a little yellower and glossier.
func gum(c draw.Colour) draw.Colour {
	tint := draw.Colour{R: 0xe2, G: 0xcf, B: 0xa2}
	if grey(c) < 0.45 {
		return draw.Mix(c, tint, 0.1)
	}
	return draw.Mix(c, tint, 0.26)
}

// lettering is a colour that reads on the table.
func lettering(table draw.Colour) draw.Colour {
	if grey(table) < 0.5 {
		return draw.Colour{R: 0xf4, G: 0xf0, B: 0xe8}
	}
	return draw.Colour{R: 0x38, G: 0x30, B: 0x2a}
}
