package nest_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/nest"
)

// The checks here know nothing of profiles or sums: outlines are chords, turned
// and slid by school formulas, and distances are those of edges.

func turned(points []geom.Point, turn int, x, y float64) []geom.Point {
	out := make([]geom.Point, len(points))
	for i, p := range points {
		for range turn / 90 {
			p.X, p.Y = p.Y, -p.X // a quarter clockwise, y up
		}
		out[i] = geom.Point{X: p.X + x, Y: p.Y + y}
	}
	return out
}

func toEdge(p, a, b geom.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	k := 0.0
	if n := dx*dx + dy*dy; n > 0 {
		k = math.Max(0, math.Min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/n))
	}
	return math.Hypot(p.X-a.X-k*dx, p.Y-a.Y-k*dy)
}

func holds(chain []geom.Point, p geom.Point) bool {
	in := false
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		if (a.Y <= p.Y) != (b.Y <= p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// apart is the distance of two closed chains of points, 0 when they meet.
func apart(a, b []geom.Point) float64 {
	if holds(a, b[0]) || holds(b, a[0]) {
		return 0
	}
	least := math.Inf(1)
	side := func(p, q, r geom.Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			if side(a[i-1], a[i], b[j-1])*side(a[i-1], a[i], b[j]) < 0 && side(b[j-1], b[j], a[i-1])*side(b[j-1], b[j], a[i]) < 0 {
				return 0
			}
			least = min(least, toEdge(a[i], b[j-1], b[j]), toEdge(b[j], a[i-1], a[i]))
		}
	}
	return least
}

func bounds(chain []geom.Point) geom.Box {
	b := geom.Box{MinX: math.Inf(1), MinY: math.Inf(1), MaxX: math.Inf(-1), MaxY: math.Inf(-1)}
	for _, p := range chain {
		b = b.Union(geom.Box{MinX: p.X, MinY: p.Y, MaxX: p.X, MaxY: p.Y})
	}
	return b
}

// sound checks a placement: inside the room, a gap apart.
func sound(t *testing.T, what string, room nest.Room, cut geom.Contour, at []nest.Placed, gap float64) {
	t.Helper()
	var chains [][]geom.Point
	for _, p := range at {
		c := turned(cut.Flatten(0.001), p.Turn, p.X, p.Y)
		if b := bounds(c); b.MinX < -1e-6 || b.MinY < -1e-6 || b.MaxX > room.Width+1e-6 || b.MaxY > room.Height+1e-6 {
			t.Errorf("%s: %v leaves the room %v", what, b, room)
		}
		for _, other := range chains {
			if d := apart(c, other); d < gap-0.0021 { // chords of hollow arcs lie up to 0.001 outside
				t.Errorf("%s: cut lines are %v apart, want %v", what, d, gap)
			}
		}
		chains = append(chains, c)
	}
}

// bruteFits looks for any placement of two outlines at all turns: the first one
// in each corner of the room that a symmetry leaves, the second slid densely
// along the room's edges, since of two pieces that fit one can be pushed into a
// corner and the other against an edge.
func bruteFits(room nest.Room, cut geom.Contour, gap, step float64) bool {
	chain := cut.Flatten(0.05)
	for _, first := range nest.Turns {
		a := turned(chain, first, 0, 0)
		ab := bounds(a)
		if ab.Width() > room.Width || ab.Height() > room.Height {
			continue
		}
		a = turned(a, 0, -ab.MinX, -ab.MinY) // lower left corner
		for _, second := range nest.Turns {
			b := turned(chain, second, 0, 0)
			bb := bounds(b)
			spareX, spareY := room.Width-bb.Width(), room.Height-bb.Height()
			if spareX < 0 || spareY < 0 {
				continue
			}
			for x := 0.0; x <= spareX; x += step { // along the upper edge
				if apart(a, turned(b, 0, x-bb.MinX, spareY-bb.MinY)) >= gap {
					return true
				}
			}
			for y := 0.0; y <= spareY; y += step { // along the right edge
				if apart(a, turned(b, 0, spareX-bb.MinX, y-bb.MinY)) >= gap {
					return true
				}
			}
			// and the first one in the lower right corner
			for x := 0.0; x <= spareX; x += step {
				if apart(turned(a, 0, room.Width-ab.Width(), 0), turned(b, 0, x-bb.MinX, spareY-bb.MinY)) >= gap {
					return true
				}
			}
		}
	}
	return false
}

func lining(t *testing.T, name string, shape liner.Shape) liner.Liner {
	t.Helper()
	e, err := liner.LookUp(name)
	if err != nil {
		t.Fatal(err)
	}
	env := e.Envelope(shape)
	l, err := liner.New(env, liner.Clearances{SideGap: 3, GumClearance: 1.5, CornerRadius: liner.UsualCornerRadius(env)})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func pieceOf(l liner.Liner) nest.Piece {
	return func(d float64) (cut, inside geom.Contour) { c := l.Outline(d).Contour; return c, c }
}

// Over the whole size table, pointed and square, on five papers: what the
// solver places is sound, and a dense search finds nothing deeper by 0.1 mm.
func TestNoSearchGoesDeeperThanTheSolver(t *testing.T) {
	const gap = 4.0
	r := rand.New(rand.NewPCG(4, 2))
	solved, searched := 0, 0
	for _, e := range liner.Entries() {
		for _, shape := range []liner.Shape{liner.Pointed, liner.Square} {
			l := lining(t, e.Name, shape)
			piece := pieceOf(l)
			for _, name := range []string{"A4", "Letter", "Legal", "A3", "12x12in"} {
				paper, err := liner.ParsePaper("paper", name)
				if err != nil {
					t.Fatal(err)
				}
				room := nest.Room{Width: paper.Width - 10, Height: paper.Height - 10}
				what := e.Name + " " + string(shape) + " on " + name
				least, most := l.LeastPocketDepth(), l.FullPocketDepth()
				depth, at, ok := room.Deepest(piece, gap, least, most)
				if ok {
					solved++
					sound(t, what, room, l.Outline(depth).Contour, at[:], gap)
				}
				deeper := least
				if ok {
					deeper = depth + 0.1
				}
				if deeper > most || l.Width() > math.Max(room.Width, room.Height) || r.IntN(6) > 0 && l.Envelope.Height < 400 {
					continue // the search takes a while: one in six is tried
				}
				searched++
				if bruteFits(room, l.Outline(deeper).Contour, gap, 0.5) {
					t.Errorf("%s: the search fits two at %v, the solver at %v (%v)", what, deeper, depth, ok)
				}
			}
		}
	}
	t.Logf("%d solved, %d searched", solved, searched)
	if solved < 250 || searched < 30 {
		t.Errorf("%d solved, %d searched: the check hardly ran", solved, searched)
	}
}

// Rows are sound, and never carry less than upright or turned grids of boxes.
func TestRowsAreSoundAndNeverWorseThanGrids(t *testing.T) {
	const gap = 4.0
	tried := 0
	for _, e := range liner.Entries() {
		l := lining(t, e.Name, "")
		cut := l.Outline(l.FullPocketDepth()).Contour
		box := cut.Bounds()
		for _, name := range []string{"A4", "A3", "12x12in"} {
			paper, err := liner.ParsePaper("paper", name)
			if err != nil {
				t.Fatal(err)
			}
			room := nest.Room{Width: paper.Width - 10, Height: paper.Height - 10}
			at := room.Most(cut, cut, gap, 60)
			sound(t, e.Name+" on "+name, room, cut, at, gap)
			grid := func(w, h float64) int {
				return int((room.Width+gap+1e-9)/(w+gap)) * int((room.Height+gap+1e-9)/(h+gap))
			}
			if best := max(grid(box.Width(), box.Height()), grid(box.Height(), box.Width())); len(at) < min(best, 60) {
				t.Errorf("%s on %s: %d in rows, %d in a grid", e.Name, name, len(at), best)
			}
			tried += min(1, len(at))
		}
	}
	if tried < 100 {
		t.Errorf("only %d sheets carried any", tried)
	}
}

func BenchmarkTwoC6OnA4(b *testing.B) {
	e, _ := liner.LookUp("c6")
	l, _ := liner.New(e.Envelope(""), liner.Clearances{SideGap: 3, GumClearance: 1.5, CornerRadius: 4})
	piece := pieceOf(l)
	for b.Loop() {
		nest.Room{Width: 200, Height: 287}.Deepest(piece, 4, l.LeastPocketDepth(), l.FullPocketDepth())
	}
}
