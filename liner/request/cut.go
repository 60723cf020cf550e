package request

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"underflap/liner/cutfile"
	"underflap/liner/sheet"
	"underflap/pattern/words"
)

// CutFile is a file of cut lines for a cutting machine to make.
type CutFile struct{ Path, Format string }

// ResolveCutFile reads the format from a file's ending. It refuses a folder, and a
// folder that is not there; "" gives none.
func ResolveCutFile(path string) (c CutFile, err error) {
	if path == "" {
		return c, nil
	}
	const accepts = "a file name that ends in .dxf or .svg"
	refused := typed{"cut-file", path}.refused
	ending := filepath.Ext(path)
	c = CutFile{Path: path, Format: strings.ToLower(strings.TrimPrefix(ending, "."))}
	if !slices.Contains(cutfile.Formats, c.Format) || len(filepath.Base(path)) == len(ending) {
		return c, refused("", accepts)
	}
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return c, refused("is a folder", accepts)
	}
	if _, err := os.Stat(filepath.Dir(path)); err != nil {
		return c, refused("no such folder", "a file name in a folder that is there")
	}
	return c, nil
}

// Write writes what is to be cut of a plan's full sheet, true to size whatever the
// printer does; see Save.
func (c CutFile) Write(ctx context.Context, p sheet.Plan) error {
	return Save(ctx, c.Path, func(w io.Writer) error { return cutfile.Of(p).Write(w, c.Format) })
}

// Remarks says what a person should know of the file, a line each. Printed tells
// that it goes with a printed sheet.
func (c CutFile) Remarks(p sheet.Plan, by Correction, printed bool) (lines []string) {
	if by.Text() != "" {
		lines = append(lines, "the lines in "+c.Path+" are not stretched for the printer: the machine cuts true")
	}
	if left := p.OnSheet(p.Sheets - 1); left < p.PerSheet() {
		lines = append(lines, fmt.Sprintf("%s is of a full sheet: the last sheet carries %d of %d, and the other lines cut bare paper", c.Path, left, p.PerSheet()))
	}
	if past := cutfile.Of(p).Past(); past > 0.005 {
		lines = append(lines, fmt.Sprintf("in %s a cut line lies up to %s past the sheet's edge, where the machine would cut its mat", c.Path, words.MM(past)))
	}
	if printed && !p.Registration.Any() {
		lines = append(lines, "the sheet has no marks to line "+c.Path+" up by; --registration all prints them")
	}
	return lines
}
