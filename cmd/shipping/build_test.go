package main

import (
	"bytes"
	"debug/elf"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// The program for Linux, as it is packed: its version is the one stamped, it asks
// for no loader and no library, no folder of this machine is in it, and a second
// build gives the same bytes.
func TestTheProgramIsStampedStaticAndTheSameAgain(t *testing.T) {
	if testing.Short() {
		t.Skip("links the program twice")
	}
	t.Chdir("../..")
	r := release{version: "9.8.7-test", made: made, work: t.TempDir()}
	on := target{"linux", runtime.GOARCH}
	var files [2][]byte
	for i := range files {
		path := filepath.Join(r.work, string(rune('a'+i)), on.program())
		if err := r.build(t.Context(), on, path); err != nil {
			t.Fatal(err)
		}
		var err error
		if files[i], err = os.ReadFile(path); err != nil {
			t.Fatal(err)
		}
		if runtime.GOOS != "linux" {
			continue
		}
		said, err := exec.Command(path, "--version").Output()
		if err != nil || string(said) != "underflap 9.8.7-test\n" {
			t.Errorf("--version says %q, %v", said, err)
		}
	}
	if !bytes.Equal(files[0], files[1]) {
		t.Error("a second build gives other bytes")
	}
	program, err := elf.NewFile(bytes.NewReader(files[0]))
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range program.Progs {
		if p.Type == elf.PT_INTERP {
			t.Error("the program asks for a loader")
		}
	}
	if libraries, err := program.ImportedLibraries(); err == nil && len(libraries) > 0 {
		t.Errorf("the program asks for %q", libraries)
	}
	here, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(files[0], []byte(here)) {
		t.Errorf("the program names the folder it was built in, %s", here)
	}
}

// Every library that the program is made of has a licence, which is set out under
// its name; go.mod is asked which they are.
func TestLicencesOfLibrariesAreGathered(t *testing.T) {
	t.Chdir("../..")
	r := release{version: "1", made: made, work: t.TempDir()}
	text, err := r.licences(t.Context(), target{"windows", "amd64"})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"The Go standard library go1", "github.com/spf13/cobra v", "codeberg.org/go-pdf/fpdf v", "github.com/inconshreveable/mousetrap v", // on Windows alone
		"Apache License", "Permission is hereby granted", "Redistribution and use in source and binary forms"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the licences have no %q", want)
		}
	}
	if strings.Contains(string(text), "chromedp") {
		t.Error("a library of the tests alone is among the licences")
	}
}
