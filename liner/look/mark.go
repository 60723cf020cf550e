package look

import (
	"math"

	"underflap/pattern/draw"
)

// mark is a measurement drawn but not yet put on the board.
type mark struct {
	of    string
	lines []Line
	heads []draw.Path
	disc  draw.Point
	main  bool

	shared draw.Point // the end of a dimension that another one continues from
}

func (m *mark) box() draw.Rect { return circle{m.disc, radius(m.main)}.box() }

func (m *mark) line(kind Kind, a, b draw.Point) {
	m.lines = append(m.lines, Line{Of: m.of, Kind: kind, A: a, B: b})
}

// head is an arrow's point at tip, for a line that comes from from.
func (m *mark) head(from, tip draw.Point) {
	length := math.Hypot(tip.X-from.X, tip.Y-from.Y)
	ux, uy := (tip.X-from.X)/length, (tip.Y-from.Y)/length
	x, y := tip.X-ux*headLength, tip.Y-uy*headLength
	var p draw.Path
	p.Move(tip.X, tip.Y)
	p.Line(x-uy*headHalf, y+ux*headHalf)
	p.Line(x+uy*headHalf, y-ux*headHalf)
	p.Close()
	m.heads = append(m.heads, p)
}

// Extension lines keep a little off what they extend and end a little past the
// dimension.
const offEdge, pastLine = 0.9, 1.2

// extend carries an edge from a towards b, the dimension's end.
func (m *mark) extend(a, b draw.Point) {
	length := math.Hypot(b.X-a.X, b.Y-a.Y)
	if length < offEdge+0.2 {
		return
	}
	m.line(Extension, between(a, b, offEdge/length), between(a, b, (length+pastLine)/length))
}

// Arrows stand inside a dimension as long as this, else outside with tails.
const roomForArrows, tail = 5.4, 3.4

// span measures from a to b. A disc that lies in line beyond a is joined to it.
func (m *mark) span(a, b, at draw.Point) {
	m.disc = at
	length := math.Hypot(b.X-a.X, b.Y-a.Y)
	ux, uy := (b.X-a.X)/length, (b.Y-a.Y)/length
	along := (at.X-a.X)*ux + (at.Y-a.Y)*uy
	off := math.Abs((at.Y-a.Y)*ux - (at.X-a.X)*uy)
	before, after := draw.Point{X: a.X - ux*tail, Y: a.Y - uy*tail}, draw.Point{X: b.X + ux*tail, Y: b.Y + uy*tail}
	switch {
	case off < 0.01 && along < 0:
		before = at
	case off < 0.01 && along > length:
		after = at
	}
	if length >= roomForArrows {
		m.head(b, a)
		m.head(a, b)
		if before == at {
			a = at
		} else if after == at {
			b = at
		}
		m.line(Dimension, a, b)
		return
	}
	if m.shared == a {
		before = a
	} else {
		m.head(before, a)
	}
	if m.shared == b {
		after = b
	} else {
		m.head(after, b)
	}
	m.line(Dimension, before, after)
}

// point leads from the disc to what it names.
func (m *mark) point(tip, at draw.Point) {
	m.disc = at
	m.head(at, tip)
	m.line(Leader, at, tip)
}
