// Package png writes a page as a PNG file at a stated density, drawn with gg in
// horizontal bands so that memory does not grow with the page. Flat designs are
// written in indexed colour, pages with pictures in true colour.
package png

import (
	"fmt"
	"image"
	"image/color"
	stdpng "image/png"
	"io"
	"math"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Size is the page in pixels at a density, to the nearest pixel.
func Size(page *draw.Page, dpi float64) (width, height int) {
	return int(math.Round(page.Width / words.MillimetresPerInch * dpi)), int(math.Round(page.Height / words.MillimetresPerInch * dpi))
}

// Write writes one page to w with dpi pixels to the inch, recorded in pHYs.
func Write(w io.Writer, page *draw.Page, dpi float64) error {
	width, height := Size(page, dpi)
	if width < 1 || height < 1 {
		return fmt.Errorf("png: a page of %d by %d pixels", width, height)
	}
	s := &strip{
		page:  page,
		scale: dpi / words.MillimetresPerInch,
		size:  image.Rect(0, 0, width, height),
	}
	s.rows = min(rowsOf(width), height)
	s.layers = newLayers(width, s.rows)
	var img image.Image = trueStrip{s}
	if inks, ok := newIndex(page); ok {
		s.index = inks
		img = flatStrip{s}
	}
	encoder := stdpng.Encoder{CompressionLevel: stdpng.BestSpeed}
	if err := encoder.Encode(&withDensity{w: w, dpi: dpi}, img); err != nil {
		return fmt.Errorf("png: %w", err)
	}
	return nil
}

// bandBytes is the memory of one canvas. A page takes one, and one or two more
// for each depth of clipping, whatever its size and density.
const bandBytes = 8 << 20

// rowsOf is the height of a band on a page so many pixels wide.
func rowsOf(width int) int { return max(16, bandBytes/(4*width)) }

// strip is the page as the encoder reads it, row after row from the top: it
// draws each band when its first row is asked for.
type strip struct {
	page   *draw.Page
	scale  float64 // pixels to the millimetre
	size   image.Rectangle
	layers *layers
	index  *index
	rows   int // of a band
	start  int // rows [start, end) are drawn
	end    int
	band   *image.RGBA
}

func (s *strip) row(y int) int {
	if y < s.start || y >= s.end {
		s.start = y - y%s.rows
		s.end = min(s.start+s.rows, s.size.Max.Y)
		s.band = s.layers.paint(s.page, s.scale, s.start)
	}
	return (y - s.start + guard) * s.band.Stride
}

// trueStrip is the strip in true colour.
type trueStrip struct{ *strip }

func (s trueStrip) ColorModel() color.Model { return color.RGBAModel }
func (s trueStrip) Bounds() image.Rectangle { return s.size }
func (s trueStrip) Opaque() bool            { return true }
func (s trueStrip) At(x, y int) color.Color {
	at := s.row(y) + 4*x
	p := s.band.Pix[at : at+4 : at+4]
	return color.RGBA{p[0], p[1], p[2], 255}
}

// flatStrip is the strip in indexed colour.
type flatStrip struct{ *strip }

func (s flatStrip) ColorModel() color.Model { return s.index.palette }
func (s flatStrip) Bounds() image.Rectangle { return s.size }
func (s flatStrip) At(x, y int) color.Color { return s.index.palette[s.ColorIndexAt(x, y)] }
func (s flatStrip) ColorIndexAt(x, y int) uint8 {
	at := s.row(y) + 4*x
	p := s.band.Pix[at : at+3 : at+3]
	return s.index.of(draw.Colour{R: p[0], G: p[1], B: p[2]})
}
