package main

import (
	"os"
	"strings"
	"testing"
)

// TestStampsRefused stamps with files that are no art.
func TestStampsRefused(t *testing.T) {
	for _, output := range []string{"liners.pdf", "liners.png", "liners.svg"} {
		t.Run(output, func(t *testing.T) {
			artBench(t)
			for _, file := range []string{
				"missing.png", "folder.png", "empty.png", "text.png", "torn-png.png", "torn-jpeg.png", "giant-png.png", "narrow-png.png",
				"gif.png", "svg-text.png", "torn-svg.png", "missing/acorn.png", "text.png/acorn.png", ".", "new\nline.png",
			} {
				r := no("--stamp", "sheet", "--stamp", file, "-o", output)
				a := r.check(t)
				if a.status != wrong {
					continue
				}
				if !strings.Contains(a.stderr, "accepted: a PNG, JPEG, WebP, TIFF or SVG file") {
					t.Errorf("%s: %q does not say what would be accepted", line(r.args), a.stderr)
				}
				if !strings.Contains(file, "\n") && !strings.Contains(a.stderr, `"`+file+`"`) {
					t.Errorf("%s: %q does not name the file", line(r.args), a.stderr)
				}
			}
			no("--stamp", "sheet", "--pattern", "stamps", "-o", output).check(t)
			no("--stamp", "sheet", "--stamp", "png.png", "--pattern", "dots", "-o", output).check(t)
			no("--stamp", "sheet", "--stamp", "png.png", "--pattern", "tartan", "-o", output).check(t)
			no("--stamp-colour", "sheet", "--stamp-colour", "ink", "-o", output).check(t)
			no("--stamp-trace", "sheet", "--stamp-trace", "-o", output).check(t)
			no("--stamp-trace", "sheet", "--stamp", "photo.png", "--stamp-trace", "--stamp-colour", "keep", "-o", output).check(t)
			no("--stamp-trace", "sheet", "--blank", "--stamp-trace", "-o", output).check(t)
			for _, colour := range []string{"", "0", "13", "-1", "1.5", "red", "#c33", "keep,1"} {
				no("--stamp-colour", "sheet", "--stamp", "photo.png", "--stamp-colour", colour, "-o", output).check(t)
			}
			no("--set size", "sheet", "--stamp", "png.png", "--set", "size=1", "-o", output).check(t)
			no("--set lean", "sheet", "--stamp", "png.png", "--set", "lean=400", "-o", output).check(t)
			no("--set spacing", "sheet", "--stamp", "png.png", "--set", "spacing=-1", "-o", output).check(t)
		})
	}
}

// TestGiantIsTurnedDownBySize makes sure that the giant is refused for the
// pixels it promises and not for the pixels it lacks.
func TestGiantIsTurnedDownBySize(t *testing.T) {
	workbench(t)
	mustDraw(t, "giant-png", "giant.png")
	if a := no("--stamp", "sheet", "--stamp", "giant.png").check(t); !strings.Contains(a.stderr, "60000 by 60000") {
		t.Errorf("stderr %q does not give the size", a.stderr)
	}
}

func TestOutputsRefused(t *testing.T) {
	workbench(t)
	if err := os.MkdirAll("kept.pdf/inside", 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile("file.txt", []byte("harvest supper\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, r := range []refusal{
		no("--output", "sheet", "-o", ""),
		no("--output", "sheet", "-o", " "),
		no("--output", "sheet", "-o", "liners"),
		no("--output", "sheet", "-o", "liners."),
		no("--output", "sheet", "-o", "liners.docx"),
		no("--output", "sheet", "-o", "liners.jpg"),
		no("--output", "sheet", "-o", "liners.pdf.gz"),
		no("--output", "sheet", "-o", ".pdf"),
		no("--output", "sheet", "-o", "."),
		no("--output", "sheet", "-o", "kept.pdf"),
		no("--output", "sheet", "-o", "kept.pdf/"),
		no("--output", "sheet", "--output=kept.pdf/inside"),
		fails("missing/liners.pdf", "sheet", "-o", "missing/liners.pdf"),
		fails("missing/liners.png", "sheet", "-o", "missing/liners.png", "--dpi", "1200"),
		fails("missing/liners.svg", "sheet", "-o", "missing/liners.svg"),
		fails("file.txt/liners.pdf", "sheet", "-o", "file.txt/liners.pdf"),
		fails("file.txt/liners.png", "sheet", "-o", "file.txt/liners.png"),
		fails("file.txt/liners.svg", "sheet", "-o", "file.txt/liners.svg"),
	} {
		t.Run(strings.ReplaceAll(line(r.args), "/", "∕"), func(t *testing.T) { r.check(t) })
	}
}

// TestOutputIsLookedAtFirst refuses a target that cannot be before anything
// slow is done, whatever else is asked for.
func TestOutputIsLookedAtFirst(t *testing.T) {
	workbench(t)
	no("--output", "sheet", "-o", "liners.docx", "--stamp", "missing.png").check(t)
}

func TestSourceDateRefused(t *testing.T) {
	for _, word := range []string{"soon", "-1", "1.5", "1e9", "99999999999999999999", "253402300800", "2026-09-22", " "} {
		t.Run(word, func(t *testing.T) {
			workbench(t)
			t.Setenv("SOURCE_DATE_EPOCH", word)
			fails("SOURCE_DATE_EPOCH", "sheet").check(t)
			if err := os.WriteFile("liners.pdf", []byte("the old one"), 0o666); err != nil {
				t.Fatal(err)
			}
			fails("SOURCE_DATE_EPOCH", "sheet").check(t) // the old target stays as it is
		})
	}
}
