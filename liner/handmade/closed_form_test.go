package handmade_test

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/handmade"
)

// School geometry: a square of side 210 has its corners H = 210/√2 = 148.492
// from its middle. A pocket of 160 × 115 in the middle has its folds 80 and 57.5
// from there; the side flaps are H - 80 = 68.49 deep, flap and bottom
// H - 57.5 = 90.99, the shoulders H - 80 - 57.5 = 10.99.
func TestASquareOf210HoldsAPocketOf160By115WithTheFoldsOfSchoolGeometry(t *testing.T) {
	b := made(t, squareExample)
	for name, want := range map[string]float64{
		"square, side": 210,
		"side folds, from the middle of the square":  80,
		"flap fold, from the middle of the square":   57.5,
		"bottom fold, from the middle of the square": 57.5,
		"side flaps, depth":                          68.49,
		"flap, depth":                                90.99,
		"bottom flap, depth":                         90.99,
		"shoulder, from where two folds cross straight out to the square's edge": 10.99,
		"side folds, from their corner along both edges of the square":           68.492 * math.Sqrt2,
		"flap fold, from the flap's corner along both edges of the square":       90.992 * math.Sqrt2,
		"glue overlap, straight across the slants":                               10.992 * math.Sqrt2,
	} {
		near(t, name, measured(t, b, name), want, 0.005)
	}
	// and the shapes say the same: folds as far from the middle and the corners
	middle := geom.Point{X: 105, Y: 105}
	for name, want := range map[string]struct{ middle, tip float64 }{
		"left side flap": {80, 68.49}, "right side flap": {80, 68.49}, "bottom flap": {57.5, 90.99}, "flap": {57.5, 90.99},
	} {
		p := panel(t, b, name)
		near(t, name+"'s fold, from the middle", toSegment(middle, p.Fold.A, p.Fold.B), want.middle, 0.005)
		deepest := 0.0
		for _, q := range p.Shape {
			deepest = max(deepest, toSegment(q, p.Fold.A, p.Fold.B))
		}
		near(t, name+"'s depth", deepest, want.tip, 0.005)
	}
	near(t, "flap given to the liner, depth", b.Envelope.Flap.Depth, 90.99, 0.005)
}

// Common practice, no source: a sheet 210 mm wide leaves side folds of 25 mm
// beside a pocket of 160 mm, for (210 - 160)/2 = 25.
func TestAnA4SheetLeavesSideFoldsOf25BesideAPocketOf160(t *testing.T) {
	b := made(t, a4Example)
	for name, want := range map[string]float64{
		"left side fold, from the left edge":   25,
		"right side fold, from the right edge": 25,
		"side flaps, width":                    25,
		"side folds, from the sheet's middle":  80,
		// 297 mm are a flap, 115 mm of panel and the bottom panel, 1 mm less
		"flap, depth":                                297 - 115 - 114,
		"flap fold, from the top edge":               68,
		"bottom fold, from the top edge":             68 + 115,
		"end of the bottom panel, from the top edge": 297,
		// the bottom panel is 0.5 mm narrower at its fold and leans in by 1 mm
		"glue overlap, at its narrowest": 25 - 0.5 - 1,
	} {
		near(t, name, measured(t, b, name), want, 1e-9)
	}
	if len(b.CutAway) != 4 {
		t.Errorf("%d pieces are cut away, want the four corners: %v", len(b.CutAway), b.CutAway)
	}
}

// The closed forms of every square: H = s/√2, and what follows from it.
func TestEveryFourCornerEnvelopeHasTheDepthsOfSchoolGeometry(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlank(t)
		if b.Construction != handmade.FourCorner {
			return
		}
		compared++
		s := measured(t, b, "square, side")
		h := s / math.Sqrt2
		near(t, "shoulder", measured(t, b, "shoulder, from where two folds cross straight out to the square's edge"), h-b.Width/2-b.Height/2, 1e-9)
		near(t, "side flaps", measured(t, b, "side flaps, depth"), h-b.Width/2, 1e-9)
		near(t, "flap", measured(t, b, "flap, depth"), h-b.Height/2, 1e-9)
		near(t, "flap for the liner", b.Envelope.Flap.Depth, h-b.Height/2, 1e-9)
		// s = (w+h)/√2 + overlap, solved for the overlap
		near(t, "glue overlap", measured(t, b, "glue overlap, straight across the slants"), s-(b.Width+b.Height)/math.Sqrt2, 1e-9)
		if b.StraightBottom {
			bottom := panel(t, b, "bottom flap")
			longest := 0.0
			for i, p := range bottom.Shape[1 : len(bottom.Shape)-2] {
				if q := bottom.Shape[i+2]; math.Abs(toSegment(p, bottom.Fold.A, bottom.Fold.B)-toSegment(q, bottom.Fold.A, bottom.Fold.B)) < 1e-9 {
					longest = max(longest, p.Distance(q))
				}
			}
			near(t, "straight edge", longest, b.Width-b.Height, 1e-6)
		}
		if smaller := min(b.Sheet.Width, b.Sheet.Height); s > smaller {
			t.Errorf("a square of %v from a sheet %v wide", s, smaller)
		} else if s < smaller && 1.5*min(b.Width, b.Height)-h > 2+1/math.Sqrt2 {
			t.Errorf("a square of %v from a sheet %v wide, though its flap ends %v from the pocket's bottom", s, smaller, 1.5*b.Height-h)
		}
	})
	if compared == 0 {
		t.Error("no four-corner envelope was compared")
	}
}

// A two-panel sheet's height is flap, panel, bottom panel and rest; its width
// the pocket and twice a side flap and a strip.
func TestEveryTwoPanelEnvelopeUsesUpItsSheet(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawBlank(t)
		if b.Construction != handmade.TwoPanel {
			return
		}
		compared++
		rest := func(name string) float64 {
			for _, m := range b.Measures {
				if m.Name == name {
					return m.MM
				}
			}
			return 0
		}
		side, strip := measured(t, b, "side flaps, width"), rest("strips cut away along the left and right edges")
		near(t, "width", b.Width+2*side+2*strip, b.Sheet.Width, 1e-6)
		near(t, "height", b.FlapDepth+2*b.Height-1+rest("strip cut away along the bottom edge"), b.Sheet.Height, 1e-6)
		near(t, "side fold", measured(t, b, "left side fold, from the left edge"), (b.Sheet.Width-b.Width)/2, 1e-9)
		if strip > 0 {
			near(t, "a trimmed side flap", side, b.Width/2-2, 1e-9)
		}
	})
	if compared == 0 {
		t.Error("no two-panel envelope was compared")
	}
}

// Unasked, the flap takes what the sheet leaves, up to 0.6 of the pocket's
// height (common practice, no source).
func TestAStraightFlapIsWhatTheSheetLeavesUpToThreeFifthsOfThePocket(t *testing.T) {
	for height, want := range map[float64]float64{
		254: 25, 279.4: 50.4, 297: 68, 298: 69, 298.4: 69.4, 300: 69, 420: 69, // 0.6 · 115 = 69
	} {
		j := a4Example
		j.Sheet = sheet(210, height)
		b := made(t, j)
		near(t, "depth", b.FlapDepth, want, 1e-9)
		near(t, "depth for the liner", b.Envelope.Flap.Depth, want, 1e-9)
	}
	// 0.6 · 40 = 24 would be no flap
	near(t, "depth on a low pocket", made(t, handmade.Job{Construction: handmade.TwoPanel, Width: 90, Height: 40, Sheet: sheet(210, 297)}).FlapDepth, 25, 1e-9)
}

// A corner deeper than the pocket would stick out on the far side. All stay
// 2 mm inside: H - h/2 <= h - 2, so with a pocket 115 high H <= 170.5 and the
// side is at most 170.5·√2 = 241.12, which is cut at whole millimetres.
func TestFromAnyLargerSheetTheLargestSquareThatThePocketTakesIsCut(t *testing.T) {
	for side, want := range map[float64]float64{204.5: 204.5, 241: 241, 241.1: 241.1, 241.2: 241, 297: 241, 1300: 241} {
		j := squareExample
		j.Sheet = sheet(side, side+30)
		b := made(t, j)
		near(t, "square", measured(t, b, "square, side"), want, 1e-9)
		near(t, "right end of the blank", slices.MaxFunc(b.Outline, func(p, q geom.Point) int { return cmp.Compare(p.X, q.X) }).X, want, 1e-9)
		near(t, "lower end of the blank", slices.MaxFunc(b.Outline, func(p, q geom.Point) int { return cmp.Compare(p.Y, q.Y) }).Y, want, 1e-9)
	}
	// between the least side, (162 + 114)/√2 + 43.84 = 239.001, and the most, 239.002, lies no whole millimetre
	j := handmade.Job{Construction: handmade.FourCorner, Width: 162, Height: 114, Overlap: 43.84, Sheet: sheet(300, 300)}
	near(t, "square", measured(t, made(t, j), "square, side"), 169*math.Sqrt2, 1e-9)
}

// The flap's tip is the sheet's top left corner, the left side flap's the lower
// left one, when the inside faces up.
func TestAFourCornerFlapPointsToTheSheetsTopLeft(t *testing.T) {
	b := made(t, squareExample)
	for name, tip := range map[string]geom.Point{"flap": {X: 0, Y: 0}, "right side flap": {X: 210, Y: 0}, "bottom flap": {X: 210, Y: 210}, "left side flap": {X: 0, Y: 210}} {
		if !slices.Contains(panel(t, b, name).Shape, tip) {
			t.Errorf("%s %v does not end at %v", name, panel(t, b, name).Shape, tip)
		}
	}
}

// The flap is handed to the liner as liner.Flap; its profile must be the cut
// blank's, seen from the inside with the fold as x axis.
func TestTheFlapGivenToTheLinerIsTheFlapThatIsCut(t *testing.T) {
	check := func(t rapid.TB, b handmade.Blank) {
		flap := panel(t, b, "flap")
		a, c := complex(flap.Fold.A.X, flap.Fold.A.Y), complex(flap.Fold.B.X, flap.Fold.B.Y)
		along := (c - a) / complex(flap.Fold.A.Distance(flap.Fold.B), 0)
		left := (a+c)/2 - along*complex(b.Width/2, 0) // the pocket's left end
		var cut []geom.Point
		for _, p := range flap.Shape {
			q := (complex(p.X, p.Y) - left) / along
			cut = append(cut, geom.Point{X: real(q), Y: -imag(q)}) // y up
		}
		profile, err := b.Envelope.Flap.Profile(b.Width)
		if err != nil {
			t.Fatal(err)
		}
		edge := polygon(geom.Contour(profile).Flatten(0.001))
		for _, p := range edge {
			if d := polygon(cut).distance(p); d > 1e-9 {
				t.Errorf("the profile's %v is %v off the cut flap %v", p, d, cut)
			}
		}
		for _, p := range cut {
			if d := edge.distance(p); d > 1e-9 {
				t.Errorf("the cut flap's %v is %v off the profile %v", p, d, edge)
			}
		}
		e := b.Envelope
		if e.Name != "handmade" || e.Gum != 0 || e.Width != b.Width || e.Height != b.Height {
			t.Errorf("envelope %+v for a pocket of %v × %v", e, b.Width, b.Height)
		}
		if _, err := liner.New(e, liner.Clearances{SideGap: liner.DefaultSideGap, GumClearance: liner.DefaultGumClearance, CornerRadius: liner.DefaultCornerRadius}); err != nil {
			t.Errorf("no liner for %+v: %v", e, err)
		}
	}
	check(t, made(t, squareExample))
	check(t, made(t, a4Example))
	rapid.Check(t, func(t *rapid.T) { check(t, drawBlank(t)) })
}
