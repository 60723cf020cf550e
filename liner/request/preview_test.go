package request

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"testing"
	"time"

	"underflap/palettes"
	"underflap/pattern"
	"underflap/pattern/words"
)

// previewWords are words as someone tries them out on the page: the pattern and
// its colours change all the time, the envelope now and then.
func previewWords(i int) Words {
	names := slices.DeleteFunc(pattern.Names(), func(name string) bool { return name == pattern.Stamps })
	all := palettes.Names()
	envelopes := []string{"c6", "dl", "a7", "c5"}
	return Words{
		Envelope: envelopes[i/40%len(envelopes)],
		Pattern:  names[i/3%len(names)],
		Palette:  all[i%len(all)],
		Scale:    fmt.Sprint(0.7 + float64(i%7)/10),
		Turn:     fmt.Sprint(i * 15 % 90),
		Seed:     fmt.Sprint(i),
	}
}

// The two pictures of a preview, as wide as the page shows them.
const pictureWide, sheetWide = 900, 700

// preview is what the page shows of words: the envelope and the sheet.
func preview(ctx context.Context, w Words) (picture, sheet []byte, err error) {
	return previewAt(ctx, w, 1)
}

// previewAt is a preview in a part of its size.
func previewAt(ctx context.Context, w Words, part float64) (picture, sheet []byte, err error) {
	seen, err := See(ctx, Look{Words: w})
	if err != nil {
		return nil, nil, err
	}
	var b bytes.Buffer
	if err := (Output{Format: "png", DPI: part * pictureWide * words.MillimetresPerInch / seen.Width, Memory: w.Memory}).Encode(ctx, &b, seen.Pages()); err != nil {
		return nil, nil, err
	}
	picture = bytes.Clone(b.Bytes())
	b.Reset()
	r, err := Resolve(ctx, w)
	if err != nil {
		return nil, nil, err
	}
	made, err := r.Make(ctx)
	if err != nil {
		return nil, nil, err
	}
	if err := (Output{Format: "png", DPI: part * sheetWide * words.MillimetresPerInch / made.Pages[0].Width, Memory: w.Memory}).Encode(ctx, &b, made.Pages); err != nil {
		return nil, nil, err
	}
	return picture, b.Bytes(), nil
}

// Whole previews over changing words: half of them, and 95 of 100, take no longer
// than so many milliseconds; and the share of the time without a memory.
func BenchmarkPreview(b *testing.B) {
	const warm, measured, bare = 160, 600, 60
	at := func(memory *Memory, from, count int) (took []float64) {
		for i := from; i < from+count; i++ {
			w := previewWords(i)
			w.Memory = memory
			start := time.Now()
			if _, _, err := preview(b.Context(), w); err != nil {
				b.Fatalf("%+v: %v", w, err)
			}
			took = append(took, float64(time.Since(start).Microseconds())/1000)
		}
		slices.Sort(took)
		return took
	}
	for range b.N {
		memory := NewMemory()
		at(memory, 0, warm)
		took := at(memory, warm, measured)
		without := at(nil, warm, bare)
		b.ReportMetric(took[measured/2], "p50-ms")
		b.ReportMetric(took[measured*95/100], "p95-ms")
		b.ReportMetric(took[measured-1], "most-ms")
		b.ReportMetric(took[measured/2]/without[bare/2], "of-bare")
	}
}

// Answers are the same, byte for byte, with a memory that many use at once and
// that is too small for all of it.
func TestAnswersAreTheSameWithAMemory(t *testing.T) {
	art := photoOfStamp(t)
	var all []Words
	for i := range 6 {
		all = append(all, previewWords(i*43))
	}
	all = append(all,
		Words{Stamp: art, Set: []string{"size=18mm"}}, Words{Stamp: art, StampTrace: true, Palette: "hop-garden"}, Words{Stamp: art, StampColour: "keep", Grey: true},
		Words{Stamp: art, Scale: "1.3", StampColour: "2"}, Words{Palette: "photo:" + art}, Words{Pattern: "petals", Fade: "ink", InkSaver: "25"},
		Words{Pattern: "leaves", PaperColour: "kraft"}, Words{Handmade: "four-corner", Card: "a6"})
	type answer struct{ picture, sheet []byte }
	want := make([]answer, len(all))
	for i, w := range all {
		var err error
		if want[i].picture, want[i].sheet, err = preview(t.Context(), w); err != nil {
			t.Fatalf("%+v: %v", w, err)
		}
	}
	for _, memory := range []*Memory{NewMemory(), tinyMemory()} {
		var workers sync.WaitGroup
		for g := range 4 {
			workers.Go(func() {
				for k := range 8 { // each of them more than once, by different workers
					i := (k*3 + g*5) % len(all)
					w := all[i]
					w.Memory = memory
					picture, sheet, err := preview(t.Context(), w)
					if err != nil || !bytes.Equal(picture, want[i].picture) || !bytes.Equal(sheet, want[i].sheet) {
						t.Errorf("%+v: %v; picture alike %v, sheet alike %v", all[i], err, bytes.Equal(picture, want[i].picture), bytes.Equal(sheet, want[i].sheet))
					}
				}
			})
		}
		workers.Wait()
	}
}

// The heap grows by what the memory says it keeps and by no more, and that is
// bounded. 12 MB is a quarter of what a leak of every preview's pictures, small as
// they are, would be.
func TestHundredsOfPreviewsTakeNoMoreMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("takes ten seconds")
	}
	memory := memoryOf(0.5) // full sooner
	heap := func() float64 {
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return float64(int64(m.HeapAlloc)-memory.Weight()) / (1 << 20)
	}
	const all, first = 600, 200
	var after, most float64
	for i := 1; i <= all; i++ {
		w := previewWords(i)
		w.Memory = memory
		if i%11 == 0 { // a flap that nobody had before
			w.Envelope, w.Pocket, w.FlapDepth = "", "150x110", fmt.Sprint(50+math.Mod(float64(i)/100, 20))
		}
		if _, _, err := previewAt(t.Context(), w, 0.15); err != nil {
			t.Fatalf("%+v: %v", w, err)
		}
		switch {
		case i == first:
			after = heap()
		case i > first && i%100 == 0:
			most = max(most, heap())
		}
	}
	t.Logf("%.0f MB beside what is kept after %d previews, %.0f MB at most later; %d MB kept", after, first, most, memory.Weight()>>20)
	if most > after+12 {
		t.Errorf("the heap beside what is kept grew from %.0f to %.0f MB", after, most)
	}
	if bound := int64(mostShadows+mostArt+mostDensity) / 2; memory.Weight() > bound {
		t.Errorf("%d bytes are kept, more than %d", memory.Weight(), bound)
	}
}

// An edited file is seen at once.
func TestAnEditedFileIsReadAnew(t *testing.T) {
	file := photoOfStamp(t)
	w := Words{Stamp: file, Memory: NewMemory()}
	before, _, err := preview(t.Context(), w)
	if err != nil {
		t.Fatal(err)
	}
	writePhoto(t, file, 260, 200, 30)
	after, _, err := preview(t.Context(), w)
	if err != nil || bytes.Equal(before, after) {
		t.Errorf("the file as it was before is shown; %v", err)
	}
}

// photoOfStamp is a photo of a stamped ring on grey paper, in light that falls
// off, in a file of the test's own.
func photoOfStamp(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "ring.jpg")
	writePhoto(t, path, 320, 240, 80)
	return path
}

// writePhoto makes it so many pixels large, the ring of a radius.
func writePhoto(t testing.TB, path string, width, height int, radius float64) {
	t.Helper()
	img := image.NewNRGBA(image.Rect(0, 0, width, height))
	for y := range height {
		for x := range width {
			light := 0.95 - 0.3*float64(x)/float64(width) + 0.01*float64((x*7+y*13)%5)
			c := [3]float64{225, 222, 214}
			if r := math.Hypot(float64(x-width/2), float64(y-height/2)); r < radius && r > radius/3 {
				c = [3]float64{60, 40, 90}
			}
			img.SetNRGBA(x, y, color.NRGBA{uint8(c[0] * light), uint8(c[1] * light), uint8(c[2] * light), 255})
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
}

// tinyMemory has room for next to nothing, so that all comes and goes.
func tinyMemory() *Memory { return memoryOf(1.0 / 100) }
