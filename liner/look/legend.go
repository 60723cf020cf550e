package look

import (
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Row heights of the legend in millimetres.
const (
	mainRow  = 6.4
	sideRow  = 4.7
	threeRow = 12.0 // of the three alone, in two lines side by side
)

// letter gives every placed measurement its letter, in the legend's order.
func (b *board) letter(f *figure) {
	next := byte('A')
	for _, m := range append(f.three(), f.further()...) {
		for _, d := range b.discs {
			if d.of == m.name {
				b.labels[d.label].Text = string(next)
				next++
			}
		}
	}
}

// letterOf is a measurement's letter, or "" when the drawing does not show it.
func (b *board) letterOf(name string) string {
	for _, d := range b.discs {
		if d.of == name {
			return b.labels[d.label].Text
		}
	}
	return ""
}

// legendHeight is the height of the legend in columns.
func (f *figure) legendHeight(columns int) float64 {
	if f.extent == Three {
		return threeRow
	}
	high := 0.0
	for _, column := range f.split(columns) {
		sum := 0.0
		for _, m := range column {
			sum += m.row()
		}
		high = max(high, sum)
	}
	return high
}

func (m measure) row() float64 {
	if m.how != "" {
		return mainRow
	}
	return sideRow
}

// split deals the measurements to columns of about one height.
func (f *figure) split(columns int) [][]measure {
	all := append(f.three(), f.further()...)
	if columns == 1 {
		return [][]measure{all}
	}
	total, first, n := 0.0, 0.0, 0
	for _, m := range all {
		total += m.row()
	}
	for first < total/2 {
		first += all[n].row()
		n++
	}
	return [][]measure{all[:n], all[n:]}
}

// legend lists the measurements: letter, name, value and flag.
func (b *board) legend(f *figure) {
	if f.extent == Three {
		b.threeLegend(f)
		return
	}
	x := f.legendLeft
	for _, column := range f.split(f.columns) {
		x += b.column(column, x, f.legendTop) + 9
	}
}

// column sets rows one below the other, names, values and flags aligned, and
// returns its width.
func (b *board) column(rows []measure, left, top float64) float64 {
	const gap = 4.0
	name, value, flag := left+2*mainDisc+2.2, 0.0, 0.0
	for _, m := range rows {
		font, em := m.face()
		value = max(value, name+font.Width(m.name, em)+gap)
	}
	for _, m := range rows {
		_, em := m.face()
		flag = max(flag, value+draw.Regular.Width(m.length(), em)+gap)
	}
	right, y := flag, top
	if rows[0].how == "" {
		y += (mainRow - sideRow) / 2 // beside the first column's first row
	}
	for _, m := range rows {
		font, em := m.face()
		mid := y + m.row()/2
		base := mid + 0.36*em
		if letter := b.letterOf(m.name); letter != "" {
			b.disc("legend", letter, draw.Point{X: left + mainDisc, Y: mid}, m.how != "")
		}
		b.text("legend", m.name, font, em, draw.Point{X: name, Y: base}, ink)
		b.text("legend", m.length(), draw.Regular, em, draw.Point{X: value, Y: base}, ink)
		right = max(right, flag+b.text("legend", m.flag, draw.Regular, smallType, draw.Point{X: flag, Y: base}, faint))
		y += m.row()
	}
	return right - left
}

// face is the type a measurement is set in, and its em.
func (m measure) face() (*draw.Font, float64) {
	if m.how != "" {
		return draw.Bold, legendType
	}
	return draw.Regular, smallType
}

// length is the value in words; the three measurements' in inches too.
func (m measure) length() string {
	if m.how != "" {
		return both(m.value)
	}
	return words.MM(m.value)
}

// threeLegend sets the three measurements side by side, with where the ruler
// lies.
func (b *board) threeLegend(f *figure) {
	width := f.paper().Width() / 3
	for i, m := range f.three() {
		x, mid := f.legendLeft+float64(i)*width, f.legendTop+mainDisc
		b.disc("legend", b.letterOf(m.name), draw.Point{X: x + mainDisc, Y: mid}, true)
		x += 2*mainDisc + 2.2
		base := mid + 0.36*legendType
		x1 := x + b.text("legend", m.name, draw.Bold, legendType, draw.Point{X: x, Y: base}, ink) + 1.4
		b.text("legend", both(m.value), draw.Regular, smallType, draw.Point{X: x1, Y: base}, ink)
		b.text("legend", m.how, draw.Regular, smallType, draw.Point{X: x, Y: base + 4.4}, faint)
	}
}
