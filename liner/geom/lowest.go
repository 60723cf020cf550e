package geom

import (
	"math"
	"slices"
)

// lowest is the lower envelope of the candidates, joined by jumps. Where two
// are equal the earlier one counts.
func lowest(candidates []reach) Profile {
	var out Profile
	for _, s := range shaven(lowerEnvelope(candidates, 0), candidates) {
		out = out.join(candidates[s.of].segment(s.from, s.to))
	}
	return out
}

// shaven is the envelope without hairs: where pieces that meet leave a gap of
// rounding between them, a higher piece shows through it. What is shaven may
// have stood between two others, so it goes on until there are none.
func shaven(spans []span, candidates []reach) []span {
	for {
		var out []span
		for i, s := range spans {
			if n := len(out); s.to-s.from < hair && n > 0 && i+1 < len(spans) {
				left, right := out[n-1], spans[i+1]
				y := candidates[s.of].at((s.from + s.to) / 2)
				meet := s.from-left.to < tiny && right.from-s.to < tiny
				if meet && y >= candidates[left.of].at(left.to) && y >= candidates[right.of].at(right.from) {
					out[n-1].to = s.to
					continue
				}
			}
			out = append(out, s)
		}
		if len(out) == len(spans) {
			return out
		}
		spans = out
	}
}

// hair is wider than any gap, in millimetres, that rounding leaves between
// pieces that meet.
const hair = 1e-6

// span is the part of one candidate, by its place in the list, that is lowest.
type span struct {
	of       int
	from, to float64
}

// lowerEnvelope finds the lowest candidate over every x by halves: the envelopes of
// two halves of the list, laid over each other. The spans run from left to
// right; first is the place of the first candidate in the whole list.
func lowerEnvelope(candidates []reach, first int) []span {
	switch n := len(candidates); n {
	case 0:
		return nil
	case 1:
		if f := candidates[0]; f.to-f.from >= tiny {
			return []span{{first, f.from, f.to}}
		}
		return nil
	default:
		left, right := lowerEnvelope(candidates[:n/2], first), lowerEnvelope(candidates[n/2:], first+n/2)
		return over(left, right, func(i int) reach { return candidates[i-first] })
	}
}

// over is the lower of two envelopes.
func over(a, b []span, candidate func(int) reach) []span {
	out := make([]span, 0, len(a)+len(b)+2)
	add := func(s span) {
		if n := len(out); n > 0 && s.from-out[n-1].to < tiny {
			if out[n-1].of == s.of {
				out[n-1].to = s.to
				return
			}
			s.from = out[n-1].to
		}
		out = append(out, s)
	}
	x := math.Inf(-1)
	for len(a) > 0 || len(b) > 0 {
		// the next stretch on which neither envelope changes
		next := math.Inf(1)
		active := func(spans []span) (int, bool) {
			if len(spans) == 0 {
				return 0, false
			}
			s := spans[0]
			if s.from > x {
				next = math.Min(next, s.from)
				return 0, false
			}
			next = math.Min(next, s.to)
			return s.of, true
		}
		f, onA := active(a)
		g, onB := active(b)
		if next-x >= tiny {
			switch {
			case onA && onB:
				lower(f, g, x, next, candidate, add)
			case onA:
				add(span{f, x, next})
			case onB:
				add(span{g, x, next})
			}
		}
		x = next
		for len(a) > 0 && a[0].to <= x {
			a = a[1:]
		}
		for len(b) > 0 && b[0].to <= x {
			b = b[1:]
		}
	}
	return out
}

// lower adds the lower of two candidates over [from, to], cut where they cross.
func lower(i, j int, from, to float64, candidate func(int) reach, add func(span)) {
	f, g := candidate(i), candidate(j)
	cuts := append(make([]float64, 0, 4), from)
	for _, x := range crossings(f, g) {
		if x > from && x < to {
			cuts = append(cuts, x)
		}
	}
	cuts = append(cuts, to)
	slices.Sort(cuts)
	for k := 1; k < len(cuts); k++ {
		a, b := cuts[k-1], cuts[k]
		if b-a < tiny {
			continue
		}
		if mid := (a + b) / 2; g.at(mid) < f.at(mid) {
			add(span{j, a, b})
		} else {
			add(span{i, a, b})
		}
	}
}

// crossings lists the x at which two pieces meet inside both their ranges.
func crossings(f, g reach) []float64 {
	from, to := math.Max(f.from, g.from), math.Min(f.to, g.to)
	if from > to {
		return nil
	}
	var xs []float64
	switch {
	case f.r == 0 && g.r == 0:
		if f.slope != g.slope {
			xs = []float64{from + (g.at(from)-f.at(from))/(f.slope-g.slope)}
		}
	case f.r == 0:
		xs = lineCircle(f, g)
	case g.r == 0:
		xs = lineCircle(g, f)
	default:
		xs = circleCircle(f, g)
	}
	kept := xs[:0]
	for _, x := range xs {
		if x > from && x < to && math.Abs(f.at(x)-g.at(x)) < 1e-6*(1+math.Abs(f.slope)+math.Abs(g.slope)) {
			kept = append(kept, x)
		}
	}
	return kept
}

func lineCircle(l, c reach) []float64 {
	// along the line to the foot of the perpendicular from the centre, and from
	// there half a chord both ways: no digits are lost on steep lines
	n := math.Hypot(1, l.slope)
	ux, uy := 1/n, l.slope/n
	wx, wy := c.c.X-l.from, c.c.Y-l.y
	across := ux*wy - uy*wx
	if math.Abs(across) > c.r {
		return nil
	}
	along, half := ux*wx+uy*wy, math.Sqrt((c.r-across)*(c.r+across))
	return []float64{l.from + (along-half)*ux, l.from + (along+half)*ux}
}

func circleCircle(f, g reach) []float64 {
	d := f.c.Distance(g.c)
	if d < tiny || d > f.r+g.r || d < math.Abs(f.r-g.r) {
		return nil
	}
	along := (d*d + f.r*f.r - g.r*g.r) / (2 * d)
	across := math.Sqrt(math.Max(0, f.r*f.r-along*along))
	ux, uy := (g.c.X-f.c.X)/d, (g.c.Y-f.c.Y)/d
	x := f.c.X + along*ux
	return []float64{x - across*uy, x + across*uy}
}
