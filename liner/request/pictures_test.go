package request

import (
	"bytes"
	"image"
	_ "image/png"
	"os"
	"testing"
)

// The README's pictures are drawn by the tool; when the tool draws something
// else, make pictures draws them again. Compared by pixel, since another
// release of the compressor may write other bytes.
func TestREADMEPicturesShowWhatTheToolDraws(t *testing.T) {
	small := Words{Paper: "170x160", PrinterMargin: "4", PerSheet: "1"}
	scallops, stripes := small, small
	scallops.Pattern, scallops.Palette = "scallops", "barn-lantern"
	stripes.Pattern, stripes.Palette, stripes.Flap = "stripes", "rowan-jelly", "square"
	for name, c := range map[string]struct {
		words Words
		dpi   float64
	}{"sheet.png": {Words{}, 80}, "scallops.png": {scallops, 72}, "stripes.png": {stripes, 72}} {
		file, err := os.ReadFile("../../testdata/pictures/" + name)
		if err != nil {
			t.Fatal(err)
		}
		var drawn bytes.Buffer
		if err := (Output{Format: "png", DPI: c.dpi}).Encode(&drawn, makeOf(t, c.words).Pages); err != nil {
			t.Fatal(err)
		}
		kept, fresh := decoded(t, file), decoded(t, drawn.Bytes())
		if kept.Bounds() != fresh.Bounds() {
			t.Errorf("%s is %v, the tool draws %v", name, kept.Bounds(), fresh.Bounds())
			continue
		}
		differ := 0
		for y := range kept.Bounds().Dy() {
			for x := range kept.Bounds().Dx() {
				if kept.At(x, y) != fresh.At(x, y) {
					differ++
				}
			}
		}
		if differ > 0 {
			t.Errorf("%s: %d pixels differ; make pictures draws it again", name, differ)
		}
	}
}

func decoded(t *testing.T, file []byte) image.Image {
	t.Helper()
	img, _, err := image.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return img
}
