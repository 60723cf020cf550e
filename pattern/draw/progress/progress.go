// Package progress lets long work say how far it has come to whoever wants to
// show it. What shows it is carried by the context; where none is carried, saying
// so costs next to nothing. Of work inside work only the outermost is shown: an
// occasion's sheets, and not the strips of each one's picture.
package progress

import (
	"context"
	"sync"
)

// Display shows work. Calls come one at a time, and every Begin is followed by one
// End.
type Display interface {
	// Begin is told what the steps are, in the singular ("sheet"), and how many.
	Begin(what string, total int)
	// Done is told how many of them are done in all, never fewer than before.
	Done(done int)
	End()
}

// meter is a display and the work that is shown on it, one at a time.
type meter struct {
	mu      sync.Mutex
	display Display
	shown   *Work // nil between works
}

type key struct{}

// With is a context whose work is shown on a display.
func With(ctx context.Context, d Display) context.Context {
	return context.WithValue(ctx, key{}, &meter{display: d})
}

// Work is something that takes a number of steps. A nil one is not shown. Its
// methods may be called by many goroutines.
type Work struct {
	meter       *meter
	done, total int
}

// Begin says that work of so many steps begins; what is one step, such as "sheet".
// Work that begins before other work has ended is part of that and not shown. End
// has to be called when it may stop before all steps are done.
func Begin(ctx context.Context, what string, total int) *Work {
	m, _ := ctx.Value(key{}).(*meter)
	if m == nil || total < 1 {
		return nil
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.shown != nil {
		return nil
	}
	m.shown = &Work{meter: m, total: total}
	m.display.Begin(what, total)
	return m.shown
}

// Done says that n more steps are done. The last one ends the work.
func (w *Work) Done(n int) {
	if w == nil || n < 1 {
		return
	}
	w.meter.mu.Lock()
	defer w.meter.mu.Unlock()
	if w.meter.shown != w {
		return
	}
	w.done = min(w.done+n, w.total)
	w.meter.display.Done(w.done)
	if w.done == w.total {
		w.end()
	}
}

// End says that the work has ended, done or not. It may be called again.
func (w *Work) End() {
	if w == nil {
		return
	}
	w.meter.mu.Lock()
	defer w.meter.mu.Unlock()
	if w.meter.shown == w {
		w.end()
	}
}

func (w *Work) end() {
	w.meter.shown = nil
	w.meter.display.End()
}
