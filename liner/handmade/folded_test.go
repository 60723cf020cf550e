package handmade_test

import (
	"math"
	"testing"

	"underflap/liner/geom"
)

// Folded panels lie where the tests' own reflection puts them, with y up.
func TestFoldedPanelsLieInLinerSpace(t *testing.T) {
	compared := 0
	for _, b := range blanksToFold(t) {
		a := assemble(t, b)
		for i, want := range []polygon{a.left, a.right, a.bottom} {
			got := b.Folded()[i]
			if len(got) != len(want) {
				t.Fatalf("%+v: panel %d has %d sides, want %d", b.Job, i, len(got), len(want))
			}
			for k, p := range want {
				x, y := a.place(p)
				if got[k].A.Distance(geom.Point{X: x, Y: -y}) > 1e-9 {
					t.Errorf("%+v: panel %d has a corner at %v, want (%g, %g)", b.Job, i, got[k].A, x, -y)
				}
				compared++
			}
			// the back lies below the fold, and it is as large as before it was folded
			if box := got.Bounds(); box.MaxY > 1e-9 || box.MinY < -b.Height-1e-9 {
				t.Errorf("%+v: panel %d lies from %g to %g", b.Job, i, box.MinY, box.MaxY)
			}
			if was, is := math.Abs(chain(b.Panels[i+1].Shape).Area()), math.Abs(got.Area()); math.Abs(was-is) > 1e-6 {
				t.Errorf("%+v: panel %d had %g mm² and has %g", b.Job, i, was, is)
			}
		}
	}
	if compared < 100 {
		t.Errorf("%d corners were compared", compared)
	}
}

// chain is a closed polygon's sides.
func chain(points []geom.Point) (c geom.Contour) {
	for i, p := range points {
		c = append(c, geom.Line(p, points[(i+1)%len(points)]))
	}
	return c
}
