package sheet

import (
	"context"
	"slices"

	"underflap/liner/geom"
	"underflap/pattern"
	"underflap/pattern/draw"
)

// Check refuses a design that a liner of the plan cannot carry.
func (p Plan) Check(d pattern.Design) error {
	return p.check(0, d)
}

// check refuses a design that one of the plan's pieces cannot carry.
func (p Plan) check(piece int, d pattern.Design) error {
	of := p.Pieces[piece]
	d.Depth = of.Depth
	return d.Check(rect(artContour(of.Outline.Bleed(p.Bleed), of.Liner.Envelope.Width).Bounds()))
}

// artwork draws each placement's pattern inside its cut line and its bleed, and the
// light lines that run under marks.
func (p Plan) artwork(s *draw.Surface, designs []pattern.Design, ticks []tick, under draw.Colour) {
	cover := func(i int, edge geom.Contour) {
		pl, d := p.Placements[i], designs[i]
		piece := p.Pieces[pl.Piece]
		width := piece.Liner.Envelope.Width
		d.Depth = piece.Depth
		edge = artContour(edge, width)
		s.Within(pl.art(width), func(s *draw.Surface) {
			s.Clipped(outlinePath(edge), func(s *draw.Surface) { d.Draw(s, rect(edge.Bounds())) })
		})
	}
	for i, pl := range p.Placements {
		cover(i, p.Pieces[pl.Piece].Outline.Bleed(p.Bleed))
	}
	if p.Gap < p.Bleed { // one liner's bleed lies on the next, which is drawn once more over it
		for i, pl := range p.Placements {
			cover(i, p.Pieces[pl.Piece].Outline.Contour)
		}
	}
	if p.Bleed == 0 { // marks lie on bare paper
		return
	}
	for i, pl := range p.Placements {
		s.Stroke(outlinePath(p.CutLine(pl)), under, cutLineWidth+2*underWidth)
		for _, t := range ticks[2*i : 2*i+2] {
			if !t.inner.Empty() {
				s.Fill(draw.Rectangle(rect(t.inner.Grow(underWidth))), under)
			}
		}
	}
}

// allTicks are the fold ticks of every placement, two each.
func (p Plan) allTicks() []tick {
	var ticks []tick
	for i := range p.Placements {
		ticks = append(ticks, p.ticks(i)...)
	}
	return ticks
}

// Kept is what a person keeps of one liner: a page, as large as the liner, with
// the artwork inside its cut line on a ground of a colour, drawn for as long as ctx lasts.
func (p Plan) Kept(ctx context.Context, d pattern.Design, bare draw.Colour) *draw.Page {
	box := p.KeptLine().Bounds()
	page := draw.NewPage(box.Width(), box.Height())
	page.Until(ctx)
	page.Fill(page.Whole(), bare)
	p.DrawKept(page.Surface, d)
	return page
}

// KeptLine is the cut line of one liner, upright, with its left and upper edges on
// the axes.
func (p Plan) KeptLine() draw.Path {
	line := outlinePath(artContour(p.Pieces[0].Outline.Contour, p.Liner.Envelope.Width))
	box := line.Bounds()
	return line.Transform(draw.Translate(-box.MinX, -box.MinY))
}

// DrawKept draws the artwork of one liner inside its KeptLine.
func (p Plan) DrawKept(s *draw.Surface, d pattern.Design) {
	d.Depth = p.Depth
	edge := artContour(p.Pieces[0].Outline.Contour, p.Liner.Envelope.Width)
	box := rect(edge.Bounds())
	s.Within(draw.Translate(-box.MinX, -box.MinY), func(s *draw.Surface) {
		s.Clipped(outlinePath(edge), func(s *draw.Surface) { d.Draw(s, box) })
	})
}

// Printed is the artwork that a printer lays on a sheet with n liners, bleed and
// all, without marks and notes, on a ground of a colour. What lies in the printer margin is left out.
// It is drawn for as long as ctx lasts.
func (p Plan) Printed(ctx context.Context, d pattern.Design, n int, bare draw.Colour) *draw.Page {
	p = p.Part(n)
	page := draw.NewPage(p.Paper.Width, p.Paper.Height)
	page.Until(ctx)
	printable := draw.Rect{MaxX: page.Width, MaxY: page.Height}.Grow(-p.PrinterMargin)
	page.Fill(page.Whole(), bare)
	page.Clipped(draw.Rectangle(printable), func(s *draw.Surface) { p.artwork(s, slices.Repeat([]pattern.Design{d}, n), p.allTicks(), bare) })
	return page
}
