package draw

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
)

// greyQuality of a photo that is written anew in grey: no loss to be seen.
const greyQuality = 92

// Grey is the grey of the same relative luminance, and so of the same lightness,
// by IEC 61966-2-1 (sRGB).
func Grey(c Colour) Colour {
	y := 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
	if c.R == c.G && c.G == c.B {
		return c
	}
	return GreyOf(y)
}

// GreyOf is the grey of a relative luminance, 0 to 1.
func GreyOf(y float64) Colour {
	v := 12.92 * y
	if y > 0.0031308 {
		v = 1.055*math.Pow(y, 1/2.4) - 0.055
	}
	g := uint8(math.Round(255 * math.Max(0, math.Min(1, v))))
	return Colour{g, g, g}
}

func linear(v uint8) float64 {
	x := float64(v) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}

// Recoloured is the art with every colour of its own passed through f; what is
// printed in an ink of the palette stays as it is.
func (a *Art) Recoloured(f func(Colour) Colour) *Art {
	out := &Art{Width: a.Width, Height: a.Height, Cover: a.Cover, Shapes: a.Shapes, Ink: a.Ink}
	if a.Image != nil {
		out.Image = a.Image.recoloured(f)
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
func (img *Image) recoloured(f func(Colour) Colour) *Image {
	known := map[Colour]Colour{}
	out := image.NewNRGBA(image.Rect(0, 0, img.Rect.Dx(), img.Rect.Dy()))
	var last, as Colour
	for y := range img.Rect.Dy() {
		from, to := img.Pix[y*img.Stride:][:4*img.Rect.Dx()], out.Pix[y*out.Stride:]
		for i := 0; i < len(from); i += 4 {
			c := Colour{from[i], from[i+1], from[i+2]}
			if c != last || i == 0 {
				made, ok := known[c]
				if !ok {
					made = f(c)
					known[c] = made
				}
				last, as = c, made
			}
			to[i], to[i+1], to[i+2], to[i+3] = as.R, as.G, as.B, from[i+3]
		}
	}
	made := &Image{NRGBA: out}
	if img.JPEG != nil && made.Grey() {
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
