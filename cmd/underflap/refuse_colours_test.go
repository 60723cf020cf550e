package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestColoursRefused gives colours, palettes and palette files that are none.
func TestColoursRefused(t *testing.T) {
	var all []refusal
	for flag, given := range map[string][]string{
		"--inks":   {"", " ", "russet", "#12345g", "#12", "12", "#b4472e,", ",", "red;blue", "rgb(1,2,3)", strings.Repeat("red,", 12) + "red", "orchard-table"},
		"--ground": {"", " ", "creamy", "#12345", "#1234567", "red, blue", "0", "transparent"},
	} {
		for _, word := range given {
			all = append(all, no(flag, "sheet", flag, word), no(flag, "swatch", flag, word), no(flag, "palettes", flag, word))
		}
	}
	all = append(all,
		no("--palette", "sheet", "--palette", "hop-garden", "--inks", "red", "--ground", "white"),
		no("--palette", "sheet", "--palette", "missing.toml"),
		no("--palette", "sheet", "--palette", "missing/hedge.gpl"),
		no("--palette", "sheet", "--palette", "./"),
		no("--palette", "sheet", "--palette", "."),
		no("--inks", "sheet", "--blank", "--inks", "red"),
		no("--ground", "sheet", "--blank", "--ground", "red"),
		no("--save-palette", "sheet", "--blank", "--save-palette", "hedge"),
		no("--inks", "swatch", "--pattern", "dots", "--inks", "red"),
		no("--ground", "swatch", "--pattern", "dots", "--ground", "red"),
		no("--palette", "swatch", "--palettes", "--palette", "hop-garden"),
		no("--inks", "swatch", "--palettes", "--inks", "red"),
		no("--pattern", "swatch", "--palettes", "--pattern", "tartan"),
		no("--paper", "swatch", "--palettes", "--paper", "100x100"),
		no("palette", "palettes", "beige"),
		no("palette", "palettes", "./missing.gpl"),
		no("--output", "palettes", "-o", "all.gpl"),
		no("--output", "palettes", "hop-garden", "-o", "hop.txt"),
		no("--output", "palettes", "hop-garden", "-o", ".gpl"),
		no("--output", "palettes", "hop-garden", "-o", "hop"),
		no("--save-palette", "palettes", "--save-palette", "hedge"),
		no("--save-palette", "sheet", "--save-palette", "hedge"),
	)
	for _, name := range []string{"hop-garden", "Hop Garden", "hedge.toml", "hedge.gpl", "../hedge", "a:b", "red, gold", "All", strings.Repeat("x", 61)} {
		all = append(all, no("--save-palette", "sheet", "--ground", "ivory", "--save-palette", name), no("--save-palette", "palettes", "hop-garden", "--save-palette", name))
	}
	checkAccepted(t, all)
	checkAll(t, []refusal{
		no("rowan", "palettes", "hop-garden", "rowan"),
		no("--inks", "sheet", "--ink", "red"),
		no("quotes", "sheet", "--ground"), // what is left of --ground #fff
		no("palette", "palettes", " "),
		no("one name", "palettes", "hop-garden", strings.Repeat("x", 300)),
		fails("missing/hop.gpl", "palettes", "hop-garden", "-o", "missing/hop.gpl"),
	})
}

// TestPaletteFilesRefused reads files that are no palettes.
func TestPaletteFilesRefused(t *testing.T) {
	files := map[string]string{
		"empty.toml": "", "empty.gpl": "", "text.toml": "harvest supper\n", "text.gpl": "harvest supper\n",
		"torn.toml": "ground = \"#fff\"\ninks = [\"#000", "torn.gpl": "GIMP Palette\n1 2 3\n4 5", "binary.gpl": "GIMP Palette\n\x00\x01\x02\n",
		"key.toml": strings.Repeat("x", 5000) + " = 1\n", "a\nb.gpl": "GIMP Palette\n", "torn\x1b[2J.gpl": "",
		"many.gpl": "GIMP Palette\n" + strings.Repeat("1 2 3\n", 256), "long.toml": "#" + strings.Repeat("x", 1<<17), "long.gpl": "GIMP Palette\n#" + strings.Repeat("x", 1<<17),
	}
	workbench(t)
	for name, content := range files {
		if err := os.WriteFile(name, []byte(content), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir("folder.gpl", 0o777); err != nil {
		t.Fatal(err)
	}
	files["folder.gpl"] = ""
	for name := range files {
		r := no("--palette", "sheet", "--palette", name)
		if a := r.check(t); !strings.Contains(a.stderr, fmt.Sprintf("%q", name)) || len(a.stderr) > 400 {
			t.Errorf("%s: %q does not name the file", line(r.args), a.stderr)
		}
		no("palette", "palettes", name).check(t)
	}
}

// TestPaletteIsNotWrittenOverItself keeps the file that is read.
func TestPaletteIsNotWrittenOverItself(t *testing.T) {
	workbench(t)
	const hedge = "GIMP Palette\n255 248 220\n180 71 46\n"
	for _, name := range []string{"hedge.gpl", "hedge.svg"} {
		if err := os.WriteFile(name, []byte(hedge), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	no("--output", "palettes", "hedge.gpl", "-o", "hedge.gpl").check(t)
	no("--output", "sheet", "--palette", "./hedge.svg", "-o", "hedge.svg").check(t)
	no("--output", "swatch", "--palette", "./hedge.svg", "-o", "hedge.svg").check(t)
	no("--output", "look", "--palettes", "hop-garden, ./hedge.svg", "-o", "hedge.svg").check(t)
	if kept := call(t, "palettes", "hop-garden", "--save-palette", "hedge"); kept.status != done {
		t.Fatal(kept.stderr)
	}
	kept, err := filepath.Glob(filepath.Join(os.Getenv("XDG_CONFIG_HOME"), "underflap", "palettes", "hedge.toml"))
	if err != nil || len(kept) != 1 {
		t.Fatal(kept, err)
	}
	no("--output", "palettes", "Hedge", "--inks", "red", "-o", kept[0]).check(t)
}
