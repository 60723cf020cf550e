package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// kitchen is an occasion of many sheets, no two alike.
const kitchen = "title = 'Winter fair'\nvary = true\npattern = 'leaves'\nenvelope = 'c6'\nper-sheet = 1\ncount = 60\n"

// A program that is killed in the midst of an occasion (SIGKILL, which nothing can
// answer) leaves whole files and at most what it was writing, under a hidden name.
// The next run keeps them, and ends with the folder that an undisturbed one makes.
func TestAKilledRunIsMadeGood(t *testing.T) {
	workbench(t)
	if err := os.WriteFile("fair.toml", []byte(kitchen), 0o666); err != nil {
		t.Fatal(err)
	}
	if a := call(t, "run", "fair.toml", "-o", "whole/"); a.status != done {
		t.Fatal(a.stderr)
	}
	p := exec.Command(os.Args[0], "run", "fair.toml", "-o", "fair/")
	p.Args[0] = "underflap"
	if err := p.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- p.Wait() }()
	made := func() []string {
		files, err := filepath.Glob("fair/sheet-*.pdf")
		if err != nil {
			t.Fatal(err)
		}
		return files
	}
	for len(made()) < 5 {
		select {
		case err := <-ended:
			t.Fatalf("ended by itself: %v", err)
		case <-time.After(time.Millisecond):
		}
	}
	if err := p.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	<-ended
	left := made()
	if len(left) == 60 {
		t.Skip("it was done before it was killed")
	}
	for _, path := range left {
		sameBytes(t, path, filepath.Join("whole", filepath.Base(path)))
	}
	if _, err := os.Stat("fair/SHA256SUMS"); err == nil {
		t.Error("the folder says that it is whole")
	}
	a := call(t, "run", "fair.toml", "-o", "fair/")
	if a.status != done || !strings.Contains(a.stdout, " of 60 sheets were there already\n") {
		t.Errorf("status %d, %q, %q", a.status, a.stdout, a.stderr)
	}
	want, err := os.ReadDir("whole")
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadDir("fair")
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != len(want) {
		t.Errorf("%d files, want %d", len(got), len(want))
	}
	for _, e := range want {
		sameBytes(t, filepath.Join("fair", e.Name()), filepath.Join("whole", e.Name()))
	}
}

func sameBytes(t *testing.T, a, b string) {
	t.Helper()
	first, errA := os.ReadFile(a)
	second, errB := os.ReadFile(b)
	if errA != nil || errB != nil || string(first) != string(second) {
		t.Errorf("%s is not %s: %v, %v", a, b, errA, errB)
	}
}
