package sheet

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"underflap/pattern"
	"underflap/pattern/draw"
)

// marginColour is the colour of marks and notes, a grey that takes black ink
// alone. Where a mark lies on artwork a
// wider light line runs under it, so that it shows on every ink; that line is
// part of the artwork, which leaves one path a piece on the cut layer.
var marginColour, underMark = draw.Colour{R: 57, G: 57, B: 57}, draw.Colour{R: 252, G: 252, B: 252}

const (
	cutLineWidth = 0.15
	underWidth   = 0.12 // on each side of a mark
)

// Title names a sheet of liners in words.
func (p Plan) Title(design string) string {
	if p.mixed() {
		return fmt.Sprintf("%s, %s, on %s", p.kinds(), design, p.Paper.Short)
	}
	return fmt.Sprintf("%s liners, %s flap, %s, on %s", p.Liner.Envelope.Short, p.Liner.Envelope.Flap.Shape, design, p.Paper.Short)
}

// Draw draws every sheet of a settled plan, full being the marks of a full
// sheet. Sheets that are alike are one page, named as often as it is wanted.
// When ctx ends it stops and gives the context's error.
func Draw(ctx context.Context, p Plan, full Marks, d pattern.Design) ([]*draw.Page, error) {
	design := "to trace"
	if !p.Blank {
		design = DesignTitle(d)
	}
	made := map[int]*draw.Page{}
	var pages []*draw.Page
	for i := range p.Sheets {
		n := p.OnSheet(i)
		if made[n] == nil {
			one, marks := p, full
			if n < p.PerSheet() {
				one = p.Part(n)
				marks = Mark(one)
			}
			page, err := DrawSheet(ctx, one, marks, slices.Repeat([]pattern.Design{d}, n))
			if err != nil {
				return nil, err
			}
			made[n] = page
			made[n].Title = p.Title(design)
		}
		pages = append(pages, made[n])
	}
	return pages, ctx.Err()
}

// DesignTitle names a design in words.
func DesignTitle(d pattern.Design) string {
	return d.Name + " in " + strings.ReplaceAll(d.Colours.Name, "-", " ")
}

// DrawSheet draws one sheet with all placements of a settled plan, each with a
// design of its own; the designs of a blank sheet are of no matter. The page has
// no title yet. When ctx ends it stops and gives the context's error.
func DrawSheet(ctx context.Context, p Plan, marks Marks, designs []pattern.Design) (*draw.Page, error) {
	if p.Blank {
		return p.blank(marks), ctx.Err()
	}
	for i, pl := range p.Placements {
		if err := p.check(pl.Piece, designs[i]); err != nil {
			return nil, err
		}
	}
	return p.page(ctx, designs, marks), ctx.Err()
}

// page draws one sheet with all placements, of which each has its design.
func (p Plan) page(ctx context.Context, designs []pattern.Design, marks Marks) *draw.Page {
	ticks := p.allTicks()
	page := draw.NewPage(p.Paper.Width, p.Paper.Height)
	page.Until(ctx)
	page.Bleed = p.Bleed
	page.Layer(draw.Artwork, func(s *draw.Surface) { p.artwork(s, designs, ticks, underMark) })
	p.cut(page)
	page.Layer(draw.Fold, func(s *draw.Surface) {
		for _, t := range ticks {
			for _, dash := range append(t.dashes, t.inner) {
				if !dash.Empty() {
					s.Fill(draw.Rectangle(rect(dash)), marginColour)
				}
			}
		}
	})
	page.Layer(draw.Notes, func(s *draw.Surface) {
		marks.draw(s)
		p.drawRegistration(s)
		for _, t := range ticks {
			if t.worded {
				s.Text(t.text, draw.Regular, tickType, t.word, marginColour)
			}
		}
	})
	return page
}

// cut draws every cut line, on a layer of its own, one path a piece.
func (p Plan) cut(page *draw.Page) {
	page.Layer(draw.Cut, func(s *draw.Surface) {
		for i, pl := range p.Placements {
			line := p.CutLine(pl)
			if box := rect(line.Bounds()); i == 0 {
				page.Trim = box
			} else {
				page.Trim = page.Trim.Union(box)
			}
			s.Stroke(outlinePath(line), marginColour, cutLineWidth)
		}
	})
}

// draw draws the rule, the marks of the trimmer cuts, names and the notes.
func (m Marks) draw(s *draw.Surface) {
	if m.HasRule {
		m.Rule.draw(s, marginColour)
	}
	if m.noted {
		m.notes.draw(s, marginColour)
	}
	drawTrims(s, m.trims)
	drawLabels(s, m.labels)
}
