package nest_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner/geom"
	"underflap/liner/nest"
)

// unsound says what is wrong with a placement of equal pieces; see unsoundMix.
func unsound(room nest.Room, cut geom.Contour, at []nest.Placed, gap float64) error {
	return unsoundMix(room, []geom.Contour{cut}, make([]int, len(at)), at, gap)
}

// parted tells whether two chains are a gap apart; boxes settle most.
func parted(a, b []geom.Point, gap float64) bool {
	if p, q := bounds(a).Grow(gap), bounds(b); p.MaxX < q.MinX || q.MaxX < p.MinX || p.MaxY < q.MinY || q.MaxY < p.MinY {
		return true
	}
	return apart(a, b) >= gap
}

const (
	leastDepth, mostDepth = 5.0, 60.0
	// the solver changes to another way to turn the pieces for a hundredth of a
	// millimetre and not for less
	indifference = 0.01 + 1e-3
)

// What nest promises of two pieces of any shape, in any room.
func TestTwoPiecesOfAnyShapeAreLaidAsDeepAsTheyGo(t *testing.T) {
	tried := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrown(t)
		room := nest.Room{Width: rapid.Float64Range(30, 190).Draw(t, "width"), Height: rapid.Float64Range(30, 190).Draw(t, "height")}
		gap := rapid.SampledFrom([]float64{0, 0.5, 3, 8}).Draw(t, "gap")
		if rapid.IntRange(0, 5).Draw(t, "just as wide") == 0 { // as the piece, but for rounding
			room.Width = g.outline(leastDepth).Bounds().Width()
		}
		// -1 stands for no room, below every depth
		solve := func(g grown, room nest.Room, gap float64) float64 {
			depth, at, ok := room.Deepest(g.piece, gap, leastDepth, mostDepth)
			if !ok {
				return -1
			}
			if err := unsound(room, g.outline(depth), at[:], gap); err != nil {
				t.Fatalf("depth %v: %v", depth, err)
			}
			for _, at := range room.Ways(g.outline(depth), g.outline(depth), gap) {
				if err := unsound(room, g.outline(depth), at[:], gap); err != nil {
					t.Fatalf("a way at depth %v: %v", depth, err)
				}
			}
			return depth
		}
		depth := solve(g, room, gap)

		if deeper := max(leastDepth, depth+0.1); deeper <= mostDepth && searchFits(room, g.outline(deeper), gap, !g.everyWay) {
			t.Fatalf("the search fits two at %v, the solver at %v", deeper, depth)
		}
		switch {
		case depth < 0:
			tried["none fit"]++
			return
		case depth < mostDepth:
			tried["shortened"]++
		}
		more := rapid.Float64Range(0, 20).Draw(t, "more")
		for _, larger := range []nest.Room{{Width: room.Width + more, Height: room.Height}, {Width: room.Width, Height: room.Height + more}} {
			if d := solve(g, larger, gap); d < depth-indifference {
				t.Fatalf("depth %v in %v, but %v in %v", depth, room, d, larger)
			}
		}
		if d := solve(g, room, gap+more/4); d > depth+indifference {
			t.Fatalf("depth %v with a gap of %v, but %v with %v", depth, gap, d, gap+more/4)
		}
		if d := solve(g.mirrored(), room, gap); math.Abs(d-depth) > indifference {
			t.Fatalf("depth %v, of the mirror image %v", depth, d)
		}
		if turned := (nest.Room{Width: room.Height, Height: room.Width}); g.everyWay {
			if d := solve(g, turned, gap); math.Abs(d-depth) > indifference {
				t.Fatalf("depth %v, %v in the room turned", depth, d)
			}
		}
	})
	t.Log(tried)
	if tried["shortened"] < 15 || tried["none fit"] < 3 {
		t.Errorf("%v: the property was hardly tried", tried)
	}
}

// Rows of pieces of any shape are sound; and two in rows are no deeper than the
// deepest two.
func TestRowsOfAnyShapeAreSound(t *testing.T) {
	laid := 0
	rapid.Check(t, func(t *rapid.T) {
		g := drawGrown(t)
		room := nest.Room{Width: rapid.Float64Range(60, 300).Draw(t, "width"), Height: rapid.Float64Range(60, 300).Draw(t, "height")}
		gap := rapid.SampledFrom([]float64{0, 0.5, 3, 8}).Draw(t, "gap")
		cut, most := g.outline(20), rapid.IntRange(2, 24).Draw(t, "most")
		at := room.Most(cut, cut, gap, most)
		if err := unsound(room, cut, at, gap); err != nil {
			t.Fatal(err)
		}
		laid += len(at)
		rows, pair, ok := room.DeepestOf(2, g.piece, gap, leastDepth, mostDepth)
		if !ok {
			return
		}
		if err := unsound(room, g.outline(rows), pair, gap); err != nil {
			t.Fatal(err)
		}
		if depth, _, _ := room.Deepest(g.piece, gap, leastDepth, mostDepth); rows > depth+indifference {
			t.Fatalf("two in rows at %v, the deepest two at %v", rows, depth)
		}
	})
	if laid < 200 {
		t.Errorf("only %d pieces were laid", laid)
	}
}
