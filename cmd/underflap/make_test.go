package main

import (
	"bytes"
	"image/png"
	"regexp"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"

	"underflap/palettes"
	"underflap/pattern"
)

// TestEveryPatternAndPalette makes each pattern in a few palettes, until each
// palette has dressed several patterns, in each format, and finds the palette's
// ground in the file that can be read.
func TestEveryPatternAndPalette(t *testing.T) {
	workbench(t)
	mustDraw(t, "png", "acorn.png")
	seen := map[string]string{}
	for i, family := range pattern.Names() {
		for j, p := range palettes.All() {
			if (i+j)%5 != 0 { // all would take a minute
				continue
			}
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
	mustDraw(t, "photo", "photo.jpg")
	mustDraw(t, "svg", "acorn.svg")
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
		{"--palette", "rowan-jelly"},
		{"--inks", "navy"},
		{"--inks", "navy", "--palette", "rowan-jelly"},
		{"--ground", "navy"},
		{"--ground", "navy", "--palette", "rowan-jelly"},
		{"--pattern", "scallops", "--set", "rings=2"},
		{"--pattern", "stripes", "--set", "bands=6:1,2:0"},
		stamp,
		append(stamp, "--repeat", "half-drop"),
		append(stamp, "--set", "lean=30"),
		append(stamp, "--set", "lean=-30", "--repeat", "half-drop"),
		append(stamp, "--set", "size=25", "--set", "spacing=0"),
		append(stamp, "--stamp-colour", "keep"),
		append(stamp, "--stamp-colour", "ink"),
		{"--stamp", "photo.jpg"},
		{"--stamp", "photo.jpg", "--stamp-colour", "2"},
		{"--stamp", "photo.jpg", "--stamp-colour", "keep"},
		{"--stamp", "photo.jpg", "--stamp-trace"},
		{"--stamp", "acorn.svg"},
		{"--stamp", "acorn.svg", "--stamp-colour", "1"},
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
		{{"--paper", "279.4x304.8"}, {"--paper", "11in x 12in"}, {"--paper", "11x12in"}, {"--paper", `11"×12"`}, {"--paper", "27.94cm x 12in"}},
		{{"--card", "a6"}, {"--card", "A6"}, {"--card", "iso_a6_105x148mm"}, {"--card", "148x105"}, {"--card", "105x148"}, {"--card", "10.5 x 14.8 cm"}},
		{{"--card", "a6", "--room", "4"}, {"--card", "a6", "--room", "4mm"}, {"--card", "a6", "--room", "4x4"}, {"--card", "a6", "--room", "0.4 × 0.4cm"}},
		{{"--correct-x", "98.7"}, {"--correct-x", "100/98.7"}, {"--correct-x", "98.7mm"}, {"--correct-x", "9.87cm"}},
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
