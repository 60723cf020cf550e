package png_test

import (
	"image"
	"io"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/png"
)

// A program that answers many must be able to catch a slip in drawing for one of
// them, which happens in a goroutine of ours.
func TestAPanicInABandIsTheCallers(t *testing.T) {
	broken := &draw.Image{NRGBA: &image.NRGBA{Pix: make([]byte, 40), Stride: 400, Rect: image.Rect(0, 0, 100, 100)}}
	page := draw.NewPage(200, 280)
	page.Picture(broken, draw.Matrix{A: 90, D: 90, E: 20, F: 120})
	defer func() {
		if recover() == nil {
			t.Error("a picture without its pixels is drawn")
		}
	}()
	_ = png.Write(t.Context(), io.Discard, page, 150)
}
