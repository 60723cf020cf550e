package png

import (
	"bytes"
	"image"
	"image/color"
	stdpng "image/png"
	"math"
	"testing"

	"github.com/fogleman/gg"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// A page drawn band by band and in indexed colour is what gg draws in one
// piece, within the softness of an edge.
func TestBandsAndRampsEqualPlainDrawing(t *testing.T) {
	const dpi, side = 150.0, 120.0
	page := draw.NewPage(side, side)
	rust, plum, straw := draw.Colour{R: 180, G: 71, B: 46}, draw.Colour{R: 91, G: 43, B: 69}, draw.Colour{R: 246, G: 236, B: 217}
	disc := draw.Circle(60, 60, 50)
	page.Layer(draw.Artwork, func(s *draw.Surface) {
		s.Clipped(disc, func(s *draw.Surface) {
			s.Fill(draw.Rectangle(draw.Rect{MaxX: side, MaxY: side}), straw)
			motif := s.Symbol("motif", func(s *draw.Surface) { s.Fill(draw.Circle(0, 0, 3), rust) })
			for x := 3.3; x < side; x += 8 {
				s.Place(motif, draw.Translate(x, x/2+20), draw.Translate(side-x, x), draw.Translate(x, side-x))
			}
		})
		s.Stroke(disc, plum, 0.7)
	})
	var file bytes.Buffer
	if err := Write(t.Context(), &file, page, dpi); err != nil {
		t.Fatal(err)
	}
	got, err := stdpng.Decode(&file)
	if err != nil {
		t.Fatal(err)
	}
	if _, flat := got.(*image.Paletted); !flat {
		t.Errorf("a flat page came out as %T", got)
	}

	const k = dpi / words.MillimetresPerInch
	width, height := Size(page, dpi)
	plain := gg.NewContext(width, height)
	plain.SetColor(color.White)
	plain.Clear()
	plain.DrawCircle(60*k, 60*k, 50*k)
	plain.Clip()
	set := func(c draw.Colour) { plain.SetColor(color.RGBA{c.R, c.G, c.B, 255}) }
	set(straw)
	plain.DrawRectangle(0, 0, float64(width), float64(height))
	plain.Fill()
	set(rust)
	for x := 3.3; x < side; x += 8 {
		for _, p := range []draw.Point{{X: x, Y: x/2 + 20}, {X: side - x, Y: x}, {X: x, Y: side - x}} {
			plain.DrawCircle(p.X*k, p.Y*k, 3*k)
			plain.Fill()
		}
	}
	plain.ResetClip()
	set(plum)
	plain.SetLineWidth(0.7 * k)
	plain.DrawCircle(60*k, 60*k, 50*k)
	plain.Stroke()

	far, sum := 0, 0.0
	for y := range height {
		for x := range width {
			a := color.RGBAModel.Convert(got.At(x, y)).(color.RGBA)
			b := color.RGBAModel.Convert(plain.Image().At(x, y)).(color.RGBA)
			d := max(math.Abs(float64(a.R)-float64(b.R)), math.Abs(float64(a.G)-float64(b.G)), math.Abs(float64(a.B)-float64(b.B)))
			sum += d
			if d > 40 {
				far++
			}
		}
	}
	pixels := float64(width * height)
	if far > 0 || sum/pixels > 0.1 {
		t.Errorf("%d pixels are far off, %.3f of 255 on average", far, sum/pixels)
	}
}

// A page with more inks than ramps allow, or with a picture, is written in true
// colour and loses nothing.
func TestManyInksAreWrittenInTrueColour(t *testing.T) {
	page := draw.NewPage(60, 20)
	page.Layer(draw.Artwork, func(s *draw.Surface) {
		for i := range 20 {
			x := float64(i) * 3
			s.Fill(draw.Rectangle(draw.Rect{MinX: x, MaxX: x + 3, MaxY: 20}), draw.Colour{R: uint8(12 * i), G: 99, B: uint8(255 - 12*i)})
		}
	})
	var file bytes.Buffer
	if err := Write(t.Context(), &file, page, 254); err != nil {
		t.Fatal(err)
	}
	img, err := stdpng.Decode(&file)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 20 {
		got := color.RGBAModel.Convert(img.At(30*i+15, 100)).(color.RGBA)
		if want := (color.RGBA{uint8(12 * i), 99, uint8(255 - 12*i), 255}); got != want {
			t.Errorf("stripe %d is %v, want %v", i, got, want)
		}
	}
}
