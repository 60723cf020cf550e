package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"golang.org/x/sys/unix"
)

// disc is a small disc of its own, in memory, which only root can have. At home the
// test is skipped for others; in CI nothing is skipped for root.
func disc(t *testing.T, options string) string {
	t.Helper()
	dir := t.TempDir()
	if err := unix.Mount("underflap", dir, "tmpfs", 0, options); err != nil {
		if os.Getuid() == 0 && os.Getenv("CI") == "true" {
			t.Fatalf("no disc of its own, and root should have one: %v", err)
		}
		t.Skipf("no disc of its own: %v", err)
	}
	t.Cleanup(func() { unix.Unmount(dir, unix.MNT_DETACH) })
	return dir
}

// on runs the command as a process in a folder.
func on(t *testing.T, dir string, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	var out, problems bytes.Buffer
	c := exec.Command("underflap", args...)
	c.Dir, c.Stdout, c.Stderr = dir, &out, &problems
	if err := c.Run(); err != nil && !errors.As(err, new(*exec.ExitError)) {
		t.Fatal(err)
	}
	return c.ProcessState.ExitCode(), out.String(), problems.String()
}

// held is what a folder holds, each name with its content.
func held(t *testing.T, dir string) string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var all strings.Builder
	for _, e := range entries {
		data, _ := os.ReadFile(filepath.Join(dir, e.Name()))
		fmt.Fprintf(&all, "%s: %q\n", e.Name(), data)
	}
	return all.String()
}

// writers are command lines that write a file of more than a few kilobytes.
var writers = map[string][]string{
	"liners.pdf": {"sheet"},
	"liners.png": {"sheet", "--dpi", "150", "-o", "liners.png"},
	"liners.svg": {"sheet", "--pattern", "terrazzo", "-o", "liners.svg"},
	"look.png":   {"look", "-o", "look.png"},
	"swatch.pdf": {"swatch", "-o", "swatch.pdf"},
	"ruler.pdf":  {"ruler", "-o", "ruler.pdf"},
	"hop.gpl":    {"palettes", "hop-garden", "-o", "hop.gpl"},
	"fair.toml":  {"sheet", "-o", "liners.pdf", "--save-job", "fair.toml"},
}

// TestAFullDisc writes to a disc of 8 kB that has a few bytes left: what was there stays.
func TestAFullDisc(t *testing.T) {
	workbench(t)
	for name, args := range writers {
		dir := disc(t, "size=8k")
		if err := os.WriteFile(filepath.Join(dir, name), []byte("the old one"), 0o666); err != nil {
			t.Fatal(err)
		}
		if f, err := os.Create(filepath.Join(dir, "photos")); err != nil {
			t.Fatal(err)
		} else {
			for err == nil {
				_, err = f.Write(make([]byte, 512))
			}
			if f.Close(); !errors.Is(err, syscall.ENOSPC) {
				t.Fatal(err)
			}
		}
		before := held(t, dir)
		status, stdout, stderr := on(t, dir, args...)
		if status != failed || stdout != "" || strings.Count(stderr, "\n") != 1 || !strings.Contains(stderr, "no space left on device") {
			t.Errorf("%s: status %d, stdout %q, stderr %q", line(args), status, stdout, stderr)
		}
		if after := held(t, dir); after != before {
			t.Errorf("%s: the disc held %s and now holds %s", line(args), before, after)
		}
	}
}

// TestAReadOnlyFolder writes to a disc that takes nothing.
func TestAReadOnlyFolder(t *testing.T) {
	workbench(t)
	dir := disc(t, "size=64k")
	for name := range writers {
		if err := os.WriteFile(filepath.Join(dir, name), []byte("the old one"), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := unix.Mount("", dir, "", unix.MS_REMOUNT|unix.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	before := held(t, dir)
	for _, args := range writers {
		status, stdout, stderr := on(t, dir, args...)
		if status != failed || stdout != "" || strings.Count(stderr, "\n") != 1 || !strings.Contains(stderr, "read-only file system") {
			t.Errorf("%s: status %d, stdout %q, stderr %q", line(args), status, stdout, stderr)
		}
	}
	if after := held(t, dir); after != before {
		t.Errorf("the disc held %s and now holds %s", before, after)
	}
}

// TestNothingReadsTheAnswer closes the pipe before the answer is written: the
// program ends without a word of it, as others do (signal(7): SIGPIPE), and a file that was asked for is whole.
func TestNothingReadsTheAnswer(t *testing.T) {
	workbench(t)
	whole := makes(t, "liners.pdf", "sheet")
	for _, args := range [][]string{{"sizes"}, {"patterns"}, {"palettes"}, {"fit"}, {"fit", "--json"}, {"help"}, {"sheet", "--help"}, {"completion", "bash"}, {"sheet"}} {
		r, w, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		r.Close()
		var stderr bytes.Buffer
		c := exec.Command("underflap", args...)
		c.Stdout, c.Stderr = w, &stderr
		err = c.Run()
		w.Close()
		state, ok := c.ProcessState.Sys().(syscall.WaitStatus)
		if err == nil || !ok || !state.Signaled() || state.Signal() != syscall.SIGPIPE || strings.Contains(stderr.String(), "pipe") {
			t.Errorf("%s: %v, stderr %q", line(args), err, stderr.String())
		}
	}
	if got, err := os.ReadFile("liners.pdf"); err != nil || !bytes.Equal(got, whole) || len(partFiles()) > 0 {
		t.Errorf("%v, %d bytes, parts %v", err, len(got), partFiles())
	}
}

// TestAFullAnswer has nowhere to print to: status 1 and a line say so.
func TestAFullAnswer(t *testing.T) {
	workbench(t)
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer full.Close()
	for _, args := range [][]string{{"sizes"}, {"patterns"}, {"palettes"}, {"fit"}, {"fit", "--json"}, {"sheet"}, {"ruler"}, {"look"}, {"swatch"}} {
		var stderr bytes.Buffer
		c := exec.Command("underflap", args...)
		c.Stdout, c.Stderr = full, &stderr
		if err := c.Run(); c.ProcessState.ExitCode() != failed || !strings.Contains(stderr.String(), "no space left on device") {
			t.Errorf("%s: %v, stderr %q", line(args), err, stderr.String())
		}
	}
}
