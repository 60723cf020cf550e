// Package template draws the true-size cut-and-fold template of a handmade
// envelope, on one page or joined from several, with its working steps and its
// table of measures. Lengths are millimetres.
package template

import (
	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/handmade"
	"underflap/pattern/draw"
)

// Pages draws the template on a paper: the pages that show the blank, row by
// row, and where they have no room for the steps or the table a guide after
// them. The first len(Tiles) pages are those of the Layout that Lay gives.
func Pages(b handmade.Blank, paper liner.Paper, printerMargin float64) ([]*draw.Page, error) {
	l, err := Lay(b, paper, printerMargin)
	if err != nil {
		return nil, err
	}
	last, err := guide(b, l)
	if err != nil {
		return nil, err
	}
	total := len(l.Tiles)
	drawings, complete := l.drawings(b, total, true)
	if !complete { // page numbers count the guide, which has the table
		total += len(last)
		drawings, _ = l.drawings(b, total, false)
	}
	var pages []*draw.Page
	for _, d := range drawings {
		d.panels()
		d.glue()
		d.cutAways()
		pages = append(pages, d.page(l.Joins(b), title(b)+", template"))
	}
	for i := len(pages); i < total; i++ {
		page := draw.NewPage(paper.Width, paper.Height)
		page.Title = title(b) + ", guide"
		page.Layer(draw.Notes, func(s *draw.Surface) {
			for _, p := range last[i-len(l.Tiles)] {
				p.draw(s, p.at)
			}
		})
		pages = append(pages, page)
	}
	return pages, nil
}

// drawings gives every tile its fold numbers and what finds spare room: page
// number, rule, steps and, when it is wanted, table. It tells whether all of it
// found room.
func (l Layout) drawings(b handmade.Blank, total int, tabled bool) (all []*drawing, complete bool) {
	laid := l.blank(b)
	for i, t := range l.Tiles {
		d := newDrawing(l, t, laid)
		d.folds()
		if len(l.Tiles) > 1 {
			d.number(pageNumber(t, i+1, total))
		}
		all = append(all, d)
	}
	place := func(blocks []block) bool {
		for _, d := range all {
			if d.fit(blocks) {
				return true
			}
		}
		return false
	}
	ruled := place([]block{ruleBlock(false), ruleBlock(true)})
	noted := place(noteBlocks(steps(b, l), noteSizes))
	return all, tabled && ruled && noted && place(tableBlocks(b, noteSizes))
}

// page draws the tile's page.
func (d *drawing) page(joins []Join, title string) *draw.Page {
	page := draw.NewPage(d.Paper.Width, d.Paper.Height)
	page.Title = title
	onPage := draw.Translate(d.tile.Offset.X, d.tile.Offset.Y)
	window := d.tile.Window
	cut := bounds(d.blank.Outline).Within(window)
	page.Trim = onPage.Bounds(draw.Rect(cut))
	page.Layer(draw.Cut, func(s *draw.Surface) {
		for _, p := range cutPaths(d.blank.Outline, window) {
			s.Stroke(p.Transform(onPage), ink, cutWidth)
		}
	})
	page.Layer(draw.Fold, func(s *draw.Surface) {
		for _, p := range d.blank.Panels {
			if p.Fold == nil {
				continue
			}
			if seen := inWindow(dashes(*p.Fold), window); len(seen) > 0 {
				s.Stroke(path(seen...).Transform(onPage), ink, foldWidth)
			}
		}
	})
	page.Layer(draw.Notes, func(s *draw.Surface) {
		s.Within(onPage, func(s *draw.Surface) { d.notes(s, joins) })
	})
	return page
}

// notes draws, in laid space, what is neither cut nor folded.
func (d *drawing) notes(s *draw.Surface, joins []Join) {
	window := d.tile.Window
	var holes [][]geom.Point
	for _, l := range d.labels {
		holes = append(holes, l.box(0.6))
	}
	for _, g := range d.blank.Glue {
		if lines := inWindow(hatch(g.Shape, holes), window); len(lines) > 0 {
			s.Stroke(path(lines...), hatched, hatchWidth)
		}
		if edges := inWindow(sides(g.Shape), window); len(edges) > 0 {
			s.Stroke(path(edges...), hatched, hatchWidth)
		}
	}
	if edges := inWindow(d.sheetEdges(d.blank.Outline), window); len(edges) > 0 {
		s.Stroke(path(edges...), faint, faintWidth)
	}
	for _, j := range joins {
		if j.A == d.tile || j.B == d.tile {
			j.draw(s)
		}
	}
	for _, b := range d.blocks {
		b.draw(s, b.at)
	}
	for _, l := range d.labels {
		l.draw(s)
	}
}
