package png_test

import (
	"bytes"
	"image"
	"runtime"
	"testing"
	"weak"

	"underflap/pattern/draw"
	"underflap/pattern/draw/png"
)

// pictured is a page with a picture laid small, turned and large.
func pictured(shade uint8) (*draw.Page, weak.Pointer[draw.Image]) {
	img := &draw.Image{NRGBA: image.NewNRGBA(image.Rect(0, 0, 300, 200))}
	for i := range img.Pix {
		img.Pix[i] = shade + uint8(i%7*i)
	}
	page := draw.NewPage(60, 60)
	page.Picture(img, draw.Matrix{A: 12, D: 8, E: 3.1, F: 2.7})
	page.Picture(img, draw.Matrix{A: 8, B: 9, C: -6, D: 5, E: 30.3, F: 12.2})
	page.Picture(img, draw.Matrix{A: 55, D: 36, E: 2.2, F: 22.9})
	return page, weak.Make(img)
}

// A picture that nobody else has goes, though tiles of it are kept; and a later
// one, which may come to lie where it lay, is not taken for it.
func TestTilesDoNotKeepTheirPictures(t *testing.T) {
	keeper := png.NewKeeper(64 << 20)
	for shade := range uint8(40) {
		page, img := pictured(shade)
		var bare, kept bytes.Buffer
		if err := png.Write(t.Context(), &bare, page, 150); err != nil {
			t.Fatal(err)
		}
		for range 2 { // made, then found
			kept.Reset()
			if err := png.WriteKeeping(t.Context(), &kept, page, 150, keeper); err != nil || !bytes.Equal(bare.Bytes(), kept.Bytes()) {
				t.Fatalf("another picture with a keeper; %v", err)
			}
		}
		runtime.KeepAlive(page)
		page = nil
		runtime.GC()
		if img.Value() != nil {
			t.Fatal("the picture is kept")
		}
	}
	if keeper.Weight() == 0 {
		t.Error("no tiles are kept")
	}
}

// Densities, turns and places of one picture are told apart.
func TestAKeeperTellsPlacesApart(t *testing.T) {
	keeper := png.NewKeeper(64 << 20)
	page, _ := pictured(3)
	picture := page.Nodes()[0].(*draw.Picture)
	for _, at := range []draw.Matrix{{A: 12, D: 8}, {A: 12, D: 8, E: 0.03, F: 0.02}, {A: 12, D: 8.02}, {A: -12, D: 8, E: 20}, {B: 12, C: -8, E: 20}, {A: 12, B: 0.01, D: 8}, {A: 50, D: 40}, {A: 50, D: 40, E: 0.01}} {
		for _, dpi := range []float64{72, 96.5, 150, 300} {
			one := draw.NewPage(60, 60)
			one.Picture(picture.Image, draw.Translate(4.2, 3.3).After(at))
			var bare, kept bytes.Buffer
			if err := png.Write(t.Context(), &bare, one, dpi); err != nil {
				t.Fatal(err)
			}
			for range 2 {
				kept.Reset()
				if err := png.WriteKeeping(t.Context(), &kept, one, dpi, keeper); err != nil || !bytes.Equal(bare.Bytes(), kept.Bytes()) {
					t.Errorf("%v at %g dots per inch: another picture with a keeper; %v", at, dpi, err)
				}
			}
		}
	}
}
