package main

import (
	"strings"
	"testing"
)

// TestWishesRefused wishes for palettes that cannot be derived.
func TestWishesRefused(t *testing.T) {
	var all []refusal
	for _, wish := range []string{
		"complement:", "complement:bluish", "complement:#12345", "complement:#c0572f,#ffffff", "neighbours: ", "triad:kraft", "tints:\n",
		"tints:#c0572f #aabbcc", "envelope:", "envelope:oak", "envelope:#kraft", "photo:", "photo: ", "complements:#c0572f", "c:#c0572f", ":#c0572f", "tints",
	} {
		all = append(all, no("--palette", "sheet", "--palette", wish), no("--palette", "swatch", "--palette", wish))
	}
	checkAccepted(t, all)
}

// TestPhotosRefused takes colours from files that are no photo, in each command.
func TestPhotosRefused(t *testing.T) {
	artBench(t)
	for _, file := range []string{
		"missing.png", "folder.png", "empty.png", "text.png", "torn-png.png", "torn-jpeg.png", "giant-png.png", "narrow-png.png", "gif.png",
		"svg.png", "torn-svg.png", "missing/card.png", "text.png/card.png", ".", "new\nline.png",
	} {
		for _, r := range []refusal{
			no("--palette", "sheet", "--palette", "photo:"+file),
			no("--palette", "swatch", "--palette", "photo:"+file, "-o", "swatch.svg"),
			no("palette", "palettes", "photo:"+file, "-o", "card.gpl"),
		} {
			a := r.check(t)
			if !strings.Contains(a.stderr, "accepted: a PNG, JPEG, WebP or TIFF file") {
				t.Errorf("%s: %q does not say what would be accepted", line(r.args), a.stderr)
			}
			if !strings.Contains(file, "\n") && !strings.Contains(a.stderr, `"`+file+`"`) {
				t.Errorf("%s: %q does not name the file", line(r.args), a.stderr)
			}
		}
	}
	if a := no("--palette", "sheet", "--palette", "photo:giant-png.png").check(t); !strings.Contains(a.stderr, "60000 by 60000") {
		t.Errorf("stderr %q does not give the size", a.stderr)
	}
}

// TestThePhotoIsNotWrittenOver takes colours from the file to be written.
func TestThePhotoIsNotWrittenOver(t *testing.T) {
	workbench(t)
	mustDraw(t, "png", "card.png")
	mustDraw(t, "png", "card.toml")
	no("--output", "sheet", "--palette", "photo:card.png", "-o", "card.png").check(t)
	no("--output", "sheet", "--palette", "Photo: ./card.png", "-o", "card.png").check(t)
	no("--output", "swatch", "--palette", "photo:card.png", "-o", "./card.png").check(t)
	no("--output", "palettes", "photo:card.toml", "-o", "card.toml").check(t)
	no("--save-palette", "palettes", "tints:navy", "--save-palette", "tints:navy").check(t)
}
