// Figures reads what go test -bench prints, of one run, and sets it as one table
// with ratios. It is run by make bench.
package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"regexp"

	"golang.org/x/perf/benchfmt"
)

func main() {
	if err := run(os.Stdin, os.Stdout, os.Stderr); err != nil {
		fmt.Fprintln(os.Stderr, "figures:", err)
		os.Exit(1)
	}
}

// failure is a line by which go test says that something went wrong.
var failure = regexp.MustCompile(`(?m)^\s*(--- FAIL|FAIL|panic:|# ).*`)

func run(in io.Reader, out, progress io.Writer) error {
	var seen bytes.Buffer
	results := benchfmt.NewReader(io.TeeReader(in, &seen), "bench")
	var all []result
	for results.Scan() {
		switch r := results.Result().(type) {
		case *benchfmt.Result:
			one := resultOf(r)
			fmt.Fprintln(progress, one.name)
			all = append(all, one)
		case *benchfmt.SyntaxError:
			return r
		}
	}
	if err := results.Err(); err != nil {
		return err
	}
	if failed := failure.FindAll(seen.Bytes(), -1); failed != nil {
		return fmt.Errorf("a benchmark failed: %s", bytes.Join(failed, []byte("; ")))
	}
	if len(all) == 0 {
		return errors.New("nothing was measured; accepted: what go test -bench prints")
	}
	return write(out, table(all))
}
