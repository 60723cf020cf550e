package handmade_test

import (
	"math"
	"slices"
	"testing"

	"underflap/liner/geom"
	"underflap/liner/handmade"
)

// assembled is an envelope with every panel folded over by the tests' own
// reflection.
type assembled struct {
	handmade.Blank
	pocket, left, right, bottom, flap polygon
}

func assemble(t testing.TB, b handmade.Blank) assembled {
	return assembled{b, b.Panels[0].Shape, folded(panel(t, b, "left side flap")), folded(panel(t, b, "right side flap")),
		folded(panel(t, b, "bottom panel", "bottom flap")), folded(panel(t, b, "flap"))}
}

// at is a place in the pocket: across of its width from the left, down of its
// height from the flap's fold.
func (a assembled) at(across, down float64) geom.Point {
	o, r, d := a.pocket[0], a.pocket[1], a.pocket[3]
	return geom.Point{X: o.X + across*(r.X-o.X) + down*(d.X-o.X), Y: o.Y + across*(r.Y-o.Y) + down*(d.Y-o.Y)}
}

// place is p's distance from the pocket's left side and from the flap's fold.
func (a assembled) place(p geom.Point) (across, down float64) {
	o, r, d := a.pocket[0], a.pocket[1], a.pocket[3]
	return ((p.X-o.X)*(r.X-o.X) + (p.Y-o.Y)*(r.Y-o.Y)) / a.Width, ((p.X-o.X)*(d.X-o.X) + (p.Y-o.Y)*(d.Y-o.Y)) / a.Height
}

func TestNothingSticksOutOfAFoldedEnvelope(t *testing.T) {
	blanks := blanksToFold(t)
	var all [][]polygon
	for _, b := range blanks {
		a := assemble(t, b)
		near(t, "pocket's width", a.pocket[0].Distance(a.pocket[1]), b.Width, 1e-9)
		near(t, "pocket's height", a.pocket[0].Distance(a.pocket[3]), b.Height, 1e-9)
		for name, p := range map[string]polygon{"left": a.left, "right": a.right, "bottom": a.bottom, "flap": a.flap} {
			for _, q := range p {
				if x, y := a.place(q); x < -1e-6 || y < -1e-6 || x > b.Width+1e-6 || y > b.Height+1e-6 {
					t.Errorf("%+v: %s reaches (%v, %v) in a pocket of %v × %v", b.Job, name, x, y, b.Width, b.Height)
				}
			}
		}
		all = append(all, []polygon{a.pocket, a.left, a.right, a.bottom, a.flap})
	}
	// and by area, as GEOS sees it
	for i, whole := range united(t, all...) {
		near(t, "area of all panels, folded", area(whole), blanks[i].Width*blanks[i].Height, 1e-5)
	}
}

// The seam's width square to it, by the tests' own crossings, all the way but
// for the leaning ends of the side flaps.
func TestTheBottomOverlapsEachSideFlapByAtLeastTheOverlap(t *testing.T) {
	for _, b := range blanksToFold(t) {
		a := assemble(t, b)
		for name, side := range map[string]polygon{"left": a.left, "right": a.right} {
			narrowest := math.Inf(1)
			for k := range 41 {
				from, to := a.acrossSeam(t, float64(k)/40, name == "right")
				narrowest = min(narrowest, chord(from, to, side, a.bottom))
			}
			if narrowest < b.Overlap-1e-6 {
				t.Errorf("%+v: the bottom overlaps the %s side flap by %v", b.Job, name, narrowest)
			}
			if b.Construction == handmade.FourCorner {
				near(t, "measured overlap", measured(t, b, "glue overlap, straight across the slants"), narrowest, 1e-6)
			} else { // measured at the throat, which the ends of the side flaps do not reach
				near(t, "measured overlap", measured(t, b, "glue overlap, at its narrowest"), narrowest, 0.1)
			}
		}
	}
}

// acrossSeam is a line square to the left or right seam, from one end of it (0)
// to the other (1). Two panels are glued along the sides. Four corners are
// glued along the slants, which run at 45 degrees: from the pocket's middle the
// left strip is h-H <= x+y <= H-w, and both panels are whole there from
// y-x = max(w, h) - H, where their other slants begin, to w+h-H less what
// two shoulder cuts lean in.
func (a assembled) acrossSeam(t testing.TB, along float64, right bool) (from, to geom.Point) {
	w, h := a.Width, a.Height
	ends := func(x, y, dx, dy float64) (from, to geom.Point) { // from the pocket's middle
		if right {
			x, dx = -x, -dx
		}
		return a.at(0.5+(x-dx)/w, 0.5+(y-dy)/h), a.at(0.5+(x+dx)/w, 0.5+(y+dy)/h)
	}
	if a.Construction == handmade.TwoPanel {
		return ends(-w/4, -h/2+2.001+(h-4.002)*along, w/2, 0)
	}
	reach := measured(t, a.Blank, "square, side") / math.Sqrt2
	low, high := max(w, h)-reach+1e-6, w+h-reach-3.001
	q, p := low+(high-low)*along, (h-w)/2
	return ends((p-q)/2, (p+q)/2, reach, reach)
}

// Below the throat the folded panels leave no hole, and the closed flap covers
// the throat. GEOS adds up the panels, and what lies above the throat's lowest
// place as a band across the pocket.
func TestTheFoldedPanelsCoverThePocketUpToTheThroat(t *testing.T) {
	blanks := blanksToFold(t)
	var groups [][]polygon
	for _, b := range blanks {
		a := assemble(t, b)
		down := a.throat(t) / b.Height
		above := polygon{a.at(0, 0), a.at(1, 0), a.at(1, down), a.at(0, down)}
		groups = append(groups, []polygon{a.left, a.right, a.bottom}, []polygon{a.left, a.right, a.bottom, above},
			[]polygon{a.left, a.right, a.bottom, a.flap}, []polygon{a.bottom, a.flap})
	}
	unions := united(t, groups...)
	for i, b := range blanks {
		a, body := assemble(t, b), unions[4*i]
		if len(body) != 1 || len(body[0].holes) > 0 {
			t.Errorf("%+v: side flaps and bottom make %d regions, the first with holes %v", b.Job, len(body), body[0].holes)
		}
		near(t, "area covered below the throat", area(unions[4*i+1]), b.Width*b.Height, 1e-5)
		near(t, "area of the closed envelope", area(unions[4*i+2]), b.Width*b.Height, 1e-5)
		// the throat is as deep as said: just above that the pocket is open
		throat := a.throat(t)
		if down := (throat - 0.1) / b.Height; chord(a.at(-0.1, down), a.at(1.1, down), body[0].shell) > b.Width-0.1 {
			t.Errorf("%+v: the pocket is closed %v below the flap's fold", b.Job, throat-0.1)
		}
		reach := 0.0
		for _, p := range a.flap {
			_, down := a.place(p)
			reach = max(reach, down)
		}
		if reach < throat+4 {
			t.Errorf("%+v: the flap reaches %v down, the throat %v", b.Job, reach, throat)
		}
		if both := a.flap.area() + a.bottom.area() - area(unions[4*i+3]); both < 10 {
			t.Errorf("%+v: the closed flap overlaps the bottom by %v square mm", b.Job, both)
		}
	}
}

// throat is how far below the flap's fold the opening reaches. Two panels: the
// bottom panel's 1 mm. Four corners: to where the upper slants of the side flaps
// meet the bottom flap's, a shoulder above the pocket's middle, or over a tall
// pocket each other, H-w above it.
func (a assembled) throat(t testing.TB) float64 {
	if a.Construction == handmade.TwoPanel {
		return 1
	}
	reach := measured(t, a.Blank, "square, side") / math.Sqrt2
	return a.Height/2 - max(reach-a.Width/2-a.Height/2, reach-a.Width)
}

// Glue lies on both papers that it joins, 2 mm inside their edges, and on
// nothing else.
func TestGlueLiesOnBothGluedPanelsAndOnNoOther(t *testing.T) {
	blanks := blanksToFold(t)
	// how much of the first shape lies in the second, by area of their union
	type shared struct {
		what     string
		glue, on polygon
		whole    bool // all of it, else nothing
	}
	var all []shared
	for _, b := range blanks {
		a := assemble(t, b)
		bottom := panel(t, b, "bottom panel", "bottom flap")
		for i, sides := range [][2]polygon{{a.left, a.right}, {a.right, a.left}} {
			g := b.Glue[i]
			glue := mirrored(g.Shape, bottom.Fold.A, bottom.Fold.B)
			if glue.area() < 10 {
				t.Errorf("%+v: %s of %v square mm", b.Job, g.Name, glue.area())
			}
			all = append(all, shared{"glue on the bottom", glue, a.bottom, true}, shared{"glue on the side flap", glue, sides[0], true},
				shared{"glue on the other side flap", glue, sides[1], false}, shared{"glue on the sheet", g.Shape, bottom.Shape, true})
		}
	}
	var groups [][]polygon
	for _, s := range all {
		groups = append(groups, []polygon{s.glue, s.on})
	}
	for i, union := range united(t, groups...) {
		s := all[i]
		want := 0.0
		if s.whole {
			want = s.glue.area()
		}
		near(t, s.what+", area", s.glue.area()+s.on.area()-area(union), want, 1e-5)
		for _, p := range s.glue {
			if d := s.on.distance(p); d < 2-1e-6 {
				t.Errorf("%s: %v from the edge", s.what, d)
			}
		}
	}
}

// Panels and cut-aways lie side by side: what GEOS makes of all of them is the
// sheet, and of the panels alone the outline.
func TestNothingOnTheSheetIsTakenTwice(t *testing.T) {
	blanks := blanksToFold(t)
	var groups [][]polygon
	for _, b := range blanks {
		var panels, pieces []polygon
		for _, p := range b.Panels {
			panels = append(panels, p.Shape)
		}
		for _, p := range b.CutAway {
			pieces = append(pieces, p.Shape)
		}
		groups = append(groups, panels, slices.Concat(panels, []polygon{b.Outline}), slices.Concat(panels, pieces))
	}
	sum := func(shapes []polygon) (sum float64) {
		for _, p := range shapes {
			sum += p.area()
		}
		return sum
	}
	unions := united(t, groups...)
	for i, b := range blanks {
		near(t, "panels, united", area(unions[3*i]), sum(groups[3*i]), 1e-5)
		near(t, "panels and outline, united", area(unions[3*i+1]), polygon(b.Outline).area(), 1e-5)
		near(t, "panels and cut-aways, united", area(unions[3*i+2]), sum(groups[3*i+2]), 1e-5)
		near(t, "panels and cut-aways", sum(groups[3*i+2]), b.Sheet.Width*b.Sheet.Height, 1e-5)
	}
}
