package geom

import "math"

// Fillet rounds the corner between a straight segment and what follows it, where
// the chain turns clockwise, by an arc of radius r that touches both. It returns
// what is left of the two with the arc between them, and false when there is no
// such corner or no room for that radius.
func Fillet(line, next Segment, r float64) (before, arc, after Segment, ok bool) {
	before, after = line, next
	length := line.Length()
	ux, uy := (line.B.X-line.A.X)/length, (line.B.Y-line.A.Y)/length
	nx, ny := uy, -ux // to the right, where the chain turns
	if vx, vy := next.leaves(); ux*vy-uy*vx > -straight {
		return line, Segment{}, next, false
	}
	if next.R == 0 {
		arc, ok = Round(line.A, line.B, next.B, r)
		if !ok {
			return line, Segment{}, next, false
		}
		before.B, after.A = arc.A, arc.B
		return before, arc, after, true
	}
	// the arc's centre lies r beside the line, and as far from next's centre as
	// circles are that touch: inside a cap, outside a hollow
	reach := next.R + r
	if next.CW {
		reach = next.R - r
	}
	wx, wy := line.B.X+nx*r-next.C.X, line.B.Y+ny*r-next.C.Y
	half := wx*ux + wy*uy
	under := half*half - (wx*wx + wy*wy) + reach*reach
	if reach <= 0 || under < 0 {
		return line, Segment{}, next, false
	}
	for _, along := range []float64{-half + math.Sqrt(under), -half - math.Sqrt(under)} { // from the corner, against the line
		if along > 0 || -along > length {
			continue
		}
		p := Point{line.B.X + along*ux, line.B.Y + along*uy}
		c := Point{p.X + nx*r, p.Y + ny*r}
		k := next.R / reach
		q := Point{next.C.X + (c.X-next.C.X)*k, next.C.Y + (c.Y-next.C.Y)*k}
		if q.X < next.A.X || q.X > next.B.X || (q.Y-next.C.Y > 0) != next.CW {
			continue
		}
		before.B, after.A = p, q
		return before, Arc(p, q, c, true), after, true
	}
	return line, Segment{}, next, false
}

// straight is the sine of a turn that is none but for rounding.
const straight = 1e-6

// leaves is the direction in which s leaves A.
func (s Segment) leaves() (x, y float64) {
	switch {
	case s.R == 0:
		length := s.Length()
		return (s.B.X - s.A.X) / length, (s.B.Y - s.A.Y) / length
	case s.CW:
		return (s.A.Y - s.C.Y) / s.R, (s.C.X - s.A.X) / s.R
	}
	return (s.C.Y - s.A.Y) / s.R, (s.A.X - s.C.X) / s.R
}

// MostFillet is the greatest radius for which Fillet finds room, to a hundredth
// of a millimetre.
func MostFillet(line, next Segment) float64 {
	if next.R == 0 {
		if _, _, _, ok := Fillet(line, next, tiny); !ok {
			return 0
		}
		return Roundest(line.A, line.B, next.B)
	}
	fits, not := 0.0, 1000*(line.Length()+next.Length()) // an open corner takes a very round arc
	for not-fits > 0.01 {
		mid := (fits + not) / 2
		if _, _, _, ok := Fillet(line, next, mid); ok {
			fits = mid
		} else {
			not = mid
		}
	}
	return fits
}
