package sheet

import (
	"underflap/liner/geom"
	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
)

const (
	tickWidth  = 0.2
	tickFrom   = 0.5 // from the cut line outwards
	tickLength = 5.1 // beyond the bleed: three gaps and dashes
	tickDash   = 1.0
	tickGap    = 0.7
	tickWord   = "fold"
	tickType   = 2.2
	nameType   = 2.6 // where the word names the liner, too
	tickRise   = 0.7 // from the tick to the foot of its word
)

// tick is a fold tick, dashed as folds are: a first dash on the bleed, more
// beyond it where there is room, and the word that stands on those.
type tick struct {
	inner  geom.Box
	outer  geom.Box // around the dashes beyond the bleed
	dashes []geom.Box
	word   draw.Matrix
	said   geom.Box // around the word
	text   string
	size   float64
	worded bool
	named  bool // the word names the liner, too
	seen   bool // some of it lies on paper that can be printed
}

// ticks are the two fold ticks of a placement. Where another liner lies in the
// way, a tick is one dash that ends half-way to it.
func (p Plan) ticks(i int) []tick {
	pl := p.Placements[i]
	o := p.Pieces[pl.Piece].Outline
	var out []tick
	named := false // once is enough
	for _, end := range []struct{ x, way float64 }{{o.Left, -1}, {o.Right, 1}} {
		box := func(from, to, low, high float64) geom.Box {
			return pl.pageBox(geom.Box{MinX: end.x + end.way*from, MaxX: end.x + end.way*to, MinY: low, MaxY: high})
		}
		bar := func(from, to float64) geom.Box { return box(from, to, -tickWidth/2, tickWidth/2) }
		start := max(tickFrom+tickDash, p.Bleed)
		t := tick{inner: bar(tickFrom, start), outer: bar(start, start+tickLength)}
		if !p.clearOf(t.outer, i) {
			half := max(p.Gap/2, tickFrom)
			t.inner, t.outer = bar(tickFrom, half), bar(half, half)
			t.seen = half-tickFrom > tickDash/2 && p.onPaper(t.inner)
			out = append(out, t)
			continue
		}
		for at := start + tickGap; at+tickDash <= start+tickLength+1e-9; at += tickDash + tickGap {
			t.dashes = append(t.dashes, bar(at, at+tickDash))
		}
		t.seen = p.onPaper(t.inner)
		from := start + tickGap
		say := func(text string, size float64) {
			t.text, t.size = text, size
			t.said = box(from, from+draw.Regular.Width(text, size), tickRise, tickRise+size)
			t.worded = p.onPaper(t.said) && p.clearOf(t.said, i)
		}
		if name := p.Pieces[pl.Piece].Name; p.mixed() && name != "" && !named {
			say(tickWord+" · "+setting.Shortened(name, draw.Regular, nameType, labelLong), nameType)
			t.word = legible(t.said, pl.Turn%180 != 0, 0)
			t.named, named = t.worded, t.worded
		}
		if !t.worded {
			say(tickWord, tickType)
			foot := geom.Point{X: end.x + end.way*from, Y: tickRise}
			if end.way < 0 {
				foot.X -= draw.Regular.Width(tickWord, tickType)
			}
			foot = pl.page(foot)
			t.word = draw.Translate(foot.X, foot.Y).After(draw.Turn(float64(pl.Turn)))
		}
		out = append(out, t)
	}
	return out
}

// legible is where text lies in a box, so that it is read from below or, in an
// upright box, from the right; tail is what the box has for letters' tails.
func legible(b geom.Box, upright bool, tail float64) draw.Matrix {
	if upright {
		return draw.Translate(b.MaxX-tail, b.MaxY).After(draw.Turn(270))
	}
	return draw.Translate(b.MinX, b.MaxY-tail)
}

// clearOf tells whether a box touches no placement's bleed but its own, and no
// registration mark.
func (p Plan) clearOf(b geom.Box, own int) bool {
	if p.onMarks(b) {
		return false
	}
	for i, pl := range p.Placements {
		if i == own {
			continue
		}
		if p.touches(pl, b) {
			return false
		}
	}
	return true
}

// touches tells whether a box touches a placement's bleed.
func (p Plan) touches(pl Placement, b geom.Box) bool {
	piece := p.Pieces[pl.Piece]
	if !b.Meets(pl.pageBox(piece.reach)) {
		return false
	}
	chain := make([]geom.Point, len(piece.bleed))
	for k, q := range piece.bleed {
		chain[k] = pl.page(q)
	}
	return touches(chain, b.Grow(0.05))
}

// touches tells whether a closed chain of points comes into a box or goes around
// it.
func touches(chain []geom.Point, b geom.Box) bool {
	inside := false
	x, y := (b.MinX+b.MaxX)/2, (b.MinY+b.MaxY)/2
	for i := 1; i < len(chain); i++ {
		p, q := chain[i-1], chain[i]
		if crosses(p, q, b) {
			return true
		}
		if (p.Y <= y) != (q.Y <= y) && x < p.X+(y-p.Y)/(q.Y-p.Y)*(q.X-p.X) {
			inside = !inside
		}
	}
	return inside
}

// crosses tells whether a straight line from p to q comes into a box: what the
// box's sides leave of it (Liang and Barsky's clipping).
func crosses(p, q geom.Point, b geom.Box) bool {
	from, to := 0.0, 1.0
	for _, side := range [][2]float64{{p.X - q.X, p.X - b.MinX}, {q.X - p.X, b.MaxX - p.X}, {p.Y - q.Y, p.Y - b.MinY}, {q.Y - p.Y, b.MaxY - p.Y}} {
		along, room := side[0], side[1]
		switch {
		case along == 0 && room < 0:
			return false
		case along < 0:
			from = max(from, room/along)
		case along > 0:
			to = min(to, room/along)
		}
	}
	return from <= to
}

// onPaper tells whether a box lies inside the printer margin.
func (p Plan) onPaper(b geom.Box) bool { return b.Within(p.printable()) == b }
