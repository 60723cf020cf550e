package request

import (
	"context"
	"fmt"
	"strings"

	"underflap/liner"
	"underflap/liner/handmade/template"
	"underflap/liner/look"
	"underflap/liner/ruler"
	"underflap/liner/sheet"
	"underflap/pattern/draw"
)

// Fold is a request for the template of an envelope folded by hand.
type Fold struct {
	Found         Found
	Paper         liner.Paper
	PrinterMargin float64
	Correction    Correction
}

// ResolveFold settles the envelope and the paper its template is printed on.
func ResolveFold(w Words) (f Fold, err error) {
	if f.Found, err = ResolveEnvelope(w); err != nil {
		return f, err
	}
	if f.Paper, f.PrinterMargin, err = resolvePaper(w); err != nil {
		return f, err
	}
	if f.Correction, err = resolveCorrection(w); err != nil {
		return f, err
	}
	var said []string
	f.PrinterMargin, said = f.Correction.margin(f.Paper, f.PrinterMargin)
	f.Found.Remarks = append(f.Found.Remarks, said...)
	return f, nil
}

// Template draws the template's pages.
func (f Fold) Template() ([]*draw.Page, error) {
	pages, err := template.Pages(*f.Found.Blank, f.Paper, f.PrinterMargin)
	return f.Correction.Apply(pages), err
}

// Ruler is a request for the page that checks a printer's scale.
type Ruler struct {
	Paper         liner.Paper
	PrinterMargin float64
	Correction    Correction
	Remarks       []string
}

// ResolveRuler settles the paper and what is known of the printer.
func ResolveRuler(w Words) (r Ruler, err error) {
	if r.Paper, r.PrinterMargin, err = resolvePaper(w); err != nil {
		return r, err
	}
	if r.Correction, err = resolveCorrection(w); err != nil {
		return r, err
	}
	r.PrinterMargin, r.Remarks = r.Correction.margin(r.Paper, r.PrinterMargin)
	return r, nil
}

// Page draws the ruler's page.
func (r Ruler) Page() ([]*draw.Page, error) {
	page, err := ruler.Page(r.Paper, r.PrinterMargin, r.Correction.Text())
	if err != nil {
		return nil, err
	}
	return r.Correction.Apply([]*draw.Page{page}), nil
}

func resolvePaper(w Words) (paper liner.Paper, margin float64, err error) {
	if paper, err = liner.ParsePaper("paper", or(w.Paper, DefaultPaper)); err != nil {
		return paper, 0, err
	}
	var r reader
	margin = r.length("printer-margin", w.PrinterMargin, sheet.UsualPrinterMargin, 0, 100)
	return paper, margin, r.err
}

// WriteAll writes every page: a PDF holds them all, a PNG or SVG one each, so
// that more become files with numbers. It returns the names written.
func (o Output) WriteAll(ctx context.Context, pages []*draw.Page) (names []string, err error) {
	if o.Format == "pdf" || len(pages) == 1 {
		return []string{o.Path}, o.Write(ctx, pages)
	}
	ending := "." + o.Format
	stem := o.Path[:len(o.Path)-len(ending)]
	for i, page := range pages {
		one := o
		one.Path = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(stem, "-"), i+1, o.Path[len(stem):])
		if err := one.Write(ctx, []*draw.Page{page}); err != nil {
			return names, err
		}
		names = append(names, one.Path)
	}
	return names, nil
}

// Explain draws the labelled picture of an envelope and its liner: every
// measurement, or the three to take with a ruler.
func Explain(l liner.Liner, three bool) []*draw.Page {
	extent := look.All
	if three {
		extent = look.Three
	}
	page, _ := look.Explain(l, extent)
	return []*draw.Page{page}
}

// Letters draws an envelope with the letters of its three measurements and nothing
// else, close and large, for a page that says beside it what they are.
func Letters(l liner.Liner) []*draw.Page {
	page, _ := look.Explain(l, look.Letters)
	return []*draw.Page{page}
}

// Steps draws how a liner is made and put into its envelope.
func Steps(l liner.Liner) []*draw.Page { return []*draw.Page{look.Steps(l)} }

// Troubles draws what goes wrong with a liner, beside how it should be.
func Troubles(l liner.Liner) []*draw.Page { return []*draw.Page{look.Troubles(l)} }
