package desk

import (
	"context"
	"errors"
	"time"
)

// turns lets a few work at once and a bounded number wait.
type turns struct {
	working chan struct{}
	inside  chan struct{} // working or waiting
}

func newTurns(atOnce, waiting int) *turns {
	return &turns{make(chan struct{}, atOnce), make(chan struct{}, atOnce+waiting)}
}

// errBusy says that too many wait already.
var errBusy = errors.New("too much is asked for at once; try again in a moment")

// take waits for a turn, which leave ends. It fails at once with errBusy when too
// many wait, and with the context's error when that ends first.
func (t *turns) take(ctx context.Context) (leave func(), err error) {
	select {
	case t.inside <- struct{}{}:
	default:
		return nil, errBusy
	}
	select {
	case t.working <- struct{}{}:
		if err := ctx.Err(); err != nil { // both were ready
			<-t.working
			<-t.inside
			return nil, err
		}
		return func() { <-t.working; <-t.inside }, nil
	case <-ctx.Done():
		<-t.inside
		return nil, ctx.Err()
	}
}

// within waits for a turn and gives the work in it so much time, waiting and all.
// done ends both.
func (t *turns) within(ctx context.Context, limit time.Duration) (_ context.Context, done func(), err error) {
	ctx, cancel := context.WithTimeout(ctx, limit)
	leave, err := t.take(ctx)
	if err != nil {
		cancel()
		return nil, nil, err
	}
	return ctx, func() { leave(); cancel() }, nil
}
