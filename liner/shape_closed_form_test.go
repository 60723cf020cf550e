package liner_test

import (
	"math"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
)

// Rounded and contour flaps and rounded corners where school geometry gives the
// answer: sagitta and chord, the ellipse's equation, circles that touch.

func mustProfile(t *testing.T, f liner.Flap, width float64) geom.Profile {
	t.Helper()
	p, err := f.Profile(width)
	if err != nil {
		t.Fatalf("%+v over %v: %v", f, width, err)
	}
	return p
}

// closedArea is the area between a profile and the fold.
func closedArea(p geom.Profile) float64 {
	c := geom.Contour(p).Reversed()
	return append(c, geom.Line(c[len(c)-1].B, c[0].A)).Area()
}

// radiusOver is that of the arc over a chord of twice across with a sagitta of
// rise.
func radiusOver(across, rise float64) float64 { return (across*across + rise*rise) / (2 * rise) }

// The segment of a circle under a chord of angle 2a has the area R²(a - sin a cos a).
func TestARoundedFlapIsOneArcOverItsChord(t *testing.T) {
	const width = 162.0
	compared := 0
	for _, shoulder := range []float64{0, 8} {
		for _, taper := range []float64{0, 3} {
			for _, gap := range []float64{0, 2} {
				for _, depth := range []float64{12, 45, 70} {
					across, rise := width/2-gap-taper, depth-shoulder
					r := radiusOver(across, rise)
					centre := geom.Point{X: width / 2, Y: depth - r}
					f := liner.Flap{Shape: liner.Rounded, Depth: depth, Shoulder: shoulder, Taper: taper, BaseGap: gap}
					half := math.Asin(across / r)
					segment := r * r * (half - math.Sin(half)*math.Cos(half))
					near(t, "area", closedArea(mustProfile(t, f, width)), segment+shoulder*(2*across+taper), 1e-6)

					e := liner.Envelope{Width: width, Height: 114, Gum: 4, Flap: f}
					l, err := liner.New(e, liner.Clearances{SideGap: 3, GumClearance: 1})
					if err != nil {
						t.Fatalf("%+v: %v", f, err)
					}
					near(t, "flap height", l.FlapHeight(), depth-5, 1e-9)
					for _, p := range l.Outline(60).Flatten(0.001) { // an arc about the same centre
						if p.Y > 1e-6 && math.Abs(p.X-centre.X) < across/2 {
							near(t, "outline from the arc's centre", p.Distance(centre), r-5, 1e-6)
							compared++
						}
					}
				}
			}
		}
	}
	if compared < 200 {
		t.Errorf("%d points were compared", compared)
	}
}

// Of (x/a)² + (y/b)² - 1, the value over its gradient's length is the distance
// from the ellipse, to first order.
func offEllipse(p, centre geom.Point, a, b float64) float64 {
	x, y := (p.X-centre.X)/a, (p.Y-centre.Y)/b
	return (x*x + y*y - 1) / (2 * math.Hypot(x/a, y/b))
}

// A rounded flap deeper than half its width is half an ellipse.
func TestADeepRoundedFlapIsHalfAnEllipse(t *testing.T) {
	for _, half := range []float64{14, 40, 81, 100, 162} {
		for _, steep := range []float64{1.0001, 1.05, 1.3, 1.7, 2} {
			for _, shoulder := range []float64{0, 7} {
				depth := shoulder + half*steep
				f := liner.Flap{Shape: liner.Rounded, Depth: depth, Shoulder: shoulder}
				p := mustProfile(t, f, 2*half)
				centre := geom.Point{X: half, Y: shoulder}
				tolerance := 0.002 * half * steep / 200 // in proportion to the code's own 200 by 100 mm
				for _, q := range geom.Contour(p).Flatten(1e-5) {
					if q.Y < shoulder {
						continue
					}
					if off := offEllipse(q, centre, half, half*steep); math.Abs(off) > tolerance {
						t.Errorf("axes %v and %v: %v is %.5f off the ellipse", half, half*steep, q, off)
						break
					}
				}
				whole(t, "half an ellipse", p)
				near(t, "area", closedArea(p), math.Pi*half*half*steep/2+2*half*shoulder, 2*(half+depth)*tolerance)
				near(t, "height", p.Height(), depth, 1e-9)
				first := p[0]
				if shoulder > 0 {
					first = p[1]
				}
				near(t, "height of the first arc's centre", first.C.Y, shoulder, 1e-9) // it leaves upright
				if middle := p[len(p)/2-1]; middle.C.X != half || middle.B != (geom.Point{X: half, Y: depth}) {
					t.Errorf("axes %v and %v: the last arc of the left half arrives at %v about %v", half, half*steep, middle.B, middle.C)
				}
			}
		}
	}
}

// At a depth of half the width both rules give half a disc.
func TestARoundedFlapPassesFromArcToEllipseWithoutAStep(t *testing.T) {
	const half = 60.0
	arc := mustProfile(t, liner.Flap{Shape: liner.Rounded, Depth: half}, 2*half)
	ellipse := mustProfile(t, liner.Flap{Shape: liner.Rounded, Depth: half + 1e-6}, 2*half)
	near(t, "area of half a disc", closedArea(arc), math.Pi*half*half/2, 1e-6)
	near(t, "area of half an ellipse as wide as deep", closedArea(ellipse), math.Pi*half*half/2, 0.1)
	if len(arc) != 2 || len(ellipse) < 20 {
		t.Errorf("%d and %d pieces", len(arc), len(ellipse))
	}
}

// whole holds a flap's profile to the definition: joined, never leftwards, arcs
// on one half of their circle.
func whole(t interface {
	Helper()
	Errorf(string, ...any)
}, what string, p geom.Profile) {
	t.Helper()
	const rounding = 1e-9
	for i, s := range p {
		if i > 0 && s.A.Distance(p[i-1].B) > rounding {
			t.Errorf("%s: piece %d begins at %v, the one before ends at %v", what, i, s.A, p[i-1].B)
		}
		if s.B.X < s.A.X-rounding || s.B.Y < -rounding {
			t.Errorf("%s: piece %d runs leftwards, or below the fold, from %v to %v", what, i, s.A, s.B)
		}
		if s.R == 0 {
			continue
		}
		up := 1.0
		if !s.CW {
			up = -1
		}
		if (s.A.Y-s.C.Y)*up < -1e-6 || (s.B.Y-s.C.Y)*up < -1e-6 || math.Abs(s.Sweep()) > math.Pi/2+1e-6 {
			t.Errorf("%s: arc %d from %v to %v about %v, %.4f round, is on both halves of its circle", what, i, s.A, s.B, s.C, s.Sweep())
		}
		if math.Abs(s.A.Distance(s.C)-s.R) > 1e-7 || math.Abs(s.B.Distance(s.C)-s.R) > 1e-7 {
			t.Errorf("%s: arc %d from %v to %v is not on its circle about %v, radius %v", what, i, s.A, s.B, s.C, s.R)
		}
	}
}

// The hollow and the rounded end touch: their centres are as far apart as their
// radii together, and the place of touch is on the line between them. The
// hollow leaves the shoulder level, below its centre, and the end arrives level,
// above its own.
func TestAContourFlapsHollowAndEndTouchAndBeginAndEndLevel(t *testing.T) {
	const width = 190.0
	for _, depth := range []float64{30, 55, 80} {
		for _, share := range []float64{0.1, 0.4, 0.5, 0.8, 0.95} {
			for _, shoulder := range []float64{0, 6, 15} {
				for _, taper := range []float64{0, 2} {
					across, rise := width/2-1-taper, depth-shoulder
					both := radiusOver(across, rise)
					tip := share * both
					f := liner.Flap{Shape: liner.Contour, Depth: depth, Shoulder: shoulder, Taper: taper, BaseGap: 1, TipRadius: tip}
					p := mustProfile(t, f, width)
					whole(t, "contour", p)
					left := p[:len(p)/2]
					hollow, end := left[len(left)-2], left[len(left)-1]
					if hollow.CW || !end.CW {
						t.Fatalf("%+v: the left half ends in %+v and %+v", f, hollow, end)
					}
					near(t, "radius of the end", end.R, tip, 1e-9)
					near(t, "radii together", hollow.R+end.R, both, 1e-9)
					near(t, "between the centres", hollow.C.Distance(end.C), hollow.R+end.R, 1e-9)
					near(t, "place of touch from the line between the centres", hollow.C.Distance(hollow.B)+hollow.B.Distance(end.C), both, 1e-9)
					near(t, "x where the hollow begins", hollow.A.X, 1+taper, 1e-12)
					near(t, "y where the hollow begins", hollow.A.Y, shoulder, 1e-12)
					near(t, "x of the hollow's centre", hollow.C.X, 1+taper, 1e-9)
					near(t, "y of the hollow's centre", hollow.C.Y, shoulder+hollow.R, 1e-9)
					near(t, "x of the end's centre", end.C.X, width/2, 1e-9)
					near(t, "y of the end's centre", end.C.Y, depth-tip, 1e-9)
					near(t, "area", closedArea(p), contourArea(across, rise, tip)+shoulder*(2*across+taper), 1e-4)
				}
			}
		}
	}
}

// Without a tip radius the hollow goes on to a sharp point.
func TestAContourFlapWithASharpTipIsAllHollow(t *testing.T) {
	p := mustProfile(t, liner.Flap{Shape: liner.Contour, Depth: 60, Shoulder: 10}, 190)
	whole(t, "contour", p)
	if len(p) != 4 || p[1].CW || p[1].B != (geom.Point{X: 95, Y: 60}) {
		t.Fatalf("%+v", p)
	}
	both := radiusOver(95, 50)
	near(t, "radius", p[1].R, both, 1e-9)
	near(t, "y of the hollow's centre", p[1].C.Y, 10+both, 1e-9)
	half := math.Asin(95 / both)
	near(t, "area", closedArea(p), 190*10+2*(95*both-both*both/2*(half+math.Sin(half)*math.Cos(half))), 1e-6)
}

// contourArea integrates the height over the shoulders by Simpson's rule, on
// either side of where hollow and end touch (similar triangles).
func contourArea(across, rise, tip float64) float64 {
	both := radiusOver(across, rise)
	hollow := both - tip
	touch := across * hollow / both
	simpson := func(f func(float64) float64, from, to float64) float64 {
		const n = 20000
		sum, step := f(from)+f(to), (to-from)/n
		for i := 1; i < n; i++ {
			sum += f(from+float64(i)*step) * float64(2+2*(i%2))
		}
		return sum * step / 3
	}
	return 2 * (simpson(func(x float64) float64 { return hollow - math.Sqrt(hollow*hollow-x*x) }, 0, touch) +
		simpson(func(x float64) float64 { return rise - tip + math.Sqrt(tip*tip-(across-x)*(across-x)) }, touch, across))
}

// A hollow of radius r eroded by m is one of r + m about the same centre, an
// end of R one of R - m.
func TestAContourFlapsLinerHasAWiderHollowAndANarrowerEnd(t *testing.T) {
	const width, depth, shoulder, m = 190.0, 70.0, 8.0, 13.5
	both := radiusOver(width/2, depth-shoulder)
	for _, tip := range []float64{30, 50, 70} {
		f := liner.Flap{Shape: liner.Contour, Depth: depth, Shoulder: shoulder, TipRadius: tip}
		l := mustLine(t, liner.Envelope{Width: width, Height: 130, Gum: 12, Flap: f}, usualClearances)
		near(t, "flap height", l.FlapHeight(), depth-m, 1e-9)
		hollow, end := geom.Point{Y: shoulder + both - tip}, geom.Point{X: width / 2, Y: depth - tip}
		k := (both - tip + m) / both // where they touch now
		touch := geom.Point{X: hollow.X + k*(end.X-hollow.X), Y: hollow.Y + k*(end.Y-hollow.Y)}
		hollows, ends := 0, 0
		for _, p := range l.Outline(80).Flatten(0.001) {
			switch {
			case p.X > width/2 || p.Y < 1e-6:
			case p.X > touch.X+1e-9:
				near(t, "end from its centre", p.Distance(end), tip-m, 1e-6)
				ends++
			case p.X > m+2 && p.X < touch.X-1e-9: // beyond what the shoulder keeps away
				near(t, "hollow from its centre", p.Distance(hollow), both-tip+m, 1e-6)
				hollows++
			}
		}
		if hollows < 5 || ends < 5 {
			t.Errorf("tip %v: %d points of the hollow and %d of the end were compared", tip, hollows, ends)
		}
	}
}

func TestABroaderTipMakesABroaderContourFlap(t *testing.T) {
	last := 0.0
	for tip := 5.0; tip < 90; tip += 5 {
		area := closedArea(mustProfile(t, liner.Flap{Shape: liner.Contour, Depth: 60, Shoulder: 6, TipRadius: tip}, 190))
		if area <= last {
			t.Errorf("a tip of %v makes an area of %v, a sharper one %v", tip, area, last)
		}
		last = area
	}
}
