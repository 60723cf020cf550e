package sheet

import (
	"fmt"
	"strings"

	"underflap/liner/geom"
	"underflap/pattern"
	"underflap/pattern/draw"
)

// marginColour is the colour of marks and notes. Where a mark lies on artwork a
// wider light line runs under it, so that it shows on every ink; that line is
// part of the artwork, which leaves one path a piece on the cut layer.
var marginColour, underMark = draw.Colour{R: 58, G: 56, B: 60}, draw.Colour{R: 252, G: 252, B: 252}

const (
	cutLineWidth = 0.15
	underWidth   = 0.12 // on each side of a mark
	tickWidth    = 0.2
	tickFrom     = 0.5 // from the cut line outwards
	tickLength   = 3.5 // beyond the bleed
	clearance    = 1.5 // notes to bleed
)

// Marks are the things on a sheet beside the liners.
type Marks struct {
	Rule    Rule
	HasRule bool
	notes   block
	noted   bool
}

// Remarks says which marks found no room, one line each.
func (m Marks) Remarks() []string {
	var lines []string
	if !m.HasRule {
		lines = append(lines, fmt.Sprintf("no room on the sheet for the %g mm rule: measure the printed liner instead", RuleLength))
	}
	if !m.noted {
		lines = append(lines, "no room on the sheet for the working steps: see the README")
	}
	return lines
}

// Mark finds room on the sheet for the rule and the working steps, clear of all
// artwork. design is what the notes call the pattern.
func Mark(p Plan, design string) Marks {
	printable := geom.Box{MinX: p.PrinterMargin, MinY: p.PrinterMargin, MaxX: p.Paper.Width - p.PrinterMargin, MaxY: p.Paper.Height - p.PrinterMargin}
	room := newFreeRoom(printable)
	for i, pl := range p.Placements {
		grown := p.Pieces[pl.Piece].Outline.Bleed(p.Bleed + clearance)
		room.takeShape(pl.OnPage(grown).Flatten(0.05))
		for _, t := range p.ticks(i) {
			room.takeBox(t.outer.Grow(1))
		}
	}
	versions := [][]note{steps(p, design), shorter(p), shortest(p)}
	best := Marks{}
	bestScore := -1.0
	consider := func(m Marks, free *freeRoom) {
		score := 0.0
		if m.HasRule {
			score = 100
		}
		for _, r := range free.rooms(6) {
			for i, notes := range versions {
				b, ok := fit(notes, r)
				if !ok {
					continue
				}
				if s := score + b.size + 10*float64(len(versions)-i); s > bestScore {
					bestScore, best = s, Marks{m.Rule, m.HasRule, b, true}
				}
				break
			}
		}
		if score > bestScore {
			bestScore, best = score, m
		}
	}
	consider(Marks{}, room)
	for _, r := range room.rooms(4) {
		for _, rule := range rulesIn(r) {
			without := room.clone()
			without.takeBox(rule.box().Grow(1))
			consider(Marks{Rule: rule, HasRule: true}, without)
		}
	}
	return best
}

// tick is a fold tick: the part that lies on the bleed and the part beyond it.
type tick struct{ inner, outer geom.Box }

// ticks are the two fold ticks of a placement.
func (p Plan) ticks(i int) []tick {
	pl := p.Placements[i]
	o := p.Pieces[pl.Piece].Outline
	var out []tick
	for _, end := range []struct{ x, way float64 }{{o.Left, -1}, {o.Right, 1}} {
		bar := func(from, to float64) geom.Box {
			a := pl.page(geom.Point{X: end.x + end.way*from, Y: -tickWidth / 2})
			b := pl.page(geom.Point{X: end.x + end.way*to, Y: tickWidth / 2})
			return geom.Box{MinX: a.X, MinY: a.Y, MaxX: a.X, MaxY: a.Y}.Union(geom.Box{MinX: b.X, MinY: b.Y, MaxX: b.X, MaxY: b.Y})
		}
		out = append(out, tick{bar(tickFrom, max(tickFrom, p.Bleed)), bar(max(tickFrom, p.Bleed), p.Bleed+tickLength)})
	}
	return out
}

// clearOf tells whether a box touches no placement's bleed but its own.
func (p Plan) clearOf(b geom.Box, own int) bool {
	for i, pl := range p.Placements {
		taken := pl.OnPage(p.Pieces[pl.Piece].Outline.Contour).Bounds().Grow(p.Bleed)
		if i != own && b.MinX < taken.MaxX && b.MaxX > taken.MinX && b.MinY < taken.MaxY && b.MaxY > taken.MinY {
			return false
		}
	}
	return true
}

// Title names a sheet of liners in words.
func (p Plan) Title(design string) string {
	return fmt.Sprintf("%s liners, %s flap, %s, on %s", p.Liner.Envelope.Short, p.Liner.Envelope.Flap.Shape, design, p.Paper.Short)
}

// Draw draws every sheet of the plan. Sheets that are alike are one page,
// named as often as it is wanted.
func Draw(p Plan, d pattern.Design) ([]*draw.Page, Marks, error) {
	design := d.Name + " in " + strings.ReplaceAll(d.Colours.Name, "-", " ")
	area := rect(artContour(p.Pieces[0].Outline.Bleed(p.Bleed), p.Liner.Envelope.Width).Bounds())
	if err := d.Check(area); err != nil {
		return nil, Marks{}, err
	}
	marks := Mark(p, design)
	made := map[int]*draw.Page{}
	var pages []*draw.Page
	for i := range p.Sheets {
		n := p.OnSheet(i)
		if made[n] == nil {
			made[n] = p.page(n, d, marks)
			made[n].Title = p.Title(design)
		}
		pages = append(pages, made[n])
	}
	return pages, marks, nil
}

// page draws one sheet with the first n placements.
func (p Plan) page(n int, d pattern.Design, marks Marks) *draw.Page {
	page := draw.NewPage(p.Paper.Width, p.Paper.Height)
	page.Bleed = p.Bleed
	width := p.Liner.Envelope.Width
	page.Layer(draw.Artwork, func(s *draw.Surface) {
		for i, pl := range p.Placements[:n] {
			grown := artContour(p.Pieces[pl.Piece].Outline.Bleed(p.Bleed), width)
			s.Within(pl.art(width), func(s *draw.Surface) {
				s.Clipped(outlinePath(grown), func(s *draw.Surface) { d.Draw(s, rect(grown.Bounds())) })
			})
			if p.Bleed > 0 {
				s.StrokeRound(outlinePath(p.CutLine(pl)), underMark, cutLineWidth+2*underWidth)
			}
			if p.Bleed > tickFrom {
				for _, t := range p.ticks(i) {
					s.Fill(draw.Rectangle(rect(t.inner.Grow(underWidth))), underMark)
				}
			}
		}
	})
	page.Layer(draw.Cut, func(s *draw.Surface) {
		for i, pl := range p.Placements[:n] {
			line := p.CutLine(pl)
			if box := rect(line.Bounds()); i == 0 {
				page.Trim = box
			} else {
				page.Trim = page.Trim.Union(box)
			}
			s.StrokeRound(outlinePath(line), marginColour, cutLineWidth)
		}
	})
	page.Layer(draw.Fold, func(s *draw.Surface) {
		for i := range p.Placements[:n] {
			for _, t := range p.ticks(i) {
				if p.Bleed > tickFrom {
					s.Fill(draw.Rectangle(rect(t.inner)), marginColour)
				}
				if p.clearOf(t.outer, i) {
					s.Fill(draw.Rectangle(rect(t.outer)), marginColour)
				}
			}
		}
	})
	page.Layer(draw.Notes, func(s *draw.Surface) {
		if marks.HasRule {
			marks.Rule.draw(s, marginColour)
		}
		if marks.noted {
			marks.notes.draw(s, marginColour)
		}
	})
	return page
}
