package request

import (
	"bytes"
	"image"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underflap/palettes"
	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// Poppler prints the page of palettes; every colour of every palette must be on it,
// an ink at least as large as its chip, the ground as the strip around the chips.
func TestPageOfPalettesShowsEveryColour(t *testing.T) {
	shelf := paletteShelf(t, map[string]string{"many.toml": "ground = \"white\"\ninks = [\"#f00\", \"#e10\", \"#fa0\", \"#fd1\", \"#082\", \"#088\", \"#00f\", \"#008\", \"#808\", \"#dad\", \"#a22\", \"#000\"]\n"})
	for _, paper := range []string{"a4", "190x240"} {
		pages, remarks, err := Swatch(t.Context(), Words{Paper: paper, Shelf: shelf, Pattern: "dots"}, true) // of ink 1 alone
		if err != nil || len(pages) != 1 || len(remarks) != 0 {
			t.Fatal(paper, len(pages), remarks, err)
		}
		var pdf bytes.Buffer
		if err := (Output{Format: "pdf"}).Encode(t.Context(), &pdf, pages); err != nil {
			t.Fatal(err)
		}
		file := filepath.Join(t.TempDir(), "palettes.pdf")
		if err := os.WriteFile(file, pdf.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
		const dpi = 100
		img := decoded(t, referee.Run(t, "pdftoppm", "-r", "100", "-png", file))
		count := coloursOf(img)
		all, _ := shelf.allPalettes()
		for _, p := range all {
			for i := range len(p.Inks) + 1 {
				// the least chip is that of twelve inks on a card 24 mm wide: 0.8 mm in
				// radius, of which Poppler softens the edge
				least := math.Pi * math.Pow(0.5/25.4*dpi, 2)
				if got := count[p.Ink(i)]; float64(got) < least {
					t.Errorf("%s: %d pixels of %s, %s of %s", paper, got, p.Ink(i).Hex(), palettes.CalledInk(i), p.Name)
				}
			}
		}
	}
}

func coloursOf(img image.Image) map[draw.Colour]int {
	count := map[draw.Colour]int{}
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			r, g, b, _ := img.At(x, y).RGBA()
			count[draw.Colour{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)}]++
		}
	}
	return count
}

// Palettes of the person's own may have long names; none runs into the next.
func TestLongNamesOnAPageTouchNothing(t *testing.T) {
	own := map[string]string{}
	for _, letter := range "abcdef" {
		own[strings.Repeat(string(letter)+"m", 30)+".toml"] = twoTOML
	}
	shelf := paletteShelf(t, own)
	for name, all := range map[string]bool{"palettes": true, "one pattern": false} {
		pages, _, err := Swatch(t.Context(), Words{Pattern: "dots", Shelf: shelf}, all)
		if err != nil {
			t.Fatal(name, err)
		}
		var boxes []draw.Rect
		draw.Walk(pages[0].Nodes(), func(n draw.Node) {
			if text, ok := n.(*draw.Text); ok {
				boxes = append(boxes, text.Bounds())
			}
		})
		if len(boxes) < 30 {
			t.Errorf("%s: %d texts", name, len(boxes))
		}
		for i, a := range boxes {
			if a.MaxX > pages[0].Width-5 {
				t.Errorf("%s: %v leaves the page", name, a)
			}
			for _, b := range boxes[:i] {
				if a.MinX < b.MaxX && a.MaxX > b.MinX && math.Abs(a.MinY-b.MinY) < 0.5 { // in one row
					t.Errorf("%s: %v meets %v", name, a, b)
				}
			}
		}
	}
}

// Nothing of the page lies outside the printable area, whatever the paper.
func TestPageOfPalettesKeepsToThePrintableArea(t *testing.T) {
	for _, paper := range []string{"a4", "letter", "legal", "a3", "140x300", "400x150"} {
		pages, _, err := Swatch(t.Context(), Words{Paper: paper, PrinterMargin: "8"}, true)
		if err != nil {
			t.Errorf("%s: %v", paper, err)
			continue
		}
		for _, node := range pages[0].Nodes() {
			box := node.Bounds()
			if box.MinX < 8 || box.MinY < 8 || box.MaxX > pages[0].Width-8 || box.MaxY > pages[0].Height-8 {
				t.Errorf("%s: %+v outside", paper, box)
			}
		}
	}
	if _, _, err := Swatch(t.Context(), Words{Paper: "100x100"}, true); err == nil || !strings.Contains(err.Error(), "24 palettes would be under 24 mm wide or 14 mm high; accepted: a larger paper") {
		t.Error(err)
	}
}
