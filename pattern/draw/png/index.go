package png

import (
	"encoding/binary"
	"slices"

	"underflap/pattern/draw"
)

// index is a palette of at most 256 colours: the page's inks, and between
// every two of them a ramp for the soft edge where one lies over the other.
type index struct{ palette []draw.Colour }

// leastRamp is the fewest steps between two inks that still look smooth.
const leastRamp = 3

// newIndex collects the page's colours. There is none when the page shows a picture
// or has too many inks for smooth ramps.
func newIndex(page *draw.Page) *index {
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
		return nil
	}
	x := &index{palette: inks}
	known := map[draw.Colour]bool{}
	for _, c := range inks {
		known[c] = true
	}
	for i, a := range inks {
		for _, b := range inks[:i] {
			for k := 1; k <= steps; k++ {
				if c := draw.Mix(a, b, float64(k)/float64(steps+1)); !known[c] {
					known[c] = true
					x.palette = append(x.palette, c)
				}
			}
		}
	}
	return x
}

// nearest is the place of the nearest colour, by the sum of squared differences
// in R, G and B; the first of several.
func (x *index) nearest(c draw.Colour) uint8 {
	best, least := 0, 1<<30
	for i, p := range x.palette {
		r, g, b := int(p.R)-int(c.R), int(p.G)-int(c.G), int(p.B)-int(c.B)
		if d := r*r + g*g + b*b; d < least {
			best, least = i, d
		}
	}
	return uint8(best)
}

// finder turns drawn pixels into places in the palette and remembers those
// looked up lately: a colour in the low three bytes, its place in the high one.
type finder struct {
	index *index
	known [1 << finderBits]uint32
}

const finderBits = 15

func newFinder(x *index) *finder {
	f := &finder{index: x}
	for i := range f.known {
		f.known[i] = 0xffffff // white is in place 0
	}
	return f
}

func (f *finder) of(pixel uint32) uint8 {
	colour := pixel & 0xffffff
	slot := &f.known[colour*2654435769>>(32-finderBits)] // Knuth's multiplicative hashing
	if *slot&0xffffff != colour {
		at := f.index.nearest(draw.Colour{R: uint8(pixel), G: uint8(pixel >> 8), B: uint8(pixel >> 16)})
		*slot = uint32(at)<<24 | colour
	}
	return uint8(*slot >> 24)
}

// row appends the places of a row of RGBA pixels.
func (f *finder) row(to, row []byte) []byte {
	start := len(to)
	to = slices.Grow(to, len(row)/4)[:start+len(row)/4]
	out := to[start:]
	for i := 0; i < len(out); {
		pixel := binary.LittleEndian.Uint32(row[4*i:])
		at := f.of(pixel)
		out[i] = at
		i++
		// most pixels are like the one before; look at eight at a time
		two := uint64(pixel)<<32 | uint64(pixel)
		eight := uint64(at) * 0x0101010101010101
		for i+8 <= len(out) {
			p := row[4*i : 4*i+32]
			if (binary.LittleEndian.Uint64(p)^two)|(binary.LittleEndian.Uint64(p[8:])^two)|
				(binary.LittleEndian.Uint64(p[16:])^two)|(binary.LittleEndian.Uint64(p[24:])^two) != 0 {
				break
			}
			binary.LittleEndian.PutUint64(out[i:], eight)
			i += 8
		}
		for i < len(out) && binary.LittleEndian.Uint32(row[4*i:]) == pixel {
			out[i] = at
			i++
		}
	}
	return to
}
