package progress

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"testing"
)

// told is a display that remembers what it is told.
type told []string

func (t *told) Begin(what string, total int) { *t = append(*t, fmt.Sprintf("%s of %d", what, total)) }
func (t *told) Done(done int)                { *t = append(*t, fmt.Sprint(done)) }
func (t *told) End()                         { *t = append(*t, "end") }

func TestTheOutermostIsShown(t *testing.T) {
	var got told
	ctx := With(t.Context(), &got)
	sheets := Begin(ctx, "sheet", 2)
	strips := Begin(ctx, "strip", 30)
	strips.Done(30)
	strips.End()
	sheets.Done(1)
	Begin(ctx, "strip", 30).Done(1)
	sheets.Done(1) // the last ends it
	sheets.Done(1)
	sheets.End()
	after := Begin(ctx, "page", 5)
	after.Done(2)
	after.End() // called off
	after.Done(1)
	Begin(ctx, "nothing", 0).Done(1)
	want := told{"sheet of 2", "1", "2", "end", "page of 5", "2", "end"}
	if !slices.Equal(got, want) {
		t.Errorf("shown %q, want %q", got, want)
	}
}

func TestWithoutADisplay(t *testing.T) {
	w := Begin(context.Background(), "sheet", 2)
	w.Done(1)
	w.End()
	if w != nil {
		t.Error("work that nobody sees is kept")
	}
}

// TestManyGoroutines counts every step once, in order. The race detector looks on
// where it is asked to.
func TestManyGoroutines(t *testing.T) {
	var got told
	w := Begin(With(t.Context(), &got), "sheet", 200)
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 25 {
				w.Done(1)
			}
		})
	}
	all.Wait()
	for i, say := range got[1:201] {
		if say != fmt.Sprint(i+1) {
			t.Fatalf("step %d was told as %s", i+1, say)
		}
	}
	if len(got) != 202 || got[201] != "end" {
		t.Errorf("told %d times, at last %q", len(got), got[len(got)-1])
	}
}
