package main

import (
	"context"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"underflap/pattern/draw/progress"
)

// quietFlag is known to every command.
const quietFlag = "quiet"

// addQuiet gives every command of root the flag, and a meter to those that have
// not been told to be quiet.
func addQuiet(root *cobra.Command) {
	root.PersistentFlags().BoolP(quietFlag, "q", false, "say nothing but errors and what was asked for: no progress, remarks or summary")
	root.PersistentPreRun = func(cmd *cobra.Command, _ []string) {
		if quiet(cmd) || cmd.Name() == "desk" { // whose answers nobody watches on the terminal
			return
		}
		m := newMeter(cmd.ErrOrStderr(), os.Getenv)
		cmd.SetContext(context.WithValue(progress.With(cmd.Context(), m), meterKey{}, m))
	}
}

type meterKey struct{}

// quiet tells whether only errors and answers are wanted.
func quiet(cmd *cobra.Command) bool {
	q, err := cmd.Flags().GetBool(quietFlag)
	return err == nil && q
}

// besides is where remarks go, clear of the bar.
func besides(cmd *cobra.Command) io.Writer { return unlessQuiet(cmd, cmd.ErrOrStderr()) }

// summaries is where a command that writes files says which.
func summaries(cmd *cobra.Command) io.Writer { return unlessQuiet(cmd, cmd.OutOrStdout()) }

// unlessQuiet is w clear of the bar, or nothing where only errors and answers are
// wanted.
func unlessQuiet(cmd *cobra.Command, w io.Writer) io.Writer {
	if quiet(cmd) {
		return io.Discard
	}
	if m, ok := cmd.Context().Value(meterKey{}).(*meter); ok {
		return m.around(w)
	}
	return w
}

// wrote says that a file was written, and what is in it.
func wrote(cmd *cobra.Command, path, says string) error {
	_, err := fmt.Fprintf(summaries(cmd), "%s: %s\n", oneLine(path), oneLine(says))
	return work(err)
}
