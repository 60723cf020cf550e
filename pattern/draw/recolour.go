package draw

import (
	"bytes"
	"context"
	"image"
	"image/jpeg"
	"math"
	"slices"
)

// greyQuality of a photo that is written anew in grey: no loss to be seen.
const greyQuality = 92

// Grey is the grey of the same relative luminance, and so of the same lightness,
// by IEC 61966-2-1 (sRGB).
func Grey(c Colour) Colour {
	if c.R == c.G && c.G == c.B {
		return c
	}
	return GreyOf(c.Luminance())
}

// Luminance is relative to white, 0 to 1 (IEC 61966-2-1, and so WCAG 2).
func (c Colour) Luminance() float64 {
	return 0.2126*linears[c.R] + 0.7152*linears[c.G] + 0.0722*linears[c.B]
}

// Linear is the light of red, green and blue, 0 to 1, without the curve of sRGB.
func (c Colour) Linear() (r, g, b float64) { return linears[c.R], linears[c.G], linears[c.B] }

// GreyOf is the grey of a relative luminance, 0 to 1.
func GreyOf(y float64) Colour {
	v, _ := slices.BinarySearch(halfway[:], y)
	return Colour{uint8(v), uint8(v), uint8(v)}
}

// linears are the luminances of the 256 greys, and halfway where one becomes the
// next: photos have many pixels.
var linears = func() (of [256]float64) {
	for v := range of {
		of[v] = linearOf(float64(v) / 255)
	}
	return of
}()

var halfway = func() (of [255]float64) {
	for v := range of {
		of[v] = linearOf((float64(v) + 0.5) / 255)
	}
	return of
}()

func linearOf(x float64) float64 {
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}

// Recoloured is the art with every colour of its own passed through f; what is
// printed in an ink of the palette stays as it is. When ctx ends it stops, and the
// art is of no use.
func (a *Art) Recoloured(ctx context.Context, f func(Colour) Colour) *Art {
	out := &Art{Width: a.Width, Height: a.Height, Cover: a.Cover, Shapes: a.Shapes, Ink: a.Ink}
	if a.Image != nil {
		out.Image = a.Image.recoloured(ctx, f)
	}
	if a.Ink == 0 && a.Cover == nil {
		out.Shapes = nil
		for _, s := range a.Shapes {
			s.Colour = f(s.Colour)
			out.Shapes = append(out.Shapes, s)
		}
	}
	return out
}

// recoloured passes every pixel through f. A photo that stays a photo in grey is
// kept as one.
func (img *Image) recoloured(ctx context.Context, f func(Colour) Colour) *Image {
	out := image.NewNRGBA(image.Rect(0, 0, img.Rect.Dx(), img.Rect.Dy()))
	for y := range img.Rect.Dy() {
		if ctx.Err() != nil {
			break
		}
		from, to := img.Pix[y*img.Stride:][:4*img.Rect.Dx()], out.Pix[y*out.Stride:]
		for i := 0; i < len(from); i += 4 {
			as := f(Colour{from[i], from[i+1], from[i+2]})
			to[i], to[i+1], to[i+2], to[i+3] = as.R, as.G, as.B, from[i+3]
		}
	}
	made := &Image{NRGBA: out}
	if img.JPEG != nil && ctx.Err() == nil && made.Grey() {
		var b bytes.Buffer
		if jpeg.Encode(&b, made.tones(), &jpeg.Options{Quality: greyQuality}) == nil {
			made.JPEG = b.Bytes()
		}
	}
	return made
}

// Grey tells whether every pixel is a grey.
func (img *Image) Grey() bool {
	for y := range img.Rect.Dy() {
		row := img.Pix[y*img.Stride:][:4*img.Rect.Dx()]
		for i := 0; i < len(row); i += 4 {
			if row[i] != row[i+1] || row[i] != row[i+2] {
				return false
			}
		}
	}
	return true
}

// tones is a grey picture in one channel, without its transparency.
func (img *Image) tones() *image.Gray {
	out := image.NewGray(image.Rect(0, 0, img.Rect.Dx(), img.Rect.Dy()))
	for y := range img.Rect.Dy() {
		from := img.Pix[y*img.Stride:]
		for x := range img.Rect.Dx() {
			out.Pix[y*out.Stride+x] = from[4*x]
		}
	}
	return out
}
