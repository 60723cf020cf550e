package sheet

import (
	"math"

	"underflap/liner/geom"
	"underflap/liner/nest"
)

// nested lays liners as close as their cut lines go: two at the true optimum
// over all turns and slides, more in rows built on such pairs. One lies as the
// straight layout has it.
func nested(t Task, n int) (placed, bool) {
	if n == 1 {
		return straight(t, 1)
	}
	p, ok := nestedHiding(t, n)
	if !ok || t.HiddenFoot == 0 || p.depth < t.Liner.WantedPocketDepth()-1e-6 {
		return p, ok
	}
	// full depth is reached: no more of the foot need be hidden than that takes
	t.HiddenFoot = leastThat(t.HiddenFoot, func(foot float64) bool {
		less := t
		less.HiddenFoot = foot
		return nests(less, n)
	})
	return nestedHiding(t, n)
}

// leastThat is the least length, to a tenth, up to most that does; most is known
// to.
func leastThat(most float64, does func(float64) bool) float64 {
	if does(0) {
		return 0
	}
	low := 0.0
	for most-low > 0.1 {
		if mid := (low + most) / 2; does(mid) {
			most = mid
		} else {
			low = mid
		}
	}
	return most
}

// nestedHiding is nested, with as much of the foot hidden as may be.
func nestedHiding(t Task, n int) (placed, bool) {
	room, piece := t.nestRoom(), t.piece()
	least, most := t.Liner.LeastPocketDepth(), t.Liner.WantedPocketDepth()
	if n == 2 {
		depth, pair, ok := room.Deepest(piece, t.Gap, least, most)
		return placed{Nested, depth, func() (ways [][]Placement) {
			cut, inside := piece(depth)
			for _, way := range append(room.Ways(cut, inside, t.Gap), pair) {
				ways = append(ways, t.onSheet(way[:], cut, inside)...)
			}
			return ways
		}}, ok
	}
	depth, rows, ok := room.DeepestOf(n, piece, t.Gap, least, most)
	return placed{Nested, depth, func() [][]Placement {
		cut, inside := piece(depth)
		return t.onSheet(rows, cut, inside)
	}}, ok
}

// onSheet carries a way to lie from y up at the room's lower left to y down at
// the sheet's upper left, and slides it about.
func (t Task) onSheet(way []nest.Placed, cut, inside geom.Contour) [][]Placement {
	var at []Placement
	room := t.room()
	for _, a := range way {
		at = append(at, Placement{Turn: a.Turn, DX: room.MinX + a.X, DY: room.MaxY - a.Y})
	}
	box := around(at, cut)
	if box.Width() > room.Width() || box.Height() > room.Height() {
		box = around(at, inside)
	}
	return slid(t, at, box)
}

// nests tells whether n liners fit nested at the very depth wanted.
func nests(t Task, n int) bool {
	cut, inside := t.piece()(t.Liner.WantedPocketDepth())
	if n == 2 {
		return len(t.nestRoom().Ways(cut, inside, t.Gap)) > 0
	}
	return len(t.nestRoom().Most(cut, inside, t.Gap, n)) == n
}

// mostNested is how many fit at the depth wanted.
func mostNested(t Task) int {
	cut, inside := t.piece()(t.Liner.WantedPocketDepth())
	n := len(t.nestRoom().Most(cut, inside, t.Gap, MostPerSheet))
	if n < 2 && nests(t, 2) {
		return 2
	}
	return n
}

// nestRoom is the printable part of the sheet.
func (t Task) nestRoom() nest.Room {
	r := t.room()
	return nest.Room{Width: r.Width(), Height: r.Height()}
}

// piece gives the cut line at a depth, and the part of it that must lie inside
// the printer margin: all of it but a hidden foot.
func (t Task) piece() nest.Piece {
	return func(depth float64) (cut, inside geom.Contour) {
		cut = t.Liner.Outline(depth).Contour
		if t.HiddenFoot == 0 {
			return cut, cut
		}
		return cut, t.Liner.Outline(math.Max(depth-t.HiddenFoot, t.Liner.CornerRadius)).Contour
	}
}
