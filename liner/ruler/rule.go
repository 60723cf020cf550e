package ruler

import (
	"math"
	"strconv"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Scale is what a rule measures in.
type Scale struct {
	Unit     string
	Length   float64 // of the whole rule in millimetres, end to end
	Ticks    int     // parts it is divided into
	Numbered int     // a number stands at every so many ticks
	depths   []depth // the first whose step divides the tick tells its length
}

// depth is how long every step-th tick is, in millimetres.
type depth struct {
	step int
	long float64
}

// The scales of the page. An inch is 25.4 mm exactly.
var (
	Millimetres = Scale{Unit: "mm", Length: 100, Ticks: 100, Numbered: 10, depths: []depth{{10, Depth}, {5, 3.8}, {1, 2.4}}}
	Inches      = Scale{Unit: "in", Length: 4 * words.MillimetresPerInch, Ticks: 64, Numbered: 16, depths: []depth{{16, Depth}, {8, 4}, {4, 3.2}, {2, 2.4}, {1, 1.6}}}
)

// Depth is how far the longest ticks reach from a rule's base line, in
// millimetres.
const Depth = 5.0

const (
	baseLine  = 0.25
	fineTick  = 0.13
	boldTick  = 0.2
	numerals  = 2.5 // em of the numbers
	capitals  = 0.72
	fromTicks = 1.0 // between the ticks and their numbers
)

// Overhang is how far the numbers at a rule's ends may reach beyond them, in
// millimetres.
const Overhang = 2.3

// Rule is a rule on the page. It begins at X, Y and runs right or, when
// Upright, down. Ticks stand on the side of greater y (or x), when Flipped on
// the other.
type Rule struct {
	Scale
	X, Y             float64
	Upright, Flipped bool
}

// Box is the rectangle that the base line and the longest ticks fill exactly:
// the scale's length along, Depth across.
func (r Rule) Box() draw.Rect { return r.rect(0, 0, r.Length, Depth) }

// rect places a rectangle given along and across the rule.
func (r Rule) rect(a0, c0, a1, c1 float64) draw.Rect {
	p, q := r.place(a0, c0), r.place(a1, c1)
	return draw.Rect{MinX: math.Min(p.X, q.X), MinY: math.Min(p.Y, q.Y), MaxX: math.Max(p.X, q.X), MaxY: math.Max(p.Y, q.Y)}
}

func (r Rule) place(along, across float64) draw.Point {
	if r.Flipped {
		across = -across
	}
	if r.Upright {
		return draw.Point{X: r.X + across, Y: r.Y + along}
	}
	return draw.Point{X: r.X + along, Y: r.Y + across}
}

// Draw draws the rule from fills alone, so that its ends are where they are
// said to be: the first and the last tick end flush with the base line, every
// other one stands across its place.
func (r Rule) Draw(s *draw.Surface, c draw.Colour) {
	fill := func(a0, c0, a1, c1 float64) { s.Fill(draw.Rectangle(r.rect(a0, c0, a1, c1)), c) }
	fill(0, 0, r.Length, baseLine)
	for i := range r.Ticks + 1 {
		at, long, wide := r.Length*float64(i)/float64(r.Ticks), r.tick(i), fineTick
		if i%r.Numbered == 0 {
			wide = boldTick
		}
		switch i {
		case 0:
			fill(0, 0, wide, long)
		case r.Ticks:
			fill(r.Length-wide, 0, r.Length, long)
		default:
			fill(at-wide/2, 0, at+wide/2, long)
		}
	}
	for i := 0; i <= r.Ticks; i += r.Numbered {
		r.write(s, r.number(i), draw.Bold, r.Length*float64(i)/float64(r.Ticks), c)
	}
	r.write(s, r.Unit, draw.Regular, r.unitAt(), c)
}

func (r Rule) tick(i int) float64 {
	for _, d := range r.depths {
		if i%d.step == 0 {
			return d.long
		}
	}
	return 0
}

// unitAt is where the unit stands: half-way to the first number.
func (r Rule) unitAt() float64 { return r.Length * float64(r.Numbered) / float64(r.Ticks) / 2 }

// write sets a word upright beside the ticks, its middle along the rule at
// along.
func (r Rule) write(s *draw.Surface, word string, font *draw.Font, along float64, c draw.Colour) {
	wide, high := font.Width(word, numerals), capitals*numerals
	p := r.place(along, Depth+fromTicks)
	switch {
	case r.Upright && r.Flipped:
		p = draw.Point{X: p.X - wide, Y: p.Y + high/2}
	case r.Upright:
		p = draw.Point{X: p.X, Y: p.Y + high/2}
	case r.Flipped:
		p = draw.Point{X: p.X - wide/2, Y: p.Y}
	default:
		p = draw.Point{X: p.X - wide/2, Y: p.Y + high}
	}
	s.Text(word, font, numerals, draw.Translate(p.X, p.Y), c)
}

// Across is how far the rule reaches from its base line with its numbers.
func (r Rule) Across() float64 {
	if !r.Upright {
		return Depth + fromTicks + capitals*numerals
	}
	widest := draw.Regular.Width(r.Unit, numerals)
	for i := 0; i <= r.Ticks; i += r.Numbered {
		widest = max(widest, draw.Bold.Width(r.number(i), numerals))
	}
	return Depth + fromTicks + widest
}

// number is what stands at a numbered tick: millimetres are numbered as they
// are counted, inches by the whole.
func (r Rule) number(tick int) string {
	if r.Unit == Inches.Unit {
		tick /= r.Numbered
	}
	return strconv.Itoa(tick)
}
