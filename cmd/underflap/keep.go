package main

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"underflap/liner/request"
	"underflap/palettes"
	"underflap/pattern/words"
)

// mayKeep refuses the name of an envelope to save before any work is done.
func mayKeep(w request.Words, envelope string) error {
	if envelope == "" {
		return nil
	}
	_, _, err := w.Shelf.MaySave(envelope)
	return err
}

// reads refuses an output that is one of the files read.
func reads(output string, files []request.Input) error {
	if why := taken(output, "", files); why != "" {
		return &words.Refused{Field: "output", Given: output, Why: why, Accepts: "another file name"}
	}
	return nil
}

// taken says what a file to write is already: one of those that are read, or the
// output; "" when it is none of them.
func taken(path, output string, files []request.Input) string {
	for _, in := range files {
		if in.Path != "" && same(in.Path, path) {
			return "is the " + in.What + " itself"
		}
	}
	if output != "" && (same(output, path) || filepath.Clean(output) == filepath.Clean(path)) {
		return "is the output as well"
	}
	return ""
}

// same tells whether two names are of one file that exists.
func same(a, b string) bool {
	first, errA := os.Stat(a)
	second, errB := os.Stat(b)
	return errA == nil && errB == nil && os.SameFile(first, second)
}

// keep puts on the shelf what the person asked to be kept: the envelope under a
// name, and corrections given together with a printer's name.
func keep(cmd *cobra.Command, w request.Words, found request.Found, envelope string, c request.Correction) error {
	if envelope != "" {
		_, again, err := w.Shelf.MaySave(envelope)
		if err != nil {
			return err
		}
		path, err := w.Shelf.SaveEnvelope(cmd.Context(), envelope, found.Envelope)
		if err != nil {
			return work(err)
		}
		saved(cmd, envelope, again, path)
	}
	if w.Printer != "" && (w.CorrectX != "" || w.CorrectY != "") {
		path, err := w.Shelf.SavePrinter(cmd.Context(), w.Printer, c)
		if err != nil {
			return work(err)
		}
		remark(cmd, []string{fmt.Sprintf("saved the corrections of %s in %s", w.Printer, path)})
	}
	return nil
}

// mayKeepPalette refuses the name of a palette to save before any work is done.
func mayKeepPalette(w request.Words, palette string) error {
	if palette == "" {
		return nil
	}
	if w.Blank {
		return &words.Refused{Field: "save-palette", Given: palette, Why: "a blank sheet has no colours", Accepts: "without --blank"}
	}
	if w.Palette+w.Inks+w.Ground == "" { // else the usual one would take the place of one kept by that name
		return &words.Refused{Field: "save-palette", Given: palette, Why: "no colours are named", Accepts: "with --palette, --inks or --ground; --palette " + palette + " uses colours kept before"}
	}
	_, _, err := w.Shelf.MaySavePalette(palette)
	return err
}

// keepPalette puts colours on the shelf under a name.
func keepPalette(cmd *cobra.Command, shelf request.Shelf, name string, p palettes.Palette) error {
	if name == "" {
		return nil
	}
	_, again, err := shelf.MaySavePalette(name)
	if err != nil {
		return err
	}
	path, err := shelf.SavePalette(cmd.Context(), name, p)
	if err != nil {
		return work(err)
	}
	saved(cmd, name, again, path)
	return nil
}

// saved says what was put where, and whether in place of something.
func saved(cmd *cobra.Command, name string, again bool, path string) {
	what := "saved " + name
	if again {
		what += " in place of the one before,"
	}
	remark(cmd, []string{what + " in " + path})
}
