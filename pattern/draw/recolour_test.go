package draw_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"

	"underflap/pattern/draw"
)

// The grey of a luminance is the nearest of the 256 as sRGB spaces them, by
// go-colorful's transfer curve.
func TestTheGreyOfALuminanceIsTheNearest(t *testing.T) {
	for i := range 2001 {
		y := float64(i) / 2000
		if got, want := draw.GreyOf(y).R, 255*colorful.LinearRgb(y, y, y).R; math.Abs(float64(got)-want) > 0.501 {
			t.Errorf("luminance %g: %d, want %.2f", y, got, want)
		}
	}
}

// A grey picture with see-through places is a PNG of colour type 4 (PNG, third
// edition, 11.2.1) that the standard library reads back pixel by pixel.
func TestGreyPicturesAreWrittenInGrey(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 37, 19))
	for y := range 19 {
		for x := range 37 {
			v := uint8(7*x + 3*y)
			img.SetNRGBA(x, y, color.NRGBA{R: v, G: v, B: v, A: uint8(13*x + y)})
		}
	}
	kind, data := (&draw.Image{NRGBA: img}).File(t.Context())
	if kind != "png" || data[25] != 4 {
		t.Fatalf("%s of colour type %d; want 4, grey with alpha", kind, data[25])
	}
	back, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	for y := range 19 {
		for x := range 37 {
			if got, want := color.NRGBAModel.Convert(back.At(x, y)), img.NRGBAAt(x, y); got != want {
				t.Fatalf("%d, %d: %v; want %v", x, y, got, want)
			}
		}
	}
	for i := 3; i < len(img.Pix); i += 4 {
		img.Pix[i] = 255
	}
	if _, data = (&draw.Image{NRGBA: img}).File(t.Context()); data[25] != 0 {
		t.Errorf("solid: colour type %d; want 0, grey", data[25])
	}
	img.SetNRGBA(20, 10, color.NRGBA{R: 200, G: 10, B: 10, A: 255})
	if _, data = (&draw.Image{NRGBA: img}).File(t.Context()); data[25] != 2 {
		t.Errorf("with one red pixel: colour type %d; want 2, RGB", data[25])
	}
}

func TestAPhotoStaysAPhotoInGrey(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 64, 48))
	for y := range 48 {
		for x := range 64 {
			img.SetNRGBA(x, y, color.NRGBA{R: uint8(4 * x), G: uint8(5 * y), B: 90, A: 255})
		}
	}
	var file bytes.Buffer
	if err := jpeg.Encode(&file, img, nil); err != nil {
		t.Fatal(err)
	}
	art := (&draw.Art{Width: 64, Height: 48, Image: &draw.Image{NRGBA: img, JPEG: file.Bytes()}}).Recoloured(t.Context(), draw.Grey)
	kind, data := art.Image.File(t.Context())
	back, err := jpeg.Decode(bytes.NewReader(data))
	if kind != "jpeg" || err != nil {
		t.Fatal(kind, err)
	}
	grey, ok := back.(*image.Gray)
	if !ok {
		t.Fatalf("%T; want one channel", back)
	}
	for y := range 48 {
		for x := range 64 {
			want := int(draw.Grey(draw.Colour{R: uint8(4 * x), G: uint8(5 * y), B: 90}).R)
			if got := int(grey.GrayAt(x, y).Y); got-want > 6 || want-got > 6 {
				t.Fatalf("%d, %d: %d; want %d", x, y, got, want)
			}
		}
	}
}

func TestRecolouringLeavesInksToThePalette(t *testing.T) {
	path := draw.Rectangle(draw.Rect{MaxX: 1, MaxY: 1})
	red := draw.Colour{R: 200}
	own := &draw.Art{Width: 1, Height: 1, Shapes: []draw.Shape{{Path: path, Colour: red}}}
	inked := &draw.Art{Width: 1, Height: 1, Ink: 2, Shapes: []draw.Shape{{Path: path, Colour: red}}}
	if got := own.Recoloured(t.Context(), draw.Grey).Shapes[0].Colour; got != draw.Grey(red) || own.Shapes[0].Colour != red {
		t.Error(got, own.Shapes[0].Colour)
	}
	if got := inked.Recoloured(t.Context(), draw.Grey).Shapes[0].Colour; got != red {
		t.Error(got)
	}
}
