package look

import "underflap/pattern/draw"

// board collects what is written over the picture and where, so that nothing
// is written over something else.
type board struct {
	within draw.Rect // the page without its border
	glass  circle    // that marks lie in or keep out of; of no size without a detail
	labels []Label
	lines  []Line
	heads  []draw.Path
	texts  []draw.Text // by label, those without a letter circle
	discs  []disc
}

// disc is a letter in its circle; the letter is known when all are placed.
type disc struct {
	of    string
	at    draw.Point
	main  bool
	label int // in labels
}

// radius is that of a letter's circle.
func radius(main bool) float64 {
	if main {
		return mainDisc
	}
	return sideDisc
}

// Clear space that a label wants around it, and a line from labels.
const clearLabel, clearLine = 0.7, 0.4

// fits tells whether the mark meets nothing that is on the board.
func (b *board) fits(m *mark) bool {
	box := m.box().Grow(clearLabel)
	if !b.free(m.of, box) || !b.glass.holdsMark(m) && b.glass.touches(m) {
		return false
	}
	for _, l := range m.lines {
		for _, w := range b.labels {
			if w.Of != m.of && l.hits(w.Box.Grow(clearLine)) {
				return false
			}
		}
		for _, o := range b.lines {
			if o.Of != m.of && !(o.Kind == Extension && l.Kind == Extension) && l.crosses(o) {
				return false
			}
		}
		if !inside(draw.Rect{MinX: min(l.A.X, l.B.X), MinY: min(l.A.Y, l.B.Y), MaxX: max(l.A.X, l.B.X), MaxY: max(l.A.Y, l.B.Y)}, b.within) {
			return false
		}
	}
	return true
}

// free tells whether a label may lie in a box.
func (b *board) free(of string, box draw.Rect) bool {
	if !inside(box, b.within) {
		return false
	}
	for _, w := range b.labels {
		if meets(w.Box, box) {
			return false
		}
	}
	for _, l := range b.lines {
		if l.Of != of && l.hits(box) {
			return false
		}
	}
	return true
}

// put sets the mark on the board.
func (b *board) put(m *mark) {
	b.lines = append(b.lines, m.lines...)
	b.heads = append(b.heads, m.heads...)
	b.disc(m.of, "", m.disc, m.main)
}

// disc sets a letter's circle; a measurement's letter comes later.
func (b *board) disc(of, letter string, at draw.Point, main bool) {
	b.discs = append(b.discs, disc{of, at, main, len(b.labels)})
	b.labels = append(b.labels, Label{Of: of, Text: letter, Box: circle{at, radius(main)}.box()})
}

// try puts the first of several marks that fits.
func (b *board) try(marks ...*mark) bool {
	for _, m := range marks {
		if m != nil && b.fits(m) {
			b.put(m)
			return true
		}
	}
	return false
}

// text sets a line whose baseline begins at a point, and returns its width.
func (b *board) text(of, line string, font *draw.Font, size float64, at draw.Point, c draw.Colour) float64 {
	width := font.Width(line, size)
	b.labels = append(b.labels, Label{Of: of, Text: line, Box: textBox(width, size, at)})
	b.texts = append(b.texts, draw.Text{String: line, Font: font, Size: size, At: draw.Translate(at.X, at.Y), Colour: c})
	return width
}

// textBox is around a line's ink: capitals and tails.
func textBox(width, size float64, at draw.Point) draw.Rect {
	return draw.Rect{MinX: at.X, MinY: at.Y - 0.75*size, MaxX: at.X + width, MaxY: at.Y + 0.22*size}
}

// draw draws lines first, then arrows, letters and words.
func (b *board) draw(s *draw.Surface) {
	for _, l := range b.lines {
		c := accent
		if l.Of == detail {
			c = faint
		}
		if l.Kind == Extension {
			c = lightLine
		}
		s.Stroke(polyline([]draw.Point{l.A, l.B}), c, lightWidth)
	}
	for _, h := range b.heads {
		s.Fill(h, accent)
	}
	for _, d := range b.discs {
		d.draw(s, b.labels[d.label].Text)
	}
	for _, t := range b.texts {
		s.Text(t.String, t.Font, t.Size, t.At, t.Colour)
	}
}

func (d disc) draw(s *draw.Surface, letter string) {
	r, em, ground, c := sideDisc, sideLetter, draw.White, accent
	if d.main {
		r, em, ground, c = mainDisc, mainLetter, accent, draw.White
	}
	s.Fill(draw.Circle(d.at.X, d.at.Y, r), accent)
	s.Fill(draw.Circle(d.at.X, d.at.Y, r-lightWidth), ground)
	s.Text(letter, draw.Bold, em, draw.Translate(d.at.X-draw.Bold.Width(letter, em)/2, d.at.Y+0.36*em), c)
}
