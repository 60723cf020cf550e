package nest_test

import (
	"math/rand/v2"
	"testing"

	"underflap/liner/geom"
	"underflap/liner/nest"
)

// Two of these crosses go into five by seven only with one of them turned by a
// quarter, as trying every place on the squares tells; alike or head to tail
// they need six by seven. Hardly any random piece gains from it.
func TestTwoCrossesNeedAQuarterTurn(t *testing.T) {
	cross := polygon([2]float64{20, 0}, [2]float64{30, 0}, [2]float64{30, 20}, [2]float64{50, 20}, [2]float64{50, 30}, [2]float64{30, 30},
		[2]float64{30, 40}, [2]float64{10, 40}, [2]float64{10, 30}, [2]float64{0, 30}, [2]float64{0, 20}, [2]float64{20, 20})
	for _, mirrored := range []bool{false, true} {
		for _, turn := range nest.Turns {
			c := cross
			if mirrored {
				c = c.Map(func(p geom.Point) geom.Point { return geom.Point{X: -p.X, Y: p.Y} }, true).Reversed()
			}
			c = nest.NewPose(c, c, turn).Shape
			for _, room := range []nest.Room{{Width: 50, Height: 70}, {Width: 70, Height: 50}} {
				_, at, ok := room.Deepest(fixed(c), 0, 1, 1)
				if !ok || (at[0].Turn-at[1].Turn)%180 == 0 {
					t.Errorf("mirrored %v, turned by %d in %v: %v %v", mirrored, turn, room, at, ok)
				} else if err := unsound(room, c, at[:], 0); err != nil {
					t.Error(err)
				}
				room = nest.Room{Width: room.Width - 0.01, Height: room.Height - 0.01}
				if _, at, ok := room.Deepest(fixed(c), 0, 1, 1); ok || searchFits(room, c, 0, false) {
					t.Errorf("mirrored %v, turned by %d: two fit %v: %v", mirrored, turn, room, at)
				}
			}
		}
	}
}

// Pieces that are as wide as the room lie over each other in it, whichever way
// rounding goes: two rectangles need their heights and the gap.
func TestTwoPiecesAsWideAsTheRoomFit(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for range 300 {
		x, w, h, gap := 10*r.Float64(), 50+100*r.Float64(), 20+50*r.Float64(), 5*r.Float64()
		c := polygon([2]float64{x, 0}, [2]float64{x + w, 0}, [2]float64{x + w, h}, [2]float64{x, h})
		for _, room := range []nest.Room{{Width: w, Height: 2*h + gap + 1e-8}, {Width: 2*h + gap + 1e-8, Height: w}} {
			if _, at, ok := room.Deepest(fixed(c), gap, 1, 1); !ok {
				t.Errorf("two of %v by %v from %v do not fit %v %v apart", w, h, x, room, gap)
			} else if err := unsound(room, c, at[:], gap); err != nil {
				t.Error(err)
			}
			if at := room.Most(c, c, gap, 2); len(at) != 2 {
				t.Errorf("%d of %v by %v from %v fit %v %v apart", len(at), w, h, x, room, gap)
			}
			room = nest.Room{Width: room.Width - 1e-6, Height: room.Height - 1e-6}
			if _, at, ok := room.Deepest(fixed(c), gap, 1, 1); ok {
				t.Errorf("two of %v by %v from %v fit %v %v apart: %v", w, h, x, room, gap, at)
			}
		}
	}
}
