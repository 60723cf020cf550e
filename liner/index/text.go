package index

import (
	"strings"

	"golang.org/x/text/unicode/norm"

	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
)

// para is one paragraph of a column.
type para struct {
	text   string
	font   *draw.Font
	size   float64 // of the em
	colour draw.Colour
	before float64 // room over it
	left   float64 // where its lines begin
	most   int     // lines; what is longer is shortened
}

// text is one set line.
type text struct {
	line   string
	font   *draw.Font
	size   float64
	colour draw.Colour
	x, y   float64 // baseline, from the column's top left
}

// column is paragraphs set under each other.
type column struct {
	texts  []text
	height float64
}

// Line to line, from a line's top to its baseline, and room for tails, in ems.
const leading, rise, tails = 1.3, 0.98, 0.32

// set sets paragraphs in a column that is no higher than height: what finds no
// room is left out.
func set(width, height float64, paras ...para) column {
	var c column
	at := 0.0
	for i, p := range paras {
		if i > 0 {
			at += p.before
		}
		for _, line := range lines(p.text, p.font, p.size, width-p.left, p.most) {
			if at+leading*p.size > height {
				return c
			}
			c.texts = append(c.texts, text{line, p.font, p.size, p.colour, p.left, at + rise*p.size})
			at += leading * p.size
			c.height = at
		}
	}
	return c
}

func (c column) draw(s *draw.Surface, at draw.Point) {
	for _, t := range c.texts {
		s.Text(t.line, t.font, t.size, draw.Translate(at.X+t.x, at.Y+t.y), t.colour)
	}
}

// lines breaks a text to a width. Of more than most lines the last is shortened,
// and so is a word that is wider than a line.
func lines(s string, font *draw.Font, size, width float64, most int) []string {
	all := setting.Wrap(written(s, font), font, size, width)
	if len(all) > most {
		all = append(all[:most-1:most-1], strings.Join(all[most-1:], " "))
	}
	for i, line := range all {
		all[i] = setting.Shortened(line, font, size, width)
	}
	return all
}

// broken parts words that are wider than a line after their dashes, as far on as the
// line goes, so that they may go on in the next.
func broken(s string, font *draw.Font, size, width float64) string {
	var all []string
	for _, word := range strings.Fields(written(s, font)) {
		line := ""
		for _, piece := range strings.SplitAfter(word, "-") {
			if line != "" && font.Width(line+piece, size) > width {
				all, line = append(all, line), ""
			}
			line += piece
		}
		all = append(all, line)
	}
	return strings.Join(all, " ")
}

// written is a text in letters that the typeface has, composed as it has them;
// "…" stands for those it has not, of other alphabets say, once for several words.
func written(s string, font *draw.Font) string {
	const left = '…'
	var kept []string
	for _, word := range strings.Fields(norm.NFC.String(s)) {
		var letters []rune
		for _, r := range word {
			if !font.Has(r) {
				r = left
			}
			if n := len(letters); r != left || n == 0 || letters[n-1] != left {
				letters = append(letters, r)
			}
		}
		if n := len(kept); string(letters) != string(left) || n == 0 || kept[n-1] != string(left) {
			kept = append(kept, string(letters))
		}
	}
	return strings.Join(kept, " ")
}
