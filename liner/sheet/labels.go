package sheet

import (
	"fmt"
	"slices"

	"underflap/liner/geom"
	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
)

// label is the name of a liner beside it, on a sheet that different liners share.
type label struct {
	text string
	at   draw.Matrix
	box  geom.Box
}

const (
	labelType = 2.8
	labelFrom = 0.8  // from the bleed
	labelKeep = 0.5  // from anything else
	labelNear = 2.5  // to its own liner's bleed
	labelLong = 60.0 // at most
)

// labels names the placements whose fold ticks do not, beside them where there is
// room; unnamed are the pieces of which some placement finds none.
func (p Plan) labels(trims []trim) (all []label, unnamed []int) {
	if !p.mixed() || p.Blank { // a blank sheet says it inside
		return nil, nil
	}
	taken := p.tickBoxes()
	for _, cut := range trims {
		for _, m := range cut.marks {
			taken = append(taken, m.line, m.number)
		}
	}
	for i, pl := range p.Placements {
		if p.Pieces[pl.Piece].Name == "" || slices.ContainsFunc(p.ticks(i), func(t tick) bool { return t.named }) {
			continue
		}
		l, ok := p.label(i, taken)
		if !ok {
			if !slices.Contains(unnamed, pl.Piece) {
				unnamed = append(unnamed, pl.Piece)
			}
			continue
		}
		all, taken = append(all, l), append(taken, l.box)
	}
	return all, unnamed
}

// label finds a place for the name of a placement: under its foot, beside it, or
// beside its flap, always near it.
func (p Plan) label(i int, taken []geom.Box) (label, bool) {
	pl := p.Placements[i]
	piece := p.Pieces[pl.Piece]
	text := setting.Shortened(piece.Name, draw.Regular, labelType, labelLong)
	wide, b := draw.Regular.Width(text, labelType), piece.reach
	// try takes a box of liner space, in which the text lies along the fold or runs
	// up, and how far others keep off
	try := func(x, y float64, up bool, off float64) (label, bool) {
		box := geom.Box{MinX: x, MinY: y, MaxX: x + wide, MaxY: y + labelType}
		if up {
			box.MaxX, box.MaxY = x+labelType, y+wide
		}
		box = pl.pageBox(box)
		l := label{text, legible(box, up != (pl.Turn%180 != 0), 0.22*labelType), box}
		grown := box.Grow(labelKeep)
		return l, p.onPaper(box) && p.clearOf(grown, -1) && p.clearOf(box.Grow(off), i) && p.touches(pl, box.Grow(labelNear)) &&
			!slices.ContainsFunc(taken, grown.Meets)
	}
	for k := range 10 { // first where nothing else is as near
		share, off := []float64{0.5, 0, 1, 0.25, 0.75}[k%5], labelNear
		if k >= 5 {
			off = labelKeep
		}
		x := b.MinX + share*(b.Width()-wide)
		y := b.MinY + share*(-b.MinY-wide) // beside the pocket part
		for _, place := range []struct {
			x, y float64
			up   bool
		}{
			{x, b.MinY - labelFrom - labelType, false},
			{b.MinX - labelFrom - labelType, y, true},
			{b.MaxX + labelFrom, y, true},
			{x, b.MaxY + labelFrom, false},
			{b.MinX, b.MaxY*(1-share) - labelType, false},
			{b.MaxX - wide, b.MaxY*(1-share) - labelType, false},
		} {
			if l, ok := try(place.x, place.y, place.up, off); ok {
				return l, true
			}
		}
	}
	return label{}, false
}

// unnamedRemarks says where the liners lie that have no name beside them.
func (p Plan) unnamedRemarks(pieces []int) []string {
	var lines []string
	for _, piece := range pieces {
		lines = append(lines, fmt.Sprintf("no room on the sheet for the name of %s: %s", p.Pieces[piece].Name, p.lies(piece)))
	}
	return lines
}

// lies says where the liners of a piece lie, as a sentence has it.
func (p Plan) lies(piece int) string {
	several := 0
	for _, pl := range p.Placements {
		if pl.Piece == piece {
			several++
		}
	}
	if several > 1 {
		return "they lie " + p.where(piece)
	}
	return "it lies " + p.where(piece)
}

func drawLabels(s *draw.Surface, all []label) {
	for _, l := range all {
		s.Text(l.text, draw.Regular, labelType, l.at, marginColour)
	}
}
