package sheet

import (
	"slices"

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

// typeset is notes measured once, to be set in many rooms: its lengths are ems,
// which every type size only scales.
type typeset struct {
	notes  []note
	words  []setting.Words // of each note
	indent float64         // of the text behind a number
	total  float64         // length of all text on one line
	widest float64         // no narrower measure holds every word
}

func measure(notes []note) typeset {
	t := typeset{notes: notes, indent: draw.Bold.Width("0", 1) + 0.45}
	for i, n := range notes {
		font := draw.Regular
		if n.bold {
			font = draw.Bold
		}
		w := setting.Measure(n.text, font)
		t.words = append(t.words, w)
		t.total += w.Total
		t.widest = max(t.widest, w.Widest+t.left(i))
	}
	return t
}

// left is where the text of a note begins.
func (t typeset) left(i int) float64 {
	if t.notes[i].number != "" {
		return t.indent
	}
	return 0
}

// set breaks the notes into lines of a width, in columns of a height. A column
// breaks only between notes. It reports false when the notes need more columns
// or a wider one.
func (t typeset) set(width, height float64, columns int) (lines []line, ok bool) {
	if t.widest > width || t.total*leading > width*height*float64(columns) { // more words than area
		return nil, false
	}
	starts := make([]line, 0, 16) // where each note's first line hangs from
	column, at := 0, 0.0
	for i, w := range t.words {
		high := leading * float64(w.Lines(width-t.left(i)))
		if at > 0 {
			at += between
		}
		if at+high+descent > height {
			column, at = column+1, 0
		}
		if column == columns || high+descent > height {
			return nil, false
		}
		starts = append(starts, line{x: float64(column) * (width + gutter), drop: at})
		at += high
	}
	for i, n := range t.notes {
		x, drop, left := starts[i].x, starts[i].drop, t.left(i)
		for k, text := range t.words[i].Wrap(width - left) {
			drop += leading
			if k == 0 && n.number != "" {
				lines = append(lines, line{text: n.number, x: x, bold: true, drop: drop})
			}
			lines = append(lines, line{text: text, x: x + left, bold: n.bold, drop: drop})
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
	given int // of what was wanted, how many steps of versions were given up
}

// rank compares blocks: fuller is better, then larger.
func (b block) rank() float64 { return b.size - float64(10*b.given) }

// trial is a version of the notes at a size in millimetres; given as in block.
type trial struct {
	typeset
	size  float64
	given int
}

// trials are the versions and sizes to try from the best down: in full where
// they read well, then shorter, then small, and as a last resort the shortest.
func (v versions) trials() (all []trial) {
	full, shorter, shortest := measure(v.full), measure(v.shorter), measure(v.shortest)
	same := slices.Equal(v.full, v.shorter)
	for i, try := range []struct {
		notes typeset
		sizes []float64
	}{{full, readable}, {shorter, readable}, {full, small}, {shorter, small}, {shortest, readable}, {shortest, small}} {
		if same && (i == 1 || i == 3) {
			continue // tried as the full ones
		}
		for _, size := range try.sizes {
			all = append(all, trial{try.notes, size, i})
		}
	}
	return all
}

// area is what the lines take at the least, in square millimetres.
func (t trial) area() float64 { return t.total * leading * t.size * t.size }

// fit sets the notes in as few columns as read well, upright or, in a narrow
// room, turned to run up the page.
func (t trial) fit(room geom.Box) (block, bool) {
	size := t.size
	if t.area() > room.Width()*room.Height() {
		return block{}, false
	}
	for _, turned := range []bool{false, true} {
		w, h := room.Width()/size, room.Height()/size
		at := draw.Translate(room.MinX, room.MinY)
		if turned {
			w, h = h, w
			at = draw.Translate(room.MinX, room.MaxY).After(draw.Turn(270))
		}
		for columns := 1; columns <= mostColumns; columns++ {
			measure := (w - float64(columns-1)*gutter) / float64(columns)
			if measure < shortestLine {
				break
			}
			if lines, ok := t.set(min(measure, longestLine), h, columns); ok {
				for i := range lines {
					lines[i].x *= size
					lines[i].drop *= size
				}
				return block{lines, size, at, t.given}, true
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
