package template

import (
	"fmt"
	"math"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/handmade"
	"underflap/pattern/words"
)

// Overlap is how far two pages that are joined show the same, in millimetres.
const Overlap = 10.0

const (
	alike          = 0.05 // a sheet and a paper that differ by less are one
	slack          = 1.0  // shown past the sheet, so that a line on its edge is whole
	inset          = 3.0  // from the printer margin to a sheet with room to spare
	leastPrintable = 60.0 // of a page that shows a part of a sheet
	wordsBeside    = 1.0  // from the printer margin, and from what another page shows too, to words
	leastPart      = 30.0 // of a sheet on its last page
	mostPages      = 24
)

// Layout is how a sheet lies on pages. Laid space has its origin at the top
// left of the sheet as it lies, x right and y down, in millimetres.
type Layout struct {
	Paper         liner.Paper
	PrinterMargin float64
	Sheet         geom.Box // in laid space
	Turned        bool     // the sheet lies a quarter turn anticlockwise
	Rows, Columns int
	Tiles         []Tile // row by row

	wholeX, wholeY bool // the paper's edges are the sheet's
}

// Tile is the part of the sheet that one page shows.
type Tile struct {
	Row, Column int        // from 1
	Window      geom.Box   // in laid space
	Offset      geom.Point // from laid space to the page
}

// Lay finds how a blank's sheet lies on pages of a paper, in each direction by
// itself. Where the sheet is as large as the paper it takes the page whole;
// where it fits inside the printer margin it lies there; else what lies between
// the outermost cut lines does, on one page or parted. The sheet is turned when
// that saves pages.
func Lay(b handmade.Blank, paper liner.Paper, printerMargin float64) (Layout, error) {
	sheet := b.Sheet
	l, turned := lay(b, false, paper, printerMargin), lay(b, true, paper, printerMargin)
	if len(l.Tiles) == 0 || len(turned.Tiles) > 0 && len(turned.Tiles) < len(l.Tiles) {
		l = turned
	}
	if len(l.Tiles) == 0 || len(l.Tiles) > mostPages {
		return Layout{}, &words.Refused{Field: "paper", Given: paper.Short,
			Why: fmt.Sprintf("too small for a template of a sheet of %s", words.MMSize(sheet.Width, sheet.Height)), Accepts: "a larger paper, such as A4 or Letter"}
	}
	return l, nil
}

// lay lays a sheet turned or not; without tiles when the pages are too small.
func lay(b handmade.Blank, turned bool, paper liner.Paper, margin float64) Layout {
	width, height := b.Sheet.Width, b.Sheet.Height
	if turned {
		width, height = height, width
	}
	l := Layout{Paper: paper, PrinterMargin: margin, Sheet: geom.Box{MaxX: width, MaxY: height}, Turned: turned,
		wholeX: math.Abs(width-paper.Width) <= alike, wholeY: math.Abs(height-paper.Height) <= alike}
	cut := bounds(l.blank(b).Outline)
	across, down := spans(width, cut.MinX, cut.MaxX, paper.Width, margin), spans(height, cut.MinY, cut.MaxY, paper.Height, margin)
	l.Rows, l.Columns = len(down), len(across)
	for r, y := range down {
		for c, x := range across {
			l.Tiles = append(l.Tiles, Tile{Row: r + 1, Column: c + 1, Offset: geom.Point{X: x.offset, Y: y.offset},
				Window: geom.Box{MinX: x.from, MinY: y.from, MaxX: x.to, MaxY: y.to}})
		}
	}
	return l
}

// span is a tile's extent in one direction.
type span struct{ from, to, offset float64 }

// spans parts one direction of a sheet, whose outermost cut lines are low and
// high, over pages.
func spans(sheet, low, high, paper, margin float64) []span {
	if math.Abs(sheet-paper) <= alike {
		return []span{{0, sheet, (paper - sheet) / 2}}
	}
	printable := paper - 2*margin
	if sheet <= printable+1e-9 {
		low, high = 0, sheet
	}
	if spare := printable - (high - low); spare >= -1e-9 {
		in := min(inset, max(spare, 0)/2)
		return []span{{max(-slack, low-in), min(sheet+slack, low-in+printable), margin + in - low}}
	}
	if printable < leastPrintable {
		return nil
	}
	step, all := printable-Overlap, high-low+2*slack-Overlap
	n := math.Ceil(all/step - 1e-9)
	if all-(n-1)*step < leastPart { // equal parts rather than a strip at the end
		step = all / n
	}
	var parts []span
	for i := range int(n) {
		from := low - slack + float64(i)*step
		to := from + step + Overlap
		if i == int(n)-1 {
			to = min(from+printable, sheet+slack)
		}
		parts = append(parts, span{from, to, margin - from})
	}
	return parts
}

// Laid carries a point of the sheet into laid space.
func (l Layout) Laid(p geom.Point) geom.Point {
	if l.Turned {
		return geom.Point{X: p.Y, Y: l.Sheet.MaxY - p.X}
	}
	return p
}

// OnPage carries a point of the sheet onto a tile's page.
func (l Layout) OnPage(t Tile, p geom.Point) geom.Point {
	q := l.Laid(p)
	return geom.Point{X: q.X + t.Offset.X, Y: q.Y + t.Offset.Y}
}

// blank carries a whole blank into laid space.
func (l Layout) blank(b handmade.Blank) handmade.Blank {
	shape := func(points []geom.Point) []geom.Point {
		out := make([]geom.Point, len(points))
		for i, p := range points {
			out[i] = l.Laid(p)
		}
		return out
	}
	pieces := func(in []handmade.Piece) (out []handmade.Piece) {
		for _, p := range in {
			out = append(out, handmade.Piece{Name: p.Name, Shape: shape(p.Shape)})
		}
		return out
	}
	out := b
	out.Outline, out.CutAway, out.Glue = shape(b.Outline), pieces(b.CutAway), pieces(b.Glue)
	out.Panels = nil
	for _, p := range b.Panels {
		q := handmade.Panel{Name: p.Name, Shape: shape(p.Shape)}
		if p.Fold != nil {
			q.Fold = &handmade.Fold{Name: p.Fold.Name, A: l.Laid(p.Fold.A), B: l.Laid(p.Fold.B)}
		}
		out.Panels = append(out.Panels, q)
	}
	return out
}

// own is the part of a page, in laid space, where words stand: inside the
// printer margin and clear of what another page shows too.
func (l Layout) own(t Tile) geom.Box {
	m := l.PrinterMargin + wordsBeside
	b := geom.Box{MinX: m - t.Offset.X, MinY: m - t.Offset.Y, MaxX: l.Paper.Width - m - t.Offset.X, MaxY: l.Paper.Height - m - t.Offset.Y}
	if t.Column > 1 {
		b.MinX = t.Window.MinX + Overlap + wordsBeside
	}
	if t.Column < l.Columns {
		b.MaxX = t.Window.MaxX - Overlap - wordsBeside
	}
	if t.Row > 1 {
		b.MinY = t.Window.MinY + Overlap + wordsBeside
	}
	if t.Row < l.Rows {
		b.MaxY = t.Window.MaxY - Overlap - wordsBeside
	}
	return b
}

// whole tells whether the paper is the sheet, so that the sheet itself is
// printed on.
func (l Layout) whole() bool { return l.wholeX && l.wholeY }

// part is what a page shows of the sheet.
func (l Layout) part(t Tile) geom.Box { return t.Window.Within(l.Sheet) }
