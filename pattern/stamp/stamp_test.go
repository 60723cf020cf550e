package stamp

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"testing"
)

func kept(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func leaf(width, height int) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			if x > width/4 {
				img.SetNRGBA(x, y, color.NRGBA{R: 40, G: 90, B: 60, A: 200})
			}
		}
	}
	return img
}

func TestArtIsReadByItsContentWhateverItsName(t *testing.T) {
	var asPNG, asJPEG bytes.Buffer
	if err := png.Encode(&asPNG, leaf(40, 30)); err != nil {
		t.Fatal(err)
	}
	if err := jpeg.Encode(&asJPEG, leaf(40, 30), nil); err != nil {
		t.Fatal(err)
	}
	art, err := Read("stamp", kept(t, "leaf.jpg", asPNG.Bytes()))
	if err != nil || art.Bounds() != image.Rect(0, 0, 40, 30) || art.JPEG != nil || art.NRGBAAt(30, 9).A != 200 || art.NRGBAAt(3, 9).A != 0 {
		t.Errorf("PNG: %v", err)
	}
	art, err = Read("stamp", kept(t, "leaf.png", asJPEG.Bytes()))
	if err != nil || !bytes.Equal(art.JPEG, asJPEG.Bytes()) {
		t.Errorf("JPEG: %v; a plain JPEG is kept to be embedded as it is", err)
	}
	// a photo's notes, such as the place it was taken, go no further (APP1, as Exif 2.3 has it)
	place := "Exif\x00\x00 54.5 N 3.1 W"
	noted := append([]byte{0xff, 0xd8, 0xff, 0xe1, 0, byte(len(place) + 2)}, place...)
	noted = append(noted, asJPEG.Bytes()[2:]...)
	art, err = Read("stamp", kept(t, "photo.jpg", noted))
	if err != nil || !bytes.Equal(art.JPEG, asJPEG.Bytes()) {
		t.Errorf("JPEG with notes: %v, %d bytes of %d", err, len(art.JPEG), asJPEG.Len())
	}
}

func TestReduceKeepsWhatPrintingNeedsAndNoMore(t *testing.T) {
	art, err := Read("stamp", kept(t, "leaf.png", encoded(t, leaf(3000, 1500))))
	if err != nil {
		t.Fatal(err)
	}
	// 25.4 mm at 1200 to the inch
	if small := Reduce(art, 25.4); small.Bounds() != image.Rect(0, 0, 1200, 600) {
		t.Errorf("an inch of art has %v", small.Bounds())
	} else if got := small.NRGBAAt(900, 300); got.A < 199 || got.A > 201 || got.G < 89 || got.G > 91 {
		t.Errorf("its colour became %v", got)
	}
	if same := Reduce(art, 200); same != art {
		t.Error("art that has fewer pixels than that was touched")
	}
}

func encoded(t *testing.T, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
