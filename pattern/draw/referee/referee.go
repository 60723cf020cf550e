// Package referee lets tests ask general-purpose programs from Debian what they
// make of our work: poppler, MuPDF, Ghostscript and librsvg draw our files,
// qpdf reads them, GEOS does the same geometry in its own way, Chromium opens the
// page of the desk.
package referee

import (
	"bytes"
	"os"
	"os/exec"
	"testing"
)

// packages tells which Debian package brings each program.
var packages = map[string]string{
	"pdftoppm":         "poppler-utils",
	"pdffonts":         "poppler-utils",
	"pdfimages":        "poppler-utils",
	"mutool":           "mupdf-tools",
	"gs":               "ghostscript",
	"rsvg-convert":     "librsvg2-bin",
	"qpdf":             "qpdf",
	"geosop":           "geos-bin",
	"chromium":         "chromium",
	"/usr/bin/python3": "python3",
}

// Run runs a referee and returns what it prints. A missing one skips the test
// on a maker's own machine and fails it in CI, where none may be skipped.
func Run(t testing.TB, name string, args ...string) []byte {
	t.Helper()
	return RunInput(t, nil, name, args...)
}

// RunInput is Run with something to read on standard input.
func RunInput(t testing.TB, input []byte, name string, args ...string) []byte {
	t.Helper()
	cmd := exec.Command(Program(t, name), args...)
	cmd.Stdin = bytes.NewReader(input)
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%s %q: %v\n%s", name, args, err, stderr.Bytes())
	}
	return out
}

// Program is where a referee lies, for a test that runs it by itself. A missing one
// is as with Run.
func Program(t testing.TB, name string) string {
	t.Helper()
	program, err := exec.LookPath(name)
	if err != nil {
		missing(t, name+" (Debian package "+packages[name]+")")
	}
	return program
}

// File reads a table that a Debian package installs.
func File(t testing.TB, path, debianPackage string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		missing(t, path+" (Debian package "+debianPackage+")")
	}
	return data
}

func missing(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("CI") != "" {
		t.Fatalf("referee missing: %s", what)
	}
	t.Skipf("referee missing: %s; make test installs it where it can", what)
}
