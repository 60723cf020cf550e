package png

import (
	"encoding/binary"
	"image"

	"github.com/golang/freetype/raster"

	"underflap/pattern/draw"
)

// ink paints covered runs of pixels on an opaque picture: fully covered ones,
// which are most, by copying, and soft ones by gg's formula.
type ink struct {
	img    *image.RGBA
	colour draw.Colour
	solid  []byte // a row of the colour
}

// Paint implements raster.Painter.
func (k *ink) Paint(spans []raster.Span, _ bool) {
	for _, s := range spans {
		x0, x1 := max(s.X0, 0), min(s.X1, k.img.Rect.Max.X)
		if x0 >= x1 || s.Y < 0 || s.Y >= k.img.Rect.Max.Y {
			continue
		}
		at := s.Y*k.img.Stride + 4*x0
		to := k.img.Pix[at : at+4*(x1-x0)]
		if s.Alpha == 0xffff {
			copy(to, k.solid)
		} else {
			k.soft(to, s.Alpha)
		}
	}
}

func (k *ink) soft(to []byte, alpha uint32) {
	const m = 0xffff
	r, g, b := uint32(k.colour.R)*0x101*alpha, uint32(k.colour.G)*0x101*alpha, uint32(k.colour.B)*0x101*alpha
	a := (m - alpha) * 0x101
	for ; len(to) >= 4; to = to[4:] {
		to[0] = uint8((uint32(to[0])*a + r) / m >> 8)
		to[1] = uint8((uint32(to[1])*a + g) / m >> 8)
		to[2] = uint8((uint32(to[2])*a + b) / m >> 8)
	}
}

// restorer puts back what lay under a clipped group: all of it where the clip
// does not cover, a part where its edge is soft. So the edge is softened once.
type restorer struct {
	img, kept *image.RGBA
	box       image.Rectangle // where the group drew
	x, y      int             // up to where this is done
}

// Paint implements raster.Painter.
func (p *restorer) Paint(spans []raster.Span, _ bool) {
	for _, s := range spans {
		x0, x1 := max(s.X0, p.box.Min.X), min(s.X1, p.box.Max.X)
		if x0 >= x1 || s.Y < p.y || s.Y >= p.box.Max.Y {
			continue
		}
		p.upTo(x0, s.Y)
		if s.Alpha != 0xffff {
			for i := p.img.PixOffset(x0, s.Y); i < p.img.PixOffset(x1, s.Y); i++ {
				under, over := uint32(p.kept.Pix[i]), uint32(p.img.Pix[i])
				p.img.Pix[i] = uint8((under*0x101*(0xffff-s.Alpha) + over*0x101*s.Alpha) / 0xffff >> 8)
			}
		}
		p.x = x1
	}
}

// upTo puts back everything before (x, y).
func (p *restorer) upTo(x, y int) {
	for ; p.y < y; p.y++ {
		p.row(p.box.Max.X)
		p.x = p.box.Min.X
	}
	if p.y < p.box.Max.Y {
		p.row(x)
	}
}

func (p *restorer) row(x int) {
	if p.x < x {
		from, to := p.img.PixOffset(p.x, p.y), p.img.PixOffset(x, p.y)
		copy(p.img.Pix[from:to], p.kept.Pix[from:to])
	}
}

// solids keeps a row of each of the latest colours, to copy from.
type solids map[draw.Colour][]byte

const mostSolids = 32

func (s solids) of(c draw.Colour, width int) []byte {
	row, ok := s[c]
	if !ok {
		if len(s) == mostSolids {
			clear(s)
		}
		row = make([]byte, 4*width)
		pixel := uint32(c.R) | uint32(c.G)<<8 | uint32(c.B)<<16 | 255<<24
		for i := 0; i < len(row); i += 4 {
			binary.LittleEndian.PutUint32(row[i:], pixel)
		}
		s[c] = row
	}
	return row
}
