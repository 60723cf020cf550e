package handmade_test

import (
	"math"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner/geom"
	"underflap/liner/handmade"
)

// A blank is cut in one go.
func TestEveryBlanksOutlineIsSimpleAndLiesOnItsSheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlank(t)
		if p, q, crossed := polygon(b.Outline).crossing(); crossed {
			t.Errorf("the outline crosses itself near %v and %v", p, q)
		}
		for i, p := range b.Outline {
			if p.X < -1e-6 || p.Y < -1e-6 || p.X > b.Sheet.Width+1e-6 || p.Y > b.Sheet.Height+1e-6 {
				t.Errorf("%v lies beside the sheet of %v × %v", p, b.Sheet.Width, b.Sheet.Height)
			}
			if q := b.Outline[(i+1)%len(b.Outline)]; p.Distance(q) < 0.1 {
				t.Errorf("the outline has an edge of %v at %v", p.Distance(q), p)
			}
		}
	})
}

// The sheet is the outline and what is cut away; the outline is its panels.
// Areas by the shoelace formula; that nothing lies twice is GEOS's part.
func TestEverySheetIsItsPanelsAndItsCutAways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlank(t)
		panels, away := 0.0, 0.0
		for _, p := range b.Panels {
			panels += polygon(p.Shape).area()
		}
		for _, p := range b.CutAway {
			away += polygon(p.Shape).area()
		}
		outline := polygon(b.Outline).area()
		near(t, "panels' area", panels, outline, 1e-6*outline)
		near(t, "sheet's area", outline+away, b.Sheet.Width*b.Sheet.Height, 1e-6*outline)
	})
}

func TestEveryBlankIsSymmetricAboutItsCentreLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlank(t)
		// the upright middle of the sheet, or the square's diagonal through the flap's tip
		other := func(p geom.Point) geom.Point { return geom.Point{X: b.Sheet.Width - p.X, Y: p.Y} }
		if b.Construction == handmade.FourCorner {
			other = func(p geom.Point) geom.Point { return geom.Point{X: p.Y, Y: p.X} }
		}
		same := func(what string, of, as []geom.Point) {
			if len(of) != len(as) || len(of) == 0 {
				t.Errorf("%s: %d and %d points", what, len(of), len(as))
			}
			for _, p := range of {
				nearest := math.Inf(1)
				for _, q := range as {
					nearest = min(nearest, q.Distance(other(p)))
				}
				if nearest > 1e-6 {
					t.Errorf("%s: the mirror image of %v is %v off", what, p, nearest)
				}
			}
		}
		same("outline", b.Outline, b.Outline)
		same("side flaps", b.Panels[1].Shape, b.Panels[2].Shape)
		same("bottom", b.Panels[3].Shape, b.Panels[3].Shape)
		same("flap", b.Panels[4].Shape, b.Panels[4].Shape)
		same("glue", b.Glue[0].Shape, b.Glue[1].Shape)
	})
}

// A person scores from cut to cut: a fold ends on the cut line, on an edge
// that its panel and the one that lies still have in common.
func TestEveryFoldRunsBetweenTwoPointsOfTheCutLine(t *testing.T) {
	order := map[handmade.Construction][]string{
		handmade.TwoPanel:   {"panel", "left side flap", "right side flap", "bottom panel", "flap"},
		handmade.FourCorner: {"panel", "left side flap", "right side flap", "bottom flap", "flap"},
	}
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlank(t)
		for i, p := range b.Panels {
			if p.Name != order[b.Construction][i] {
				t.Errorf("panel %d is %q", i, p.Name)
			}
			if (p.Fold == nil) != (i == 0) {
				t.Errorf("%s: fold %v", p.Name, p.Fold)
			}
			if p.Fold == nil {
				continue
			}
			for _, end := range []geom.Point{p.Fold.A, p.Fold.B} {
				if d := polygon(b.Outline).distance(end); d > 1e-9 {
					t.Errorf("%s ends %v off the cut line", p.Fold.Name, d)
				}
			}
			middle := geom.Point{X: (p.Fold.A.X + p.Fold.B.X) / 2, Y: (p.Fold.A.Y + p.Fold.B.Y) / 2}
			if d := max(polygon(p.Shape).distance(middle), polygon(b.Panels[0].Shape).distance(middle)); d > 1e-9 {
				t.Errorf("%s lies %v off an edge of its panels", p.Fold.Name, d)
			}
			if got, want := polygon(p.Folded()), folded(p); !alike(got, want) {
				t.Errorf("%s folds to %v, by complex numbers to %v", p.Name, got, want)
			}
		}
	})
}

// alike tells whether two polygons have the same corners, in any order.
func alike(p, q polygon) bool {
	for _, a := range p {
		nearest := math.Inf(1)
		for _, b := range q {
			nearest = min(nearest, a.Distance(b))
		}
		if nearest > 1e-9 {
			return false
		}
	}
	return len(p) == len(q)
}

// A blank's job has everything filled in, so it can be made again from it.
func TestABlanksOwnJobMakesTheSameBlank(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlank(t)
		again := made(t, b.Job)
		again.Smallest = b.Smallest // the least sheet for a flap of any depth
		if !reflect.DeepEqual(b, again) {
			t.Errorf("made again:\n%+v\nfirst:\n%+v", again, b)
		}
	})
}
