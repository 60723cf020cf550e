package derived

import (
	"errors"
	"image"
	"image/color"
	"strings"
	"testing"
	"unicode"

	"underflap/palettes"
	"underflap/pattern/words"
)

// The colour of a paper is known by name in any spelling, or refused.
func FuzzPaperColour(f *testing.F) {
	for _, seed := range append(Papers(), "Night Blue", " KRAFT ", "#c9a77c", "tan", "", "night  blue", "\x00", "\xff\xfe", "kraft\n", "kraft,tan") {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, given string) {
		c, err := PaperColour("paper-colour", given)
		if err != nil {
			var r *words.Refused
			if !errors.As(err, &r) || r.Field != "paper-colour" || len([]rune(err.Error())) > 700 || strings.ContainsFunc(err.Error(), func(r rune) bool { return !unicode.IsPrint(r) }) {
				t.Fatalf("%q: %q", given, err)
			}
			return
		}
		if again, err := PaperColour("paper-colour", c.Hex()); err != nil || again != c {
			t.Fatalf("%q: %s, then %s, %v", given, c.Hex(), again.Hex(), err)
		}
		if _, ok := Envelope("envelope:" + given); !ok {
			t.Fatalf("%q is no envelope's colour", given)
		}
	})
}

// held is a photo of whatever pixels a fuzzer thinks of.
func held(width int, pixels []byte) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, width, len(pixels)/4/width))
	for i := range img.Rect.Dx() * img.Rect.Dy() {
		img.SetNRGBA(i%width, i/width, color.NRGBA{R: pixels[4*i], G: pixels[4*i+1], B: pixels[4*i+2], A: pixels[4*i+3]})
	}
	return img
}

// Of any picture the colours chosen are few, and no two are the same.
func FuzzPhotoColours(f *testing.F) {
	f.Add(uint8(2), []byte("\xff\x00\x00\xff\x00\xff\x00\xff\x00\x00\xff\xff\xff\xff\xff\xff"))
	f.Add(uint8(1), []byte("\x00\x00\x00\x00"))
	f.Add(uint8(3), []byte(strings.Repeat("\x10\x80\xf0\x7f\x20\x90\xe0\xff", 60)))
	f.Fuzz(func(t *testing.T, width uint8, pixels []byte) {
		w := int(width%40) + 1
		if len(pixels)/4 < w || len(pixels) > 1<<14 {
			t.Skip()
		}
		s := sample(held(w, pixels))
		if s.shown == 0 {
			return
		}
		list := chosen(clusters(s), int64(s.shown))
		if len(list) < 1 || len(list) > mostOfPhoto {
			t.Fatalf("%d colours", len(list))
		}
		for i, c := range list {
			for _, d := range list[:i] {
				if palettes.Difference(c.colour, d.colour) == 0 {
					t.Fatalf("%s is there twice", c.colour.Hex())
				}
			}
		}
	})
}
