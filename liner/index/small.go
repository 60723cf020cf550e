package index

import (
	"fmt"
	"math"
	"slices"

	"underflap/liner/sheet"
	"underflap/pattern/draw"
)

// small is a sheet drawn small: the paper, its liners with their letters and folds,
// and its cuts with their numbers outside the paper.
type small struct {
	Sheet
	lines         []Line
	scale         float64
	numbered      float64 // room for numbers on every side
	width, height float64 // with that
}

const (
	cutType  = 2.3
	cutRoom  = 3.4 // beside the paper for the numbers of cuts
	mostDisc = 2.3
)

// newSmall is as large as goes into a room.
func newSmall(s Sheet, lines []Line, wide, high float64) small {
	m := small{Sheet: s, lines: lines}
	if len(s.Marks.Cuts()) > 0 {
		m.numbered = cutRoom
	}
	paper := s.Plan.Paper
	m.scale = math.Min((wide-2*m.numbered)/paper.Width, (high-2*m.numbered)/paper.Height)
	m.width, m.height = m.scale*paper.Width+2*m.numbered, m.scale*paper.Height+2*m.numbered
	return m
}

// place is the map from the sheet to the index.
func (m small) place(at draw.Point) draw.Matrix {
	return draw.Translate(at.X+m.numbered, at.Y+m.numbered).After(draw.Scale(m.scale))
}

func (m small) paper() draw.Rect {
	return draw.Rect{MaxX: m.Plan.Paper.Width, MaxY: m.Plan.Paper.Height}
}

func (m small) artwork(s *draw.Surface, at draw.Point) {
	place := m.place(at)
	paper := draw.Rectangle(m.paper()).Transform(place)
	s.Fill(paper, draw.White)
	s.Clipped(paper, func(s *draw.Surface) {
		for _, pl := range m.Plan.Placements {
			edge := m.Plan.CutPath(pl).Transform(place)
			s.Fill(edge, m.tint(pl))
			s.Stroke(edge, grey, hairline)
			a, b := m.Plan.FoldLine(pl)
			dashes(s, place.Apply(a), place.Apply(b), grey)
		}
	})
	s.Stroke(paper, grey, hairline)
	for _, cut := range m.Marks.Cuts() {
		a, b := m.ends(cut)
		dashes(s, place.Apply(a), place.Apply(b), accent)
	}
	for _, d := range m.discs(place) {
		d.draw(s)
	}
}

func (m small) notes(s *draw.Surface, at draw.Point) {
	for _, d := range m.discs(m.place(at)) {
		d.name(s)
	}
	for _, n := range m.numbers(at) {
		s.Text(n.line, draw.Bold, cutType, draw.Translate(n.x, n.y), accent)
	}
}

// tint tells kinds apart by a light tone of their artwork: the inks by turns, since
// kinds often share a palette.
func (m small) tint(pl sheet.Placement) draw.Colour {
	i := m.Lines[pl.Piece]
	if c := m.lines[i].Design.Colours; !m.lines[i].Plan.Blank && len(c.Inks) > 0 {
		return draw.Mix(draw.White, c.Inks[i%len(c.Inks)], 0.3)
	}
	return draw.White
}

// discs are the letters, each in the middle of its liner's pocket part and well
// inside it.
func (m small) discs(place draw.Matrix) (all []disc) {
	for _, pl := range m.Plan.Placements {
		piece := m.Plan.Pieces[pl.Piece]
		inside := 0.5 * m.scale * math.Min(piece.Outline.Right-piece.Outline.Left, piece.Depth)
		all = append(all, disc{m.lines[m.Lines[pl.Piece]].Letter, place.Apply(m.Plan.PocketMiddle(pl)), math.Min(mostDisc, 0.8*inside)})
	}
	return all
}

// ends of a cut on the sheet.
func (m small) ends(cut sheet.Cut) (a, b draw.Point) {
	if cut.Upright {
		return draw.Point{X: cut.At}, draw.Point{X: cut.At, Y: m.Plan.Paper.Height}
	}
	return draw.Point{Y: cut.At}, draw.Point{X: m.Plan.Paper.Width, Y: cut.At}
}

// numbers of the cuts: by turns on either side of the paper, moved along it where
// they would touch. A side too short for all its numbers goes without; the words
// beside tell them all.
func (m small) numbers(at draw.Point) (all []text) {
	for _, upright := range []bool{false, true} {
		var of []sheet.Cut
		for _, c := range m.Marks.Cuts() {
			if c.Upright == upright {
				of = append(of, c)
			}
		}
		slices.SortFunc(of, func(a, b sheet.Cut) int { return int(math.Copysign(1, a.At-b.At)) })
		for side := range 2 {
			var mine []sheet.Cut
			for i := side; i < len(of); i += 2 {
				mine = append(mine, of[i])
			}
			all = append(all, m.side(at, mine, upright, side)...)
		}
	}
	return all
}

// side sets the numbers of one side of the paper.
func (m small) side(at draw.Point, cuts []sheet.Cut, upright bool, side int) (all []text) {
	const capitals, apart = 0.72 * cutType, 0.5
	long := m.scale * m.Plan.Paper.Height
	if upright {
		long = m.scale * m.Plan.Paper.Width
	}
	var middles, sizes []float64
	for _, c := range cuts {
		size := capitals
		if upright {
			size = draw.Bold.Width(fmt.Sprint(c.Number), cutType)
		}
		middles, sizes = append(middles, m.scale*c.At), append(sizes, size+apart)
	}
	if !spread(middles, sizes, long) {
		return nil
	}
	for i, c := range cuts {
		number := fmt.Sprint(c.Number)
		wide := draw.Bold.Width(number, cutType)
		n := text{line: number}
		along, beside := middles[i]+m.numbered, 0.8
		switch {
		case upright && side == 0:
			n.x, n.y = along-wide/2, m.numbered-beside
		case upright:
			n.x, n.y = along-wide/2, m.height-m.numbered+beside+capitals
		case side == 0:
			n.x, n.y = m.numbered-beside-wide, along+capitals/2
		default:
			n.x, n.y = m.width-m.numbered+beside, along+capitals/2
		}
		n.x, n.y = n.x+at.X, n.y+at.Y
		all = append(all, n)
	}
	return all
}

// spread moves middles of stretches, in their order, so far that none touches the
// next and all lie from 0 to long. It reports false when they are longer than that.
func spread(middles, sizes []float64, long float64) bool {
	least := 0.0
	for i, size := range sizes {
		middles[i] = math.Max(middles[i], least+size/2)
		least = middles[i] + size/2
	}
	most := long
	for i := len(sizes) - 1; i >= 0; i-- {
		middles[i] = math.Min(middles[i], most-sizes[i]/2)
		most = middles[i] - sizes[i]/2
	}
	return most >= -1e-9
}

// dashes draws a dashed line.
func dashes(s *draw.Surface, a, b draw.Point, c draw.Colour) {
	const dash, blank = 1.1, 0.8
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	n := math.Max(1, math.Round((long+blank)/(dash+blank)))
	step := (long + blank) / n
	var p draw.Path
	for i := range int(n) {
		from, to := float64(i)*step/long, (float64(i)*step+step-blank)/long
		p.Move(a.X+from*(b.X-a.X), a.Y+from*(b.Y-a.Y))
		p.Line(a.X+to*(b.X-a.X), a.Y+to*(b.Y-a.Y))
	}
	s.Stroke(p, c, hairline)
}
