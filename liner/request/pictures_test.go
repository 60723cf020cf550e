package request

import (
	"bytes"
	"image"
	_ "image/png"
	"os"
	"testing"

	"underflap/liner"
	"underflap/pattern/draw"
)

// The README's pictures are drawn by the tool; when the tool draws something
// else, make pictures draws them again. Compared by pixel, since another
// release of the compressor may write other bytes.
func TestREADMEPicturesShowWhatTheToolDraws(t *testing.T) {
	small := Words{Paper: "170x160", PrinterMargin: "4", PerSheet: "1"}
	scallops, stripes, kraft, neighbours := small, small, small, small
	scallops.Pattern, scallops.Palette = "scallops", "barn-lantern"
	stripes.Pattern, stripes.Palette, stripes.Flap = "stripes", "rowan-jelly", "square"
	kraft.Pattern, kraft.Palette, kraft.Set = "leaves", "envelope:kraft", []string{"inks=1,2,3,5"}
	neighbours.Pattern, neighbours.Palette, neighbours.Set, neighbours.Flap = "confetti", "neighbours:#f0b54c", kraft.Set, "square"
	for name, c := range map[string]struct {
		pages []*draw.Page
		dpi   float64
	}{
		"sheet.png": {makeOf(t, Words{}).Pages, 80}, "scallops.png": {makeOf(t, scallops).Pages, 72}, "stripes.png": {makeOf(t, stripes).Pages, 72},
		"kraft.png": {makeOf(t, kraft).Pages, 72}, "neighbours.png": {makeOf(t, neighbours).Pages, 72},
		"nested.png":   {makeOf(t, Words{Envelope: "c7", PerSheet: "most", Pattern: "scallops", Palette: "hop-garden"}).Pages, 80},
		"patterns.png": {swatched(t, false), 110}, "palettes.png": {swatched(t, true), 110},
		"look.png":    {sees(t, Look{Words: Words{Pattern: "leaves", Palette: "rowan-jelly"}, EnvelopeColour: "#d8b98a"}).Pages(), 90},
		"saver.png":   {makeOf(t, Words{Pattern: "leaves", Palette: "hop-garden", InkSaver: "25"}).Pages, 72},
		"tan.png":     {sees(t, Look{Words: Words{Pattern: "leaves", Palette: "hop-garden", PaperColour: "tan"}, EnvelopeColour: "#8a5a3c"}).Pages(), 72},
		"compare.png": {sees(t, Look{Patterns: "petals,plaid", Palettes: five, EnvelopeColour: "white", Table: "#5b6b5f"}).Pages(), 72},
		"machine.png": {makeOf(t, Words{Registration: "all", Pattern: "petals", Palette: "hop-garden"}).Pages, 72},
		"measure.png": {explained(t), 110}, "fold.png": {folded(t), 80},
		"steps.png": {Steps(usualLiner(t)), 115}, "troubles.png": {Troubles(usualLiner(t)), 115}, "ruler.png": {ruled(t), 72},
		"flap-pointed.png": {flapped(t, "pointed"), 72}, "flap-square.png": {flapped(t, "square"), 72},
		"flap-rounded.png": {flapped(t, "rounded"), 72}, "flap-contour.png": {flapped(t, "contour"), 72},
	} {
		file, err := os.ReadFile("../../testdata/pictures/" + name)
		if err != nil {
			t.Fatal(err)
		}
		var drawn bytes.Buffer
		if err := (Output{Format: "png", DPI: c.dpi}).Encode(t.Context(), &drawn, c.pages); err != nil {
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

func swatched(t *testing.T, palettes bool) []*draw.Page {
	t.Helper()
	pages, _, err := Swatch(t.Context(), Words{Paper: "190x240"}, palettes)
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

func explained(t *testing.T) []*draw.Page {
	t.Helper()
	return Explain(usualLiner(t), true)
}

func usualLiner(t *testing.T) liner.Liner {
	t.Helper()
	_, l, err := ResolveLiner(Words{})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func flapped(t *testing.T, shape string) []*draw.Page {
	t.Helper()
	w := Words{Flap: shape, FlapDepth: "60", Pattern: "leaves", Palette: "hop-garden"}
	return sees(t, Look{Words: w, EnvelopeColour: "kraft"}).Pages()
}

func folded(t *testing.T) []*draw.Page {
	t.Helper()
	f, err := ResolveFold(Words{Handmade: "four-corner", Card: "a6", From: "210x210"})
	if err != nil {
		t.Fatal(err)
	}
	pages, err := f.Template()
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

func decoded(t *testing.T, file []byte) image.Image {
	t.Helper()
	img, _, err := image.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func ruled(t *testing.T) []*draw.Page {
	t.Helper()
	r, err := ResolveRuler(Words{})
	if err != nil {
		t.Fatal(err)
	}
	pages, err := r.Page()
	if err != nil {
		t.Fatal(err)
	}
	return pages
}
