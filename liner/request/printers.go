package request

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"underflap/liner"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Correction is how much larger to draw, across and down the page, for a
// printer that rescales.
type Correction struct{ X, Y float64 }

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

// Text says what the correction does, "" when it does nothing.
func (c Correction) Text() string {
	along := func(k float64, more, less string) string {
		switch percent := 100 * (k - 1); {
		case percent > 0.005:
			return fmt.Sprintf("%.1f %% %s", percent, more)
		case percent < -0.005:
			return fmt.Sprintf("%.1f %% %s", -percent, less)
		}
		return ""
	}
	x, y := along(c.X, "wider", "narrower"), along(c.Y, "taller", "lower")
	if x != "" && y != "" {
		x += " and "
	}
	return x + y
}

// margin is the printer margin, in millimetres, inside which everything is still
// on the page once it is stretched, and what is to be said of it, a line each.
func (c Correction) margin(paper liner.Paper, wanted float64) (margin float64, said []string) {
	if text := c.Text(); text != "" {
		said = append(said, "drawn "+text+" for the printer")
	}
	margin = max(wanted, paper.Width/2*(1-1/c.X), paper.Height/2*(1-1/c.Y))
	if margin > wanted+0.005 {
		said = append(said, fmt.Sprintf("printer margin widened from %s to %s, so that nothing stretched is lost at the paper's edge", words.MM(wanted), words.MM(margin)))
	}
	return margin, said
}

// resolveCorrection takes what is given and, where nothing is, what is kept
// for the printer.
func resolveCorrection(w Words) (Correction, error) {
	c := Correction{X: 1, Y: 1}
	var err error
	switch anew := w.CorrectX != "" && w.CorrectY != ""; {
	case w.Printer == "":
	case anew: // what is kept does not matter, and may be spoilt
		_, err = w.Shelf.file(printerFolder, "printer", w.Printer)
	default:
		c, err = w.Shelf.printer(w.Printer)
		var unread *fs.PathError
		switch {
		case errors.As(err, &unread) && w.CorrectX+w.CorrectY != "": // there is nothing to go by
			c, err = Correction{X: 1, Y: 1}, nil
		case errors.Is(err, fs.ErrNotExist):
			err = &words.Refused{Field: "printer", Given: w.Printer, Why: "nothing is kept for it yet",
				Accepts: "with --correct-x and --correct-y once, as underflap ruler explains"}
		}
	}
	if err != nil {
		return c, err
	}
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
	path, err := s.file(printerFolder, "printer", name)
	if err != nil {
		return Correction{}, err
	}
	var k keptPrinter
	var unread *fs.PathError
	if err := s.read(path, &k); errors.As(err, &unread) {
		return Correction{}, err
	} else if err != nil {
		return Correction{}, &words.Refused{Field: "printer", Given: name, Why: err.Error()}
	}
	c, err := resolveCorrection(Words{CorrectX: text(k.X), CorrectY: text(k.Y)})
	if err != nil {
		return c, &words.Refused{Field: "printer", Given: name, Why: path + ": " + err.Error()}
	}
	return c, nil
}

// Printers names the printers that are kept, in order.
func (s Shelf) Printers() (names []string) {
	paths, _ := s.files(printerFolder) // a folder that cannot be read offers nothing
	for _, path := range paths {
		names = append(names, strings.TrimSuffix(filepath.Base(path), ".toml"))
	}
	return names
}

// keptPrinter is a correction as its file says it, in the words of the flags:
// the factor, what the 100 mm rule measured, or a ratio in quotes.
type keptPrinter struct {
	X any `toml:"correct-x"`
	Y any `toml:"correct-y"`
}

// SavePrinter keeps a printer's correction under its name and says in which
// file.
func (s Shelf) SavePrinter(ctx context.Context, name string, c Correction) (path string, err error) {
	if path, err = s.file(printerFolder, "printer", name); err != nil {
		return "", err
	}
	return path, s.keep(ctx, path, "A printer's correction, saved by underflap: how much larger to draw, across and down the page.", keptPrinter{c.X, c.Y})
}
