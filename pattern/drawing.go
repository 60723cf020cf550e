package pattern

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"underflap/pattern/draw"
)

// drawing is a pattern as a file has it, in millimetres at its own size; the
// origin is the middle of a cell.
type drawing struct {
	about         string
	sum           string  // of the file: names its symbols
	width, height float64 // of a cell
	repeat        Repeat
	shapes        []shape // first drawn first
}

// shape is one thing in one ink: a filled path, a line along one, or a band.
type shape struct {
	path draw.Path
	ink  int
	line float64 // width of the line; 0 is filled
	band *band
}

// band is a strip through a point, across so many cells for every so many down.
// It runs on for ever and so does each of its repeats.
type band struct {
	from         draw.Point
	across, down int
}

// mostAlong bounds how many cells a band takes to meet itself.
const mostAlong = 12

// cellsAlong gives the smallest whole numbers in the ratio of x to y.
func cellsAlong(x, y float64) (across, down int, ok bool) {
	long := math.Max(math.Abs(x), math.Abs(y))
	if !(long > 1e-6) {
		return 0, 0, false
	}
	for n := 1; n <= mostAlong; n++ {
		k := float64(n) / long
		a, b := math.Round(x*k), math.Round(y*k)
		if math.Abs(a-x*k)+math.Abs(b-y*k) < 1e-4 {
			return int(a), int(b), true
		}
	}
	return 0, 0, false
}

// reach is how far the shape goes from the cell's middle, with size and line
// widths multiplied: of the curves' control points after each is parted in 16,
// so never too little and hardly too much.
func (sh *shape) reach(size, line float64) float64 {
	const parts = 16
	most := 0.0
	see := func(p draw.Point) { most = math.Max(most, math.Hypot(p.X, p.Y)) }
	var from draw.Point
	sh.path.Steps(func(v draw.Verb, q []draw.Point) {
		if v != draw.Cubic {
			for _, p := range q {
				see(p)
				from = p
			}
			return
		}
		a, b, c, d := from, q[0], q[1], q[2]
		from = d
		for i := range parts {
			t := 1 / float64(parts-i) // of what is left
			ab, bc, cd := between(a, b, t), between(b, c, t), between(c, d, t)
			abc, bcd := between(ab, bc, t), between(bc, cd, t)
			mid := between(abc, bcd, t)
			see(ab)
			see(abc)
			see(mid)
			a, b, c = mid, bcd, cd
		}
	})
	return most*size + sh.line*size*line/2
}

func between(a, b draw.Point, t float64) draw.Point {
	return draw.Point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t}
}

// fields tells whether the drawing has bands and so is no single motif.
func (d *drawing) fields() bool {
	return slices.ContainsFunc(d.shapes, func(sh shape) bool { return sh.band != nil })
}

// bind gives the drawing the parameters that every file has.
func (d *drawing) bind(p *params, _ *draw.Art) Motif {
	l := look{drawing: d, size: 1, line: 1}
	var width float64
	p.length(&width, "size", d.width, leastCell, mostCell, "width of a repeat; all else in proportion")
	if _, said := p.given["size"]; said {
		l.size = width / d.width
	}
	most, lines := 1, false
	for _, sh := range d.shapes {
		most, lines = max(most, sh.ink), lines || sh.line > 0
	}
	var own []string
	for ink := range most {
		own = append(own, strconv.Itoa(ink+1))
	}
	p.inks(&l.inks, "inks", strings.Join(own, ","), "what stands for the drawing's inks, in turn")
	if lines {
		p.number(&l.line, "line", 1, 0.2, 5, "lines so many times as wide as drawn")
	}
	if d.fields() {
		return &Field{l}
	}
	m := &Drawing{look: l}
	p.recurrence(&m.Recurrence, d.width*l.size, d.height*l.size, 0, d.repeat)
	return m
}

// look is a drawing with its parameters settled.
type look struct {
	*drawing
	size, line float64 // multiply lengths, and line widths once more
	inks       []int   // for the drawing's ink 1, 2 and so on
}

// colour is that of a shape.
func (l *look) colour(sh *shape, inks Colours) draw.Colour {
	if sh.ink == 0 {
		return inks.Ground
	}
	return inks.Ink(cycle(l.inks, sh.ink-1))
}

// draw draws a shape that is no band.
func (l *look) draw(s *draw.Surface, sh *shape, inks Colours) {
	path := sh.path.Transform(draw.Scale(l.size))
	if sh.line == 0 {
		s.Fill(path, l.colour(sh, inks))
	} else {
		s.Stroke(path, l.colour(sh, inks), sh.line*l.size*l.line)
	}
}

// reach is how far the motif goes from its middle.
func (l *look) reach() float64 {
	most := 0.0
	for i := range l.shapes {
		most = math.Max(most, l.shapes[i].reach(l.size, l.line))
	}
	return most
}

// weight is how many dots a cell costs: a dot has eight pieces.
func (l *look) weight() float64 {
	pieces := 0
	for _, sh := range l.shapes {
		pieces += len(sh.path.Verbs)
	}
	return math.Max(1, float64(pieces)/8)
}

// key names a symbol of the drawing.
func (l *look) key(part int, inks Colours) string {
	return key("drawing", l.sum, part, l.size, l.line, fmt.Sprint(l.inks), inks)
}

// Drawing is a single motif from a file.
type Drawing struct {
	look
	Recurrence
}

// Count implements Motif.
func (m *Drawing) Count(area draw.Rect) float64 { return m.count(area, m.reach()) * m.weight() }

// Draw implements Motif.
func (m *Drawing) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	whole := s.Symbol(m.key(0, inks), func(s *draw.Surface) {
		for i := range m.shapes {
			m.draw(s, &m.shapes[i], inks)
		}
	})
	m.place(s, area, m.reach(), []int{0}, func(int) *draw.Symbol { return whole })
}
