package scene

import (
	"image"
	"math"

	"golang.org/x/image/vector"

	"underflap/pattern/draw"
)

// soft is a shadow, or a light, that a shape throws on what lies under it.
type soft struct {
	blur     float64 // standard deviation of the Gauss curve its edge follows
	dx, dy   float64 // how far it lies from the shape
	strength float64 // of its middle: 1 hides what is under it
	colour   draw.Colour
	kept     *Shadows
}

// soft is a shadow that suits the envelope's size: a small picture of a small
// envelope is not all shadow.
func (sc Scene) soft(k soft) soft {
	k.kept = sc.Shadows
	size := sc.size()
	k.blur, k.dx, k.dy = k.blur*size, k.dx*size, k.dy*size
	return k
}

// size is what the envelope's size leaves of a shadow's.
func (sc Scene) size() float64 {
	e := sc.Liner.Envelope
	return min(1, max(e.Width, e.Height)/usualSize)
}

// usualSize is the longer side of the least envelope with full shadows.
const usualSize = 150.0

// dark is the colour of shadows: warm, as they are in a room.
var dark = draw.Colour{R: 34, G: 26, B: 20}

// A shadow's picture has about as many pixels as its softness needs. More keep
// steps out of sight where a viewer enlarges pictures without smoothing.
const (
	perBlur              = 3.2 // pixels to a standard deviation
	leastDense, mostDens = 1.6, 6.0
	reach                = 3.0 // standard deviations until nothing is left
	mostMaskPixels       = 1_500_000
)

// cast draws the shadow of shapes, which may overlap.
func (k soft) cast(s *draw.Surface, shapes ...shape) {
	k.castBy(s, varied{}, shapes...)
}

// castBy is cast with its strength changed from place to place.
func (k soft) castBy(s *draw.Surface, by varied, shapes ...shape) {
	if s.Stopped() {
		return
	}
	bounds := shapes[0].closed().Bounds()
	for _, one := range shapes[1:] {
		bounds = bounds.Union(one.closed().Bounds())
	}
	dense := mostDens
	if k.blur > 0 {
		dense = min(mostDens, max(leastDense, perBlur/k.blur))
	}
	bounds = bounds.Grow(reach*k.blur + 2/dense)
	if pixels := bounds.Width() * bounds.Height() * dense * dense; pixels > mostMaskPixels {
		dense *= math.Sqrt(mostMaskPixels / pixels)
	}
	width, height := int(math.Ceil(bounds.Width()*dense)), int(math.Ceil(bounds.Height()*dense))
	img := k.kept.of(shadowOf(k, by, shapes), func() *draw.Image { return k.image(by, shapes, bounds, dense, width, height) })
	s.Picture(img, draw.Matrix{A: float64(width) / dense, D: float64(height) / dense, E: bounds.MinX + k.dx, F: bounds.MinY + k.dy})
}

// image is the shadow as a picture of the bounds, dense pixels to the millimetre.
func (k soft) image(by varied, shapes []shape, bounds draw.Rect, dense float64, width, height int) *draw.Image {
	cover := coverage(shapes, draw.Translate(-bounds.MinX*dense, -bounds.MinY*dense).After(draw.Scale(dense)), width, height)
	gauss(cover, width, height, k.blur*dense)
	img := image.NewNRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			a := float64(cover[y*width+x]) * k.strength
			if by.at != nil {
				a *= by.at(draw.Point{X: bounds.MinX + (float64(x)+0.5)/dense, Y: bounds.MinY + (float64(y)+0.5)/dense})
			}
			i := img.PixOffset(x, y)
			img.Pix[i], img.Pix[i+1], img.Pix[i+2] = k.colour.R, k.colour.G, k.colour.B
			img.Pix[i+3] = uint8(math.Round(255 * min(1, max(0, a))))
		}
	}
	return &draw.Image{NRGBA: img}
}

// coverage is the share of each pixel that any of the shapes covers.
func coverage(shapes []shape, m draw.Matrix, width, height int) []float32 {
	out := make([]float32, width*height)
	mask := image.NewAlpha(image.Rect(0, 0, width, height))
	for _, one := range shapes {
		r := vector.NewRasterizer(width, height)
		for i, p := range one {
			q := m.Apply(p)
			if i == 0 {
				r.MoveTo(float32(q.X), float32(q.Y))
			} else {
				r.LineTo(float32(q.X), float32(q.Y))
			}
		}
		r.ClosePath()
		clear(mask.Pix)
		r.Draw(mask, mask.Rect, image.Opaque, image.Point{})
		for i, a := range mask.Pix {
			out[i] = max(out[i], float32(a)/255)
		}
	}
	return out
}

// gauss blurs a picture in place by a Gauss curve of a standard deviation in
// pixels; what lies outside it is 0.
func gauss(pixels []float32, width, height int, deviation float64) {
	if deviation < 0.1 {
		return
	}
	n := int(math.Ceil(reach * deviation))
	curve, sum := make([]float32, 2*n+1), float32(0)
	for i := range curve {
		d := float64(i-n) / deviation
		curve[i] = float32(math.Exp(-d * d / 2))
		sum += curve[i]
	}
	for i := range curve {
		curve[i] /= sum
	}
	line := make([]float32, max(width, height)+2*n)
	along := func(count, start, step int) {
		clear(line)
		for i := range count {
			line[n+i] = pixels[start+i*step]
		}
		alike := 0 // so many before this one are as it is
		for i := range count + 2*n {
			if i > 0 && line[i] == line[i-1] {
				alike++
			} else {
				alike = 0
			}
			at := i - 2*n // the first of those that the curve lies over
			if at < 0 || alike >= 2*n {
				continue // all it lies over are alike, which is most of a shadow
			}
			v := float32(0)
			for j, c := range curve {
				v += float32(c * line[at+j]) // rounded here, so that no machine fuses the two
			}
			pixels[start+at*step] = v
		}
	}
	for y := range height {
		along(width, y*width, 1)
	}
	for x := range width {
		along(height, x, width)
	}
}
