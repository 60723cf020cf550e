// Underflap makes liner paper for the inside of envelopes. The commands here
// only read words and print answers; what decides a millimetre lives below
// liner and pattern.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"underflap/pattern/words"
)

// Exit statuses.
const (
	done   = 0
	failed = 1 // the work failed
	wrong  = 2 // the command line was wrong
)

func main() { os.Exit(untilStopped(os.Args[1:])) }

func run(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	root := newRoot()
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	err := root.ExecuteContext(ctx)
	if err == nil {
		return done
	}
	line, status := err.Error(), wrong
	var refused *words.Refused
	var work *workError
	switch {
	case errors.As(err, &refused):
		line = refused.Flag()
	case errors.As(err, &work):
		status = failed
	}
	if line == context.Canceled.Error() { // before a file was begun
		line = "interrupted"
	}
	fmt.Fprintln(stderr, "underflap:", oneLine(line))
	return status
}

// oneLine keeps what a file's name holds from breaking a line or doing something
// to a terminal.
func oneLine(line string) string { return words.Printable(strings.ReplaceAll(line, "\n", " ")) }

// workError marks what went wrong after the command line was understood.
type workError struct{ err error }

func (w *workError) Error() string { return w.err.Error() }
func (w *workError) Unwrap() error { return w.err }

// work marks err, unless it refuses a word.
func work(err error) error {
	var refused *words.Refused
	if err == nil || errors.As(err, &refused) {
		return err
	}
	return &workError{err}
}
