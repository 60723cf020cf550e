package template

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"underflap/liner/handmade"
	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
	"underflap/pattern/words"
)

// row is a line of the table of measures.
type row struct{ name, mm, inches string }

func rows(b handmade.Blank) []row {
	var out []row
	for _, m := range b.Measures {
		out = append(out, row{m.Name, fmt.Sprintf("%.1f", m.MM), words.Inches(m.MM)})
	}
	return out
}

// headRow names the columns.
var headRow = row{"measure", "mm", "inches, to 1/16"}

// Text is the table of a blank's measures for a terminal: name, millimetres to
// a tenth, inches to the nearest sixteenth; every line ends in a newline.
func Text(b handmade.Blank) string {
	all := append([]row{headRow}, rows(b)...)
	name, mm := 0, 0
	for _, r := range all {
		name, mm = max(name, utf8.RuneCountInString(r.name)), max(mm, len(r.mm))
	}
	var out strings.Builder
	for _, r := range all {
		fmt.Fprintf(&out, "%-*s  %*s  %s\n", name, r.name, mm, r.mm, r.inches)
	}
	return out.String()
}

// Row to row, line to line in a row, a row's first baseline and the room
// between columns, in ems.
const rowLeading, lineLeading, rowRise, columnGap = 1.72, 1.2, 1.2, 1.6

// table is the measures as they are set on a page.
type table struct {
	size          float64
	rows          [][]string // a name's lines, then millimetres and inches
	name, mm, in  float64    // widths of the columns
	width, height float64
}

// setTable sets the table to a width, long names on more lines. It reports
// false when a word is too wide for that.
func setTable(b handmade.Blank, size, width float64) (t table, ok bool) {
	t.size = size
	all := append([]row{headRow}, rows(b)...)
	for _, r := range all {
		t.mm, t.in = max(t.mm, draw.Bold.Width(r.mm, size)), max(t.in, draw.Bold.Width(r.inches, size))
		t.name = max(t.name, draw.Bold.Width(r.name, size))
	}
	t.name = min(t.name, width-t.mm-t.in-2*columnGap*size)
	for i, r := range all {
		lines := setting.Wrap(r.name, head(i == 0), size, t.name)
		for _, line := range lines {
			if head(i == 0).Width(line, size) > t.name+1e-9 {
				return t, false
			}
		}
		t.rows = append(t.rows, append(lines, r.mm, r.inches))
		t.height += t.high(len(lines))
	}
	t.width = t.name + t.mm + t.in + 2*columnGap*size
	return t, true
}

// high is a row's height.
func (t table) high(lines int) float64 {
	return (rowLeading + lineLeading*float64(lines-1)) * t.size
}

// head is the typeface of the columns' names, or else of the rows.
func head(first bool) *draw.Font {
	if first {
		return draw.Bold
	}
	return draw.Regular
}

// draw draws the table with its top left at the origin of at, a fine line
// under every row.
func (t table) draw(s *draw.Surface, at draw.Matrix) {
	y := 0.0
	write := func(text string, f *draw.Font, x, y float64) {
		s.Text(text, f, t.size, at.After(draw.Translate(x, y)), ink)
	}
	for i, r := range t.rows {
		lines, font := r[:len(r)-2], head(i == 0)
		for k, line := range lines {
			write(line, font, 0, y+(rowRise+lineLeading*float64(k))*t.size)
		}
		base := y + (rowRise+lineLeading*float64(len(lines)-1))*t.size
		mm, inches := r[len(r)-2], r[len(r)-1]
		write(mm, font, t.name+columnGap*t.size+t.mm-font.Width(mm, t.size), base)
		write(inches, font, t.width-t.in, base)
		y += t.high(len(lines))
		line, colour := 0.1, hatched
		if i == 0 {
			line, colour = 0.2, ink
		}
		s.Fill(draw.Rectangle(draw.Rect{MinY: y - line, MaxX: t.width, MaxY: y}).Transform(at), colour)
	}
}
