package sheet

import (
	"math"
	"slices"

	"underflap/liner"
	"underflap/liner/geom"
)

// straight keeps all pieces upright or all turned by 90 degrees, in columns and
// rows of equal frames, so that trimmer cuts from edge to edge part them. Among
// ways of equal depth it likes those that leave the widest strip for notes, then
// the upright ones.
func straight(t Task, n int) (placed, bool) {
	var grids []grid
	best := placed{layout: Straight, depth: -1}
	for _, turn := range []int{0, 90} {
		for columns := 1; columns <= n; columns++ {
			rows := (n + columns - 1) / columns
			if (columns-1)*rows >= n {
				continue // a column would stay empty
			}
			if g, ok := inFrames(t, turn, columns, rows); ok {
				grids = append(grids, g)
				best.depth = max(best.depth, g.depth)
			}
		}
	}
	const equal = 1e-6
	grids = slices.DeleteFunc(grids, func(g grid) bool { return g.depth < best.depth-equal })
	best.ways = func() (ways [][]Placement) {
		slices.SortStableFunc(grids, func(a, b grid) int {
			if sa, sb := a.strip(t), b.strip(t); math.Abs(sa-sb) > equal {
				return int(math.Copysign(1, sb-sa))
			}
			return 0
		})
		for _, g := range grids {
			ways = append(ways, slid(t, g.fill(t, n), g.box)...)
		}
		return ways
	}
	return best, len(grids) > 0
}

// mostStraight is how many fit at the depth wanted.
func mostStraight(t Task) int {
	n := 0
	for n < MostPerSheet {
		if p, ok := straight(t, n+1); !ok || p.depth < t.Liner.WantedPocketDepth()-0.005 {
			break
		}
		n++
	}
	return n
}

// grid is columns and rows of frames, each with a piece turned alike.
type grid struct {
	turn, columns int
	depth         float64
	w, h          float64  // of a piece
	box           geom.Box // around all that must be printed, from the first piece's top left
}

// inFrames parts the room into columns and rows of equal frames for a piece
// each.
func inFrames(t Task, turn, columns, rows int) (grid, bool) {
	room := t.room()
	along := (room.Width() - float64(columns-1)*t.Gap) / float64(columns)
	reach := (room.Height() - float64(rows-1)*t.Gap) / float64(rows) // across the fold
	footed := rows == 1                                              // the foot lies at the sheet's edge
	if turn == 90 {
		along, reach, footed = reach, along, columns == 1
	}
	foot := 0.0
	if footed {
		foot = t.HiddenFoot
	}
	const rounding = 1e-9
	g := grid{turn: turn, columns: columns, depth: min(t.Liner.WantedPocketDepth(), reach+foot-t.Liner.FlapHeight())}
	if t.Liner.Width() > along+rounding || g.depth < t.Liner.LeastPocketDepth()-rounding {
		return grid{}, false
	}
	g.w, g.h = t.Liner.Width(), g.depth+t.Liner.FlapHeight()
	hidden := max(0, g.h-reach) // how much of the foot is hidden
	if turn == 90 {
		g.w, g.h = g.h, g.w
	}
	// the pieces lie side by side with the gap between them, as one group
	g.box.MaxX = float64(columns)*(g.w+t.Gap) - t.Gap
	g.box.MaxY = float64(rows)*(g.h+t.Gap) - t.Gap
	if turn == 90 { // the foot lies left
		g.box.MinX = hidden
	} else {
		g.box.MaxY -= hidden
	}
	return g, true
}

// strip is the widest free strip beside or below the group.
func (g grid) strip(t Task) float64 {
	widest := func(room, group float64) float64 { return room - group - stops(0, room, group, t.tickRoom())[0] }
	room := t.room()
	return max(widest(room.Width(), g.box.Width()), widest(room.Height(), g.box.Height()))
}

// fill puts pieces into the frames, row by row, until there are n.
func (g grid) fill(t Task, n int) []Placement {
	var at []Placement
	for i := range n {
		at = append(at, corner(t.Liner, g.turn, g.depth, float64(i%g.columns)*(g.w+t.Gap), float64(i/g.columns)*(g.h+t.Gap)))
	}
	return at
}

// corner places a piece so that its bounding box has its top left at x, y.
func corner(l liner.Liner, turn int, depth, x, y float64) Placement {
	if turn == 90 { // the flap points right, the fold runs down
		return Placement{Turn: 90, DX: x + depth, DY: y - l.SideGap}
	}
	return Placement{DX: x - l.SideGap, DY: y + l.FlapHeight()}
}
