package sheet

import (
	"math"
	"slices"

	"underflap/liner/geom"
)

// noteStrip is the least width of strip in which notes read well.
const noteStrip = 42.0

// slid gives the ways to slide a group of placements about a room: first as a
// printer would lay it, in the middle, unless only off the middle a strip stays
// wide enough for notes; then where else marks and notes may find room. box is
// the group's part that must lie in the room.
func slid(t Task, at []Placement, box geom.Box) [][]Placement {
	room := t.room()
	var all [][]Placement
	add := func(x, y float64) {
		moved := slices.Clone(at)
		for i := range moved {
			moved[i].DX += x - box.MinX
			moved[i].DY += y - box.MinY
		}
		for _, other := range all {
			if near(other[0].DX, moved[0].DX) && near(other[0].DY, moved[0].DY) {
				return
			}
		}
		all = append(all, moved)
	}
	xs := stops(room.MinX, room.Width(), box.Width(), t.tickRoom())
	ys := stops(room.MinY, room.Height(), box.Height(), t.tickRoom())
	for far := range len(xs) + len(ys) - 1 {
		for i := 0; i <= far; i++ {
			if i < len(xs) && far-i < len(ys) {
				add(xs[i], ys[far-i])
			}
		}
	}
	return all
}

func near(a, b float64) bool { return math.Abs(a-b) < 0.01 }

// tickRoom is what a fold tick takes beside a liner.
func (t Task) tickRoom() float64 { return t.Bleed + tickLength + 0.5 }

// stops are the places for a group along one side of the room, the likeliest
// first: pushed towards the near side, but for the room of fold ticks, where
// only that leaves a strip for notes, in the middle, at both ends.
func stops(start, room, group, ticks float64) []float64 {
	spare := room - group
	middle := start + spare/2
	if spare < 2*ticks {
		return []float64{middle, start, start + spare}
	}
	if spare/2 >= noteStrip {
		return []float64{middle, start + ticks}
	}
	return []float64{start + ticks, middle, start, start + spare}
}

// room is the part of the sheet inside the printer margin and the registration
// marks.
func (t Task) room() geom.Box {
	edge := t.edge()
	return geom.Box{MinX: edge, MinY: edge, MaxX: t.Paper.Width - edge, MaxY: t.Paper.Height - edge}
}

// printable is the part of the sheet inside the printer margin.
func (t Task) printable() geom.Box {
	return geom.Box{MaxX: t.Paper.Width, MaxY: t.Paper.Height}.Grow(-t.PrinterMargin)
}

// around is the box around contours of liner space that are placed alike.
func around(at []Placement, c geom.Contour) geom.Box {
	box := at[0].OnPage(c).Bounds()
	for _, pl := range at[1:] {
		box = box.Union(pl.OnPage(c).Bounds())
	}
	return box
}
