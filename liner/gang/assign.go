package gang

import (
	"cmp"
	"slices"
)

// part is liners of one line on a sheet.
type part struct{ line, n int }

// slip says what lies on sheets that are alike.
type slip struct {
	way    int // of group.ways; -1: liners of one kind as on its own sheets
	kind   int // where way is -1
	parts  []part
	copies int
}

// assign says which line's liners lie on which sheet, when so many copies of each
// way are taken. Lines keep together, so that few sheets differ.
func (g *group) assign(ways []way, copies []int) []slip {
	left := map[int]int{} // liners of a line that are not yet on a sheet
	for _, i := range g.of {
		left[i] = g.all[i].Plan.Count
	}
	// how many of each kind go on shared sheets, and of which lines
	queue := make([][]part, len(g.kinds))
	own := make([]int, len(g.kinds)) // sheets of a kind's own
	for k, of := range g.kinds {
		shared := 0
		for i, w := range ways {
			shared += copies[i] * w.count[k]
		}
		own[k] = sheetsFor(of.need-shared, of.alone)
		queue[k] = g.queue(of, of.need-min(of.need, own[k]*of.alone), left)
	}
	var all []slip
	for i, w := range ways {
		for range copies[i] {
			s := slip{way: i, copies: 1}
			for k, n := range w.count {
				var taken []part
				taken, queue[k] = next(queue[k], n, n == len(w.of))
				s.parts = append(s.parts, taken...)
			}
			slices.SortFunc(s.parts, func(a, b part) int { return cmp.Compare(a.line, b.line) })
			switch {
			case len(s.parts) == 0:
			case len(s.parts) == 1 && s.parts[0].n <= g.all[s.parts[0].line].Plan.PerSheet(): // it lies as on its own sheets
				all = add(all, slip{way: -1, kind: g.kindOf(s.parts[0].line), parts: s.parts, copies: 1})
			case g.oneKind(s.parts, ways[i]):
				k := g.kindOf(s.parts[0].line)
				all = add(all, slip{way: -1, kind: k, parts: s.parts, copies: 1})
			default:
				all = add(all, s)
			}
		}
	}
	for k, of := range g.kinds {
		for _, s := range g.ownSheets(k, of, own[k], left) {
			all = add(all, s)
		}
	}
	return all
}

// next takes n liners off a queue of lines; mixed asks that not all are of one
// line, which on its own may not have as many on a sheet.
func next(queue []part, n int, mixed bool) (taken, left []part) {
	left = slices.Clone(queue)
	for i := 0; i < len(left) && n > 0; i++ {
		take := min(n, left[i].n)
		if mixed && i == 0 && take == n && len(left) > 1 {
			take--
		}
		taken = append(taken, part{left[i].line, take})
		left[i].n -= take
		n -= take
	}
	return taken, slices.DeleteFunc(left, func(p part) bool { return p.n == 0 })
}

// oneKind tells whether liners are cut alike and as few as lie on their own
// sheet.
func (g *group) oneKind(parts []part, w way) bool {
	k, n := g.kindOf(parts[0].line), 0
	for _, p := range parts {
		if g.kindOf(p.line) != k {
			return false
		}
		n += p.n
	}
	return n <= g.kinds[k].alone
}

func (g *group) kindOf(line int) int {
	return slices.IndexFunc(g.kinds, func(k kind) bool { return slices.Contains(k.lines, line) })
}

// queue takes n liners of a kind for shared sheets: first what its lines have
// past full sheets, then the smallest lines whole.
func (g *group) queue(of kind, n int, left map[int]int) []part {
	taken := map[int]int{}
	for _, i := range of.lines {
		odd := min(n, left[i]%of.alone)
		taken[i] += odd
		n -= odd
	}
	order := slices.Clone(of.lines)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(left[a], left[b]) })
	for _, i := range order {
		more := min(n, left[i]-taken[i])
		taken[i] += more
		n -= more
	}
	var all []part
	for _, i := range of.lines {
		if taken[i] > 0 {
			all = append(all, part{i, taken[i]})
			left[i] -= taken[i]
		}
	}
	return all
}

// ownSheets lays what is left of a kind on sheets of its own, at most so many:
// each line's full ones, and what is left of each where it fits beside others.
func (g *group) ownSheets(k int, of kind, most int, left map[int]int) []slip {
	var all []slip
	var rest []part
	for _, i := range of.lines {
		if full := left[i] / of.alone; full > 0 {
			all = append(all, slip{way: -1, kind: k, parts: []part{{i, of.alone}}, copies: full})
			most -= full
		}
		if odd := left[i] % of.alone; odd > 0 {
			rest = append(rest, part{i, odd})
		}
	}
	slices.SortStableFunc(rest, func(a, b part) int { return cmp.Compare(b.n, a.n) })
	bins := make([][]part, max(most, 0))
	room := slices.Repeat([]int{of.alone}, len(bins))
	put := func(p part) bool {
		at := -1
		for b := range bins { // an empty one, else where the least is left
			switch {
			case room[b] < p.n:
			case at < 0, len(bins[b]) == 0 && len(bins[at]) > 0, len(bins[b]) > 0 && len(bins[at]) > 0 && room[b] < room[at]:
				at = b
			}
		}
		if at >= 0 {
			bins[at], room[at] = append(bins[at], p), room[at]-p.n
		}
		return at >= 0
	}
	for _, p := range rest {
		if put(p) {
			continue
		}
		for b := range bins { // in pieces
			if n := min(p.n, room[b]); n > 0 {
				bins[b], room[b], p.n = append(bins[b], part{p.line, n}), room[b]-n, p.n-n
			}
		}
	}
	for _, b := range bins {
		if len(b) > 0 {
			slices.SortFunc(b, func(a, b part) int { return cmp.Compare(a.line, b.line) })
			all = append(all, slip{way: -1, kind: k, parts: b, copies: 1})
		}
	}
	return all
}

// add adds sheets to those that are alike.
func add(all []slip, s slip) []slip {
	for i, o := range all {
		if o.way == s.way && slices.Equal(o.parts, s.parts) {
			all[i].copies += s.copies
			return all
		}
	}
	return append(all, s)
}

// gainful takes lines apart again that share sheets and gain none: those that
// hang together, when alone they take no more.
func (g *group) gainful(slips []slip) []slip {
	of := map[int]int{} // the least line that a line hangs together with
	for _, i := range g.of {
		of[i] = i
	}
	find := func(i int) int {
		for of[i] != i {
			i = of[i]
		}
		return i
	}
	for _, s := range slips {
		for _, p := range s.parts[1:] {
			a, b := find(s.parts[0].line), find(p.line)
			of[max(a, b)] = min(a, b)
		}
	}
	together, apart := map[int]int{}, map[int]int{} // sheets
	for _, s := range slips {
		together[find(s.parts[0].line)] += s.copies
	}
	for _, i := range g.of {
		apart[find(i)] += g.sheetsAlone(i)
	}
	var all []slip
	for _, s := range slips {
		if root := find(s.parts[0].line); together[root] < apart[root] {
			all = append(all, s)
		}
	}
	for _, i := range g.of {
		if root := find(i); together[root] < apart[root] {
			continue
		}
		p, k := g.all[i].Plan, g.kindOf(i)
		if full := p.Count / p.PerSheet(); full > 0 {
			all = append(all, slip{-1, k, []part{{i, p.PerSheet()}}, full})
		}
		if odd := p.Count % p.PerSheet(); odd > 0 {
			all = append(all, slip{-1, k, []part{{i, odd}}, 1})
		}
	}
	return all
}

func (g *group) sheetsAlone(i int) int {
	p := g.all[i].Plan
	return sheetsFor(p.Count, p.PerSheet())
}
