package nest

import (
	"math"

	"underflap/liner/geom"
)

// kit is a piece at one depth in all its turns, and how those pass each other.
type kit struct {
	gap   float64
	poses [4]Pose
	up    [4][4]*stack // [i][j]: pose j above pose i; made when wanted
}

func newKit(cut, inside geom.Contour, gap float64) *kit {
	k := &kit{gap: gap}
	for i, turn := range Turns {
		k.poses[i] = NewPose(cut, inside, turn)
	}
	return k
}

// above is how pose j lies above pose i. A half turn of both makes it i above j,
// at the same slide.
func (k *kit) above(i, j int) stack {
	if k.up[i][j] == nil {
		s := above(k.poses[i], k.poses[j], k.gap)
		k.up[i][j], k.up[(j+2)%4][(i+2)%4] = &s, &s
	}
	return *k.up[i][j]
}

// beside is how far to the right of pose i pose j must lie at a rise: how far
// above, when both are turned back by a quarter.
func (k *kit) beside(i, j int, dy float64) (dx float64, meets bool) {
	return k.above((i+3)%4, (j+3)%4).needs(-dy)
}

// spot is one pose of a kit with its origin at X, Y.
type spot struct {
	pose int
	x, y float64
}

// lift is how far up a group must be slid to clear another one.
func (k *kit) lift(below, group []spot) float64 {
	need := math.Inf(-1)
	for _, a := range below {
		for _, b := range group {
			if rise, meets := k.above(a.pose, b.pose).needs(b.x - a.x); meets {
				need = math.Max(need, rise-(b.y-a.y))
			}
		}
	}
	return need
}

// push is how far to the right a group must be slid to clear another one.
func (k *kit) push(left, group []spot) float64 {
	need := math.Inf(-1)
	for _, a := range left {
		for _, b := range group {
			if dx, meets := k.beside(a.pose, b.pose, b.y-a.y); meets {
				need = math.Max(need, dx-(b.x-a.x))
			}
		}
	}
	return need
}

// box is the box around what of a group must lie in the room.
func (k *kit) box(group []spot) geom.Box {
	var b geom.Box
	for i, s := range group {
		o := k.poses[s.pose].Box.Moved(s.x, s.y)
		if i == 0 {
			b = o
		} else {
			b = b.Union(o)
		}
	}
	return b
}

func shifted(group []spot, dx, dy float64) []spot {
	out := make([]spot, len(group))
	for i, s := range group {
		out[i] = spot{s.pose, s.x + dx, s.y + dy}
	}
	return out
}

// units are the groups that a row repeats in turn: a piece in one turn alone,
// head to tail with its other half turn, or two over each other as low as they
// go.
func (k *kit) units(r Room, pose int) [][][]spot {
	other := (pose + 2) % 4
	single, turned := []spot{{pose, 0, 0}}, []spot{{other, 0, 0}}
	feet := shifted(turned, 0, k.poses[pose].Box.MinY-k.poses[other].Box.MinY)
	heads := shifted(turned, 0, k.poses[pose].Box.MaxY-k.poses[other].Box.MaxY)
	all := [][][]spot{{single}, {single, feet}, {single, heads}}
	for _, way := range [][2]int{{pose, other}, {other, pose}} {
		a, b := k.poses[way[0]], k.poses[way[1]]
		reach := math.Max(0, r.Width-math.Max(a.Box.Width(), b.Box.Width()))
		level := a.Box.MinX - b.Box.MinX                // left edges level
		step := (a.Box.MaxX - a.Box.MinX + k.gap) / 2.0 // of two rows, one half-way between the other's pieces
		over := k.above(way[0], way[1])
		for _, dx := range append(over.hollows(), level, level-step, level+step, level-reach, level+reach) {
			if rise, meets := over.needs(dx); meets && math.Abs(dx-level) <= reach+rounding {
				all = append(all, [][]spot{{{way[0], 0, 0}, {way[1], dx, rise}}})
			}
		}
	}
	return all
}

// row is equal pieces side by side, its lower left at 0, 0, and how far up the
// next one like it lies.
type row struct {
	spots []spot
	box   geom.Box
	step  float64
}

// row repeats units to the right for as long as they fit a width.
func (k *kit) row(units [][]spot, width float64, most int) row {
	var r row
	var last [][]spot // one of each unit: those further left lie no nearer
	for i := 0; len(r.spots) < most; i++ {
		next, dx := units[i%len(units)], 0.0
		for j, group := range last {
			if x := k.push(group, next); j == 0 || x > dx {
				dx = x
			}
		}
		next = shifted(next, dx, 0)
		box := k.box(next)
		if i > 0 {
			box = box.Union(r.box)
		}
		if box.Width() > width+rounding {
			break
		}
		r.spots, r.box = append(r.spots, next...), box
		if last = append(last, next); len(last) > len(units) {
			last = last[1:]
		}
	}
	if len(r.spots) == 0 {
		return r
	}
	r.spots = shifted(r.spots, -r.box.MinX, -r.box.MinY)
	r.box = geom.Box{MaxX: r.box.Width(), MaxY: r.box.Height()}
	r.step = k.lift(r.spots, r.spots)
	return r
}

// rows is how many like it fit a height.
func (r row) rows(height float64) int {
	if r.box.MaxY > height+rounding {
		return 0
	}
	return 1 + int((height+rounding-r.box.MaxY)/r.step)
}

// heap is n rows over each other, the first at y.
func (r row) heap(n int, y float64) []spot {
	var all []spot
	for i := range n {
		all = append(all, shifted(r.spots, 0, y+float64(i)*r.step)...)
	}
	return all
}
