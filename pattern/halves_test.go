package pattern

import (
	"testing"

	"underflap/pattern/draw/referee"
)

// The halves of a pointed flap mirror each other in every family whose own nature
// or parameters do not forbid it.
func TestHalvesMirrorInEveryFamilyThatCan(t *testing.T) {
	cases := []struct {
		name    string
		motif   Motif
		mirrors bool
	}{
		{"rings", settled("rings"), true},
		{"linked rings", settled("rings", "link=0.3"), true},
		{"hexagons", settled("hexagons", "inks=1,2,3"), true},
		{"hexagons in columns", settled("hexagons", "repeat=half-drop"), true},
		{"diamonds", settled("diamonds"), true},
		{"triangles", settled("triangles", "up=1,2,3"), true},
		{"stars", settled("stars"), true},
		{"stars of seven points", settled("stars", "points=7", "repeat=half-drop"), true},
		{"petals", settled("petals"), true},
		{"petals, odd", settled("petals", "petals=5"), true},
		{"leaves", settled("leaves"), true},
		{"leaves on bent stems", settled("leaves", "bend=60"), false},
		{"guilloche", settled("guilloche"), true},
		{"guilloche, odd", settled("guilloche", "lines=5", "waves=3", "inks=1,2"), true},
		{"truchet", settled("truchet"), true},
		{"terrazzo", settled("terrazzo"), false},
		{"confetti", settled("confetti"), false},
	}
	for _, c := range cases {
		for _, seed := range []uint64{0, 77} {
			page := pageOf(Design{Name: c.name, Motif: c.motif, Colours: threeGreys, Scale: 1, Seed: seed}, 25.4*3)
			r := referee.PNG(t, written(t, page, "png", 200), 200) // 600 pixels, the centre line between two of them
			differ := 0
			for y := range r.Height {
				for x := range r.Width / 2 {
					a, b := r.Grey[y*r.Width+x], r.Grey[y*r.Width+r.Width-1-x]
					if max(a, b)-min(a, b) > 24 {
						differ++
					}
				}
			}
			if share := float64(differ) / float64(len(r.Grey)/2); c.mirrors && share > 0.001 || !c.mirrors && share < 0.05 {
				t.Errorf("%s, seed %d: %.4f of the pixels differ from their mirror image; mirrors: %v", c.name, seed, share, c.mirrors)
			}
		}
	}
}
