package ansi

import (
	"underflap/palettes"
	"underflap/pattern/draw"
)

// The first entry of xterm's 256 colours that is the same everywhere: people set
// the 16 before it as they like.
const firstFixed = 16

// Entry is colour n of xterm's 256, from 16 on: a cube of six steps a side, then
// 24 greys from 8 in tens (256colres.h of xterm).
func Entry(n int) draw.Colour {
	if n >= 232 {
		grey := uint8(8 + 10*(n-232))
		return draw.Colour{R: grey, G: grey, B: grey}
	}
	n -= firstFixed
	step := func(i int) uint8 {
		if i == 0 {
			return 0
		}
		return uint8(55 + 40*i)
	}
	return draw.Colour{R: step(n / 36), G: step(n / 6 % 6), B: step(n % 6)}
}

// Nearest is the entry that looks most like a colour, by CIEDE2000.
func Nearest(c draw.Colour) int {
	best, least := firstFixed, 1000.0
	for n := firstFixed; n < 256; n++ {
		if d := palettes.Difference(c, Entry(n)); d < least {
			best, least = n, d
		}
	}
	return best
}
