package nest_test

import (
	"fmt"
	"testing"

	"underflap/liner"
	"underflap/liner/nest"
)

// Every way that two pieces lie at the greatest depth is sound, not only the
// first: chords and edge distances again, as in brute_test.go.
func TestEveryWayIsSound(t *testing.T) {
	ways := 0
	for _, e := range liner.Entries() {
		for _, shape := range []liner.Shape{"", liner.Contour} {
			l, err := liner.New(e.Envelope(shape), liner.Clearances{SideGap: 3, GumClearance: 1, CornerRadius: 3})
			if err != nil {
				continue
			}
			piece := pieceOf(l)
			for _, paper := range []liner.Paper{liner.Papers()[0], liner.Papers()[1]} {
				room := nest.Room{Width: paper.Width - 10, Height: paper.Height - 10}
				depth, _, ok := room.Deepest(piece, 4, l.LeastPocketDepth(), l.WantedPocketDepth())
				if !ok {
					continue
				}
				cut, inside := piece(depth)
				for i, way := range room.Ways(cut, inside, 4) {
					sound(t, fmt.Sprintf("%s %s on %s, way %d at %v", e.Name, shape, paper.Short, i, depth), room, cut, way[:], 4)
					ways++
				}
			}
		}
	}
	if ways < 500 {
		t.Errorf("only %d ways", ways)
	}
}
