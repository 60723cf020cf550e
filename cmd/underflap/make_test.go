package main

import (
	"bytes"
	"image/png"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"

	"underflap/liner"
	"underflap/palettes"
	"underflap/pattern"
)

// TestEveryEnvelope makes the liner of every envelope that sizes lists, with
// both flaps.
func TestEveryEnvelope(t *testing.T) {
	workbench(t)
	listed := call(t, "sizes").stdout
	rows := strings.Split(strings.TrimSpace(listed), "\n")[1:]
	if len(rows) != len(liner.Entries()) || len(rows) < 10 {
		t.Fatalf("sizes lists %d envelopes:\n%s", len(rows), listed)
	}
	seen := map[string]string{}
	for i, e := range liner.Entries() {
		if !strings.HasPrefix(rows[i], e.Trade[0]+" ") || !strings.HasSuffix(rows[i], " "+e.Name) {
			t.Errorf("row %q is not that of %s", rows[i], e.Name)
		}
		for _, flap := range []string{"pointed", "square"} {
			for _, name := range []string{e.Trade[0], e.Name} {
				svg := string(makes(t, "liners.svg", "sheet", "--envelope", name, "--flap", flap, "-o", "liners.svg"))
				if want := e.Trade[0] + " liners, " + flap + " flap"; !strings.Contains(svg, want) {
					t.Errorf("%s, %s: the title does not say %q", name, flap, want)
				}
				if other, ok := seen[svg]; ok && other != e.Name {
					t.Errorf("%s, %s: the same sheet as %s", name, flap, other)
				}
				seen[svg] = e.Name
			}
		}
	}
	if want := 2 * len(liner.Entries()); len(seen) != want {
		t.Errorf("%d different sheets, want %d: one for each envelope and flap, whichever its name", len(seen), want)
	}
}

// TestEveryPatternAndPalette makes each pattern in each palette, in each
// format, and finds the palette's ground in the file that can be read.
func TestEveryPatternAndPalette(t *testing.T) {
	workbench(t)
	mustDraw(t, "png", "acorn.png")
	seen := map[string]string{}
	for _, family := range pattern.Names() {
		for _, p := range palettes.All() {
			what := family + " in " + p.Name
			args := []string{"sheet", "--pattern", family, "--palette", p.Name}
			if family == pattern.Stamps {
				args = append(args, "--stamp", "acorn.png")
			}
			svg := string(makes(t, "liners.svg", append(args, "-o", "liners.svg")...))
			if !strings.Contains(svg, p.Ground.Hex()) {
				t.Errorf("%s: no ground %s in the SVG", what, p.Ground.Hex())
			}
			if other, ok := seen[svg]; ok {
				t.Errorf("%s: the same sheet as %s", what, other)
			}
			seen[svg] = what
			pages(t, makes(t, "liners.pdf", append(args, "-o", "liners.pdf")...), 1)
		}
		args := []string{"sheet", "--pattern", family, "--dpi", "72", "-o", "liners.png"}
		if family == pattern.Stamps {
			args = append(args, "--stamp", "acorn.png")
		}
		if _, err := png.Decode(bytes.NewReader(makes(t, "liners.png", args...))); err != nil {
			t.Errorf("%s: %v", family, err)
		}
	}
}

// pages checks how many pages a PDF has.
func pages(t *testing.T, pdf []byte, want int) {
	t.Helper()
	if n, err := pageCount(pdf); err != nil || n != want {
		t.Errorf("%d pages, want %d (%v)", n, want, err)
	}
}

func pageCount(pdf []byte) (int, error) {
	api.DisableConfigDir()
	return api.PageCount(bytes.NewReader(pdf), nil)
}

// TestEveryDesignFlagMatters draws a sheet for each word and finds another
// sheet each time.
func TestEveryDesignFlagMatters(t *testing.T) {
	workbench(t)
	mustDraw(t, "png", "acorn.png")
	stamp := []string{"--stamp", "acorn.png"}
	seen := map[string]string{}
	for _, args := range [][]string{
		{},
		{"--scale", "1.5"},
		{"--turn", "45"},
		{"--turn", "-45.5"},
		{"--seed", "1"},
		{"--seed", "2"},
		{"--repeat", "straight"},
		{"--repeat", "half-drop"},
		{"--set", "size=4mm"},
		{"--set", "size=4mm", "--set", "spacing=1/2in"},
		{"--set", "inks=1,0"},
		{"--pattern", "scallops", "--set", "rings=2"},
		{"--pattern", "stripes", "--set", "bands=6:1,2:0"},
		stamp,
		append(stamp, "--repeat", "half-drop"),
		append(stamp, "--set", "lean=30"),
		append(stamp, "--set", "lean=-30", "--repeat", "half-drop"),
		append(stamp, "--set", "size=25", "--set", "spacing=0"),
	} {
		svg := string(makes(t, "liners.svg", append([]string{"sheet", "-o", "liners.svg"}, args...)...))
		if other, ok := seen[svg]; ok {
			t.Errorf("%s: the same sheet as %s", line(args), other)
		}
		seen[svg] = line(args)
	}
	// other words for the first of them
	for _, args := range [][]string{{"--repeat", "brick"}, {"--repeat", "staggered"}, {"--set", "size=2.6"}, {"--set", "SIZE = 0.26cm"}, {"--scale", "1"}, {"--seed", "0"}, {"--turn", "0"}} {
		svg := makes(t, "liners.svg", append([]string{"sheet", "-o", "liners.svg"}, args...)...)
		if seen[string(svg)] != line(nil) {
			t.Errorf("%s: not the sheet without flags", line(args))
		}
	}
}

// TestSameLengthInOtherWords asks for one liner in millimetres, centimetres,
// inches and fractions.
func TestSameLengthInOtherWords(t *testing.T) {
	workbench(t)
	for _, same := range [][][]string{
		{{"--flap-depth", "63.5"}, {"--flap-depth", "63.5mm"}, {"--flap-depth", "6.35cm"}, {"--flap-depth", "2.5in"}, {"--flap-depth", "2 1/2in"}, {"--flap-depth", "2-1/2 in"}, {"--flap-depth", `5/2"`}, {"--flap-depth", "2.5 INCHES"}},
		{{"--paper", "304.8x304.8"}, {"--paper", "12in x 12in"}, {"--paper", "12x12in"}, {"--paper", `12"×12"`}, {"--paper", "30.48cm x 12in"}},
		{{"--pocket", "146.05x111.125", "--flap-depth", "60"}, {"--pocket", "5 3/4in x 4 3/8in", "--flap-depth", "6cm"}, {"--pocket", "5.75x4.375in", "--flap-depth", "60 mm"}},
		{{"--envelope", "No. 10"}, {"--envelope", "no10"}, {"--envelope", "#10"}, {"--envelope", "com-10"}, {"--envelope", "NA_Number-10_4.125x9.5in"}},
	} {
		var first []byte
		for i, args := range same {
			svg := makes(t, "liners.svg", append([]string{"sheet", "-o", "liners.svg"}, args...)...)
			if i == 0 {
				first = svg
			} else if !bytes.Equal(svg, first) {
				t.Errorf("%s: not the same sheet as %s", line(args), line(same[0]))
			}
		}
	}
}

var depthSaid = regexp.MustCompile(`pocket depth reduced by ([\d.]+) mm to ([\d.]+) mm`)

func number(s string) float64 {
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return math.NaN()
	}
	return v
}

// TestReducedDepth compares the line about the reduced depth with the depths
// that fit tells programs.
func TestReducedDepth(t *testing.T) {
	workbench(t)
	reduced := 0
	for _, e := range liner.Entries() {
		for _, paper := range []string{"a4", "a3", "letter", "legal"} {
			args := []string{"--envelope", e.Name, "--paper", paper}
			f, err := readContract([]byte(call(t, append([]string{"fit", "--json"}, args...)...).stdout))
			if err != nil {
				t.Fatalf("%s: %v", line(args), err)
			}
			stderr := call(t, append([]string{"sheet", "-o", "liners.svg"}, args...)...).stderr
			said := depthSaid.FindAllStringSubmatch(stderr, -1)
			short := f.FullPocketDepth - f.PocketDepth
			if short <= 0.005 {
				if len(said) != 0 {
					t.Errorf("%s: nothing is reduced, and stderr is %q", line(args), stderr)
				}
				continue
			}
			reduced++
			if len(said) != 1 || math.Abs(number(said[0][1])-short) > 0.051 || math.Abs(number(said[0][2])-f.PocketDepth) > 0.051 {
				t.Errorf("%s: stderr %q, and the depth is reduced by %.1f mm to %.1f mm", line(args), stderr, short, f.PocketDepth)
			}
		}
	}
	if reduced < 5 {
		t.Errorf("only %d of the cases are reduced", reduced)
	}
}

// TestShallowPocketDepthIsWarnedOf asks for less than half the pocket: it is
// done, and said.
func TestShallowPocketDepthIsWarnedOf(t *testing.T) {
	workbench(t)
	for _, depth := range []string{"20", "56"} {
		a := call(t, "sheet", "--pocket-depth", depth)
		if a.status != done || strings.Count(a.stderr, "\n") != 1 || !strings.Contains(a.stderr, "half") {
			t.Errorf("--pocket-depth %s of a pocket 114 mm high: status %d, stderr %q has no warning", depth, a.status, a.stderr)
		}
	}
	if a := call(t, "sheet", "--pocket-depth", "58"); a.status != done || strings.Contains(a.stderr, "half") {
		t.Errorf("--pocket-depth 58: status %d, stderr %q", a.status, a.stderr)
	}
}

// TestStampOnEverySheet makes odd numbers of liners, so that the last sheet is
// another one: each must find its picture. A reference to object 0 is one to
// nothing (ISO 32000-1, 7.3.10), and a viewer leaves the stamps out.
func TestStampOnEverySheet(t *testing.T) {
	workbench(t)
	mustDraw(t, "png", "acorn.png")
	mustDraw(t, "jpeg", "acorn.jpg")
	nothing := regexp.MustCompile(`/\w+ 0 0 R`)
	for _, art := range []string{"acorn.png", "acorn.jpg"} {
		for range 8 { // the library's order is another one on each run
			pdf := makes(t, "liners.pdf", "sheet", "--stamp", art, "--count", "3")
			pages(t, pdf, 2)
			if lost := nothing.Find(pdf); lost != nil {
				t.Fatalf("%s: a sheet points to a picture that is not in the file: %s", art, lost)
			}
		}
	}
}
