package geom_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner/geom"
)

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

// height reads a profile at x from its fine chords; where it jumps, the lower
// side counts.
func height(t interface{ Fatalf(string, ...any) }, p geom.Profile, x float64) float64 {
	points := geom.Contour(p).Flatten(1e-6)
	y := math.Inf(1)
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		if x < a.X || x > b.X {
			continue
		}
		if a.X == b.X {
			y = min(y, a.Y, b.Y)
		} else {
			y = min(y, a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X))
		}
	}
	if math.IsInf(y, 1) {
		t.Fatalf("the profile does not reach x = %v", x)
	}
	return y
}

// A straight edge moves along its normal: a slope m sinks by d·√(1+m²).
func TestErodingALineMovesItAlongItsNormal(t *testing.T) {
	for _, slope := range []float64{0, 0.3, -0.3, 1, 4, -20} {
		p := geom.Profile{geom.Line(pt(0, 10), pt(100, 10+100*slope))}
		for _, d := range []float64{0.5, 3, 13.5} {
			near(t, "eroded middle", height(t, p.Erode(d), 50), 10+50*slope-d*math.Hypot(1, slope), 1e-6)
			near(t, "dilated middle", height(t, p.Dilate(d), 50), 10+50*slope+d*math.Hypot(1, slope), 1e-6)
		}
	}
}

// The ends count as edge: d from an end the eroded edge has sunk to its level
// less √(d² - t²), the lower half of a disc.
func TestTheEndsOfAProfileAreErodedAsCorners(t *testing.T) {
	p := geom.Profile{geom.Line(pt(0, 10), pt(100, 10))}
	const d = 5.0
	e := p.Erode(d)
	for x := 0.25; x < d; x += 0.25 {
		// the level edge asks for 10 - d, the corner at (0, 10) for a disc
		near(t, "near the left end", height(t, e, x), 10-d, 1e-6)
	}
	// beyond the end only the corner's disc is left, and it reaches d further
	near(t, "at the left end", height(t, e, -3), 10-4, 1e-5)
	box := geom.Contour(p.Dilate(d)).Bounds()
	near(t, "dilated left", box.MinX, -d, 1e-9)
	near(t, "dilated right", box.MaxX, 100+d, 1e-9)
	near(t, "dilated top", box.MaxY, 10+d, 1e-9)
	near(t, "dilated beyond the end", height(t, p.Dilate(d), -3), 10+4, 1e-5)
}

// A wall as a jump keeps what is under it d away from it.
func TestErodingAWallMovesItSideways(t *testing.T) {
	p := geom.Profile{geom.Line(pt(0, 0), pt(0, 50)), geom.Line(pt(0, 50), pt(100, 50)), geom.Line(pt(100, 50), pt(100, 0))}
	e := p.Erode(8)
	near(t, "just inside", height(t, e, 8.001), 42, 1e-6)
	near(t, "middle", height(t, e, 50), 42, 1e-6)
	if y := height(t, e, 7.99); y > 0 {
		t.Errorf("nearer than 8 to the wall the eroded edge is at %v, above the wall's foot", y)
	}
	near(t, "height", e.Height(), 42, 1e-9)
}

// A cap is half a disc of radius R; its erosion is the disc of R - d, its
// dilation that of R + d, about the same centre.
func TestACapShrinksAndGrowsAboutItsCentre(t *testing.T) {
	c := pt(30, -10)
	const r = 40.0
	p := geom.Profile{geom.Arc(at(c, r, 3*math.Pi/4), at(c, r, math.Pi/2), c, true), geom.Arc(at(c, r, math.Pi/2), at(c, r, math.Pi/4), c, true)}
	for _, d := range []float64{0.5, 5, 25} {
		for _, x := range []float64{20, 27, 30, 33, 40} {
			if in := math.Abs(x-c.X) < (r-d)/math.Sqrt2; in {
				near(t, "eroded", height(t, p.Erode(d), x), c.Y+math.Sqrt((r-d)*(r-d)-(x-c.X)*(x-c.X)), 1e-5)
			}
			near(t, "dilated", height(t, p.Dilate(d), x), c.Y+math.Sqrt((r+d)*(r+d)-(x-c.X)*(x-c.X)), 1e-5)
		}
	}
}

// A hollow is the other way round: it grows when eroded and shrinks when
// dilated, until a disc as large as itself closes it.
func TestAHollowGrowsWhenErodedAndFillsWhenDilated(t *testing.T) {
	c := pt(30, 60)
	const r = 40.0
	left, right := at(c, r, -3*math.Pi/4), at(c, r, -math.Pi/4)
	p := geom.Profile{geom.Arc(left, at(c, r, -math.Pi/2), c, false), geom.Arc(at(c, r, -math.Pi/2), right, c, false)}
	for _, d := range []float64{0.5, 5, 25} {
		for _, x := range []float64{20, 27, 30, 33, 40} {
			near(t, "eroded", height(t, p.Erode(d), x), c.Y-math.Sqrt((r+d)*(r+d)-(x-c.X)*(x-c.X)), 1e-5)
			if math.Abs(x-c.X) < (r-d)/math.Sqrt2 {
				near(t, "dilated", height(t, p.Dilate(d), x), c.Y-math.Sqrt((r-d)*(r-d)-(x-c.X)*(x-c.X)), 1e-5)
			}
		}
	}
	// dilated by more than its radius, only the discs about its two ends are left
	const d = 45.0
	half := (right.X - left.X) / 2
	near(t, "filled middle", height(t, p.Dilate(d), c.X), left.Y+math.Sqrt(d*d-half*half), 1e-5)
}

// A cap smaller than the disc leaves the corner its two edges make.
func TestACapSmallerThanTheDiscErodesToASharpCorner(t *testing.T) {
	arc, ok := geom.Round(pt(0, 0), pt(50, 50), pt(100, 0), 6)
	if !ok {
		t.Fatal("a corner of radius 6 does not fit")
	}
	top := at(arc.C, 6, math.Pi/2)
	p := geom.Profile{geom.Line(pt(0, 0), arc.A), geom.Arc(arc.A, top, arc.C, true), geom.Arc(top, arc.B, arc.C, true), geom.Line(arc.B, pt(100, 0))}
	for _, d := range []float64{6, 8, 15} {
		near(t, "corner", p.Erode(d).Height(), 50-d*math.Sqrt2, 1e-6) // half angle 45°
	}
	near(t, "rounded", p.Erode(4).Height(), 50-6*math.Sqrt2+6-4, 1e-6)
}

// Every place on a dilated edge is d from the old one. Here that edge is a short
// level and a nearly upright slant: its slope is in the thousands, where lost
// digits lose the crossing of its image with the disc about the level's end.
func TestANearlyUprightEdgeIsDilatedByItsDistance(t *testing.T) {
	const d, width = 2.0, 229.0
	compared := 0
	for _, lean := range []float64{0, 0.01, 0.02, 0.05, 0.1, 0.2} {
		for _, high := range []float64{40, 64, 100, 150} {
			for _, step := range []float64{0.375, 0.5, 1.5} {
				half := geom.Contour{geom.Line(pt(0, 0), pt(step, 0)), geom.Line(pt(step, 0), pt(step+lean, high)), geom.Line(pt(step+lean, high), pt(width/2, high))}
				other := half.Map(func(q geom.Point) geom.Point { return pt(width-q.X, q.Y) }, true).Reversed()
				p := geom.Profile(append(half, other...))
				for _, q := range geom.Contour(p.Dilate(d)).Flatten(0.001) {
					if off := toChain(q, geom.Contour(p).Flatten(1)); math.Abs(off-d) > 0.01 {
						t.Errorf("lean %v, %v high, step %v: %v of the dilated edge is %.4f from the old one, want %v", lean, high, step, q, off, d)
					}
				}
				compared++
			}
		}
	}
	if compared != 72 {
		t.Errorf("compared %d edges", compared)
	}
}

func toChain(p geom.Point, chain []geom.Point) float64 {
	least := math.Inf(1)
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		dx, dy := b.X-a.X, b.Y-a.Y
		along := 0.0
		if square := dx*dx + dy*dy; square > 0 {
			along = max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/square))
		}
		least = min(least, p.Distance(pt(a.X+along*dx, a.Y+along*dy)))
	}
	return least
}

// Over is the greater of the profile and a floor, on the width asked for.
func TestOverIsTheProfileWhereItIsAboveTheFloor(t *testing.T) {
	// a roof over [10, 90] whose apex is at (50, 40)
	p := geom.Profile{geom.Line(pt(10, 0), pt(50, 40)), geom.Line(pt(50, 40), pt(90, 0))}
	o := p.Over(5, 0, 80)
	for x, want := range map[float64]float64{0.5: 5, 9: 5, 14: 5, 15: 5, 16: 6, 30: 20, 50: 40, 70: 20, 79.9: 10.1} {
		near(t, "over", height(t, o, x), want, 1e-6)
	}
	box := geom.Contour(o).Bounds()
	near(t, "left", box.MinX, 0, 1e-9)
	near(t, "right", box.MaxX, 80, 1e-9)
	near(t, "lowest", box.MinY, 5, 1e-9)
	if low := geom.Contour(p.Over(50, 0, 80)).Bounds(); low.MinY != 50 || low.MaxY != 50 {
		t.Errorf("a floor above the profile gave %v", low)
	}
}

// Erosion and dilation are dual, and a disc is lost whole: eroding what was
// dilated gives nothing below the profile, and by d + e as much as by d then e.
func TestErosionsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rise, run := rapid.Float64Range(20, 80).Draw(t, "rise"), rapid.Float64Range(20, 80).Draw(t, "run")
		d, e := rapid.Float64Range(0.5, 6).Draw(t, "d"), rapid.Float64Range(0.5, 6).Draw(t, "e")
		p := geom.Profile{geom.Line(pt(0, 0), pt(run, rise)), geom.Line(pt(run, rise), pt(2*run, rise)), geom.Line(pt(2*run, rise), pt(3*run, 0))}
		for _, part := range []float64{0.4, 0.5, 0.6} {
			x := 3 * run * part
			near(t, "eroded twice", height(t, p.Erode(d).Erode(e), x), height(t, p.Erode(d+e), x), 1e-5)
			near(t, "dilated and eroded", height(t, p.Dilate(d).Erode(d), x), height(t, p, x), 1e-5)
		}
	})
}

func TestErodingByNothingChangesNothingAndAnEmptyProfileHasNoHeight(t *testing.T) {
	p := geom.Profile{geom.Line(pt(0, 0), pt(5, 9))}
	if e := p.Erode(0); len(e) != 1 || e[0] != p[0] {
		t.Errorf("eroded by 0: %v", e)
	}
	if h := (geom.Profile{}).Height(); !math.IsInf(h, -1) {
		t.Errorf("an empty profile is %v high", h)
	}
}
