package sheet

import (
	"fmt"
	"strings"

	"underflap/liner/geom"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// note is one paragraph of the notes: a heading, or a step with its number.
type note struct {
	number string
	text   string
	bold   bool
}

// steps are the working steps. Nothing in them asks for glue below the fold:
// the part in the pocket has to slide as the flap opens (common practice, no
// source).
func steps(p Plan, design string) []note {
	box := p.Pieces[0].Outline.Bounds()
	e := p.Liner.Envelope
	title := fmt.Sprintf("%s liner, %s flap", e.Short, e.Flap.Shape)
	size := fmt.Sprintf("%s wide, %s high, %s of it below the fold. %s.", words.MM(box.Width()), words.MM(floorTenth(box.Height())), words.MM(floorTenth(p.Depth)), design)
	cut := "Cut along the thin line."
	if len(p.Placements) > 1 {
		cut = "Part the liners with one straight cut between them, then cut along the thin line."
	}
	return []note{
		{text: title, bold: true},
		{text: size},
		{number: "1", text: "Print at actual size, 100 %, with scaling off. Measure the rule on this sheet: it must be 100 mm long."},
		{number: "2", text: "Crease before you cut: lay a ruler from one fold tick to the other and score along it with a blunt point."},
		{number: "3", text: cut + " Blades are sharp: use a mat and a metal ruler, keep fingers behind the edge and cut away from yourself."},
		{number: "4", text: "Fold on the crease, slide the liner into the open envelope, pattern up, and bring crease to fold with the same gap left and right."},
		{number: "5", text: "Glue the back of the flap part only and press it to the flap. The part in the pocket stays loose, so that it can slide. With solvent glue, open a window."},
		{number: "6", text: "Close the flap before the glue sets, so that the liner finds its place. Open it again and let it dry."},
	}
}

// brief is what is left of the steps where there is little room.
func brief(p Plan) []note {
	return []note{
		{text: fmt.Sprintf("%s liner, %s flap", p.Liner.Envelope.Short, p.Liner.Envelope.Flap.Shape), bold: true},
		{text: "Print at 100 %. Score from tick to tick, cut on the thin line (mind the blade), glue the flap part only."},
	}
}

// line is one set line of the notes.
type line struct {
	text   string
	indent float64
	bold   bool
	drop   float64 // baseline below the top of the notes
}

// leading and the space between paragraphs, in ems.
const leading, between = 1.28, 0.45

// set breaks the notes into lines of a width at a type size and tells how high
// they stand.
func set(notes []note, size, width float64) (lines []line, height float64) {
	indent := draw.Bold.Width("0", size) + 0.45*size
	at := 0.0
	for i, n := range notes {
		if i > 0 {
			at += between * size
		}
		font, left := draw.Regular, 0.0
		if n.bold {
			font = draw.Bold
		}
		if n.number != "" {
			left = indent
		}
		for k, text := range wrap(n.text, font, size, width-left) {
			at += leading * size
			if k == 0 && n.number != "" {
				lines = append(lines, line{text: n.number, bold: true, drop: at})
			}
			lines = append(lines, line{text: text, indent: left, bold: n.bold, drop: at})
		}
	}
	return lines, at + 0.35*size
}

// wrap breaks text at blanks so that no line is wider than width, unless a
// single word is.
func wrap(text string, font *draw.Font, size, width float64) []string {
	var lines []string
	for _, word := range strings.Fields(text) {
		if n := len(lines); n > 0 && font.Width(lines[n-1]+" "+word, size) <= width {
			lines[n-1] += " " + word
		} else {
			lines = append(lines, word)
		}
	}
	return lines
}

// widest is the longest line's width.
func widest(lines []line, size float64) float64 {
	most := 0.0
	for _, l := range lines {
		font := draw.Regular
		if l.bold {
			font = draw.Bold
		}
		most = max(most, l.indent+font.Width(l.text, size))
	}
	return most
}

// typeSizes are the em sizes tried for notes, in millimetres: 9 points down to 6.
var typeSizes = []float64{3.2, 2.95, 2.7, 2.45, 2.2}

// longestLine is the widest measure that still reads well, in ems.
const longestLine = 34

// block is notes set for a room on the page.
type block struct {
	lines []line
	size  float64
	at    draw.Matrix
}

// fit sets the notes as large as the room lets them be, upright or, in a
// narrow upright room, turned to run up the page.
func fit(notes []note, room geom.Box) (block, bool) {
	for _, size := range typeSizes {
		for _, turned := range []bool{false, true} {
			w, h := room.Width(), room.Height()
			at := draw.Translate(room.MinX, room.MinY)
			if turned {
				w, h = h, w
				at = draw.Translate(room.MinX, room.MaxY).After(draw.Turn(270))
			}
			measure := min(w, longestLine*size)
			if measure < 9*size {
				continue
			}
			lines, height := set(notes, size, measure)
			if height <= h && widest(lines, size) <= w {
				return block{lines, size, at}, true
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
		s.Text(l.text, font, b.size, b.at.After(draw.Translate(l.indent, l.drop)), c)
	}
}
