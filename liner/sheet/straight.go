package sheet

import "underflap/liner"

// frame is an upright room on the page that one piece is given.
type frame struct{ x, y, w, h float64 }

// straight keeps both pieces upright or both turned by 90 degrees, each in its
// own half of the sheet, so that one trimmer cut parts them. Among ways of
// equal depth it takes the one that leaves the widest strip for notes, then
// the upright one.
func straight(t Task, n int) (placed, bool) {
	room := frame{t.PrinterMargin, t.PrinterMargin, t.Paper.Width - 2*t.PrinterMargin, t.Paper.Height - 2*t.PrinterMargin}
	best, found, bestStrip := placed{depth: -1}, false, 0.0
	for _, turn := range []int{0, 90} {
		for _, across := range []bool{false, true} { // one above the other, or side by side
			if n == 1 && across {
				continue
			}
			p, strip, ok := inFrames(t, room, n, turn, across)
			if ok && (p.depth > best.depth+1e-6 || p.depth > best.depth-1e-6 && strip > bestStrip+1e-6) {
				best, found, bestStrip = p, true, strip
			}
		}
	}
	return best, found
}

// inFrames parts the room into n equal frames and puts a piece into each.
func inFrames(t Task, room frame, n, turn int, across bool) (p placed, strip float64, ok bool) {
	part := room
	if across {
		part.w = (room.w - float64(n-1)*t.Gap) / float64(n)
	} else {
		part.h = (room.h - float64(n-1)*t.Gap) / float64(n)
	}
	along, reach := part.w, part.h // room along the fold, and across it
	if turn == 90 {
		along, reach = part.h, part.w
	}
	const rounding = 1e-9
	if t.Liner.Width() > along+rounding {
		return placed{}, 0, false
	}
	p.depth = min(t.Liner.WantedPocketDepth(), reach-t.Liner.FlapHeight())
	if p.depth < t.Liner.LeastPocketDepth()-rounding {
		return placed{}, 0, false
	}
	w, h := t.Liner.Width(), p.depth+t.Liner.FlapHeight()
	if turn == 90 {
		w, h = h, w
	}
	// the pieces lie side by side with the gap between them, as one group
	groupW, groupH := w, h
	if across {
		groupW = float64(n)*w + float64(n-1)*t.Gap
	} else {
		groupH = float64(n)*h + float64(n-1)*t.Gap
	}
	ticks := t.Bleed + tickLength + 0.5
	x, stripX := gather(room.x, room.w, groupW, ticks)
	y, stripY := gather(room.y, room.h, groupH, ticks)
	for i := range n {
		px, py := x, y
		if across {
			px += float64(i) * (w + t.Gap)
		} else {
			py += float64(i) * (h + t.Gap)
		}
		p.at = append(p.at, corner(t.Liner, turn, p.depth, px, py))
	}
	return p, max(stripX, stripY), true
}

// noteStrip is the least width of strip in which notes read well.
const noteStrip = 42.0

// gather places a group along one side of the room: centred, unless only
// pushing it towards the near side, short of the room that fold ticks need
// there, leaves a strip wide enough for notes. It returns the place and the
// widest free strip.
func gather(start, room, group, ticks float64) (at, strip float64) {
	spare := room - group
	if spare/2 >= noteStrip || spare < 2*ticks {
		return start + spare/2, spare / 2
	}
	return start + ticks, spare - ticks
}

// corner places a piece so that its bounding box has its top left at x, y.
func corner(l liner.Liner, turn int, depth, x, y float64) Placement {
	if turn == 90 { // the flap points right, the fold runs down
		return Placement{Turn: 90, DX: x + depth, DY: y - l.SideGap}
	}
	return Placement{DX: x - l.SideGap, DY: y + l.FlapHeight()}
}
