package gang

import (
	"cmp"
	"context"
	"math"
	"slices"

	"underflap/liner/geom"
	"underflap/liner/nest"
	"underflap/liner/sheet"
)

// way is how liners of several kinds, or more of one kind than its own sheets
// carry, lie on one sheet.
type way struct {
	count  []int         // of each kind
	of     []int         // the kind of each liner
	at     []nest.Placed // where it lies
	dense  *sheet.Plan   // of one kind: a plan that lays them
	worth  float64       // sheets that its liners would take alone
	packed float64       // area of its liners
}

// Bounds on the search, so that an answer comes in a few seconds: how often
// pieces are set down in all and for one sheet, and how many ways are built on.
const (
	mostTries    = 24000
	triesASheet  = 300
	mostBuiltOn  = 200
	mostOfAKind  = 12
	mostWays     = 400
	mostOnASheet = 24
)

// ways finds how liners of the group lie on one sheet together: all pairs of
// kinds that fit, and on these the most worth, a liner more at a time. Those that
// are part of another are left out.
func (g *group) ways(ctx context.Context) []way {
	var cuts []geom.Contour
	for _, k := range g.kinds {
		cuts = append(cuts, k.cut)
	}
	mix, room := nest.NewMix(g.task.Gap, cuts...), g.task.Room()
	var all []way
	level := make([]way, 0, len(g.kinds)) // of as many liners each
	for i := range g.kinds {
		level = append(level, g.way([]int{i}, []nest.Placed{{}}))
	}
	tries := mostTries
	for len(level) > 0 && tries > 0 && len(level[0].of) < mostOnASheet {
		var next []way
		for _, w := range g.promising(level, room) {
			for j := w.of[len(w.of)-1]; j < len(g.kinds); j++ { // the smaller ones last
				if ctx.Err() != nil || tries <= 0 {
					break
				}
				if k := g.kinds[j]; w.count[j] == k.need || k.most > 0 && w.count[j] == k.most {
					continue
				}
				of := append(slices.Clone(w.of), j)
				left := min(triesASheet, tries)
				tries -= left
				at, ok := room.Lay(ctx, mix, of, &left)
				tries += left
				if ok {
					next = append(next, g.way(of, at))
				}
			}
		}
		all, level = append(all, next...), next
	}
	for i := range g.kinds {
		if w, ok := g.dense(i, room); ok {
			all = slices.Insert(all, 0, w) // of equals it stays
		}
	}
	return g.fullest(all)
}

// promising are the ways of a level to build on: for every kind some of those
// that would be worth the most if what they leave of the sheet were filled with the
// liner that is worth the most for its area.
func (g *group) promising(level []way, room nest.Room) []way {
	if len(level[0].of) == 1 {
		return level
	}
	dearest := 0.0
	for i, k := range g.kinds {
		dearest = max(dearest, g.worth(i)/math.Abs(k.cut.Area()))
	}
	hope := func(w way) float64 { return w.worth + dearest*(room.Width*room.Height-w.packed) }
	slices.SortStableFunc(level, func(a, b way) int { return cmp.Compare(hope(b), hope(a)) })
	var kept []way
	times := make([]int, len(g.kinds))
	for _, w := range level {
		if hope(w) <= 1 || len(kept) == mostBuiltOn { // never worth more than a sheet
			break
		}
		seldom := false
		for k, n := range w.count {
			if n > 0 {
				seldom = seldom || times[k] < mostOfAKind
				times[k]++
			}
		}
		if seldom {
			kept = append(kept, w)
		}
	}
	return kept
}

// way is liners as they are laid.
func (g *group) way(of []int, at []nest.Placed) way {
	w := way{count: make([]int, len(g.kinds)), of: of, at: at}
	for _, k := range of {
		w.count[k]++
		w.worth += g.worth(k)
		w.packed += math.Abs(g.kinds[k].cut.Area())
	}
	return w
}

// worth is what share of a sheet one liner of a kind takes alone.
func (g *group) worth(k int) float64 {
	sheets := 0
	for _, i := range g.kinds[k].lines {
		p := g.all[i].Plan
		sheets += (p.Count + p.PerSheet() - 1) / p.PerSheet()
	}
	return float64(sheets) / float64(g.kinds[k].need)
}

// dense lays as many of one kind on a sheet as fit, for lines that share it.
func (g *group) dense(k int, room nest.Room) (way, bool) {
	of := g.kinds[k]
	if len(of.lines) == 1 || of.most > 0 {
		return way{}, false
	}
	at := room.Most(of.cut, of.cut, g.task.Gap, min(of.need, sheet.MostPerSheet))
	n := len(at)
	if n <= of.alone {
		return way{}, false
	}
	w := g.way(slices.Repeat([]int{k}, n), at)
	t := of.plan.Task
	t.Liner.PocketDepth, t.Layout, t.PerSheet, t.Count = of.plan.Depth, of.plan.Asked, n, n
	if p, err := sheet.Arrange(t); err == nil && p.PerSheet() == n && p.Depth > of.plan.Depth-1e-9 {
		p, _ = p.Settle()
		p.Pieces, p.Depth = of.plan.Pieces, of.plan.Depth
		w.dense = &p
	}
	return w, true
}

// fullest leaves out what is part of another way, or no more than a kind's own
// sheet, and past a number what is worth least.
func (g *group) fullest(all []way) []way {
	slices.SortStableFunc(all, func(a, b way) int {
		return cmp.Or(cmp.Compare(len(b.of), len(a.of)), cmp.Compare(b.worth, a.worth))
	})
	var kept []way
	for _, w := range all {
		first := w.of[0]
		// a line alone keeps to its own layout
		own := w.count[first] == len(w.of) && (len(w.of) <= g.kinds[first].alone || len(g.kinds[first].lines) == 1)
		if own || slices.ContainsFunc(kept, func(o way) bool { return within(w.count, o.count) }) {
			continue
		}
		kept = append(kept, w)
	}
	slices.SortStableFunc(kept, func(a, b way) int { return cmp.Compare(b.worth, a.worth) })
	return kept[:min(len(kept), mostWays)]
}

// within tells whether a has of no kind more than b.
func within(a, b []int) bool {
	for i := range a {
		if a[i] > b[i] {
			return false
		}
	}
	return true
}
