package png

import (
	"image/color"
	"slices"

	"underflap/pattern/draw"
)

// index maps drawn pixels to at most 256 colours: the page's inks, and between
// every two of them a ramp for the soft edge where one lies over the other.
type index struct {
	palette color.Palette
	known   map[draw.Colour]uint8
	last    draw.Colour
	lastAt  uint8
}

// leastRamp is the fewest steps between two inks that still look smooth.
const leastRamp = 3

// newIndex collects the page's colours. It reports false when the page shows a
// picture or has too many inks for smooth ramps.
func newIndex(page *draw.Page) (*index, bool) {
	inks := []draw.Colour{draw.White}
	flat := true
	add := func(c draw.Colour) {
		if !slices.Contains(inks, c) {
			inks = append(inks, c)
		}
	}
	draw.Walk(page.Nodes(), func(n draw.Node) {
		switch n := n.(type) {
		case *draw.Fill:
			add(n.Colour)
		case *draw.Stroke:
			add(n.Colour)
		case *draw.Text:
			add(n.Colour)
		case *draw.Picture:
			flat = false
		}
	})
	steps := 0
	if pairs := len(inks) * (len(inks) - 1) / 2; pairs > 0 {
		steps = min(62, (256-len(inks))/pairs)
		flat = flat && steps >= leastRamp
	}
	if !flat {
		return nil, false
	}
	x := &index{known: map[draw.Colour]uint8{}}
	put := func(c draw.Colour) {
		if _, there := x.known[c]; !there {
			x.known[c] = uint8(len(x.palette))
			x.palette = append(x.palette, color.RGBA{c.R, c.G, c.B, 255})
		}
	}
	for _, c := range inks {
		put(c)
	}
	for i, a := range inks {
		for _, b := range inks[:i] {
			for k := 1; k <= steps; k++ {
				put(draw.Mix(a, b, float64(k)/float64(steps+1)))
			}
		}
	}
	x.lastAt = x.known[x.last] // black, if it is an ink; else found at first sight
	if _, there := x.known[x.last]; !there {
		x.last = draw.White
		x.lastAt = 0
	}
	return x, true
}

// of is the nearest colour's place in the palette.
func (x *index) of(c draw.Colour) uint8 {
	if c == x.last {
		return x.lastAt
	}
	at, there := x.known[c]
	if !there {
		at = uint8(x.palette.Index(color.RGBA{c.R, c.G, c.B, 255}))
		x.known[c] = at
	}
	x.last, x.lastAt = c, at
	return at
}
