package request

import (
	"context"
	"errors"
	"fmt"
	"io/fs"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Correction is how much larger to draw, across and down the page, for a
// printer that rescales.
type Correction struct {
	X float64 `toml:"correct-x"`
	Y float64 `toml:"correct-y"`
}

// Apply stretches pages for the printer. A page that comes again stays one page.
func (c Correction) Apply(pages []*draw.Page) []*draw.Page {
	if c.X == 1 && c.Y == 1 {
		return pages
	}
	done := map[*draw.Page]*draw.Page{}
	out := make([]*draw.Page, len(pages))
	for i, p := range pages {
		if done[p] == nil {
			done[p] = p.Corrected(c.X, c.Y)
		}
		out[i] = done[p]
	}
	return out
}

// resolveCorrection takes what is given and, where nothing is, what is kept
// for the printer.
func resolveCorrection(w Words) (Correction, error) {
	c := Correction{X: 1, Y: 1}
	if w.Printer != "" {
		known, err := w.Shelf.printer(w.Printer)
		switch {
		case errors.Is(err, fs.ErrNotExist) && w.CorrectX == "" && w.CorrectY == "":
			return c, &words.Refused{Field: "printer", Given: w.Printer, Why: "nothing is kept for it yet",
				Accepts: "with --correct-x and --correct-y once, as underflap ruler explains"}
		case err != nil && !errors.Is(err, fs.ErrNotExist):
			return c, err
		case err == nil:
			c = known
		}
	}
	var err error
	if w.CorrectX != "" {
		if c.X, err = words.Correction("correct-x", w.CorrectX); err != nil {
			return c, err
		}
	}
	if w.CorrectY != "" {
		c.Y, err = words.Correction("correct-y", w.CorrectY)
	}
	return c, err
}

func (s Shelf) printer(name string) (Correction, error) {
	c := Correction{X: 1, Y: 1}
	path, err := s.file(printerFolder, "printer", name)
	if err == nil {
		err = s.read(path, &c)
	}
	if err != nil {
		return c, err
	}
	for field, k := range map[string]float64{"correct-x": c.X, "correct-y": c.Y} {
		if _, err := words.Correction(field, fmt.Sprintf("%g/1", k)); err != nil {
			return c, fmt.Errorf("%s: %w", path, err)
		}
	}
	return c, nil
}

// SavePrinter keeps a printer's correction under its name and says in which
// file.
func (s Shelf) SavePrinter(ctx context.Context, name string, c Correction) (path string, err error) {
	if path, err = s.file(printerFolder, "printer", name); err != nil {
		return "", err
	}
	return path, s.keep(ctx, path, "A printer's correction, saved by underflap: how much larger to draw, across and down the page.", c)
}
