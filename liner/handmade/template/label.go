package template

import (
	"strings"

	"underflap/liner/geom"
	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
)

// label is a few words in the drawing: lines about a common middle, and
// before them, for a fold, its number in a ring.
type label struct {
	lines         []string
	number        string
	size          float64 // of the em
	colour        draw.Colour
	width, height float64
	at            draw.Matrix // from its box, top left in the origin, to laid space
}

// Line to line, the first line's letters and the last one's tails, and a
// ring's diameter and the room behind it, in ems.
const labelLeading, rise, tail, ring, behindRing = 1.25, 0.8, 0.22, 1.75, 0.45

// newLabel sets words on n lines or fewer.
func newLabel(number, text string, size float64, n int, colour draw.Colour) label {
	l := label{number: number, size: size, colour: colour}
	if text != "" {
		measure := draw.Regular.Width(text, size) / float64(n)
		for l.lines = setting.Wrap(text, draw.Regular, size, measure); len(l.lines) > n; {
			measure *= 1.05
			l.lines = setting.Wrap(text, draw.Regular, size, measure)
		}
	}
	for _, line := range l.lines {
		l.width = max(l.width, draw.Regular.Width(line, size))
	}
	if len(l.lines) > 0 {
		l.height = size * (rise + tail + labelLeading*float64(len(l.lines)-1))
	}
	if number != "" {
		l.width += l.indent()
		l.height = max(l.height, ring*size)
	}
	return l
}

// indent is the room of the ring, and of what parts it from the words.
func (l label) indent() float64 {
	switch {
	case l.number == "":
		return 0
	case len(l.lines) == 0:
		return ring * l.size
	}
	return (ring + behindRing) * l.size
}

// box is the label's box in laid space, grown by d.
func (l label) box(d float64) []geom.Point {
	var out []geom.Point
	for _, p := range corners(geom.Box{MinX: -d, MinY: -d, MaxX: l.width + d, MaxY: l.height + d}) {
		out = append(out, geom.Point(l.at.Apply(draw.Point(p))))
	}
	return out
}

func (l label) draw(s *draw.Surface) {
	if l.number != "" {
		r := ring * l.size / 2
		s.Stroke(draw.Circle(r, l.height/2, r-ringWidth/2).Transform(l.at), l.colour, ringWidth)
		w := draw.Bold.Width(l.number, l.size)
		s.Text(l.number, draw.Bold, l.size, l.at.After(draw.Translate(r-w/2, l.height/2+0.36*l.size)), l.colour)
	}
	room := l.width - l.indent()
	words := l.size * (rise + tail + labelLeading*float64(len(l.lines)-1))
	for i, line := range l.lines {
		x := l.indent() + (room-draw.Regular.Width(line, l.size))/2
		y := (l.height-words)/2 + l.size*(rise+labelLeading*float64(i))
		s.Text(line, draw.Regular, l.size, l.at.After(draw.Translate(x, y)), l.colour)
	}
}

const ringWidth = 0.2

// mostLines tells on how many lines a text may be broken.
func mostLines(text string) int { return min(3, len(strings.Fields(text))) }
