package request

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"sync/atomic"
	"testing"
	"time"
)

// steps is a context that ends when it has been asked so many times, so that work
// stops in its midst however fast the machine is.
type steps struct {
	context.Context
	left, asked atomic.Int64
	done        chan struct{}
}

func after(ctx context.Context, count int64) *steps {
	s := &steps{Context: ctx, done: make(chan struct{})}
	s.left.Store(count)
	return s
}

func (s *steps) Done() <-chan struct{} { return s.done }

func (s *steps) Err() error {
	s.asked.Add(1)
	switch left := s.left.Add(-1); {
	case left == 0:
		close(s.done)
		return context.Canceled
	case left < 0:
		return context.Canceled
	}
	return nil
}

// slow is work that takes long, made small here: what matters is that it asks its
// context often, and heeds it.
func slow(t *testing.T) map[string]func(ctx context.Context) error {
	photo := filepath.Join(t.TempDir(), "ring.jpg")
	writePhoto(t, photo, 500, 400, 120)
	seen := func(l Look) func(context.Context) error {
		return func(ctx context.Context) error { _, err := See(ctx, l); return err }
	}
	written := func(w Words, o Output) func(context.Context) error {
		return onceMade(w, func(ctx context.Context, _ Request, made Made) error { return o.Encode(ctx, io.Discard, made.Pages) })
	}
	return map[string]func(context.Context) error{
		"a photo is cleaned":                 seen(Look{Words: Words{Stamp: photo}}),
		"a photo is traced":                  seen(Look{Words: Words{Stamp: photo, StampTrace: true}}),
		"a photo keeps its colours, in grey": written(Words{Stamp: photo, StampColour: "keep", Grey: true, Set: []string{"size=90"}}, Output{Format: "pdf"}),
		"a photo alone, on kraft paper": func(ctx context.Context) error {
			_, _, err := Art(ctx, Words{Stamp: photo, StampColour: "keep", PaperColour: "kraft"})
			return err
		},
		"a photo is looked at for colours":     seen(Look{Words: Words{Palette: "photo:" + photo}}),
		"a photo is embedded":                  written(Words{Stamp: photo, StampColour: "keep"}, Output{Format: "svg"}),
		"motifs in fading bands, turned":       written(Words{Pattern: "terrazzo", Fade: "ink", Turn: "33"}, Output{Format: "svg"}),
		"fading motifs of a plane group":       written(Words{Symmetry: "p6mm", Fade: "ink", Turn: "20"}, Output{Format: "pdf"}),
		"a toss":                               written(Words{Repeat: "toss"}, Output{Format: "png", DPI: 300}),
		"steep guilloche":                      written(Words{Pattern: "guilloche", Set: []string{"height=60", "wave=12", "lines=6"}}, Output{Format: "png", DPI: 72}),
		"many designs to compare":              seen(Look{Palettes: "orchard-table,hop-garden,rowan-jelly", View: "open"}),
		"an open envelope as a picture":        func(ctx context.Context) error { return seenAs(ctx, Look{Words: Words{Pattern: "leaves"}}) },
		"a page of all patterns":               func(ctx context.Context) error { _, _, err := Swatch(ctx, Words{}, false); return err },
		"a page of all palettes":               func(ctx context.Context) error { _, _, err := Swatch(ctx, Words{}, true); return err },
		"the ink, with some of it to be saved": inkUsed(Words{Pattern: "leaves", InkSaver: "25"}),
	}
}

func seenAs(ctx context.Context, l Look) error {
	s, err := See(ctx, l)
	if err != nil {
		return err
	}
	return Output{Format: "png", DPI: 100}.Encode(ctx, io.Discard, s.Pages())
}

func inkUsed(w Words) func(context.Context) error {
	return onceMade(w, func(ctx context.Context, r Request, made Made) error {
		if _, err := r.Saving(ctx, made.Plan); err != nil {
			return err
		}
		_, err := r.Ink(ctx, made.Plan)
		return err
	})
}

// onceMade is work on the sheets of words.
func onceMade(w Words, work func(context.Context, Request, Made) error) func(context.Context) error {
	return func(ctx context.Context) error {
		r, err := Resolve(ctx, w)
		if err != nil {
			return err
		}
		made, err := r.Make(ctx)
		if err != nil {
			return err
		}
		return work(ctx, r, made)
	}
}

func TestWorkStopsInItsMidst(t *testing.T) {
	for name, work := range slow(t) {
		t.Run(name, func(t *testing.T) {
			whole := after(t.Context(), math.MaxInt64)
			if err := work(whole); err != nil {
				t.Fatal(err)
			}
			asks := whole.asked.Load()
			if asks < 20 {
				t.Errorf("asks %d times whether to go on", asks)
			}
			before := runtime.NumGoroutine()
			for part := int64(0); part <= 5; part++ {
				ctx := after(t.Context(), 1+(asks-2)*part/5)
				if err := work(ctx); !errors.Is(err, context.Canceled) {
					t.Errorf("stopped at %d of %d: %v", 1+(asks-2)*part/5, asks, err)
				}
				if more := ctx.asked.Load(); more > 2*asks+100 {
					t.Errorf("asked %d times after all, where %d are enough for all of it", more, asks)
				}
			}
			for wait := 0; runtime.NumGoroutine() > before && wait < 200; wait++ {
				time.Sleep(10 * time.Millisecond) // one that ends may still be counted
			}
			if now := runtime.NumGoroutine(); now > before {
				t.Errorf("%d goroutines go on", now-before)
			}
		})
	}
}

// A file is not begun, or is taken away, and what was there before stays.
func TestStoppedWorkLeavesNoFile(t *testing.T) {
	r, err := Resolve(t.Context(), Words{Pattern: "leaves", Fade: "ink"})
	if err != nil {
		t.Fatal(err)
	}
	made, err := r.Make(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	for _, format := range Formats {
		dir := t.TempDir()
		path := filepath.Join(dir, "liners."+format)
		if err := os.WriteFile(path, []byte("as before"), 0o600); err != nil {
			t.Fatal(err)
		}
		o := Output{Path: path, Format: format, DPI: 150}
		whole := after(t.Context(), math.MaxInt64)
		if err := o.Encode(whole, io.Discard, made.Pages); err != nil {
			t.Fatal(err)
		}
		for part := range int64(4) {
			err := o.Write(after(t.Context(), 1+whole.asked.Load()*part/4), made.Pages)
			if want := fmt.Sprintf("cannot write %s: interrupted", path); !errors.Is(err, context.Canceled) || err.Error() != want {
				t.Errorf("%s: %v", format, err)
			}
		}
		entries, err := os.ReadDir(dir)
		if data, _ := os.ReadFile(path); err != nil || len(entries) != 1 || string(data) != "as before" {
			t.Errorf("%s: %v, and %q of the old file; %v", format, entries, data, err)
		}
	}
}

// What was stopped is not kept for the next, who has all the time.
func TestWhatWasStoppedIsNotKept(t *testing.T) {
	photo := filepath.Join(t.TempDir(), "ring.jpg")
	writePhoto(t, photo, 300, 240, 80)
	w := Words{Stamp: photo}
	want, _, err := preview(t.Context(), w)
	if err != nil {
		t.Fatal(err)
	}
	whole := after(t.Context(), math.MaxInt64)
	w.Memory = NewMemory()
	if _, _, err := preview(whole, w); err != nil {
		t.Fatal(err)
	}
	w.Memory = NewMemory()
	for part := range int64(8) {
		if _, _, err := preview(after(t.Context(), 1+whole.asked.Load()*part/10), w); !errors.Is(err, context.Canceled) {
			// later parts find what earlier ones had finished, and may be done sooner
			if err != nil || part < 4 {
				t.Errorf("part %d: %v", part, err)
			}
		}
	}
	got, _, err := preview(t.Context(), w)
	if err != nil || string(got) != string(want) {
		t.Errorf("another picture after stopped ones; %v", err)
	}
}
