package draw

import (
	"fmt"
	"image"
	"sync"
)

// Art is people's own art, ready to be placed at any width: a picture in its own
// colours, coverage that is printed in one ink of the palette, or shapes.
type Art struct {
	Width, Height float64 // its proportion; a picture's are its pixels
	Image         *Image  // a picture, or nil
	Cover         *Cover  // one ink, or nil
	Shapes        []Shape // vector art, later ones over earlier
	Ink           int     // of the palette, for coverage and shapes; 0: their own colours
}

// Shape is a filled path of vector art, in the space of its Width and Height.
type Shape struct {
	Path    Path
	EvenOdd bool
	Colour  Colour
	Ground  bool // as light as paper: where the art is printed in one ink it shows the ground
}

// Cover is how much of each pixel one ink covers.
type Cover struct {
	*image.Alpha
	mu    sync.Mutex
	inked map[Colour]*Image
}

// mostInked bounds the colours that a coverage is kept in: a page takes it in one
// or two.
const mostInked = 3

// Bytes is what the coverage takes at most, with the colours that it is kept in.
func (c *Cover) Bytes() int64 { return int64(c.Rect.Dx()) * int64(c.Rect.Dy()) * (1 + 4*mostInked) }

// In is the coverage as a picture in a colour; the same one for the same colour,
// so that writers embed it once.
func (c *Cover) In(colour Colour) *Image {
	c.mu.Lock()
	defer c.mu.Unlock()
	if made, ok := c.inked[colour]; ok {
		return made
	}
	img := image.NewNRGBA(image.Rect(0, 0, c.Rect.Dx(), c.Rect.Dy()))
	for y := range c.Rect.Dy() {
		from, to := c.Pix[y*c.Stride:][:c.Rect.Dx()], img.Pix[y*img.Stride:]
		for x, a := range from {
			to[4*x], to[4*x+1], to[4*x+2], to[4*x+3] = colour.R, colour.G, colour.B, a
		}
	}
	made := &Image{NRGBA: img}
	if c.inked == nil {
		c.inked = map[Colour]*Image{}
	}
	if len(c.inked) == mostInked {
		clear(c.inked)
	}
	c.inked[colour] = made
	return made
}

// HeightAt is the art's height in millimetres when it is width wide.
func (a *Art) HeightAt(width float64) float64 { return width * a.Height / a.Width }

// Draw draws the art width millimetres wide with its middle at the origin. ink
// gives the colours of the palette; 0 is the ground.
func (a *Art) Draw(s *Surface, width float64, ink func(int) Colour) {
	height := a.HeightAt(width)
	unit := Matrix{A: width, D: height, E: -width / 2, F: -height / 2}
	switch {
	case a.Image != nil:
		s.Picture(a.Image, unit)
	case a.Cover != nil:
		s.Picture(a.Cover.In(ink(a.Ink)), unit)
	}
	space := unit.After(Matrix{A: 1 / a.Width, D: 1 / a.Height})
	for _, shape := range a.Shapes {
		colour := shape.Colour
		if a.Ink > 0 {
			colour = ink(a.Ink)
			if shape.Ground {
				colour = ink(0)
			}
		}
		s.fill(shape.Path.Transform(space), colour, shape.EvenOdd)
	}
}

// Key names what Draw draws, for a symbol.
func (a *Art) Key(width float64, ink func(int) Colour) string {
	if a.Ink == 0 {
		return fmt.Sprintf("art %g", width)
	}
	return fmt.Sprintf("art %g in %s on %s", width, ink(a.Ink).Hex(), ink(0).Hex())
}
