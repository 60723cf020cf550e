package sheet

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
)

// numbers writes every length of a plan of every envelope, unrounded, a line each:
// the cut lines as they lie on A3 in both layouts, with their bleeds.
func numbers(to io.Writer) error {
	paper, err := liner.ParsePaper("paper", "a3")
	if err != nil {
		return err
	}
	for i, name := range liner.EnvelopeNames() {
		found, err := liner.LookUp(name)
		if err != nil {
			return err
		}
		env := found.Envelope("")
		l, err := liner.New(env, liner.Clearances{SideGap: liner.DefaultSideGap, GumClearance: liner.DefaultGumClearance, Border: liner.UngummedBorder, CornerRadius: liner.UsualCornerRadius(env)})
		if err != nil {
			return err
		}
		p, err := Arrange(Task{Liner: l, Paper: paper, PrinterMargin: UsualPrinterMargin, Bleed: 2, Gap: 4, Layout: Layouts[i%2], PerSheet: []int{0, 1, Most}[i%3]})
		if err != nil { // too large for the paper
			fmt.Fprintln(to, name, "refused")
			continue
		}
		fmt.Fprintln(to, name, "depth", p.Depth)
		for _, pl := range p.Placements {
			for _, c := range []geom.Contour{p.CutLine(pl), pl.OnPage(p.Pieces[0].Outline.Bleed(2))} {
				for _, s := range c {
					fmt.Fprintln(to, name, "to", s.B.X)
					fmt.Fprintln(to, name, "to", s.B.Y)
					fmt.Fprintln(to, name, "radius", s.R)
				}
			}
		}
	}
	return nil
}

// TestNumbers writes the numbers for another machine's test to read.
func TestNumbers(t *testing.T) {
	file := os.Getenv("UNDERFLAP_NUMBERS")
	if file == "" {
		t.Skip("TestTheSameNumbersOnOtherMachines asks for it")
	}
	f, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := numbers(f); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}

// TestTheSameNumbersOnOtherMachines builds this test for 386, whose programs linux on
// amd64 runs: every length, unrounded, is ours to 1e-9 mm.
func TestTheSameNumbersOnOtherMachines(t *testing.T) {
	if runtime.GOOS != "linux" || runtime.GOARCH != "amd64" {
		t.Skip("compares with linux on amd64")
	}
	var ours bytes.Buffer
	if err := numbers(&ours); err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	program, file := filepath.Join(dir, "sheet.test"), filepath.Join(dir, "numbers")
	build := exec.Command("go", "test", "-c", "-o", program, ".")
	build.Env = append(os.Environ(), "GOARCH=386", "CGO_ENABLED=0")
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	c := exec.Command(program, "-test.run", "^TestNumbers$")
	c.Env = append(os.Environ(), "UNDERFLAP_NUMBERS="+file)
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	theirs, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	a, b := bufio.NewScanner(bytes.NewReader(ours.Bytes())), bufio.NewScanner(bytes.NewReader(theirs))
	n, worst := 0, 0.0
	for a.Scan() {
		if !b.Scan() {
			t.Fatalf("386: ends before %q", a.Text())
		}
		off := asFar(a.Text(), b.Text())
		if worst = max(worst, off); off > 1e-9 {
			t.Fatalf("386: %q, and here %q", b.Text(), a.Text())
		}
		n++
	}
	if b.Scan() || n < 10_000 {
		t.Errorf("386: %d lines here, and then %q", n, b.Text())
	}
	t.Logf("%d numbers, at most %g apart", n, worst)
}

// asFar is how far the numbers at the ends of two lines are apart; infinitely,
// where the words before them are others.
func asFar(a, b string) float64 {
	i, j := bytes.LastIndexByte([]byte(a), ' '), bytes.LastIndexByte([]byte(b), ' ')
	x, errX := strconv.ParseFloat(a[i+1:], 64)
	y, errY := strconv.ParseFloat(b[j+1:], 64)
	switch {
	case a == b:
		return 0
	case errX != nil || errY != nil || a[:i] != b[:j]:
		return math.Inf(1)
	}
	return math.Abs(x - y)
}
