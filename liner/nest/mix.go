package nest

import (
	"math"

	"underflap/liner/geom"
)

// Mix is different pieces in all their turns, and how those pass each other with
// a gap between their cut lines. What it has worked out it keeps, so that one
// goroutine at a time may ask it.
type Mix struct {
	gap   float64
	poses []Pose // four of each piece, as in Turns
	areas []float64
	up    map[[2]int]*stack // by pose: the second above the first
	two   map[pairIn]bool
}

type pairIn struct {
	Room
	a, b int
}

func pairOf(r Room, a, b int) pairIn { return pairIn{r, min(a, b), max(a, b)} }

// NewMix is pieces by their cut lines, which must lie in the room whole.
func NewMix(gap float64, cuts ...geom.Contour) *Mix {
	m := &Mix{gap: gap, up: map[[2]int]*stack{}, two: map[pairIn]bool{}}
	for _, cut := range cuts {
		for _, turn := range Turns {
			m.poses = append(m.poses, NewPose(cut, cut, turn))
		}
		m.areas = append(m.areas, math.Abs(cut.Area()))
	}
	return m
}

// poseOf is a piece turned by so many quarters.
func poseOf(piece, quarters int) int { return 4*piece + quarters%4 }

// halfTurned is a pose turned by two quarters.
func halfTurned(pose int) int { return poseOf(pose/4, pose%4+2) }

// above is how pose b lies above pose a. A half turn of both makes it a above b,
// at the same slide.
func (m *Mix) above(a, b int) *stack {
	key := [2]int{a, b}
	if m.up[key] == nil {
		s := above(m.poses[a], m.poses[b], m.gap)
		m.up[key], m.up[[2]int{halfTurned(b), halfTurned(a)}] = &s, &s
	}
	return m.up[key]
}

// Two lists how pieces a and b lie in a room, in the middle of it: every way to
// turn them that has room. It finds one whenever there is any, over all turns and
// slides: one of two pieces lies above the other or beside it, and a half turn
// of the sheet puts the other one above.
func (r Room) Two(m *Mix, a, b int) [][2]Placed {
	var all [][2]Placed
	r.two(m, a, b, func(at [][2]Placed) bool {
		all = append(all, at...)
		return true
	})
	return all
}

// TwoFit tells whether there is a way.
func (r Room) TwoFit(m *Mix, a, b int) bool {
	key := pairOf(r, a, b)
	fit, known := m.two[key]
	if !known {
		r.two(m, a, b, func([][2]Placed) bool {
			fit = true
			return false
		})
		m.two[key] = fit
	}
	return fit
}

// two hands over the ways for each pair of turns that has any, until that is
// enough.
func (r Room) two(m *Mix, a, b int, more func([][2]Placed) bool) {
	if !r.mayTake(m, []int{a, b}) {
		return
	}
	for _, lower := range Turns {
		for _, upper := range []int{180, 0, 270, 90} { // heads together first, as they mostly lie closest
			room, way, turned := r.upright(pairing{lower, upper})
			under, over := poseOf(a, way.lower/90), poseOf(b, way.upper/90)
			p, q := m.poses[under], m.poses[over]
			if !p.fits(room.Width, room.Height) || !q.fits(room.Width, room.Height) {
				continue
			}
			stack := *m.above(under, over)
			left, from, to := room.spare(p, q, stack)
			if left < -rounding {
				continue
			}
			ways := room.close(p, q, from, to, stack)
			if turned {
				for i := range ways {
					r.back(ways[i][:])
				}
			}
			if !more(ways) {
				return
			}
		}
	}
}

// mayTake tells whether pieces could lie in a room by their areas: grown by half
// the gap they overlap nowhere and lie in the room grown by as much. By the
// inequality of Brunn and Minkowski no shape of some area grows by less than a
// disc does.
func (r Room) mayTake(m *Mix, of []int) bool {
	grow, sum := m.gap/2, 0.0
	for _, piece := range of {
		side := math.Sqrt(m.areas[piece]) + math.Sqrt(math.Pi)*grow
		sum += side * side
	}
	return sum <= r.Width*r.Height+2*grow*(r.Width+r.Height)+math.Pi*grow*grow+1e-6
}
