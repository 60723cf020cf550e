// Package recall remembers what was made, so that it need not be made again: so
// much of it and no more, and what was used least lately goes first.
package recall

import (
	"context"
	"math"
	"sync"

	"github.com/hashicorp/golang-lru/v2/simplelru"
)

// Store keeps values under their keys, for many goroutines. A nil one keeps
// nothing. What is kept is shared: nobody may change it.
type Store[K comparable, V any] struct {
	most int64 // in the unit that values are weighed in

	lock   sync.Mutex
	lru    *simplelru.LRU[K, weighed[V]]
	weight int64
	making map[K]chan struct{} // closed when done
	made   int
}

type weighed[V any] struct {
	value  V
	weight int64
}

// New is a store of values that weigh so much together at most: bytes, or a number
// of values that weigh 1 each. One that weighs more than half of it is not kept.
func New[K comparable, V any](most int64) *Store[K, V] {
	s := &Store[K, V]{most: most, making: map[K]chan struct{}{}}
	s.lru, _ = simplelru.NewLRU(math.MaxInt, func(_ K, gone weighed[V]) { s.weight -= gone.weight }) // fails for sizes under 1 only
	return s
}

// Of is the value under a key, made when there is none. Of many who ask at once
// one makes it and the others wait, as long as ctx lasts. What could not be made is
// not kept, and the next one tries again.
func (s *Store[K, V]) Of(ctx context.Context, key K, make func() (V, int64, error)) (V, error) {
	if s == nil {
		v, _, err := make()
		return v, err
	}
	for {
		s.lock.Lock()
		if found, ok := s.lru.Get(key); ok {
			s.lock.Unlock()
			return found.value, nil
		}
		others, ok := s.making[key]
		if !ok {
			break
		}
		s.lock.Unlock()
		select {
		case <-others:
		case <-ctx.Done():
			var none V
			return none, ctx.Err()
		}
	}
	done := newDone()
	s.making[key] = done
	s.lock.Unlock()
	defer func() { // also when make panics
		s.lock.Lock()
		delete(s.making, key)
		s.lock.Unlock()
		close(done)
	}()
	v, weight, err := make()
	if err == nil {
		s.keep(key, v, weight)
	}
	return v, err
}

func newDone() chan struct{} { return make(chan struct{}) }

func (s *Store[K, V]) keep(key K, v V, weight int64) {
	s.lock.Lock()
	defer s.lock.Unlock()
	s.made++
	if weight > s.most/2 {
		return
	}
	s.weight += weight
	s.lru.Add(key, weighed[V]{v, weight})
	for s.weight > s.most {
		s.lru.RemoveOldest()
	}
}

// Weight is what all that is kept weighs.
func (s *Store[K, V]) Weight() int64 {
	if s == nil {
		return 0
	}
	s.lock.Lock()
	defer s.lock.Unlock()
	return s.weight
}

// Made is how often a value had to be made, for measuring.
func (s *Store[K, V]) Made() int {
	s.lock.Lock()
	defer s.lock.Unlock()
	return s.made
}
