package nest

import (
	"math"

	"underflap/liner/geom"
)

// Ways lists how two equal pieces lie in a room, in the middle of it: for every
// way to turn them that has room, with their edges level where that goes, and as
// close as they go.
func (r Room) Ways(cut, inside geom.Contour, gap float64) [][2]Placed {
	var all [][2]Placed
	poses := map[int]Pose{}
	for _, turn := range Turns {
		poses[turn] = NewPose(cut, inside, turn)
	}
	for _, way := range pairings {
		room, way, turned := r.upright(way)
		for _, at := range room.lies(poses[way.lower], poses[way.upper], gap) {
			if turned {
				r.back(at[:])
			}
			all = append(all, at)
		}
	}
	return all
}

// lies lists how b lies above a, or beside it; none when there is no room.
func (r Room) lies(a, b Pose, gap float64) [][2]Placed {
	left, from, to, over := r.slack(a, b, gap)
	if left < -rounding {
		return nil
	}
	return r.close(a, b, from, to, over)
}

// close lists how b lies above a or beside it, where the slides are known that
// leave the most height.
func (r Room) close(a, b Pose, from, to float64, over stack) [][2]Placed {
	level := (a.Box.MinX + a.Box.MaxX - b.Box.MinX - b.Box.MaxX) / 2 // middle over middle
	close := math.Max(from, math.Min(to, level))
	lo, hi := slides(r.Width, a.Box.MinX, a.Box.MaxX, b.Box.MinX, b.Box.MaxX)
	_, head := slides(r.Height, a.Box.MinY, a.Box.MaxY, b.Box.MinY, b.Box.MaxY)
	straight := over.nearest(level, lo, hi, head, close)
	all := [][2]Placed{r.lay(a, b, over, straight)}
	if math.Abs(straight-close) > worthwhile {
		all = append(all, r.lay(a, b, over, close))
	}
	return all
}

// nearest is the slide in [lo, hi], nearest to a wanted one, where the rise is at
// most so much; or else, where none is nearer than it is.
func (s stack) nearest(wanted, lo, hi, most, or float64) float64 {
	best := or
	take := func(from, to float64) {
		from, to = math.Max(from, lo), math.Min(to, hi)
		if from > to {
			return
		}
		if x := math.Max(from, math.Min(to, wanted)); math.Abs(x-wanted) < math.Abs(best-wanted) {
			best = x
		}
	}
	take(math.Inf(-1), s.rise[0].A.X)
	take(s.rise[len(s.rise)-1].B.X, math.Inf(1))
	for _, seg := range s.rise {
		for _, part := range under(seg, most) {
			take(part[0], part[1])
		}
	}
	return best
}

// under gives the parts of a segment of a profile, from x to x, that lie no
// higher than y.
func under(s geom.Segment, y float64) [][2]float64 {
	a, b := s.A.X, s.B.X
	if b-a < rounding {
		return nil
	}
	if s.R == 0 {
		switch at := a + (y-s.A.Y)*(b-a)/(s.B.Y-s.A.Y); {
		case s.A.Y <= y && s.B.Y <= y:
			return [][2]float64{{a, b}}
		case s.A.Y <= y:
			return [][2]float64{{a, at}}
		case s.B.Y <= y:
			return [][2]float64{{at, b}}
		}
		return nil
	}
	d := s.R*s.R - (y-s.C.Y)*(y-s.C.Y)
	half := math.Sqrt(math.Max(0, d))
	left, right := math.Min(b, s.C.X-half), math.Max(a, s.C.X+half)
	switch {
	case s.CW && y >= s.C.Y+s.R, !s.CW && y >= s.C.Y:
		return [][2]float64{{a, b}} // all of a cap, or all of a hollow whose ends lie no higher than its centre
	case s.CW && y < s.C.Y, !s.CW && y < s.C.Y-s.R:
		return nil
	case s.CW:
		return [][2]float64{{a, left}, {right, b}}
	}
	return [][2]float64{{math.Max(a, s.C.X-half), math.Min(b, s.C.X+half)}}
}
