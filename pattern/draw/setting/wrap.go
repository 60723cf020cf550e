package setting

import (
	"strings"

	"underflap/pattern/draw"
)

// Words is a text whose words are measured once, to be broken to many
// measures. Widths are ems: every type size only scales them.
type Words struct {
	words  []string
	widths []float64
	blank  float64
	Widest float64 // of all words: no narrower measure holds the text
	Total  float64 // width of the text on one line
}

// Measure measures the words of a text in a typeface.
func Measure(text string, font *draw.Font) Words {
	w := Words{words: strings.Fields(text), blank: font.Width(" ", 1), Total: font.Width(text, 1)}
	w.widths = make([]float64, len(w.words))
	for i, word := range w.words {
		w.widths[i] = font.Width(word, 1)
		w.Widest = max(w.Widest, w.widths[i])
	}
	return w
}

// Wrap breaks a text at blanks so that no line is wider than width, unless a
// single word is. size is of the em; both are millimetres.
func Wrap(text string, font *draw.Font, size, width float64) []string {
	return Measure(text, font).Wrap(width / size)
}

// breaks calls f with the first word of every line and the one after its last.
// Rounding breaks no line of a text that is as wide as was measured.
func (w Words) breaks(width float64, f func(from, to int)) {
	const rounding = 1e-10
	from, at := 0, 0.0
	for i, wide := range w.widths {
		if i > from && at+w.blank+wide > width+rounding {
			f(from, i)
			from = i
		}
		if i > from {
			at += w.blank + wide
		} else {
			at = wide
		}
	}
	if len(w.widths) > 0 {
		f(from, len(w.widths))
	}
}

// Lines counts the lines of the text at a width in ems.
func (w Words) Lines(width float64) int {
	n := 0
	w.breaks(width, func(_, _ int) { n++ })
	return n
}

// Wrap breaks the text at a width in ems.
func (w Words) Wrap(width float64) []string {
	var lines []string
	w.breaks(width, func(from, to int) { lines = append(lines, strings.Join(w.words[from:to], " ")) })
	return lines
}
