package template

import (
	"fmt"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/handmade"
	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
	"underflap/pattern/words"
)

// Em sizes of the guide, best first.
var guideSizes = []float64{3.8, 3.5, 3.2, 3.0, 2.8, 2.6, 2.4}

const (
	guidePad = 4.0 // inside the printer margin
	guideGap = 7.0 // between blocks
)

// guide is the last page, or pages where the paper is small: the working
// steps, how the pages meet, the table of measures and the 100 mm rule.
func guide(b handmade.Blank, l Layout) ([][]placed, error) {
	room := geom.Box{MinX: l.PrinterMargin, MinY: l.PrinterMargin, MaxX: l.Paper.Width - l.PrinterMargin, MaxY: l.Paper.Height - l.PrinterMargin}.Grow(-guidePad)
	var best [][]placed
	for _, size := range guideSizes {
		blocks, ok := guideBlocks(b, l, size, room.Width())
		if !ok {
			continue
		}
		pages, ok := flow(blocks, room)
		if ok && (best == nil || len(pages) < len(best)) {
			best = pages
		}
	}
	if best == nil {
		return nil, tooSmall(l.Paper, l.PrinterMargin)
	}
	return best, nil
}

func tooSmall(paper liner.Paper, margin float64) error {
	return &words.Refused{Field: "paper", Given: paper.Short,
		Why: fmt.Sprintf("too small inside a printer margin of %s for the working steps", words.MM(margin)), Accepts: "a larger paper, such as A4 or Letter"}
}

// guideBlocks sets everything at one size.
func guideBlocks(b handmade.Blank, l Layout, size, width float64) (blocks []block, ok bool) {
	head, ok := setting.Set([]setting.Note{{Text: title(b), Bold: true}}, 1.5*size, width)
	if !ok {
		return nil, false
	}
	notes, ok := setting.Set(steps(b, l)[1:], size, min(36*size, width))
	if !ok {
		return nil, false
	}
	t, ok := setTable(b, size, min(52*size, width))
	if !ok {
		return nil, false
	}
	blocks = append(blocks, block{width, head.Height, func(s *draw.Surface, at draw.Matrix) { head.Draw(s, at, ink) }})
	blocks = append(blocks, block{notes.Width, notes.Height, func(s *draw.Surface, at draw.Matrix) { notes.Draw(s, at, ink) }})
	if len(l.Tiles) > 1 {
		blocks = append(blocks, pageMap(b, l, min(52, width)))
	}
	blocks = append(blocks, block{t.width, t.height, t.draw})
	rule := ruleBlock(false)
	if rule.width > width {
		rule = ruleBlock(true)
	}
	return append(blocks, rule), true
}

// flow sets blocks one below the other, or beside the last where there is
// room, on as many pages as it takes. It reports false when a block alone is
// too large.
func flow(blocks []block, room geom.Box) (pages [][]placed, ok bool) {
	x, y, rowHeight := room.MinX, room.MinY, 0.0
	for _, b := range blocks {
		if b.width > room.Width()+1e-6 || b.height > room.Height()+1e-6 {
			return nil, false
		}
		switch {
		case len(pages) == 0:
			pages = append(pages, nil)
		case x+guideGap+b.width <= room.MaxX && y+b.height <= room.MaxY:
			x += guideGap
		default:
			gap := guideGap
			if len(pages) == 1 && len(pages[0]) == 1 {
				gap = 1 // the title and what it names
			}
			x, y, rowHeight = room.MinX, y+rowHeight+gap, 0
			if y+b.height > room.MaxY {
				y = room.MinY
				pages = append(pages, nil)
			}
		}
		last := len(pages) - 1
		pages[last] = append(pages[last], placed{b, draw.Translate(x, y)})
		x, rowHeight = x+b.width, max(rowHeight, b.height)
	}
	return pages, true
}

// pageMap shows how the pages meet: the blank in small, the joins, and every
// page's number.
func pageMap(b handmade.Blank, l Layout, most float64) block {
	k := most / max(l.Sheet.Width(), l.Sheet.Height())
	laid := l.blank(b)
	return block{l.Sheet.Width() * k, l.Sheet.Height() * k, func(s *draw.Surface, at draw.Matrix) {
		at = at.After(draw.Scale(k))
		s.Stroke(closed(corners(l.Sheet)).Transform(at), faint, faintWidth)
		s.Stroke(closed(laid.Outline).Transform(at), ink, 0.2)
		for _, p := range laid.Panels {
			if p.Fold != nil {
				s.Stroke(path(segment{p.Fold.A, p.Fold.B}).Transform(at), hatched, faintWidth)
			}
		}
		for _, j := range l.Joins(b) {
			s.Stroke(path(segment{j.Line[0], j.Line[1]}).Transform(at), ink, 0.35)
		}
		for i, t := range l.Tiles {
			part := l.part(t)
			text := fmt.Sprint(i + 1)
			middle := at.Apply(draw.Point{X: (part.MinX + part.MaxX) / 2, Y: (part.MinY + part.MaxY) / 2})
			size := min(6, 0.8*k*min(part.Width(), part.Height()))
			w := draw.Bold.Width(text, size)
			s.Fill(draw.Circle(middle.X, middle.Y, 0.65*size), draw.White)
			s.Text(text, draw.Bold, size, draw.Translate(middle.X-w/2, middle.Y+0.36*size), ink)
		}
	}}
}
