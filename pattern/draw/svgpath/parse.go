// Package svgpath reads the path data of SVG, the text of a path's "d", into a
// path of ours: SVG 1.1 and SVG 2, chapter "Paths".
package svgpath

import (
	"fmt"

	"underflap/pattern/draw"
)

// MostSegments bounds a path; MostBytes its text.
const (
	MostSegments = 50_000
	MostBytes    = 1 << 20
)

// Error says what is wrong with path data and at which character, counted from 1.
type Error struct {
	At  int
	Why string
}

// Error is one line.
func (e *Error) Error() string { return fmt.Sprintf("at character %d: %s", e.At, e.Why) }

// arguments is how many numbers each command takes, by its lower-case letter.
var arguments = map[byte]int{'m': 2, 'l': 2, 'h': 1, 'v': 1, 'c': 6, 's': 4, 'q': 4, 't': 2, 'a': 7, 'z': 0}

// Parse reads path data in its own units, y down. Quadratic curves become cubic
// ones exactly, arcs as arc says. Data that a browser would draw in part, up to
// the slip, is refused with an *Error. Blank data is an empty path.
func Parse(data string) (draw.Path, error) {
	b := builder{scanner: scanner{data: data}}
	if len(data) > MostBytes {
		return draw.Path{}, &Error{At: MostBytes + 1, Why: fmt.Sprintf("more than %d characters", MostBytes)}
	}
	if err := b.commands(); err != nil {
		return draw.Path{}, err
	}
	return b.path, nil
}

// builder keeps what a command needs to know of those before it.
type builder struct {
	scanner
	path       draw.Path
	now, start draw.Point // the current point, and where the subpath began
	begun      bool       // the path has the subpath's move
	control    draw.Point // of the last curve, for one that continues it smoothly
	last       byte       // the last command, in lower case
}

// commands reads all of the data.
func (b *builder) commands() *Error {
	for b.space(); b.at < len(b.data); b.space() {
		begin, c := b.at, b.peek()
		lower := c | 0x20
		n, known := arguments[lower]
		switch {
		case !known || c < 'A':
			return b.fault(begin, "a command such as M, L, C, A or Z belongs here, not "+b.found())
		case b.last == 0 && lower != 'm':
			return b.fault(begin, "a path begins with M, not "+b.found())
		}
		b.at++
		if n == 0 {
			b.close()
			continue
		}
		if err := b.groups(c, lower, n); err != nil {
			return err
		}
	}
	return nil
}

// groups reads a command's groups of numbers; each draws one piece.
func (b *builder) groups(c, lower byte, n int) *Error {
	b.space()
	for {
		begin := b.at
		var v [7]float64
		for i := range n {
			if i > 0 {
				b.comma()
			}
			var err *Error
			if lower == 'a' && (i == 3 || i == 4) {
				v[i], err = b.flag()
			} else {
				v[i], err = b.number()
			}
			if err != nil {
				return err
			}
		}
		drawn := len(b.path.Points)
		b.piece(lower, c == lower, v)
		for _, p := range append(b.path.Points[drawn:len(b.path.Points):len(b.path.Points)], b.now) {
			if max(p.X, -p.X, p.Y, -p.Y) > farthest {
				return b.fault(begin, fmt.Sprintf("beyond %.0f from the origin", farthest))
			}
		}
		if len(b.path.Verbs) > MostSegments {
			return b.fault(begin, fmt.Sprintf("more than %d pieces", MostSegments))
		}
		if lower == 'm' { // further pairs are lines
			c, lower = c-'m'+'l', 'l'
		}
		if comma := b.comma(); !comma && !b.startsNumber() {
			return nil
		}
	}
}

// piece draws one piece and remembers what the next may continue.
func (b *builder) piece(lower byte, relative bool, v [7]float64) {
	var origin draw.Point
	if relative {
		origin = b.now
	}
	at := func(i int) draw.Point { return draw.Point{X: origin.X + v[i], Y: origin.Y + v[i+1]} }
	switch lower {
	case 'm':
		b.now = at(0)
		b.start, b.begun = b.now, false
	case 'l':
		b.line(at(0))
	case 'h':
		b.line(draw.Point{X: origin.X + v[0], Y: b.now.Y})
	case 'v':
		b.line(draw.Point{X: b.now.X, Y: origin.Y + v[0]})
	case 'c':
		b.cubic(at(0), at(2), at(4))
	case 's':
		b.cubic(b.mirrored('c', 's'), at(0), at(2))
	case 'q':
		b.quadratic(at(0), at(2))
	case 't':
		b.quadratic(b.mirrored('q', 't'), at(0))
	case 'a':
		b.arc(v[0], v[1], v[2], v[3] != 0, v[4] != 0, at(5))
	}
	b.last = lower
}

// mirrored is the last curve's control point on the other side of the current
// point, or the current point when the last piece was no such curve.
func (b *builder) mirrored(first, second byte) draw.Point {
	if b.last != first && b.last != second {
		return b.now
	}
	return draw.Point{X: 2*b.now.X - b.control.X, Y: 2*b.now.Y - b.control.Y}
}

// begin makes the subpath's move, late, so that a move that draws nothing
// leaves nothing.
func (b *builder) begin() {
	if !b.begun {
		b.path.Move(b.now.X, b.now.Y)
		b.begun = true
	}
}

func (b *builder) line(p draw.Point) {
	b.begin()
	b.path.Line(p.X, p.Y)
	b.now = p
}

func (b *builder) cubic(c1, c2, p draw.Point) {
	b.begin()
	b.path.Cubic(c1, c2, p)
	b.now, b.control = p, c2
}

func (b *builder) quadratic(c, p draw.Point) {
	third := func(q draw.Point) draw.Point { // two thirds of the way from q to c
		return draw.Point{X: q.X + (c.X-q.X)*2/3, Y: q.Y + (c.Y-q.Y)*2/3}
	}
	b.cubic(third(b.now), third(p), p)
	b.control = c
}

// close ends the subpath; what follows without a move begins where it began.
func (b *builder) close() {
	b.begin()
	b.path.Close()
	b.now, b.begun, b.last = b.start, false, 'z'
}
