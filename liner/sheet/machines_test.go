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

// TestTheSameNumbersOnOtherMachines builds this test for another processor: every
// length, unrounded, is ours to 1e-9 mm. Linux on amd64 runs programs for 386;
// UNDERFLAP_ARM64 may name an emulator for arm64, which rounds x*y + z once: a place
// where two edges just touch is the root of next to nothing, and moves by up to 1e-6.
func TestTheSameNumbersOnOtherMachines(t *testing.T) {
	if runtime.GOOS != "linux" || runtime.GOARCH != "amd64" {
		t.Skip("compares with linux on amd64")
	}
	emulators, within := map[string][]string{"386": nil}, map[string]float64{"386": 1e-9, "arm64": 1e-6}
	if e := os.Getenv("UNDERFLAP_ARM64"); e != "" {
		emulators["arm64"] = []string{e}
	}
	var ours bytes.Buffer
	if err := numbers(&ours); err != nil {
		t.Fatal(err)
	}
	for arch, run := range emulators {
		dir := t.TempDir()
		program, file := filepath.Join(dir, "sheet.test"), filepath.Join(dir, "numbers")
		build := exec.Command("go", "test", "-c", "-o", program, ".")
		build.Env = append(os.Environ(), "GOARCH="+arch, "CGO_ENABLED=0")
		if out, err := build.CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		run = append(run, program, "-test.run", "^TestNumbers$")
		c := exec.Command(run[0], run[1:]...)
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
				t.Fatalf("%s: ends before %q", arch, a.Text())
			}
			off := asFar(a.Text(), b.Text())
			if worst = max(worst, off); off > within[arch] {
				t.Fatalf("%s: %q, and here %q", arch, b.Text(), a.Text())
			}
			n++
		}
		if b.Scan() || n < 10_000 {
			t.Errorf("%s: %d lines here, and then %q", arch, n, b.Text())
		}
		t.Logf("%s: %d numbers, at most %g apart", arch, n, worst)
	}
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
