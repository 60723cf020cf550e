package derived

import (
	"image"

	"underflap/palettes"
	"underflap/pattern/draw"
)

// mostSamples bounds what a photo is reduced to.
const mostSamples = 100_000

// samples are a photo reduced to a grid; show is false where it is transparent.
type samples struct {
	width, height int
	colours       []draw.Colour
	show          []bool
	shown         int
}

// sample reduces a picture to squares of pixels of the mean colour of those that
// are opaque. All sums are of integers, so that they are the same on every
// machine.
func sample(img *image.NRGBA) samples {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	side := 1
	for ((w+side-1)/side)*((h+side-1)/side) > mostSamples {
		side++
	}
	s := samples{width: (w + side - 1) / side, height: (h + side - 1) / side}
	s.colours = make([]draw.Colour, s.width*s.height)
	s.show = make([]bool, s.width*s.height)
	for y := range s.height {
		for x := range s.width {
			var r, g, b, n, all int64
			for py := y * side; py < min(h, (y+1)*side); py++ {
				row := img.Pix[py*img.Stride:]
				for px := x * side; px < min(w, (x+1)*side); px++ {
					all++
					if p := row[4*px : 4*px+4]; p[3] >= 128 {
						r, g, b, n = r+int64(p[0]), g+int64(p[1]), b+int64(p[2]), n+1
					}
				}
			}
			if 2*n < all {
				continue
			}
			i := y*s.width + x
			s.colours[i], s.show[i] = mean(r, g, b, n), true
			s.shown++
		}
	}
	s.smooth()
	return s
}

// grainy is the sum of differences in red, green and blue up to which two
// neighbours may differ by a camera's noise alone.
const grainy = 72

// smooth takes the mean of each sample and those of its neighbours that differ no
// more than noise does, so that the edge between two colours stays sharp.
func (s *samples) smooth() {
	out := make([]draw.Colour, len(s.colours))
	for y := range s.height {
		for x := range s.width {
			at := s.colours[y*s.width+x]
			var r, g, b, n int64
			for ny := max(0, y-1); ny <= min(s.height-1, y+1); ny++ {
				for nx := max(0, x-1); nx <= min(s.width-1, x+1); nx++ {
					i := ny*s.width + nx
					if c := s.colours[i]; s.show[i] && apartBy(at.R, c.R)+apartBy(at.G, c.G)+apartBy(at.B, c.B) <= grainy {
						r, g, b, n = r+int64(c.R), g+int64(c.G), b+int64(c.B), n+1
					}
				}
			}
			if n > 0 {
				out[y*s.width+x] = mean(r, g, b, n)
			}
		}
	}
	s.colours = out
}

func apartBy(a, b uint8) int { return max(int(a)-int(b), int(b)-int(a)) }

// mean rounds sums of n colours to one.
func mean(r, g, b, n int64) draw.Colour {
	return draw.Colour{R: uint8((r + n/2) / n), G: uint8((g + n/2) / n), B: uint8((b + n/2) / n)}
}

// lab is CIE L*a*b* in hundredths. Clustering counts in whole numbers of 64 bits:
// sums of fractions would depend on how a machine rounds.
type lab [3]int64

func labOf(c draw.Colour) lab {
	p := palettes.ToLab(c)
	return lab{rounded(p.L), rounded(p.A), rounded(p.B)}
}

func rounded(v float64) int64 {
	if v < 0 {
		return -rounded(-v)
	}
	return int64(100*v + 0.5)
}

// square is the squared distance of two.
func (p lab) square(q lab) int64 {
	d := int64(0)
	for i := range p {
		d += (p[i] - q[i]) * (p[i] - q[i])
	}
	return d
}

// cell is where a colour stands among 32 768 cells of the cube of sRGB.
func cell(c draw.Colour) int { return int(c.R>>3)<<10 | int(c.G>>3)<<5 | int(c.B>>3) }

const cells = 1 << 15
