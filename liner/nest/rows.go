package nest

import (
	"math"

	"underflap/liner/geom"
)

// Rows lays equal pieces in rows: alike or head to tail, rows of single pieces
// or of pairs that lie over each other.

// kit is a piece at one depth in the two turns of a row pattern, and how those
// pass each other upwards and to the right.
type kit struct {
	gap   float64
	poses [2]Pose
	up    [2][2]stack // up[i][j]: pose j above pose i
	right [2][2]stack // pose j to the right of pose i, x and y exchanged
}

// transposed exchanges x and y.
func transposed(p Pose) Pose {
	swap := func(q geom.Point) geom.Point { return geom.Point{X: q.Y, Y: q.X} }
	shape := p.Shape.Map(swap, true)
	return Pose{Turn: p.Turn, Shape: shape, upper: shape.Upper(), lower: shape.Lower(),
		Box: geom.Box{MinX: p.Box.MinY, MinY: p.Box.MinX, MaxX: p.Box.MaxY, MaxY: p.Box.MaxX}}
}

func newKit(cut, inside geom.Contour, turn int, gap float64) kit {
	k := kit{gap: gap, poses: [2]Pose{NewPose(cut, inside, turn), NewPose(cut, inside, (turn+180)%360)}}
	var aside [2]Pose
	for i, p := range k.poses {
		aside[i] = transposed(p)
	}
	for i := range 2 {
		for j := range 2 {
			k.up[i][j] = above(k.poses[i], k.poses[j], gap)
			k.right[i][j] = above(aside[i], aside[j], gap)
		}
	}
	return k
}

// spot is one pose of a kit with its origin at X, Y.
type spot struct {
	pose int
	x, y float64
}

// clear is how far a group must be slid, at right angles to a fixed offset, to
// pass another group: upwards at a slide of off, or to the right at a rise.
func clear(first, second []spot, passing *[2][2]stack, off float64, right bool) float64 {
	need := math.Inf(-1)
	for _, a := range first {
		for _, b := range second {
			along, across := b.x-a.x+off, b.y-a.y
			if right {
				along, across = b.y-a.y+off, b.x-a.x
			}
			if rise, meets := passing[a.pose][b.pose].needs(along); meets {
				need = math.Max(need, rise-across)
			}
		}
	}
	return need
}

// needs is the rise at a slide; meets is false where the two pass each other.
func (s stack) needs(dx float64) (rise float64, meets bool) {
	if dx <= s.rise[0].A.X+rounding || dx >= s.rise[len(s.rise)-1].B.X-rounding {
		return 0, false
	}
	return s.over(dx), true
}

func (k kit) box(group []spot) geom.Box {
	var b geom.Box
	for i, s := range group {
		o := k.poses[s.pose].Box
		o = geom.Box{MinX: o.MinX + s.x, MaxX: o.MaxX + s.x, MinY: o.MinY + s.y, MaxY: o.MaxY + s.y}
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

// units are the groups that rows are made of, in turn: each row repeats them.
func (k kit) units(r Room) [][][]spot {
	single, turned := []spot{{0, 0, 0}}, []spot{{1, 0, 0}}
	level := func(top bool) []spot { // the turned one with its foot, or its head, level with the other's
		dy := k.poses[0].Box.MinY - k.poses[1].Box.MinY
		if top {
			dy = k.poses[0].Box.MaxY - k.poses[1].Box.MaxY
		}
		return shifted(turned, 0, dy)
	}
	all := [][][]spot{{single}, {single, level(false)}, {single, level(true)}}
	for _, way := range [][2]int{{0, 1}, {1, 0}} { // pairs over each other, as low as they go
		a, b := k.poses[way[0]], k.poses[way[1]]
		reach := math.Max(0, r.Width-math.Max(a.Box.Width(), b.Box.Width()))
		ax0 := a.Box.MinX - b.Box.MinX // left edges level
		rise, from, to := k.up[way[0]][way[1]].lowest(ax0-reach, ax0+reach)
		if math.IsInf(rise, 0) {
			continue
		}
		for _, dx := range []float64{from, math.Max(from, math.Min(to, ax0))} {
			all = append(all, [][]spot{{{way[0], 0, 0}, {way[1], dx, rise}}})
		}
	}
	return all
}

// row repeats units to the right for as long as they fit a width.
func (k kit) row(units [][]spot, width float64, most int) []spot {
	var row []spot
	for i := 0; len(row) < most; i++ {
		unit := units[i%len(units)]
		dx := 0.0
		if len(row) > 0 {
			dx = clear(row, unit, &k.right, 0, true)
		}
		next := append(row[:len(row):len(row)], shifted(unit, dx, 0)...)
		if k.box(next).Width() > width+rounding {
			break
		}
		row = next
	}
	return row
}

// fill lays rows of units over each other while they fit, up to most pieces.
func (k kit) fill(r Room, units [][]spot, most int) []spot {
	row := k.row(units, r.Width, most)
	if len(row) == 0 || k.box(row).Height() > r.Height+rounding {
		return nil
	}
	all := row
	for len(all) < most {
		dy := clear(all, row, &k.up, 0, false)
		next := append(all[:len(all):len(all)], shifted(row, 0, dy)...)
		if k.box(next).Height() > r.Height+rounding {
			break
		}
		all = next
	}
	return all[:min(len(all), most)]
}

// Most lays as many equal pieces as the patterns of rows take, up to a number.
func (r Room) Most(cut, inside geom.Contour, gap float64, most int) []Placed {
	var best []spot
	var of kit
	for _, turn := range []int{0, 90} {
		k := newKit(cut, inside, turn, gap)
		if !k.poses[0].fits(r.Width, r.Height) {
			continue
		}
		for _, units := range k.units(r) {
			if got := k.fill(r, units, most); len(got) > len(best) {
				best, of = got, k
			}
		}
	}
	if len(best) == 0 {
		return nil
	}
	box := of.box(best)
	x, y := (r.Width-box.Width())/2-box.MinX, (r.Height-box.Height())/2-box.MinY
	var out []Placed
	for _, s := range best {
		out = append(out, Placed{of.poses[s.pose].Turn, s.x + x, s.y + y})
	}
	return out
}

// DeepestOf finds the greatest depth in [least, most] at which so many equal
// pieces fit in rows.
func (r Room) DeepestOf(n int, piece Piece, gap, least, most float64) (depth float64, at []Placed, ok bool) {
	try := func(d float64) []Placed {
		cut, inside := piece(d)
		return r.Most(cut, inside, gap, n)
	}
	if at = try(most); len(at) == n {
		return most, at, true
	}
	if at = try(least); len(at) < n {
		return 0, nil, false
	}
	low, high := least, most
	for high-low > 1e-4 {
		mid := (low + high) / 2
		if got := try(mid); len(got) == n {
			low, at = mid, got
		} else {
			high = mid
		}
	}
	return low, at, true
}
