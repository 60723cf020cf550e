// Package setting sets notes in a column: headings, numbered steps and lines
// under them, broken to a measure. Lengths are millimetres, y down.
package setting

import "underflap/pattern/draw"

// Note is one paragraph.
type Note struct {
	Number string // of a step, hung before it
	Text   string
	Bold   bool
	Under  bool // belongs to the step above: indented like it, and close to it
}

// Line is one set line.
type Line struct {
	Text  string
	Bold  bool
	X     float64 // from the left of the block
	Drop  float64 // baseline below its top
	Width float64
}

// Block is notes set to a measure.
type Block struct {
	Lines         []Line
	Size          float64 // of the em
	Width, Height float64 // of the room it takes: no letter reaches past it
}

// Line to line, extra between notes, between a step and what belongs to it, and
// room for the last line's tails, in ems.
const leading, between, close, descent = 1.32, 0.5, 0.12, 0.3

// font is the line's typeface.
func font(bold bool) *draw.Font {
	if bold {
		return draw.Bold
	}
	return draw.Regular
}

// Set breaks the notes into lines no wider than width at a type size. It
// reports false when a word alone is wider.
func Set(notes []Note, size, width float64) (b Block, ok bool) {
	b.Size = size
	indent := 0.0
	for _, n := range notes {
		if n.Number != "" {
			indent = max(indent, draw.Bold.Width(n.Number, size)+0.55*size)
		}
	}
	at, ok := 0.0, true
	for i, n := range notes {
		left := 0.0
		if n.Number != "" || n.Under {
			left = indent
		}
		switch {
		case i == 0:
		case n.Under:
			at += close * size
		default:
			at += between * size
		}
		for k, text := range Measure(n.Text, font(n.Bold)).Wrap((width - left) / size) {
			at += leading * size
			if k == 0 && n.Number != "" {
				b.Lines = append(b.Lines, Line{n.Number, true, 0, at, draw.Bold.Width(n.Number, size)})
			}
			w := font(n.Bold).Width(text, size)
			if left+w > width+1e-9 {
				ok = false
			}
			b.Lines = append(b.Lines, Line{text, n.Bold, left, at, w})
			b.Width = max(b.Width, left+w)
		}
	}
	b.Height = at + descent*size
	return b, ok
}

// Draw writes the block with its top left at the origin of at.
func (b Block) Draw(s *draw.Surface, at draw.Matrix, c draw.Colour) {
	for _, l := range b.Lines {
		s.Text(l.Text, font(l.Bold), b.Size, at.After(draw.Translate(l.X, l.Drop)), c)
	}
}
