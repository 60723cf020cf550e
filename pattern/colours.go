package pattern

import "underflap/pattern/draw"

// Colours are a ground and the inks that lie on it.
type Colours struct {
	Name   string
	Ground draw.Colour
	Inks   []draw.Colour // one to MostInks
}

// MostInks bounds the inks of one design.
const MostInks = 12

// Ink gives ink n, counted from 1 and beginning again past the last; 0 is the
// ground.
func (c Colours) Ink(n int) draw.Colour {
	if n == 0 {
		return c.Ground
	}
	return c.Inks[(n-1)%len(c.Inks)]
}
