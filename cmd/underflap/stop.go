package main

import (
	"context"
	"fmt"
	"os"
	"os/signal"
	"sync/atomic"
	"syscall"
	"time"

	"underflap/liner/request"
)

// patience is how long work that was called off has to end by itself. Some cannot
// be stopped: a library that reads a picture of many megapixels does not ask.
const patience = 100 * time.Millisecond

// untilStopped runs the command in the background of a wait for signals, and gives
// its exit status. A signal ends the work wherever it is and leaves only whole
// files. A second one does not wait.
func untilStopped(args []string) int {
	signals := make(chan os.Signal, 2)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
	if !signal.Ignored(syscall.SIGHUP) { // which nohup does
		signal.Notify(signals, syscall.SIGHUP)
	}
	var own atomic.Bool
	ctx, cancel := context.WithCancel(context.WithValue(context.Background(), ownGrace{}, &own))
	defer cancel()
	ended := make(chan int, 1)
	go func() { ended <- run(ctx, args, os.Stdout, os.Stderr) }()
	select {
	case status := <-ended:
		return status
	case <-signals:
	}
	cancel()
	var out <-chan time.Time // of patience
	if !own.Load() {
		out = time.After(patience)
	}
	select {
	case status := <-ended:
		return status
	case <-signals:
	case <-out:
	}
	request.Abandon()
	fmt.Fprintln(os.Stderr, "underflap: interrupted")
	return failed
}

// ownGrace is the key of a context's mark for work with a grace of its own.
type ownGrace struct{}

// endsItself marks the work of a context as one that ends by itself when the
// context does, in its own time.
func endsItself(ctx context.Context) {
	if own, ok := ctx.Value(ownGrace{}).(*atomic.Bool); ok {
		own.Store(true)
	}
}
