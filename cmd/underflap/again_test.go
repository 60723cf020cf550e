package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
	"time"
	_ "time/tzdata" // time zones, also where the machine has none
)

// TestSameBytesAgain makes each file several times, over a change of the
// clock's second, and expects the same bytes.
func TestSameBytesAgain(t *testing.T) {
	workbench(t)
	mustDraw(t, "alpha-png", "acorn.png")
	mustDraw(t, "photo", "photo.jpg")
	first := map[string][]byte{}
	for round := range 6 {
		if round == 5 {
			time.Sleep(1100 * time.Millisecond) // a date in the file would show
		}
		for file, args := range map[string][]string{
			"dots.pdf":    {},
			"dots.png":    {"--dpi", "72"},
			"dots.svg":    {},
			"acorns.pdf":  {"--stamp", "acorn.png", "--count", "5"},
			"acorns.svg":  {"--stamp", "acorn.png", "--seed", "7"},
			"inked.pdf":   {"--stamp", "photo.jpg"},
			"traced.svg":  {"--stamp", "photo.jpg", "--stamp-trace"},
			"stripes.pdf": {"--pattern", "stripes", "--seed", "7", "--turn", "30"},
		} {
			made := makes(t, file, append([]string{"sheet", "-o", file}, args...)...)
			if round == 0 {
				first[file] = made
			} else if !bytes.Equal(made, first[file]) {
				t.Errorf("%s: other bytes in round %d", file, round)
			}
		}
	}
}

// TestSameBytesElsewhere makes each file in processes of their own: in other time
// zones, languages and folders, by one processor and by several.
func TestSameBytesElsewhere(t *testing.T) {
	workbench(t)
	mustDraw(t, "photo", "photo.jpg")
	keepFile(t, "job.toml", []byte("pattern = 'leaves'\nrepeat = 'toss'\nseed = 7\npalette = 'photo:photo.jpg'\ncount = 5\n"))
	here, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for file, args := range map[string][]string{
		"liners.pdf": {"sheet", "--dpi", "72"}, "liners.png": {"sheet", "--dpi", "150"}, "liners.svg": {"sheet", "--dpi", "72"},
		"tossed.pdf": {"run", here + "/job.toml"}, "look.png": {"look", "--palette", "photo:" + here + "/photo.jpg"}, "swatch.pdf": {"swatch"},
		"stamped.png": {"sheet", "--stamp", here + "/photo.jpg", "--stamp-trace", "--dpi", "100"}, "fold.pdf": {"fold", "--handmade", "four-corner", "--card", "a6"},
	} {
		var first []byte
		for _, env := range [][]string{
			{"TZ=UTC", "LANG=C", "GOMAXPROCS=1"}, {"TZ=Asia/Tokyo", "LANG=ja_JP.UTF-8", "LC_ALL=ja_JP.UTF-8", "GOMAXPROCS=2"}, {"TZ=America/St_Johns", "LANG=de_DE.UTF-8", "GOMAXPROCS=3", "GOGC=5"},
		} {
			dir := t.TempDir()
			c := exec.Command("underflap", append(args, "-o", file)...)
			c.Dir = dir
			c.Env = append(append(os.Environ(), "SOURCE_DATE_EPOCH=1790000000"), env...)
			if out, err := c.CombinedOutput(); err != nil {
				t.Fatalf("%v: %s", err, out)
			}
			made, err := os.ReadFile(dir + "/" + file)
			if err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = made
			} else if !bytes.Equal(made, first) {
				t.Errorf("%s: other bytes with %v", file, env)
			}
		}
	}
}

// TestSourceDate asks for a date in the file, and for none.
func TestSourceDate(t *testing.T) {
	workbench(t)
	dated := regexp.MustCompile(`/CreationDate ?\(D:(\d{14})`)
	if plain := makes(t, "liners.pdf", "sheet"); bytes.Contains(plain, []byte("/CreationDate")) || bytes.Contains(plain, []byte("/ModDate")) {
		t.Error("a date in the PDF that nobody asked for")
	}
	for epoch, want := range map[string]string{"0": "19700101000000", "1790000000": "20260921141320", "253402300799": "99991231235959"} {
		t.Setenv("SOURCE_DATE_EPOCH", epoch)
		got := dated.FindSubmatch(makes(t, "liners.pdf", "sheet"))
		if got == nil || string(got[1]) != want {
			t.Errorf("SOURCE_DATE_EPOCH=%s: creation date %q, want %s", epoch, got, want)
		}
	}
}

// TestFailedWriteKeepsTheOldTarget fails while the new file is being written.
func TestFailedWriteKeepsTheOldTarget(t *testing.T) {
	workbench(t)
	makes(t, "liners.pdf", "sheet", "--pattern", "stripes")
	t.Setenv("SOURCE_DATE_EPOCH", "soon") // is read when the part file is open
	fails("liners.pdf", "sheet").check(t)
	t.Setenv("SOURCE_DATE_EPOCH", "")
	makes(t, "liners.pdf", "sheet") // and the next one works
}

// noPaper is a standard output that is full.
type noPaper struct{}

func (noPaper) Write([]byte) (int, error) { return 0, errors.New("no space left") }

// TestFullStandardOutput answers where nothing can be written: a program that
// reads the answer must not take the missing part for done.
func TestFullStandardOutput(t *testing.T) {
	for _, args := range [][]string{{"fit"}, {"fit", "--json"}, {"sizes"}, {"patterns"}, {"palettes"}} {
		workbench(t)
		var stderr bytes.Buffer
		status := run(t.Context(), args, noPaper{}, &stderr)
		if status != failed || !strings.Contains(stderr.String(), "underflap: ") || !strings.Contains(stderr.String(), "no space left") {
			t.Errorf("%s: status %d, want %d; stderr %q", line(args), status, failed, stderr.String())
		}
	}
}
