package occasion

import (
	"bytes"
	"image"
	"os"
	"path/filepath"
	"testing"

	"underflap/liner/index"
	"underflap/pattern/draw/png"
)

// The README's picture of an index is drawn by the tool: make pictures draws it
// again, into the folder that UNDERFLAP_PICTURES names. Compared by pixel, since
// another release of the compressor may write other bytes.
func TestREADMEPictureShowsTheIndex(t *testing.T) {
	o := settled(t, textOf(t, "harvest-supper"), Wish{})
	if o.Count() != 18 || o.Alone != 27 {
		t.Errorf("%d sheets, %d alone; the README says 18 and 27", o.Count(), o.Alone)
	}
	totals, err := o.Totals(t.Context(), true)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := index.Draw(t.Context(), o.index(totals, false))
	if err != nil {
		t.Fatal(err)
	}
	var drawn bytes.Buffer
	if err := png.Write(t.Context(), &drawn, pages[0], 80); err != nil {
		t.Fatal(err)
	}
	if dir := os.Getenv("UNDERFLAP_PICTURES"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, "index.png"), drawn.Bytes(), 0o666); err != nil {
			t.Fatal(err)
		}
		return
	}
	kept, err := os.Open("../../testdata/pictures/index.png")
	if err != nil {
		t.Fatal(err)
	}
	defer kept.Close()
	a, _, errA := image.Decode(kept)
	b, _, errB := image.Decode(&drawn)
	if errA != nil || errB != nil || a.Bounds() != b.Bounds() {
		t.Fatalf("%v, %v", errA, errB)
	}
	for y := range a.Bounds().Dy() {
		for x := range a.Bounds().Dx() {
			if a.At(x, y) != b.At(x, y) {
				t.Fatalf("another pixel at %d, %d; make pictures draws it again", x, y)
			}
		}
	}
}
