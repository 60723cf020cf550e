package nest

import (
	"math"
	"sort"

	"underflap/liner/geom"
)

// stack is one pose above another: for every slide dx of the upper one's origin
// to the right of the lower one's, how far up it must lie. Beyond the ends the
// two pass each other at any height.
type stack struct {
	rise geom.Profile
}

// above is how b lies above a with at least a gap between their cut lines: the
// no-fit region's upper edge, a's upper edge grown by the gap and summed with
// b's lower edge turned about.
func above(a, b Pose, gap float64) stack {
	under := a.upper()
	if gap > 0 {
		under = under.Dilate(gap)
	}
	return stack{under.Sum(b.under())}
}

// lowest is the least rise over slides from lo to hi, and the slides where it is
// taken, as far as they reach together.
func (s stack) lowest(lo, hi float64) (rise, from, to float64) {
	first, last := s.rise[0].A.X, s.rise[len(s.rise)-1].B.X
	if lo <= first+rounding {
		return math.Inf(-1), lo, math.Min(hi, first)
	}
	if hi >= last-rounding {
		return math.Inf(-1), math.Max(lo, last), hi
	}
	rise = math.Inf(1)
	take := func(x0, x1, y float64) {
		switch {
		case y < rise-rounding:
			rise, from, to = y, x0, x1
		case y <= rise+rounding && x0 <= to+1e-6:
			to = math.Max(to, x1)
		}
	}
	for _, seg := range s.rise {
		a, b := math.Max(seg.A.X, lo), math.Min(seg.B.X, hi)
		if a > b {
			continue
		}
		ya, yb := at(seg, a), at(seg, b)
		if seg.R == 0 && math.Abs(ya-yb) < rounding && seg.B.X > seg.A.X {
			take(a, b, math.Max(ya, yb))
			continue
		}
		take(a, a, ya)
		if seg.R != 0 && !seg.CW && seg.C.X > a && seg.C.X < b {
			take(seg.C.X, seg.C.X, seg.C.Y-seg.R) // the bottom of a hollow
		}
		take(b, b, yb)
	}
	return rise, from, to
}

// at is the height of a segment of a profile over x; a jump counts as its foot,
// which touching pieces may reach.
func at(s geom.Segment, x float64) float64 {
	if s.B.X-s.A.X < rounding {
		return math.Min(s.A.Y, s.B.Y)
	}
	if s.R == 0 {
		return s.A.Y + (s.B.Y-s.A.Y)*(x-s.A.X)/(s.B.X-s.A.X)
	}
	h := math.Sqrt(math.Max(0, s.R*s.R-(x-s.C.X)*(x-s.C.X)))
	if s.CW {
		return s.C.Y + h
	}
	return s.C.Y - h
}

// hollows are the slides at which the rise is lower than on either side.
func (s stack) hollows() []float64 {
	var found []float64
	try := func(x float64) {
		const aside = 1e-4
		here := s.over(x)
		left, meets := s.needs(x - aside)
		right, both := s.needs(x + aside)
		if meets && both && left >= here-rounding && right >= here-rounding && left+right > 2*(here+rounding) {
			found = append(found, x)
		}
	}
	for i, seg := range s.rise {
		if i > 0 {
			try(seg.A.X)
		}
		if seg.R != 0 && !seg.CW && seg.C.X > seg.A.X && seg.C.X < seg.B.X {
			try(seg.C.X)
		}
	}
	return found
}

// needs is the rise at a slide; meets is false where the two pass each other.
func (s stack) needs(dx float64) (rise float64, meets bool) {
	if dx <= s.rise[0].A.X+rounding || dx >= s.rise[len(s.rise)-1].B.X-rounding {
		return 0, false
	}
	return s.over(dx), true
}

// over is the rise at a slide at which the two meet, found by halves. At a jump it
// is the foot, as in lowest: pieces may touch.
func (s stack) over(dx float64) float64 {
	first := sort.Search(len(s.rise), func(i int) bool { return s.rise[i].B.X >= dx-rounding })
	rise := math.Inf(1)
	for _, seg := range s.rise[first:] {
		if seg.A.X > dx+rounding {
			break
		}
		rise = math.Min(rise, at(seg, math.Max(seg.A.X, math.Min(seg.B.X, dx))))
	}
	return rise
}
