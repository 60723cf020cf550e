package sheet

import (
	"fmt"
	"slices"

	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// trim is one cut that a paper trimmer makes from edge to edge of the sheet,
// along straight sides of liners, with its marks in the margin.
type trim struct {
	upright bool
	at      float64 // x of an upright cut, y of a level one
	marks   []trimMark
}

// trimMark is a fine line at one end of a cut, with the box of its number.
type trimMark struct{ line, number geom.Box }

const (
	trimLength = 4.0 // at most
	trimLeast  = 1.8 // a mark that can be seen
	trimAside  = 0.7 // from line to number
	trimType   = 2.4
	trimKeep   = 0.5 // from the bleed

	// straightSide is the shortest straight side worth laying a trimmer to.
	straightSide = 8.0
)

// trims are the trimmer cuts of a straight layout in the order that takes the
// fewest: those of one direction go through the whole sheet, the others through
// each strip of it. A cut whose marks find no room is left out.
func (p Plan) trims() []trim {
	if p.Layout != Straight || p.Blank {
		return nil
	}
	var across, down []float64 // y of level cuts, x of upright ones
	var columns, rows []float64
	for _, pl := range p.Placements {
		line := p.CutLine(pl)
		box := line.Bounds()
		columns, rows = once(columns, box.MinX), once(rows, box.MinY)
		for _, s := range line {
			if s.R != 0 || s.A.Distance(s.B) < straightSide {
				continue
			}
			switch {
			case near(s.A.X, s.B.X) && (near(s.A.X, box.MinX) || near(s.A.X, box.MaxX)):
				down = once(down, s.A.X)
			case near(s.A.Y, s.B.Y) && (near(s.A.Y, box.MinY) || near(s.A.Y, box.MaxY)):
				across = once(across, s.A.Y)
			}
		}
	}
	slices.Sort(across)
	slices.Sort(down)
	var all []trim
	taken := p.tickBoxes()
	add := func(upright bool, ats []float64) {
		for _, at := range ats {
			cut := trim{upright: upright, at: at}
			for _, end := range []bool{false, true} {
				if m, ok := p.trimMark(cut, end, fmt.Sprint(len(all)+1), taken); ok {
					cut.marks = append(cut.marks, m)
					taken = append(taken, m.line, m.number)
				}
			}
			if len(cut.marks) > 0 {
				all = append(all, cut)
			}
		}
	}
	uprightFirst := len(down)+len(across)*len(columns) < len(across)+len(down)*len(rows)
	if uprightFirst {
		add(true, down)
		add(false, across)
	} else {
		add(false, across)
		add(true, down)
	}
	return all
}

// once adds a value that is not there yet.
func once(all []float64, v float64) []float64 {
	for _, other := range all {
		if near(other, v) {
			return all
		}
	}
	return append(all, v)
}

// trimMark finds the place of one mark: a line from the edge of the printable
// part, short of any bleed, and on one side of it the number.
func (p Plan) trimMark(cut trim, end bool, number string, taken []geom.Box) (trimMark, bool) {
	room := p.room()
	start, stop := room.MinX, room.MaxX
	wide, high := draw.Bold.Width(number, trimType), 0.75*trimType
	// box is a box by where it lies along the cut and across it
	box := func(from, to, low, high float64) geom.Box {
		return geom.Box{MinX: from, MaxX: to, MinY: low, MaxY: high}
	}
	if cut.upright {
		start, stop = room.MinY, room.MaxY
		wide, high = high, wide
		box = func(from, to, low, high float64) geom.Box {
			return geom.Box{MinX: low, MaxX: high, MinY: from, MaxY: to}
		}
	}
	free := func(b geom.Box) bool {
		b = b.Grow(trimKeep)
		return !slices.ContainsFunc(taken, b.Meets) && p.clearOf(b, -1)
	}
	for length := trimLength; length >= trimLeast; length -= 0.2 {
		from, to, outer := start, start+length, start
		if end {
			from, to, outer = stop-length, stop, stop-wide
		}
		m := trimMark{line: box(from, to, cut.at-cutLineWidth/2, cut.at+cutLineWidth/2)}
		if !p.onPaper(m.line) || !free(m.line) {
			continue
		}
		for _, low := range []float64{cut.at + trimAside, cut.at - trimAside - high} {
			m.number = box(outer, outer+wide, low, low+high)
			if p.onPaper(m.number) && free(m.number) {
				return m, true
			}
		}
	}
	return trimMark{}, false
}

// tickBoxes are the boxes of all fold ticks and their words.
func (p Plan) tickBoxes() []geom.Box {
	var all []geom.Box
	for i := range p.Placements {
		for _, t := range p.ticks(i) {
			all = append(all, t.inner, t.outer)
			if t.worded {
				all = append(all, t.said)
			}
		}
	}
	return all
}

// drawTrims draws the marks of the trimmer cuts with their numbers.
func drawTrims(s *draw.Surface, cuts []trim) {
	for i, cut := range cuts {
		for _, m := range cut.marks {
			s.Fill(draw.Rectangle(rect(m.line)), marginColour)
			s.Text(fmt.Sprint(i+1), draw.Bold, trimType, draw.Translate(m.number.MinX, m.number.MaxY), marginColour)
		}
	}
}
