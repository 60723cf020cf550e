package stamp

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/HugoSmits86/nativewebp"
	"golang.org/x/image/tiff"

	"underflap/pattern/draw"
	"underflap/pattern/words/filed"
)

func kept(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// read reads art that should be read.
func read(t *testing.T, name string, data []byte, wish Wish) (*draw.Art, string) {
	t.Helper()
	art, remarks, err := Read(t.Context(), filed.Disk{}, "stamp", kept(t, name, data), wish)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return art, strings.Join(remarks, "\n")
}

// painted is a picture with what f says on it.
func painted(width, height int, f func(x, y int) color.NRGBA) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			img.SetNRGBA(x, y, f(x, y))
		}
	}
	return img
}

// leaf lies on no ground.
func leaf(width, height int) *image.NRGBA {
	return painted(width, height, func(x, _ int) color.NRGBA {
		if x > width/4 {
			return color.NRGBA{R: 40, G: 90, B: 60, A: 200}
		}
		return color.NRGBA{}
	})
}

// berries are on white paper: one black and one of another ink.
func berries(other color.NRGBA) *image.NRGBA {
	return painted(160, 120, func(x, y int) color.NRGBA {
		switch {
		case (x-50)*(x-50)+(y-60)*(y-60) < 30*30:
			return color.NRGBA{A: 255}
		case (x-110)*(x-110)+(y-60)*(y-60) < 20*20:
			return other
		}
		return color.NRGBA{R: 240, G: 240, B: 240, A: 255}
	})
}

var (
	black = color.NRGBA{A: 255}
	red   = color.NRGBA{R: 220, A: 255}
)

func asPNG(t *testing.T, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func asJPEG(t *testing.T, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestArtIsReadByItsContentWhateverItsName(t *testing.T) {
	art, _ := read(t, "leaf.jpg", asPNG(t, leaf(40, 30)), Wish{})
	if art.Image.Bounds() != image.Rect(0, 0, 40, 30) || art.Image.JPEG != nil || art.Image.NRGBAAt(30, 9).A != 200 || art.Image.NRGBAAt(3, 9).A != 0 {
		t.Error("a PNG is not what it was")
	}
	plain := asJPEG(t, berries(red))
	art, _ = read(t, "berries.png", plain, Wish{})
	if !bytes.Equal(art.Image.JPEG, plain) {
		t.Error("a plain JPEG is not kept to be embedded as it is")
	}
	// a photo's notes, such as the place it was taken, go no further (APP1, as Exif 2.3 has it)
	art, _ = read(t, "photo.jpg", noted(plain, "Exif\x00\x00 54.5 N 3.1 W"), Wish{})
	if !bytes.Equal(art.Image.JPEG, plain) {
		t.Errorf("JPEG with notes: %d bytes of %d", len(art.Image.JPEG), len(plain))
	}
	for name, encode := range map[string]func(b *bytes.Buffer) error{
		"leaf.webp": func(b *bytes.Buffer) error { return nativewebp.Encode(b, leaf(40, 30), nil) },
		"leaf.tiff": func(b *bytes.Buffer) error { return tiff.Encode(b, leaf(40, 30), nil) },
		"leaf.tif": func(b *bytes.Buffer) error {
			return tiff.Encode(b, leaf(40, 30), &tiff.Options{Compression: tiff.Deflate, Predictor: true})
		},
	} {
		var b bytes.Buffer
		if err := encode(&b); err != nil {
			t.Fatal(err)
		}
		art, _ := read(t, name, b.Bytes(), Wish{})
		if c := art.Image.NRGBAAt(30, 9); art.Width != 40 || art.Height != 30 || c.A != 200 || c.G < 89 || c.G > 91 || art.Image.NRGBAAt(3, 9).A != 0 {
			t.Errorf("%s: %g by %g, %v", name, art.Width, art.Height, c)
		}
		if _, _, err := Read(t.Context(), filed.Disk{}, "stamp", kept(t, name, b.Bytes()[:b.Len()/2]), Wish{}); err == nil || !strings.Contains(err.Error(), "broken or cut short") {
			t.Errorf("%s torn: %v", name, err)
		}
	}
}

// noted is a JPEG with notes after its first marker.
func noted(plain []byte, notes string) []byte {
	head := append([]byte{0xff, 0xd8, 0xff, 0xe1, byte((len(notes) + 2) >> 8), byte(len(notes) + 2)}, notes...)
	return append(head, plain[2:]...)
}

// TestPhotosStandTheWayUpTheyWereTaken: Exif 2.3, 4.6.4, tag 274: where row 0
// and column 0 of the stored picture are on the upright one.
func TestPhotosStandTheWayUpTheyWereTaken(t *testing.T) {
	// an upright picture with a red corner at the top left, a green one at the
	// top right, and wider than high
	upright := painted(64, 48, func(x, y int) color.NRGBA {
		switch {
		case x < 32 && y < 24:
			return color.NRGBA{R: 200, A: 255}
		case y < 24:
			return color.NRGBA{G: 200, A: 255}
		}
		return color.NRGBA{R: 120, G: 120, B: 120, A: 255}
	})
	for up, stored := range map[byte]func(x, y int) (int, int){ // the upright place of a stored one
		1: func(x, y int) (int, int) { return x, y },
		2: func(x, y int) (int, int) { return 63 - x, y },
		3: func(x, y int) (int, int) { return 63 - x, 47 - y },
		4: func(x, y int) (int, int) { return x, 47 - y },
		5: func(x, y int) (int, int) { return y, x },
		6: func(x, y int) (int, int) { return 63 - y, x },
		7: func(x, y int) (int, int) { return 63 - y, 47 - x },
		8: func(x, y int) (int, int) { return y, 47 - x },
	} {
		w, h := 64, 48
		if up >= 5 {
			w, h = 48, 64
		}
		img := painted(w, h, func(x, y int) color.NRGBA { ux, uy := stored(x, y); return upright.NRGBAAt(ux, uy) })
		notes := "Exif\x00\x00II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00" + string(up) + "\x00\x00\x00\x00\x00\x00\x00"
		art, _ := read(t, "photo.jpg", noted(asJPEG(t, img), notes), Wish{})
		if art.Width != 64 || art.Height != 48 {
			t.Errorf("orientation %d: %g by %g", up, art.Width, art.Height)
			continue
		}
		for at, want := range map[image.Point]color.NRGBA{{8, 8}: {R: 200}, {56, 8}: {G: 200}, {8, 40}: {R: 120, G: 120, B: 120}, {56, 40}: {R: 120, G: 120, B: 120}} {
			got := art.Image.NRGBAAt(at.X, at.Y)
			if max(got.R, want.R)-min(got.R, want.R) > 12 || max(got.G, want.G)-min(got.G, want.G) > 12 {
				t.Errorf("orientation %d: %v is %v, want %v", up, at, got, want)
			}
		}
	}
}

// TestWhatIsDoneToArt goes through the rule of the README.
func TestWhatIsDoneToArt(t *testing.T) {
	for name, tc := range map[string]struct {
		img  *image.NRGBA
		wish Wish
		want string // picture, ink N or paths N
		says string
		wide float64
	}{
		"one ink":                       {berries(black), Wish{}, "ink 1", "cleaned of its paper", 112},
		"one ink, another":              {berries(black), Wish{Colour: "3"}, "ink 3", "ink 3", 112},
		"one ink, kept":                 {berries(black), Wish{Colour: "keep"}, "picture", "own colours", 114},
		"one ink, traced":               {berries(black), Wish{Trace: true}, "paths 1", "traced to", 112},
		"two inks":                      {berries(red), Wish{}, "picture", "several colours", 160},
		"two inks, in one":              {berries(red), Wish{Colour: "INK"}, "ink 1", "cleaned", 112},
		"two inks, traced":              {berries(red), Wish{Trace: true, Colour: "2"}, "paths 2", "traced", 112},
		"two inks, kept":                {berries(red), Wish{Colour: "keep"}, "picture", "own colours", 114},
		"on no ground":                  {leaf(40, 30), Wish{}, "picture", "", 40},
		"on no ground, kept":            {leaf(40, 30), Wish{Colour: "keep"}, "picture", "", 40},
		"on no ground, in one ink":      {leaf(40, 30), Wish{Colour: "ink"}, "ink 1", "printed in ink 1", 29},
		"white on no ground, in an ink": {painted(40, 30, func(x, _ int) color.NRGBA { return color.NRGBA{255, 255, 255, uint8(255 * (x / 20))} }), Wish{Colour: "2"}, "ink 2", "printed in ink 2", 20},
		"no paper around it":            {painted(60, 60, func(x, y int) color.NRGBA { v := uint8(x*4 + y/30*15); return color.NRGBA{v, v, v, 255} }), Wish{}, "picture", "no plain paper", 60},
		"bare paper":                    {painted(60, 60, func(int, int) color.NRGBA { return color.NRGBA{230, 230, 230, 255} }), Wish{}, "picture", "no ink", 60},
	} {
		art, said := read(t, "berries.png", asPNG(t, tc.img), tc.wish)
		got := "picture"
		switch {
		case art.Cover != nil:
			got = "ink " + string(rune('0'+art.Ink))
		case art.Shapes != nil:
			got = "paths " + string(rune('0'+art.Ink))
		}
		if got != tc.want || !strings.Contains(said, tc.says) || (said == "") != (tc.says == "") || strings.Contains(said, "\n") {
			t.Errorf("%s: %s, said %q; want %s, %q", name, got, said, tc.want, tc.says)
		}
		if art.Width < tc.wide-3 || art.Width > tc.wide+3 {
			t.Errorf("%s: %g pixels wide, want %g", name, art.Width, tc.wide)
		}
	}
}

func TestWishesThatCannotBe(t *testing.T) {
	one, bare := asPNG(t, berries(black)), asPNG(t, painted(60, 60, func(int, int) color.NRGBA { return color.NRGBA{230, 230, 230, 255} }))
	for _, tc := range []struct {
		data []byte
		wish Wish
		want string
	}{
		{one, Wish{Colour: "0"}, "stamp-colour: \"0\"; accepted: ink, keep, or the number of an ink, 1 to 12"},
		{one, Wish{Colour: "13"}, "stamp-colour"},
		{one, Wish{Colour: "red"}, "stamp-colour"},
		{one, Wish{Colour: "keep", Trace: true}, "stamp-trace"},
		{bare, Wish{Colour: "ink"}, "no ink to be told from its paper"},
		{bare, Wish{Trace: true}, "no ink to be told from its paper"},
		{bare, Wish{Trace: true}, "; accepted: dark ink on plain light paper, or without --stamp-trace"},
		{asPNG(t, image.NewNRGBA(image.Rect(0, 0, 9, 9))), Wish{}, "nothing on its transparent ground; accepted: a PNG"},
		{asPNG(t, image.NewNRGBA(image.Rect(0, 0, 9, 9))), Wish{Colour: "2"}, "nothing on its transparent ground; accepted: a PNG"},
		{[]byte("GIF89a"), Wish{}, "no PNG, JPEG, WebP, TIFF or SVG inside; accepted: a PNG, JPEG, WebP, TIFF or SVG file of up to 40 megapixels"},
		{[]byte("<svg xmlns='http://www.w3.org/2000/svg'><text>Tarn Lane</text></svg>"), Wish{}, "it holds text (<text>), which cannot be drawn"},
		{[]byte("<html><svg xmlns='http://www.w3.org/2000/svg'/></html>"), Wish{}, "no SVG inside"},
	} {
		_, _, err := Read(t.Context(), filed.Disk{}, "stamp", kept(t, "art", tc.data), tc.wish)
		if err == nil || !strings.Contains(err.Error(), tc.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%+v: %v, want %q", tc.wish, err, tc.want)
		}
	}
}

func TestDrawingsStayShapes(t *testing.T) {
	drawing := []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 40"><rect x="10" y="10" width="40" height="20" fill="#963"/><circle cx="30" cy="20" r="5" fill="white"/></svg>`)
	art, said := read(t, "drawing", drawing, Wish{})
	if len(art.Shapes) != 2 || art.Ink != 0 || art.Width != 40 || art.Height != 20 || said != "" {
		t.Errorf("%d shapes, ink %d, %g by %g, %q", len(art.Shapes), art.Ink, art.Width, art.Height, said)
	}
	art, said = read(t, "drawing", drawing, Wish{Colour: "2", Trace: true})
	if art.Ink != 2 || art.Shapes[0].Ground || !art.Shapes[1].Ground || !strings.Contains(said, "already") {
		t.Errorf("ink %d, %+v, %q", art.Ink, art.Shapes, said)
	}
	white := bytes.Replace(drawing, []byte("#963"), []byte("#fff"), 1)
	if art, _ = read(t, "drawing", white, Wish{Colour: "1"}); art.Shapes[0].Ground {
		t.Error("a drawing in white alone would print in the ground")
	}
}

func TestFitKeepsWhatPrintingNeedsAndSaysWhenItIsTooLittle(t *testing.T) {
	art, _ := read(t, "leaf.png", asPNG(t, leaf(1500, 750)), Wish{})
	// 12.7 mm at 1200 to the inch
	small, said := Fit(t.Context(), art, 12.7)
	if small.Image.Bounds() != image.Rect(0, 0, 600, 300) || said != "" {
		t.Errorf("half an inch of art has %v, %q", small.Image.Bounds(), said)
	} else if got := small.Image.NRGBAAt(450, 150); got.A < 199 || got.A > 201 || got.G < 89 || got.G > 91 {
		t.Errorf("its colour became %v", got)
	}
	if same, said := Fit(t.Context(), art, 100); same != art || said != "" {
		t.Errorf("art that has fewer pixels than that was touched, or %q", said)
	}
	inked, _ := read(t, "leaf.png", asPNG(t, leaf(1500, 750)), Wish{Colour: "2"})
	if small, _ := Fit(t.Context(), inked, 12.7); small.Cover.Rect != image.Rect(0, 0, 600, 400) || small.Ink != 2 || small.Cover.AlphaAt(300, 200).A != 200 {
		t.Errorf("half an inch of ink has %v", small.Cover.Rect)
	}
	for width, want := range map[float64]string{254.1: "150 pixels", 300: "127 pixels to the inch at 300 mm wide, and looks coarse below 150; it is fine up to 254 mm"} {
		if _, said := Fit(t.Context(), art, width); !strings.Contains(said, want) || strings.Contains(said, "trace") {
			t.Errorf("at %g mm: %q, want %q", width, said, want)
		}
	}
	if _, said := Fit(t.Context(), art, 254); said != "" {
		t.Errorf("at 150 to the inch: %q", said)
	}
	if _, said := Fit(t.Context(), inked, 300); !strings.Contains(said, "--stamp-trace") {
		t.Errorf("one ink: %q", said)
	}
}
