package nest

import (
	"context"
	"math/rand/v2"
	"slices"

	"underflap/liner/geom"
)

// Lay lays pieces of a mix, by their numbers and each as often as it is named,
// in the room, and the group in the middle of it. Two lie wherever they can. For
// more it fills the room from one corner, piece by piece as low or as far to the
// left as it goes, over orders and turns: what it finds is sound, but it may miss
// a way. tries bounds how many times it sets a piece down, and is lowered by what
// it took. The same question has the same answer.
func (r Room) Lay(ctx context.Context, m *Mix, of []int, tries *int) (at []Placed, ok bool) {
	if len(of) == 2 {
		*tries--
		if fits, known := m.two[pairOf(r, of[0], of[1])]; known && !fits {
			return nil, false
		}
		r.two(m, of[0], of[1], func(ways [][2]Placed) bool {
			at = ways[0][:]
			return false
		})
		m.two[pairOf(r, of[0], of[1])] = at != nil
		return at, at != nil
	}
	if !r.mayTake(m, of) {
		return nil, false
	}
	for i, a := range of {
		for _, b := range of[:i] {
			if !r.TwoFit(m, a, b) {
				return nil, false
			}
		}
	}
	f := filling{ctx: ctx, mix: m, of: of, tries: tries}
	for _, f.room = range []Room{r, {r.Height, r.Width}} {
		if !f.any() {
			continue
		}
		var group geom.Box
		for i, s := range f.lying {
			if box := m.poses[s.pose].Box.Moved(s.x, s.y); i == 0 {
				group = box
			} else {
				group = group.Union(box)
			}
		}
		x, y := f.room.middle(group)
		at = make([]Placed, len(of))
		for i, s := range f.lying {
			at[f.order[i]] = Placed{m.poses[s.pose].Turn, s.x + x, s.y + y}
		}
		if f.room != r {
			r.back(at)
		}
		return at, true
	}
	return nil, false
}

// filling is the search for one way to fill a room.
type filling struct {
	ctx   context.Context
	mix   *Mix
	room  Room
	of    []int
	tries *int
	lying []spot
	order []int // which of the pieces each is
}

// mostTried is how many pieces are laid in every order and turn; more are tried
// in some.
const mostTried = 3

// restarts bounds the orders and turns tried of more.
const restarts = 60

// any looks for a way in one room.
func (f *filling) any() bool {
	if len(f.of) <= mostTried {
		return f.every()
	}
	r := rand.New(rand.NewPCG(uint64(len(f.of)), 17))
	largest := make([]int, len(f.of)) // the largest first
	for i := range largest {
		largest[i] = i
	}
	slices.SortStableFunc(largest, func(a, b int) int {
		switch d := f.mix.areas[f.of[b]] - f.mix.areas[f.of[a]]; {
		case d > 0:
			return 1
		case d < 0:
			return -1
		}
		return 0
	})
	for try := range restarts {
		if *f.tries <= 0 || f.ctx.Err() != nil {
			return false
		}
		order := slices.Clone(largest)
		if try >= 4 { // change places of some
			for range 1 + r.IntN(len(order)/2) {
				i := r.IntN(len(order) - 1)
				order[i], order[i+1] = order[i+1], order[i]
			}
		}
		if f.greedy(order, r, try) {
			return true
		}
	}
	return false
}

// spotOf sets a pose down in one of two ways: as low as it goes, then left; or
// as far left as it goes, then low. It reports false where it finds no room.
func (f *filling) spotOf(pose int, leftwards bool) (spot, bool) {
	*f.tries--
	found := f.mix.drops(f.room, f.lying, pose)
	if len(found) == 0 {
		return spot{}, false
	}
	best := found[0]
	if !leftwards {
		for _, d := range found[1:] {
			if d.y < best.y-rounding {
				best = d
			}
		}
	}
	return spot{pose, best.x, best.y}, true
}

// greedy lays pieces in an order: each in the turn whose top stays lowest, or in
// one by lot, among those that have room.
func (f *filling) greedy(order []int, r *rand.Rand, try int) bool {
	f.lying, f.order = f.lying[:0], f.order[:0]
	for _, i := range order {
		var best spot
		least, found := 0.0, false
		lot, leftwards := -1, try%2 == 1
		if try >= 4 {
			if r.IntN(2) == 0 {
				lot = r.IntN(4)
			}
			leftwards = r.IntN(3) == 0
		}
		for q := range Turns {
			pose := poseOf(f.of[i], q)
			s, ok := f.spotOf(pose, leftwards)
			if !ok {
				continue
			}
			box := f.mix.poses[pose].Box.Moved(s.x, s.y)
			far := box.MaxY
			if leftwards {
				far = box.MaxX
			}
			if try%4 >= 2 { // close to the corner
				far = box.MaxX/f.room.Width + box.MaxY/f.room.Height
			}
			if q == lot {
				far = -1
			}
			if !found || far < least-rounding {
				best, least, found = s, far, true
			}
		}
		if !found {
			return false
		}
		f.lying, f.order = append(f.lying, best), append(f.order, i)
	}
	return true
}

// every lays the pieces in every order and turn.
func (f *filling) every() bool {
	f.lying, f.order = f.lying[:0], f.order[:0]
	used := make([]bool, len(f.of))
	var more func() bool
	more = func() bool {
		if len(f.lying) == len(f.of) {
			return true
		}
		for i, piece := range f.of {
			if used[i] || f.alike(i, used) {
				continue
			}
			for q := range Turns {
				var last spot
				for way := range 2 {
					if *f.tries <= 0 || f.ctx.Err() != nil {
						return false
					}
					s, ok := f.spotOf(poseOf(piece, q), way == 1)
					if !ok || way == 1 && s == last {
						break
					}
					last = s
					used[i], f.lying, f.order = true, append(f.lying, s), append(f.order, i)
					if more() {
						return true
					}
					used[i], f.lying, f.order = false, f.lying[:len(f.lying)-1], f.order[:len(f.order)-1]
				}
			}
		}
		return false
	}
	return more()
}

// alike tells whether an equal piece, named earlier, is yet to be laid.
func (f *filling) alike(i int, used []bool) bool {
	for j, other := range f.of[:i] {
		if other == f.of[i] && !used[j] {
			return true
		}
	}
	return false
}
