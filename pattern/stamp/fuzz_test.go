package stamp

import (
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"
	"unicode"

	"github.com/HugoSmits86/nativewebp"
	"golang.org/x/image/tiff"

	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// pictures are the same small leaf as each kind of file has it, and files cut
// short or with headers that promise far too much.
func pictures(f *testing.F) (all [][]byte) {
	var asPNG, asJPEG, asTIFF, asWebP bytes.Buffer
	img := leaf(9, 7)
	for _, err := range []error{png.Encode(&asPNG, img), jpeg.Encode(&asJPEG, img, nil), tiff.Encode(&asTIFF, img, nil), nativewebp.Encode(&asWebP, img, nil)} {
		if err != nil {
			f.Fatal(err)
		}
	}
	for _, b := range []*bytes.Buffer{&asPNG, &asJPEG, &asTIFF, &asWebP} {
		all = append(all, b.Bytes(), b.Bytes()[:b.Len()/2], b.Bytes()[:14])
	}
	huge := bytes.Clone(asPNG.Bytes())
	copy(huge[16:], "\x00\x00\xea\x60\x00\x00\xea\x60") // 60000 by 60000
	return append(all, huge, []byte("\x89PNG"), []byte("\xff\xd8\xff\xe1\xff\xffExif\x00\x00MM\x00*"), []byte("II*\x00\xff\xff\xff\xff"), []byte("RIFF\xff\xff\xff\xffWEBPVP8X"), nil,
		[]byte(`<svg xmlns="http://www.w3.org/2000/svg"><rect width="9" height="1e308"/></svg>`))
}

func refusedWell(t *testing.T, err error) {
	t.Helper()
	var r *words.Refused
	if !errors.As(err, &r) || r.Field != "stamp" || len([]rune(err.Error())) > 500 || strings.ContainsFunc(err.Error(), func(r rune) bool { return !unicode.IsPrint(r) }) {
		t.Fatalf("%q", err)
	}
}

// Headers are read for what they promise, and what promises too much is refused.
func FuzzInspect(f *testing.F) {
	for _, data := range pictures(f) {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		facts, err := Inspect("stamp", "art", data, MostPixels)
		if err != nil {
			refusedWell(t, err)
			return
		}
		if !(facts.Width > 0 && facts.Height > 0) || !facts.Drawing && (facts.Width > MostSide || facts.Height > MostSide || facts.Width*facts.Height > MostPixels) {
			t.Fatalf("%+v", facts)
		}
		if up := orientation(data, 0); up < 1 || up > 8 {
			t.Fatalf("orientation %d", up)
		}
	})
}

// What a small picture's file holds is decoded to the size that its header says,
// or refused: decoders of other people's are behind this, and none may panic.
func FuzzDecode(f *testing.F) {
	for _, data := range pictures(f) {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		kind, ok := formatOf(data)
		if !ok {
			return
		}
		head, err := kind.size(bytes.NewReader(data))
		if err != nil || head.Width > 300 || head.Height > 300 {
			return
		}
		img, err := Picture(t.Context(), filed.Held{"art": data}, "stamp", "art")
		if err != nil {
			refusedWell(t, err)
			return
		}
		size := image.Pt(head.Width, head.Height)
		if got := img.Rect.Size(); got != size && got != image.Pt(size.Y, size.X) {
			t.Fatalf("%v, and the header says %v", got, size)
		}
		if _, _, err := Read(t.Context(), filed.Held{"art": data}, "stamp", "art", Wish{Trace: true}); err != nil {
			refusedWell(t, err)
		}
	})
}
