package nest_test

import (
	"math"
	"sort"

	"underflap/liner/geom"
	"underflap/liner/nest"
)

// A search over all slides of two pieces that promises what it does not find:
// the distance of two pieces changes by no more than one of them is slid. So
// where they are too near each other by some length, every slide shorter than
// that is out too, and what is left is halved until it is out or too small to
// matter. It knows chords and discs, and nothing of upper edges or sums.

const (
	searchChords = 0.005 // chords lie within this of their arcs
	searchSpare  = 0.012 // more than the gap is asked for, so that a find is one on the arcs too
	searchGrain  = 0.02  // slides nearer to each other than this are not told apart
)

// solid is a piece in one turn, its lower left at the origin, with some discs
// that lie inside it.
type solid struct {
	chain         []geom.Point
	width, height float64
	discs         []disc
}

type disc struct {
	x, y, r float64
}

func solidOf(cut geom.Contour, turn int) solid {
	chain := turned(cut.Flatten(searchChords), turn, 0, 0)
	box := bounds(chain)
	s := solid{chain: turned(chain, 0, -box.MinX, -box.MinY), width: box.Width(), height: box.Height()}
	var all []disc
	step := math.Sqrt(s.width*s.height) / 14
	for x := step / 2; x < s.width; x += step {
		for y := step / 2; y < s.height; y += step {
			if p := (geom.Point{X: x, Y: y}); holds(s.chain, p) {
				all = append(all, disc{x, y, math.Sqrt(squareToChain(p, s.chain))})
			}
		}
	}
	sort.Slice(all, func(i, j int) bool { return all[i].r > all[j].r })
	for _, d := range all { // those that add something to greater ones
		adds := true
		for _, greater := range s.discs {
			adds = adds && math.Hypot(d.x-greater.x, d.y-greater.y)+d.r > greater.r+step/2
		}
		if adds && len(s.discs) < 24 {
			s.discs = append(s.discs, d)
		}
	}
	return s
}

// squareToChain is the square of a point's distance from a chain.
func squareToChain(p geom.Point, chain []geom.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		dx, dy, px, py := b.X-a.X, b.Y-a.Y, p.X-a.X, p.Y-a.Y
		if n := dx*dx + dy*dy; n > 0 {
			k := max(0, min(1, (px*dx+py*dy)/n))
			px, py = px-k*dx, py-k*dy
		}
		least = min(least, px*px+py*py)
	}
	return least
}

// blocked is a length such that no slide that much shorter or longer than x, y
// parts b from a by a gap; negative when they are parted. It need not be the
// greatest such length, and none above enough is sought.
func blocked(a, b solid, x, y, gap, enough float64) float64 {
	out := 0.0
	for _, p := range a.discs {
		for _, q := range b.discs {
			if both := p.r + q.r + gap; both > out {
				if dx, dy := q.x+x-p.x, q.y+y-p.y; dx*dx+dy*dy < (both-out)*(both-out) {
					out = both - math.Sqrt(dx*dx+dy*dy)
				}
			}
		}
		if out >= enough {
			return out
		}
	}
	there := turned(b.chain, 0, x, y)
	depth, least := 0.0, math.Inf(1)
	for _, ends := range [][2][]geom.Point{{a.chain, there}, {there, a.chain}} {
		for _, p := range ends[1][1:] {
			d := squareToChain(p, ends[0])
			if holds(ends[0], p) {
				depth = max(depth, d)
			}
			least = min(least, d)
		}
	}
	if depth > 0 || crossed(a.chain, there) {
		return max(out, math.Sqrt(depth)+gap)
	}
	if d := math.Sqrt(least); d < gap {
		return max(out, gap-d)
	}
	return -1
}

func crossed(a, b []geom.Point) bool {
	side := func(p, q, r geom.Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			if side(a[i-1], a[i], b[j-1])*side(a[i-1], a[i], b[j]) < 0 && side(b[j-1], b[j], a[i-1])*side(b[j-1], b[j], a[i]) < 0 {
				return true
			}
		}
	}
	return false
}

// slideFits looks for a slide that parts two pieces which both lie in a room.
func slideFits(room nest.Room, a, b solid, gap float64) bool {
	// a may lie anywhere in [0, ax] x [0, ay] and b in [0, bx] x [0, by]; of a
	// bulge on either side chords hide a little
	width, height := room.Width-2*searchChords, room.Height-2*searchChords
	ax, ay, bx, by := width-a.width, height-a.height, width-b.width, height-b.height
	if min(ax, ay, bx, by) < 0 {
		return false
	}
	type cell struct{ x, y, halfX, halfY float64 }
	cells := []cell{{(bx - ax) / 2, (by - ay) / 2, (bx + ax) / 2, (by + ay) / 2}}
	for len(cells) > 0 {
		c := cells[len(cells)-1]
		cells = cells[:len(cells)-1]
		reach := math.Hypot(c.halfX, c.halfY)
		out := blocked(a, b, c.x, c.y, gap, reach)
		switch {
		case out < 0:
			return true
		case out >= reach || reach < searchGrain:
		case c.halfX > c.halfY:
			c.halfX /= 2
			cells = append(cells, cell{c.x - c.halfX, c.y, c.halfX, c.halfY}, cell{c.x + c.halfX, c.y, c.halfX, c.halfY})
		default:
			c.halfY /= 2
			cells = append(cells, cell{c.x, c.y - c.halfY, c.halfX, c.halfY}, cell{c.x, c.y + c.halfY, c.halfX, c.halfY})
		}
	}
	return false
}

// searchFits looks for any way to lay two pieces in a room. Which of the two is
// named first, and a half turn of the sheet, make no difference; of sixteen
// ways to turn two pieces that leaves six, and of those along one axis four.
func searchFits(room nest.Room, cut geom.Contour, gap float64, oneAxis bool) bool {
	ways := [][2]int{{0, 180}, {0, 0}, {90, 270}, {90, 90}, {0, 90}, {0, 270}}
	if oneAxis {
		ways = ways[:4]
	}
	for _, way := range ways {
		if slideFits(room, solidOf(cut, way[0]), solidOf(cut, way[1]), gap+searchSpare) {
			return true
		}
	}
	return false
}
