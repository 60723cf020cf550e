package derived

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"underflap/palettes"
	"underflap/pattern/draw"
	"underflap/pattern/words/filed"
)

// patch is a colour of a made picture and how much of it, in percent.
type patch struct {
	colour draw.Colour
	share  float64
}

func rgb(hex uint32) draw.Colour {
	return draw.Colour{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex)}
}

// table is a card on a cloth, with leaves and a berry of one percent.
var table = []patch{{rgb(0xf4ead6), 46}, {rgb(0x6b7f8c), 27}, {rgb(0x4c5a36), 14}, {rgb(0xd9a441), 12}, {rgb(0xc01f2e), 1}}

// paint makes a picture of patches, each a block or, for the small, a round spot,
// that are in the picture in about their shares.
func paint(w, h int, patches []patch) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	set := func(x, y int, c draw.Colour) { img.SetNRGBA(x, y, color.NRGBA{c.R, c.G, c.B, 255}) }
	from := 0.0
	for _, p := range patches {
		to := from + p.share/100*float64(w)
		for x := int(math.Round(from)); x < int(math.Round(to)); x++ {
			for y := range h {
				if p.share > 5 {
					set(x, y, p.colour)
				} else {
					set(x, y, patches[0].colour)
				}
			}
		}
		from = to
	}
	for i, p := range patches {
		if p.share > 5 {
			continue
		}
		r := math.Sqrt(p.share / 100 * float64(w*h) / math.Pi)
		cx, cy := float64(w)*0.22, float64(h)*(0.25+0.2*float64(i%3))
		for y := range h {
			for x := range w {
				if math.Hypot(float64(x)+0.5-cx, float64(y)+0.5-cy) < r {
					set(x, y, p.colour)
				}
			}
		}
	}
	return img
}

// grain adds a camera's noise.
func grain(img *image.NRGBA, sigma float64) *image.NRGBA {
	chance := rand.New(rand.NewPCG(1, 9))
	for i := range img.Pix {
		if i%4 != 3 {
			img.Pix[i] = uint8(min(max(math.Round(float64(img.Pix[i])+sigma*chance.NormFloat64()), 0), 255))
		}
	}
	return img
}

func store(t testing.TB, name string, data []byte) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(file, data, 0o666); err != nil {
		t.Fatal(err)
	}
	return file
}

func asPNG(t testing.TB, img image.Image) string {
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return store(t, "card.png", b.Bytes())
}

func asJPEG(t testing.TB, img image.Image, quality int) string {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
		t.Fatal(err)
	}
	return store(t, "card.jpg", b.Bytes())
}

func resolve(t testing.TB, word string) (palettes.Palette, []string) {
	t.Helper()
	p, remarks, err := Resolve(t.Context(), filed.Disk{}, "palette", word)
	if err != nil {
		t.Fatal(err)
	}
	return p, remarks
}

// found asks that a palette has each of the colours within so much, and no others.
func found(t *testing.T, p palettes.Palette, patches []patch, within float64) {
	t.Helper()
	all := append([]draw.Colour{p.Ground}, p.Inks...)
	if len(all) != len(patches) {
		t.Errorf("%d colours, want %d: %v", len(all), len(patches), all)
	}
	for _, want := range patches {
		least := 100.0
		for _, c := range all {
			least = min(least, palettes.Difference(c, want.colour))
		}
		if least > within {
			t.Errorf("%s, %.0f %% of the picture, is %.1f from the nearest of %v", want.colour.Hex(), want.share, least, all)
		}
	}
}

// The pictures' colours are known, since the test made them. A CIEDE2000 of 1 is
// about the least that is seen.
func TestColoursOfAPhotoAreFound(t *testing.T) {
	bright := []patch{{rgb(0xffffff), 40}, {rgb(0x1d3557), 24}, {rgb(0xe63946), 20}, {rgb(0x2a9d5c), 15}, {rgb(0xffd000), 1}}
	dark := []patch{{rgb(0x1c2333), 60}, {rgb(0x3d5a4c), 20}, {rgb(0xd8c7a0), 17}, {rgb(0xb5372f), 2}, {rgb(0x8fb8de), 1}}
	for name, patches := range map[string][]patch{"table": table, "bright": bright, "dark": dark} {
		for _, size := range []image.Point{{160, 120}, {640, 480}, {1500, 1100}} {
			for kind, c := range map[string]struct {
				file   string
				within float64
			}{
				"plain":      {asPNG(t, paint(size.X, size.Y, patches)), 0.6},
				"noise":      {asPNG(t, grain(paint(size.X, size.Y, patches), 8)), 3},
				"JPEG":       {asJPEG(t, paint(size.X, size.Y, patches), 85), 2.5},
				"noisy JPEG": {asJPEG(t, grain(paint(size.X, size.Y, patches), 6), 70), 4},
			} {
				t.Run(fmt.Sprint(name, size, kind), func(t *testing.T) {
					p, remarks := resolve(t, "photo:"+c.file)
					found(t, p, patches, c.within)
					if len(remarks) > 0 {
						t.Errorf("%q", remarks)
					}
					if palettes.Difference(p.Ground, patches[0].colour) > c.within {
						t.Errorf("ground %s, want %s, which covers most", p.Ground.Hex(), patches[0].colour.Hex())
					}
				})
			}
		}
	}
}

// Shares as in a design on a light card: what covers a little less than the most
// but is lighter is the ground.
func TestTheGroundIsTheLightestOfTheLarge(t *testing.T) {
	p, _ := resolve(t, "photo:"+asPNG(t, paint(400, 300, []patch{{rgb(0x405060), 48}, {rgb(0xf2e8d0), 30}, {rgb(0xa03030), 22}})))
	if palettes.Difference(p.Ground, rgb(0xf2e8d0)) > 1 {
		t.Errorf("ground %s", p.Ground.Hex())
	}
}

func TestColoursNearlyAlikeBecomeOne(t *testing.T) {
	near := []patch{{rgb(0xf2e8d0), 40}, {rgb(0xefe4ca), 20}, {rgb(0x405060), 15}, {rgb(0x455566), 10}, {rgb(0xa03030), 8}, {rgb(0x3f7f4f), 7}}
	p, _ := resolve(t, "photo:"+asPNG(t, paint(500, 300, near)))
	found(t, p, []patch{near[0], near[2], near[4], near[5]}, 2.5)
}

// A photo in many colours becomes a palette that keeps the project's differences.
func TestAMotleyPhotoMakesASoundPalette(t *testing.T) {
	for seed := range uint64(12) {
		chance := rand.New(rand.NewPCG(seed, 3))
		img := image.NewNRGBA(image.Rect(0, 0, 300, 200))
		cell := 5 + int(seed)*4
		colours := map[image.Point]color.NRGBA{}
		for y := range 200 {
			for x := range 300 {
				at := image.Pt(x/cell, y/cell)
				if _, ok := colours[at]; !ok {
					colours[at] = color.NRGBA{uint8(chance.IntN(256)), uint8(chance.IntN(256)), uint8(chance.IntN(256)), 255}
				}
				img.SetNRGBA(x, y, colours[at])
			}
		}
		p, _ := resolve(t, "photo:"+asPNG(t, grain(img, 5)))
		if n := len(p.Inks); n < 3 || n > 6 || len(p.AlikeToAll()) > 0 {
			t.Errorf("seed %d: %v, alike %v", seed, p.Inks, p.AlikeToAll())
		}
	}
}

func TestTransparentPixelsAreNoColour(t *testing.T) {
	img := paint(320, 240, table)
	for y := range 240 {
		for x := range 320 {
			if y < 100 {
				img.SetNRGBA(x, y, color.NRGBA{255, 0, 255, uint8(x % 100)}) // magenta that hardly shows
			}
		}
	}
	p, _ := resolve(t, "photo:"+asPNG(t, img))
	for _, c := range append(p.Inks, p.Ground) {
		if toneOf(c).C > 0.2 {
			t.Errorf("%s is of the transparent part", c.Hex())
		}
	}
}

func TestAPhotoInOneColourGivesTintsOfIt(t *testing.T) {
	p, remarks := resolve(t, "photo:"+asJPEG(t, paint(200, 200, []patch{{rgb(0x8c2f39), 100}}), 90))
	if len(remarks) != 1 || !strings.Contains(remarks[0], "card.jpg has one colour") {
		t.Errorf("%q", remarks)
	}
	if len(p.Inks) < 3 || palettes.Difference(p.Inks[0], rgb(0x8c2f39)) > 1 || len(p.AlikeToAll()) > 0 {
		t.Errorf("%+v", p)
	}
	p, remarks = resolve(t, "photo:"+asPNG(t, paint(200, 200, []patch{{rgb(0xf4ead6), 70}, {rgb(0x8c2f39), 30}})))
	if len(remarks) != 1 || !strings.Contains(remarks[0], "has 2 colours; the last 2 are tints") || len(p.Inks) != 3 || len(p.AlikeToAll()) > 0 {
		t.Errorf("%q %+v", remarks, p)
	}
}

// The same picture gives the same palette, bit for bit: sums are of integers. The
// values stand here so that another machine would be found out.
func TestAPhotoGivesTheSameEverywhere(t *testing.T) {
	file := asPNG(t, grain(paint(640, 480, table), 8))
	first, _ := resolve(t, "photo:"+file)
	for range 5 {
		again, _ := resolve(t, "photo:"+file)
		if again.Ground != first.Ground || !slices.Equal(again.Inks, first.Inks) {
			t.Fatalf("%v, then %v", first, again)
		}
	}
	var all []string
	for _, c := range append([]draw.Colour{first.Ground}, first.Inks...) {
		all = append(all, c.Hex())
	}
	if got, want := strings.Join(all, " "), "#f4ead6 #4c5a36 #6b7f8c #d9a441 #c0202f"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

func TestPicturesThatAreNone(t *testing.T) {
	clear := image.NewNRGBA(image.Rect(0, 0, 20, 20))
	whole, err := os.ReadFile(asPNG(t, grain(paint(200, 200, table), 8)))
	if err != nil {
		t.Fatal(err)
	}
	for what, c := range map[string]struct{ file, says string }{
		"missing":     {filepath.Join(t.TempDir(), "nowhere.jpg"), "no such file"},
		"folder":      {t.TempDir(), "not a file"},
		"empty":       {store(t, "empty.jpg", nil), "an empty file"},
		"text":        {store(t, "text.jpg", []byte("Tarn Lane Press\n")), "no PNG, JPEG, WebP or TIFF inside"},
		"drawing":     {store(t, "drawn.svg", []byte(`<svg xmlns="http://www.w3.org/2000/svg"/>`)), "a drawing, and no photo"},
		"torn":        {store(t, "torn.png", whole[:len(whole)/2]), "broken or cut short"},
		"transparent": {asPNG(t, clear), "transparent all over"},
	} {
		_, _, err := Resolve(t.Context(), filed.Disk{}, "palette", "photo:"+c.file)
		if err == nil || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), "; accepted: ") || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v; want one line with %q", what, err, c.says)
		}
	}
}
