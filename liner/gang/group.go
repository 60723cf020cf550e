package gang

import (
	"context"
	"reflect"
	"slices"

	"underflap/liner/geom"
	"underflap/liner/sheet"
)

// group is lines that may share sheets.
type group struct {
	all   []Line // that were asked about
	of    []int  // which of them are in the group
	task  sheet.Task
	stock string
	kinds []kind
}

// kind is lines whose liners are cut alike.
type kind struct {
	lines []int
	need  int // liners of all its lines
	alone int // liners on a sheet that only they are on
	most  int // on any sheet, as was asked for; 0 when nothing was
	asked int // liners on a sheet, as the task has it
	cut   geom.Contour
	plan  sheet.Plan // that lays as many as alone
}

// agreed is the part of a task in which lines that share a sheet must agree.
func agreed(t sheet.Task) sheet.Task {
	var none sheet.Task
	t.Liner, t.Layout, t.PerSheet, t.Count = none.Liner, none.Layout, none.PerSheet, none.Count
	return t
}

// groups parts the lines by what they may share a sheet with.
func groups(lines []Line) []*group {
	var all []*group
	for i, l := range lines {
		t := agreed(l.Plan.Task)
		apart := l.Apart || l.Plan.Asked == sheet.Straight || l.Plan.HiddenFoot > 0
		at := slices.IndexFunc(all, func(g *group) bool { return g.stock == l.Stock && reflect.DeepEqual(g.task, t) })
		if apart || at < 0 {
			all = append(all, &group{all: lines, of: []int{i}, task: t, stock: l.Stock})
			if apart { // nobody joins it
				all[len(all)-1].task.Count = -1
			}
			continue
		}
		all[at].of = append(all[at].of, i)
	}
	return all
}

// sort finds the kinds among the group's lines, the largest liner first.
func (g *group) sort() {
	order := slices.Clone(g.of)
	per := func(i int) int { return g.all[i].Plan.PerSheet() }
	// those that fill sheets say how many lie on one; of the others the fullest
	// come first
	filled := func(i int) bool { return g.all[i].Plan.Count > per(i) }
	slices.SortStableFunc(order, func(a, b int) int {
		if fa, fb := filled(a), filled(b); fa != fb {
			if fa {
				return -1
			}
			return 1
		}
		return per(b) - per(a)
	})
	for _, i := range order {
		p := g.all[i].Plan
		cut := p.Pieces[0].Outline.Contour
		at := slices.IndexFunc(g.kinds, func(k kind) bool {
			// a number asked for holds for each line
			return k.asked == p.Task.PerSheet && k.asked <= 0 && (k.alone == per(i) || !filled(i) && k.alone > per(i)) && slices.Equal(k.cut, cut)
		})
		if at < 0 {
			at = len(g.kinds)
			g.kinds = append(g.kinds, kind{alone: per(i), most: max(0, p.Task.PerSheet), asked: p.Task.PerSheet, cut: cut, plan: p})
		}
		k := &g.kinds[at]
		k.lines, k.need = append(k.lines, i), k.need+p.Count
	}
	for i := range g.kinds {
		slices.Sort(g.kinds[i].lines)
	}
	slices.SortStableFunc(g.kinds, func(a, b kind) int {
		switch d := b.cut.Area() - a.cut.Area(); {
		case d > 0:
			return 1
		case d < 0:
			return -1
		}
		return 0
	})
}

// alone is the group's lines on sheets of their own.
func (g *group) alone() []Sheet {
	var all []Sheet
	for _, i := range g.of {
		all = append(all, g.all[i].alone(i)...)
	}
	return all
}

// share lays the group's lines.
func (g *group) share(ctx context.Context) ([]Sheet, error) {
	alone := g.alone()
	if len(g.of) == 1 || Sheets(alone) == 1 {
		return alone, ctx.Err()
	}
	g.sort()
	ways := g.ways(ctx)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	c := covering{ctx: ctx}
	for _, k := range g.kinds {
		c.need, c.alone = append(c.need, k.need), append(c.alone, k.alone)
	}
	for _, w := range ways {
		c.ways = append(c.ways, w.count)
	}
	copies := c.best()
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	slips := g.assign(ways, copies)
	slips = g.gainful(slips)
	return g.make(ctx, ways, slips)
}
