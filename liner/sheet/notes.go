package sheet

import (
	"underflap/liner/geom"
	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
)

// Notes says how much of the working steps is wanted on a sheet.
type Notes int

// The wanted notes; where room is scarce, full ones become short.
const (
	NotesFull Notes = iota
	NotesShort
	NotesNone
)

// note is one paragraph of the notes: a heading, or a step with its number.
type note struct {
	number string
	text   string
	bold   bool
}

// line is one set line of the notes.
type line struct {
	text string
	bold bool
	x    float64 // from the left of the notes
	drop float64 // baseline below their top
}

// Line to line, extra between notes, and room for the letters' tails, in ems.
const leading, between, descent = 1.28, 0.45, 0.35

// set breaks the notes into lines of a width at a type size, in columns of a
// height. A column breaks only between notes. It reports false when the notes
// need more columns.
func set(notes []note, size, width, height float64, columns int) (lines []line, ok bool) {
	indent := draw.Bold.Width("0", size) + 0.45*size
	column, at := 0, 0.0
	for _, n := range notes {
		font, left := draw.Regular, 0.0
		if n.bold {
			font = draw.Bold
		}
		if n.number != "" {
			left = indent
		}
		texts := setting.Wrap(n.text, font, size, width-left)
		high := leading * size * float64(len(texts))
		if at > 0 {
			at += between * size
		}
		if at+high+descent*size > height {
			column, at = column+1, 0
		}
		if column == columns || high+descent*size > height {
			return nil, false
		}
		x := float64(column) * (width + gutter*size)
		for k, text := range texts {
			if font.Width(text, size) > width-left {
				return nil, false
			}
			at += leading * size
			if k == 0 && n.number != "" {
				lines = append(lines, line{text: n.number, x: x, bold: true, drop: at})
			}
			lines = append(lines, line{text: text, x: x + left, bold: n.bold, drop: at})
		}
	}
	return lines, true
}

// Em sizes for notes in millimetres: 9 points at best, 7.4 to read well, 7 and 6
// where there is no more room.
var readable, small = []float64{3.2, 3.0, 2.8, 2.6}, []float64{2.4, 2.2}

// Measures that read well, in ems, and the space between columns.
const (
	longestLine  = 34
	shortestLine = 9
	gutter       = 1.6
	mostColumns  = 4
)

// block is notes set for a room on the page.
type block struct {
	lines []line
	size  float64
	at    draw.Matrix
}

// best sets the notes for a room: in full where they read well, then shorter,
// then small, and as a last resort only the shortest. Its rank compares rooms.
func (v versions) best(room geom.Box) (b block, rank float64, ok bool) {
	for i, try := range []struct {
		notes []note
		sizes []float64
	}{{v.full, readable}, {v.shorter, readable}, {v.full, small}, {v.shorter, small}, {v.shortest, readable}, {v.shortest, small}} {
		if b, ok := fit(try.notes, room, try.sizes); ok {
			return b, b.size - float64(10*i), true
		}
	}
	return block{}, 0, false
}

// fit sets the notes as large as the room lets them be, in as few columns as
// read well, upright or, in a narrow room, turned to run up the page.
func fit(notes []note, room geom.Box, sizes []float64) (block, bool) {
	ems := 0.0
	for _, n := range notes {
		ems += draw.Regular.Width(n.text, 1)
	}
	for _, size := range sizes {
		if ems*size*leading*size > room.Width()*room.Height() {
			continue // more words than area
		}
		for _, turned := range []bool{false, true} {
			w, h := room.Width(), room.Height()
			at := draw.Translate(room.MinX, room.MinY)
			if turned {
				w, h = h, w
				at = draw.Translate(room.MinX, room.MaxY).After(draw.Turn(270))
			}
			for columns := 1; columns <= mostColumns; columns++ {
				measure := (w - float64(columns-1)*gutter*size) / float64(columns)
				if measure < shortestLine*size {
					break
				}
				if lines, ok := set(notes, size, min(measure, longestLine*size), h, columns); ok {
					return block{lines, size, at}, true
				}
			}
		}
	}
	return block{}, false
}

func (b block) draw(s *draw.Surface, c draw.Colour) {
	for _, l := range b.lines {
		font := draw.Regular
		if l.bold {
			font = draw.Bold
		}
		s.Text(l.text, font, b.size, b.at.After(draw.Translate(l.x, l.drop)), c)
	}
}
