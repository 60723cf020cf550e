package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Leaves are sprigs: pairs of leaves along a stem and one at its end, growing
// smaller to the tip.
type Leaves struct {
	Size    float64 // length of the stem, without the leaf at its end
	Pairs   int
	Leaf    float64 // length of the longest leaf
	Breadth float64 // of the longest leaf
	Lean    float64 // degrees from the stem to a leaf
	Bend    float64 // degrees that the stem turns on its way
	Stem    float64 // thickness
	Inks    []int   // of the leaves, one a row, in turn
	Wood    int     // ink of the stem
	Recurrence
}

func init() {
	register(family{"leaves", "sprigs of leaves along a stem", func(p *params, _ *draw.Art) Motif {
		l := &Leaves{}
		p.length(&l.Size, "size", 23, 2, 150, "length of the stem, up to the leaf at its end")
		p.count(&l.Pairs, "pairs", 5, 1, 16, "pairs of leaves along the stem")
		p.length(&l.Leaf, "leaf", 0, 0, 80, "length of the longest leaf; 0 is three eighths of the stem")
		p.length(&l.Breadth, "breadth", 0, 0, 40, "breadth of the longest leaf; 0 is a third of its length")
		p.degrees(&l.Lean, "lean", 48, "from the stem to a leaf")
		p.degrees(&l.Bend, "bend", 0, "how far the stem turns on its way, clockwise")
		p.length(&l.Stem, "stem", 0.5, 0.1, 10, "thickness of the stem")
		p.inks(&l.Inks, "inks", "1", "ink of the leaves of each row in turn")
		p.count(&l.Wood, "wood", 1, 0, MostInks, "ink of the stem; 0 is the ground")
		if l.Leaf == 0 {
			l.Leaf = l.Size * 3 / 8
		}
		if l.Breadth == 0 {
			l.Breadth = l.Leaf / 3
		}
		box := l.box()
		p.recurrence(&l.Recurrence, box.Width(), box.Height(), 6, HalfDrop)
		return l
	}})
}

// taper is how large a leaf is, of the longest, at a part of the way up.
func taper(t float64) float64 { return 1 - 0.45*t*t }

// at is the place on the stem at a part of the way up, and its heading.
func (l *Leaves) at(t float64) draw.Matrix {
	bend := l.Bend * math.Pi / 180
	u := bend * (t - 0.5)
	x, y := 0.0, l.Size*(0.5-t)
	if bend != 0 {
		x, y = l.Size*(1-math.Cos(u))/bend, -l.Size*math.Sin(u)/bend
	}
	return draw.Translate(x, y).After(draw.Turn(l.Bend * (t - 0.5)))
}

// sprig is the outline of the leaves.
func (l *Leaves) sprig() draw.Path {
	var all draw.Path
	leaf := func(t, lean float64) {
		long, broad := l.Leaf*taper(t), l.Breadth*taper(t)
		tip := draw.Point{Y: -long}
		var p draw.Path // broadest below its middle
		p.Move(0, 0)
		p.Cubic(draw.Point{X: -0.78 * broad, Y: -0.25 * long}, draw.Point{X: -0.54 * broad, Y: -0.7 * long}, tip)
		p.Cubic(draw.Point{X: 0.54 * broad, Y: -0.7 * long}, draw.Point{X: 0.78 * broad, Y: -0.25 * long}, draw.Point{})
		p.Close()
		all.Append(p.Transform(l.at(t).After(draw.Turn(lean))))
	}
	const first, last = 0.16, 0.86
	for i := range l.Pairs {
		t := first + (last-first)*float64(i)/math.Max(1, float64(l.Pairs-1))
		leaf(t, -l.Lean)
		leaf(t, l.Lean)
	}
	leaf(1, 0)
	return all
}

// stem is its middle line.
func (l *Leaves) stem() draw.Path {
	var p draw.Path
	foot, top := l.at(0), l.at(1)
	p.Move(foot.E, foot.F)
	if bend := l.Bend * math.Pi / 180; bend == 0 {
		p.Line(top.E, top.F)
	} else {
		p.Arc(draw.Point{X: l.Size / bend}, bend)
	}
	return p
}

// box is around leaves and stem.
func (l *Leaves) box() draw.Rect {
	return l.sprig().Bounds().Union(l.stem().Bounds().Grow(l.Stem / 2))
}

// middled is the map that brings the sprig's middle to the origin, and how far
// it then reaches.
func (l *Leaves) middled() (draw.Matrix, float64) {
	box := l.box()
	m := draw.Translate(-(box.MinX+box.MaxX)/2, -(box.MinY+box.MaxY)/2)
	reach := 0.0
	for _, p := range append(l.sprig().Transform(m).Points, l.stem().Transform(m).Points...) {
		reach = math.Max(reach, math.Hypot(p.X, p.Y)+l.Stem/2)
	}
	return m, reach
}

// Count implements Motif.
func (l *Leaves) Count(area draw.Rect) float64 {
	_, reach := l.middled()
	return l.count(area, reach) * float64(2*l.Pairs+2)
}

// Draw implements Motif.
func (l *Leaves) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	middled, reach := l.middled()
	l.place(s, area, reach, l.Inks, func(ink int) *draw.Symbol {
		return s.Symbol(key("leaves", l.Size, l.Pairs, l.Leaf, l.Breadth, l.Lean, l.Bend, l.Stem, l.Wood, ink, inks), func(s *draw.Surface) {
			s.Stroke(l.stem().Transform(middled), inks.Ink(l.Wood), l.Stem)
			s.Fill(l.sprig().Transform(middled), inks.Ink(ink))
		})
	})
}
