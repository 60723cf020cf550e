package gang

import (
	"context"
	"fmt"
	"math"
	"slices"
)

// covering is how many sheets to take of each way, so that every kind has as
// many liners as it needs: of a kind of which the ways give too few, the rest lie
// on sheets of their own.
type covering struct {
	ctx   context.Context
	need  []int
	alone []int   // liners of a kind on a sheet of its own
	ways  [][]int // liners of each kind on a sheet that kinds share
}

// sum is what some copies of the ways come to: all sheets, how many of them are
// shared, and how many ways are taken. Fewer is better, in this order.
type sum struct{ sheets, shared, ways int }

func (s sum) better(o sum) bool {
	if s.sheets != o.sheets {
		return s.sheets < o.sheets
	}
	if s.shared != o.shared {
		return s.shared < o.shared
	}
	return s.ways < o.ways
}

func (c *covering) sum(copies []int) sum {
	var s sum
	got := make([]int, len(c.need))
	for i, n := range copies {
		if n == 0 {
			continue
		}
		s.shared += n
		s.ways++
		for k, m := range c.ways[i] {
			got[k] += n * m
		}
	}
	s.sheets = s.shared
	for k, need := range c.need {
		s.sheets += sheetsFor(need-got[k], c.alone[k])
	}
	return s
}

// sheetsFor is how many sheets so many liners take, n on each.
func sheetsFor(liners, n int) int { return (max(0, liners) + n - 1) / n }

// best finds the copies that come to the fewest sheets: it rounds the linear
// program's answer, takes the best way again and again, and for what is left
// tries all, as far as that goes; then it gives up sharing wherever nothing is
// lost. Where the fewest sheets are as few as the linear program's bound, no
// others of these ways are fewer.
func (c *covering) best() []int {
	best := make([]int, len(c.ways))
	if len(c.ways) == 0 {
		return best
	}
	all, cost := c.everyWay()
	const alike = 1e-4 // sharing costs so much, so that of equals the unshared is taken
	for i := range cost {
		if cost[i] = 1; i >= len(c.need) {
			cost[i] += alike
		}
	}
	x, prices := fractions(c.need, all, cost)
	bound := 0.0
	for k, p := range prices {
		bound += p * float64(c.need[k]) / (1 + alike) // prices that hold for a cost of one
	}
	least := int(math.Ceil(bound - 1e-6))
	try := func(copies []int) {
		if copies = c.eased(copies); c.sum(copies).better(c.sum(best)) {
			best = copies
		}
	}
	if c.sum(best).sheets <= least {
		return best
	}
	floor, left := make([]int, len(c.ways)), slices.Clone(c.need)
	for i, n := range x {
		whole := int(n + 1e-9)
		for k, m := range all[i] {
			left[k] -= whole * m
		}
		if i >= len(c.need) {
			floor[i-len(c.need)] = whole
		}
	}
	s := search{covering: c, all: all, prices: prices}
	for i, n := range s.solve(left) {
		floor[i] += n
	}
	try(floor)
	try(c.greedy())
	if n := c.sum(best).sheets; n > least && n <= mostSearched {
		s = search{covering: c, all: all, prices: prices}
		try(s.solve(c.need))
	}
	return best
}

// everyWay is the kinds' own sheets, then the shared ways.
func (c *covering) everyWay() (all [][]int, cost []float64) {
	for k, n := range c.alone {
		own := make([]int, len(c.need))
		own[k] = n
		all = append(all, own)
	}
	all = append(all, c.ways...)
	return all, make([]float64, len(all))
}

// greedy takes the way that is worth the most again and again, while it is worth
// more than a sheet.
func (c *covering) greedy() []int {
	copies, left := make([]int, len(c.ways)), slices.Clone(c.need)
	for c.ctx.Err() == nil {
		most, at := 1+1e-9, -1
		for i, w := range c.ways {
			worth := 0.0
			for k, m := range w {
				if m = min(m, left[k]); m > 0 {
					worth += float64(m) * float64(sheetsFor(left[k], c.alone[k])) / float64(left[k])
				}
			}
			if worth > most {
				most, at = worth, i
			}
		}
		if at < 0 {
			break
		}
		times := math.MaxInt
		for k, m := range c.ways[at] {
			if m > 0 && left[k] > 0 {
				times = min(times, max(1, left[k]/m))
			}
		}
		copies[at] += times
		for k, m := range c.ways[at] {
			left[k] = max(0, left[k]-times*m)
		}
	}
	return copies
}

// eased gives up shared sheets, or takes one way for another, for as long as that
// is better.
func (c *covering) eased(copies []int) []int {
	copies = slices.Clone(copies)
	now, got := c.sum(copies), make([]int, len(c.need))
	for i, n := range copies {
		for k, m := range c.ways[i] {
			got[k] += n * m
		}
	}
	take := func(i, by int) { // some more of a way, or fewer
		if i < 0 {
			return
		}
		if copies[i] == 0 {
			now.ways++
		}
		copies[i] += by
		if copies[i] == 0 {
			now.ways--
		}
		now.shared += by
		now.sheets += by
		for k, m := range c.ways[i] {
			if m > 0 {
				now.sheets -= sheetsFor(c.need[k]-got[k], c.alone[k])
				got[k] += by * m
				now.sheets += sheetsFor(c.need[k]-got[k], c.alone[k])
			}
		}
	}
	change := func(from, to, by int) bool {
		before := now
		take(from, -by)
		take(to, by)
		if now.better(before) {
			return true
		}
		take(to, -by)
		take(from, by)
		return false
	}
	const rounds = 6
	for range rounds {
		changed := false
		for i := range copies {
			for by := copies[i]; by > 0 && c.ctx.Err() == nil; by = min(by/2, copies[i]) {
				changed = change(i, -1, by) || changed
			}
			for j := range copies {
				if i == j || copies[i] == 0 || c.ctx.Err() != nil {
					continue
				}
				for _, by := range []int{copies[i], 1} {
					changed = by <= copies[i] && change(i, j, by) || changed
				}
			}
		}
		if !changed {
			break
		}
	}
	return copies
}

// search tries all ways to cover a need, the dearest kind first, and leaves off
// where prices tell that nothing fewer can come.
type search struct {
	*covering
	all    [][]int
	prices []float64
	nodes  int
	fewest int
	taken  []int
	best   []int
	seen   map[string]int
}

// Bounds on the search: how far it goes, and how many sheets it is worth for.
const mostNodes, mostSearched = 4000, 60

func (s *search) solve(need []int) []int {
	s.taken, s.best, s.seen = make([]int, len(s.all)), make([]int, len(s.all)), map[string]int{}
	s.fewest = 0
	for k, n := range need { // each alone
		s.best[k] = sheetsFor(n, s.alone[k])
		s.fewest += s.best[k]
	}
	s.cover(need, 0)
	return s.best[len(s.need):]
}

func (s *search) cover(need []int, used int) {
	if s.nodes++; s.nodes > mostNodes || s.ctx.Err() != nil {
		return
	}
	bound, first := 0.0, -1
	for k, n := range need {
		if n > 0 {
			bound += float64(n) * s.prices[k]
			if first < 0 { // the largest liner, which the fewest ways have
				first = k
			}
		}
	}
	if first < 0 {
		if used < s.fewest {
			s.fewest = used
			copy(s.best, s.taken)
		}
		return
	}
	if used+int(math.Ceil(bound*(1-2e-4)-1e-6)) >= s.fewest {
		return
	}
	key := fmt.Sprint(need)
	if before, ok := s.seen[key]; ok && before <= used {
		return
	}
	s.seen[key] = used
	type option struct {
		way   int
		worth float64
	}
	var options []option
	for i, w := range s.all {
		if w[first] == 0 {
			continue
		}
		o := option{way: i}
		for k, m := range w {
			o.worth += float64(max(0, min(m, need[k]))) * s.prices[k]
		}
		options = append(options, o)
	}
	slices.SortStableFunc(options, func(a, b option) int {
		switch {
		case a.worth > b.worth+1e-9:
			return -1
		case b.worth > a.worth+1e-9:
			return 1
		}
		return 0
	})
	for _, o := range options {
		left := slices.Clone(need)
		for k, m := range s.all[o.way] {
			left[k] = max(0, left[k]-m)
		}
		s.taken[o.way]++
		s.cover(left, used+1)
		s.taken[o.way]--
	}
}
