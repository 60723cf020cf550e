package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestScript runs the stories in testdata/script. Beside testscript's own
// commands they have those of scriptCommands.
func TestScript(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		Setup:               furnish,
		Cmds:                scriptCommands,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
	})
}

// furnish gives a story a home of its own, where holds does not look; $CONFIG is
// what the command keeps in it.
func furnish(env *testscript.Env) error {
	home := filepath.Join(env.WorkDir, ".tmp", "home")
	for name, dir := range homes(home) {
		env.Setenv(name, dir)
	}
	env.Setenv("CONFIG", filepath.Join(home, ".config", "underflap"))
	return os.MkdirAll(home, 0o777)
}

var scriptCommands = map[string]func(ts *testscript.TestScript, neg bool, args []string){
	// art KIND FILE: write a picture to stamp with; see artKinds
	"art": command(2, func(ts *testscript.TestScript, args []string) {
		ts.Check(drawArt(args[0], ts.MkAbs(args[1])))
	}),
	// exits STATUS PROGRAM ARG...: run a program that ends with the status
	"exits": command(-2, func(ts *testscript.TestScript, args []string) {
		status := 0
		if err := ts.Exec(args[1], args[2:]...); err != nil {
			var exit *exec.ExitError
			if !errors.As(err, &exit) {
				ts.Fatalf("%v", err)
			}
			status = exit.ExitCode()
		}
		if strconv.Itoa(status) != args[0] {
			ts.Fatalf("exit status %d, want %s", status, args[0])
		}
	}),
	// lines FILE COUNT: stdout, stderr or a file has so many lines
	"lines": command(2, func(ts *testscript.TestScript, args []string) {
		if n := strings.Count(ts.ReadFile(args[0]), "\n"); strconv.Itoa(n) != args[1] {
			ts.Fatalf("%s has %d lines, want %s", args[0], n, args[1])
		}
	}),
	// holds FOLDER NAME...: the folder holds these, hidden ones too, and no more
	"holds": command(-1, func(ts *testscript.TestScript, args []string) {
		entries, err := os.ReadDir(ts.MkAbs(args[0]))
		ts.Check(err)
		var found []string
		for _, e := range entries {
			if e.Name() != ".tmp" { // testscript's own
				found = append(found, e.Name())
			}
		}
		want := slices.Sorted(slices.Values(args[1:]))
		if !slices.Equal(found, want) {
			ts.Fatalf("%s holds %q, want %q", args[0], found, want)
		}
	}),
	// pages FILE COUNT: a PDF has so many pages
	"pages": command(2, func(ts *testscript.TestScript, args []string) {
		n, err := pageCount([]byte(ts.ReadFile(args[0])))
		ts.Check(err)
		if strconv.Itoa(n) != args[1] {
			ts.Fatalf("%s has %d pages, want %s", args[0], n, args[1])
		}
	}),
	// pixels FILE WIDTH HEIGHT PER-METRE: a PNG that says its own density
	"pixels": command(4, func(ts *testscript.TestScript, args []string) {
		got, err := pixels([]byte(ts.ReadFile(args[0])))
		ts.Check(err)
		if want := strings.Join(args[1:], " "); got != want {
			ts.Fatalf("%s is %s, want %s", args[0], got, want)
		}
	}),
	// contract FILE NAME=VALUE...: a fit as DESIGN.md promises it, with these values
	"contract": command(-1, func(ts *testscript.TestScript, args []string) {
		c, err := readContract([]byte(ts.ReadFile(args[0])))
		ts.Check(err)
		has := map[string]string{
			"envelope": c.Envelope.Name, "flap": c.Flap.Shape, "paper": c.Paper.Name, "layout": c.Layout,
			"perSheet": fmt.Sprint(c.PerSheet), "sheets": fmt.Sprint(c.Sheets), "gap": fmt.Sprint(c.Gap), "printerMargin": fmt.Sprint(c.PrinterMargin),
			"width": fmt.Sprint(c.Envelope.Width), "height": fmt.Sprint(c.Envelope.Height), "depth": fmt.Sprint(c.Flap.Depth), "pocketDepth": fmt.Sprint(c.PocketDepth),
		}
		for _, arg := range args[1:] {
			name, want, _ := strings.Cut(arg, "=")
			if got, ok := has[name]; !ok || got != want {
				ts.Fatalf("%s is %q, want %q", name, got, want)
			}
		}
	}),
}

// command takes exactly n arguments, or when n is negative at least -n.
func command(n int, do func(ts *testscript.TestScript, args []string)) func(*testscript.TestScript, bool, []string) {
	return func(ts *testscript.TestScript, neg bool, args []string) {
		if neg || n >= 0 && len(args) != n || len(args) < -n {
			ts.Fatalf("takes %d arguments and no !", n)
		}
		do(ts, args)
	}
}

// pixels gives width, height and pixels to the metre of a whole PNG.
func pixels(data []byte) (string, error) {
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return "", err
	}
	at := bytes.Index(data, []byte("pHYs"))
	if at < 0 || len(data) < at+13 {
		return "", errors.New("no pHYs")
	}
	x, y := binary.BigEndian.Uint32(data[at+4:]), binary.BigEndian.Uint32(data[at+8:])
	if x != y || data[at+12] != 1 {
		return "", fmt.Errorf("pHYs of %d by %d, unit %d", x, y, data[at+12])
	}
	return fmt.Sprint(img.Bounds().Dx(), " ", img.Bounds().Dy(), " ", x), nil
}
