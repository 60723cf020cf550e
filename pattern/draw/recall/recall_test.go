package recall_test

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"sync/atomic"
	"testing"
	"testing/synctest"

	"underflap/pattern/draw/recall"
)

func weighing(s *recall.Store[string, string], t *testing.T, key string, weight int64) {
	t.Helper()
	got, err := s.Of(t.Context(), key, func() (string, int64, error) { return "value of " + key, weight, nil })
	if err != nil || got != "value of "+key {
		t.Fatalf("%s: %q, %v", key, got, err)
	}
}

func TestTheLeastLatelyUsedGoes(t *testing.T) {
	s := recall.New[string, string](10)
	for _, key := range []string{"a", "b", "a", "c", "a"} { // a is used again and again
		weighing(s, t, key, 4)
	}
	if s.Weight() != 8 || s.Made() != 3 {
		t.Errorf("%d kept, %d made", s.Weight(), s.Made())
	}
	weighing(s, t, "a", 4)
	weighing(s, t, "c", 4)
	if s.Made() != 3 {
		t.Error("what was used lately is gone")
	}
	weighing(s, t, "b", 4)
	if s.Made() != 4 {
		t.Error("what was used least lately is kept")
	}
	weighing(s, t, "as heavy as all", 6)
	if s.Weight() != 8 {
		t.Errorf("%d kept", s.Weight())
	}
	var none *recall.Store[string, string]
	weighing(none, t, "a", 4)
	if none.Weight() != 0 {
		t.Error("nothing keeps something")
	}
}

func TestWhatFailsIsTriedAgain(t *testing.T) {
	s := recall.New[string, string](10)
	broken := errors.New("broken")
	if _, err := s.Of(t.Context(), "a", func() (string, int64, error) { return "half", 1, broken }); err != broken {
		t.Error(err)
	}
	func() {
		defer func() { _ = recover() }()
		s.Of(t.Context(), "a", func() (string, int64, error) { panic("broken") })
	}()
	weighing(s, t, "a", 1)
}

// Of many who ask at once one makes it; who goes away does not wait, and when the
// maker gives up another takes over.
func TestOneMakesForAll(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		s := recall.New[string, int](10)
		giveUp := make(chan struct{})
		var makers atomic.Int32
		var all sync.WaitGroup
		ask := func(ctx context.Context) (int, error) {
			return s.Of(ctx, "a", func() (int, int64, error) {
				if makers.Add(1) == 1 {
					<-giveUp
					return 0, 0, context.Canceled
				}
				return 7, 1, nil
			})
		}
		all.Go(func() {
			if _, err := ask(t.Context()); err != context.Canceled {
				t.Error(err)
			}
		})
		synctest.Wait()
		ctx, cancel := context.WithCancel(t.Context())
		all.Go(func() {
			if _, err := ask(ctx); err != context.Canceled {
				t.Error(err)
			}
		})
		for range 20 {
			all.Go(func() {
				if v, err := ask(t.Context()); v != 7 || err != nil {
					t.Error(v, err)
				}
			})
		}
		synctest.Wait()
		cancel()
		synctest.Wait()
		close(giveUp)
		all.Wait()
		if makers.Load() != 2 {
			t.Errorf("%d made it", makers.Load())
		}
	})
}

func TestManyAtOnceStayWithinBounds(t *testing.T) {
	s := recall.New[string, string](50)
	var all sync.WaitGroup
	for g := range 8 {
		all.Go(func() {
			for i := range 500 {
				weighing(s, t, fmt.Sprint((i*7+g)%40), 5)
				if s.Weight() > 50 {
					t.Errorf("%d kept", s.Weight())
				}
			}
		})
	}
	all.Wait()
}
