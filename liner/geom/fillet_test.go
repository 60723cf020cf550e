package geom_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner/geom"
)

// Checks here are school geometry: an arc touches a line where its radius
// stands on it, and another circle on the line through both centres.

// cap is the arc that rises by rise over half a chord of across, from a to its
// top (sagitta and chord).
func capFrom(a geom.Point, across, rise float64) geom.Segment {
	r := (across*across + rise*rise) / (2 * rise)
	return geom.Arc(a, pt(a.X+across, a.Y+rise), pt(a.X+across, a.Y+rise-r), true)
}

// hollowFrom leaves a level and climbs through turn radians.
func hollowFrom(a geom.Point, r, turn float64) geom.Segment {
	c := pt(a.X, a.Y+r)
	return geom.Arc(a, at(c, r, turn-math.Pi/2), c, false)
}

// touches holds a fillet to its definition.
func touches(t interface {
	Errorf(string, ...any)
	Fatalf(string, ...any)
}, line, next, before, arc, after geom.Segment, r float64) {
	if before.A != line.A || before.B != arc.A || arc.B != after.A || after.B != next.B {
		t.Fatalf("the chain runs %v-%v, %v-%v, %v-%v; the corner %v-%v, %v-%v", before.A, before.B, arc.A, arc.B, after.A, after.B, line.A, line.B, next.A, next.B)
	}
	if after.R != next.R || after.C != next.C || after.CW != next.CW || before.R != 0 {
		t.Errorf("the edges beside it became %+v and %+v", before, after)
	}
	length := line.Length()
	ux, uy := (line.B.X-line.A.X)/length, (line.B.Y-line.A.Y)/length
	along := (arc.A.X-line.A.X)*ux + (arc.A.Y-line.A.Y)*uy
	near(t, "where it leaves the line, off the line", (arc.A.Y-line.A.Y)*ux-(arc.A.X-line.A.X)*uy, 0, 1e-8)
	if along < -1e-8 || along > length+1e-8 {
		t.Errorf("it leaves the line at %v of %v", along, length)
	}
	near(t, "radius", arc.R, r, 1e-7)
	near(t, "centre from the line's side", arc.C.Distance(arc.A), r, 1e-7)
	near(t, "centre from the other side", arc.C.Distance(arc.B), r, 1e-7)
	near(t, "radius along the line", (arc.C.X-arc.A.X)*ux+(arc.C.Y-arc.A.Y)*uy, 0, 1e-7*(1+r))
	if !arc.CW || (arc.C.X-arc.A.X)*uy-(arc.C.Y-arc.A.Y)*ux < 0 {
		t.Errorf("it does not turn to the right: %+v", arc)
	}
	switch d := arc.C.Distance(next.C); {
	case next.R == 0:
		l := next.Length()
		vx, vy := (next.B.X-next.A.X)/l, (next.B.Y-next.A.Y)/l
		near(t, "radius along the second line", (arc.C.X-arc.B.X)*vx+(arc.C.Y-arc.B.Y)*vy, 0, 1e-7*(1+r))
		near(t, "where it meets the second line, off the line", (arc.B.Y-next.A.Y)*vx-(arc.B.X-next.A.X)*vy, 0, 1e-7)
	case next.CW:
		near(t, "between the centres", d, next.R-r, 1e-7)
		near(t, "where it meets the cap, from its centre", arc.B.Distance(next.C), next.R, 1e-7)
	default:
		near(t, "between the centres", d, next.R+r, 1e-7)
		near(t, "where it meets the hollow, from its centre", arc.B.Distance(next.C), next.R, 1e-7)
	}
	if arc.B.X < next.A.X-1e-8 || arc.B.X > next.B.X+1e-8 || arc.B.X < arc.A.X-1e-8 {
		t.Errorf("it meets the second edge at x = %v, which runs from %v to %v", arc.B.X, next.A.X, next.B.X)
	}
}

// Beside an upright shoulder the fillet's centre is r from it, so the height of
// that centre follows from the distance of the centres (Pythagoras).
func TestAFilletBesideAnUprightShoulderStandsWherePythagorasPutsIt(t *testing.T) {
	const shoulder, across, rise = 20.0, 80.0, 45.0
	line := geom.Line(pt(2, 0), pt(2, shoulder))
	for _, r := range []float64{0.5, 3, 8} {
		over := capFrom(line.B, across, rise)
		before, arc, after, ok := geom.Fillet(line, over, r)
		if !ok {
			t.Fatalf("no fillet of %v under a cap", r)
		}
		touches(t, line, over, before, arc, after, r)
		near(t, "centre's height under the cap", arc.C.Y, over.C.Y+math.Sqrt((over.R-r)*(over.R-r)-(across-r)*(across-r)), 1e-9)

		const hollow = 60.0
		under := hollowFrom(line.B, hollow, 0.9)
		before, arc, after, ok = geom.Fillet(line, under, r)
		if !ok {
			t.Fatalf("no fillet of %v beside a hollow", r)
		}
		touches(t, line, under, before, arc, after, r)
		near(t, "centre's height beside the hollow", arc.C.Y, shoulder+hollow-math.Sqrt((hollow+r)*(hollow+r)-r*r), 1e-9)

		// between upright and level: a quarter circle
		level := geom.Line(line.B, pt(90, shoulder))
		before, arc, after, ok = geom.Fillet(line, level, r)
		if !ok {
			t.Fatalf("no fillet of %v under a level edge", r)
		}
		touches(t, line, level, before, arc, after, r)
		near(t, "x of the centre", arc.C.X, 2+r, 1e-9)
		near(t, "y of the centre", arc.C.Y, shoulder-r, 1e-9)
		near(t, "turn", arc.Sweep(), -math.Pi/2, 1e-9)
	}
}

// The greatest fillet uses up the shorter of its edges: its centre is then level
// with the shoulder's foot, or it meets the second edge at that edge's end.
func TestTheGreatestFilletUsesUpOneOfItsEdges(t *testing.T) {
	check := func(what string, line, next geom.Segment, want float64) {
		t.Helper()
		near(t, what+": greatest", geom.MostFillet(line, next), want, 0.01+1e-9)
		if _, _, _, ok := geom.Fillet(line, next, want-0.001); !ok {
			t.Errorf("%s: %v does not fit, where %v should", what, want-0.001, want)
		}
		if _, _, _, ok := geom.Fillet(line, next, want+0.001); ok {
			t.Errorf("%s: %v fits, where %v should be the greatest", what, want+0.001, want)
		}
	}
	for _, shoulder := range []float64{0.5, 4, 15, 40} {
		line := geom.Line(pt(0, 0), pt(0, shoulder))
		check("level", line, geom.Line(line.B, pt(30, shoulder)), min(shoulder, 30))

		// the centre is at (r, 0): with the cap's centre at (a, c), r from it,
		// (R-r)² = (a-r)² + c²
		for _, rise := range []float64{10, 30, 55} {
			const across = 60.0
			over := capFrom(line.B, across, rise)
			c, r := over.C.Y, over.R
			want := (r*r - across*across - c*c) / (2 * (r - across))
			if c > 0 || want > across { // or it uses up the cap: its centre is under the cap's top
				want = across
			}
			check("cap", line, over, want)
		}

		// likewise (h+r)² = r² + (s+h)² beside a hollow of radius h; and it meets
		// the hollow's end, at turn, when (h+r)·sin(turn) = r
		for _, turn := range []float64{0.1, 0.4, 1.2} {
			const h = 50.0
			under := hollowFrom(line.B, h, turn)
			usesLine := ((shoulder+h)*(shoulder+h) - h*h) / (2 * h)
			usesHollow := h * math.Sin(turn) / (1 - math.Sin(turn))
			check("hollow", line, under, min(usesLine, usesHollow))
		}
	}
	// two edges at 2a: the fillet that uses up the shorter is that length times tan a
	for _, lean := range []float64{0.2, 0.8, 1.3, 1.5} {
		next := geom.Line(pt(0, 12), at(pt(0, 12), 70, lean))
		check("slant", geom.Line(pt(0, 0), pt(0, 12)), next, 12*math.Tan((math.Pi/2+lean)/2))
	}
}

// Whatever the corner, the greatest fillet fits, and none that is greater.
func TestNoFilletIsGreaterThanTheGreatest(t *testing.T) {
	beyond := 0
	rapid.Check(t, func(t *rapid.T) {
		line, next := drawCorner(t)
		most := geom.MostFillet(line, next)
		if most > line.Length()+next.Length() {
			beyond++
		}
		if most > 700 {
			return // no pocket is so large
		}
		if most > 0.02 {
			before, arc, after, ok := geom.Fillet(line, next, most-0.01)
			if !ok {
				t.Fatalf("%v does not fit, the greatest being %v (%+v, %+v)", most-0.01, most, line, next)
			}
			touches(t, line, next, before, arc, after, most-0.01)
		}
		for _, r := range []float64{most + 0.02, most*1.1 + 0.02, most*2 + 0.02, most*10 + 5} {
			if _, _, _, ok := geom.Fillet(line, next, r); ok {
				t.Fatalf("%v fits, the greatest being %v (%+v, %+v)", r, most, line, next)
			}
		}
	})
	if beyond < 3 {
		t.Errorf("only %d corners were so open that they take an arc of a greater radius than their edges are long", beyond)
	}
}

func TestWithoutACornerToTheRightThereIsNoFillet(t *testing.T) {
	leaning := geom.Line(pt(0, 0), pt(30, 10))
	for what, next := range map[string]geom.Segment{
		"a steeper slant":   geom.Line(leaning.B, pt(60, 50)),
		"a steeper cap":     capFrom(leaning.B, 40, 35),
		"an upright cap":    capFrom(leaning.B, 40, 40),
		"a hollow, upright": geom.Arc(leaning.B, at(pt(leaning.B.X-9, leaning.B.Y+5), math.Hypot(9, 5), 0), pt(leaning.B.X-9, leaning.B.Y+5), false),
	} {
		for _, r := range []float64{0.001, 0.1, 2, 30, 300} {
			if before, arc, after, ok := geom.Fillet(leaning, next, r); ok || before != leaning || after != next || arc != (geom.Segment{}) {
				t.Errorf("%s: a fillet of %v: %v, %v, %v", what, r, before, arc, after)
			}
		}
		near(t, what+": greatest", geom.MostFillet(leaning, next), 0, 0.01)
	}
}

// Whether a circle of radius r beside the line touches the second edge is found
// by walking along the line, and compared with what Fillet says.
func TestAFilletIsFoundWhereverThereIsOne(t *testing.T) {
	found, none := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		line, next := drawCorner(t)
		r := rapid.Float64Range(0.05, 60).Draw(t, "r")
		before, arc, after, ok := geom.Fillet(line, next, r)
		if ok {
			touches(t, line, next, before, arc, after, r)
			found++
		} else {
			none++
		}
		if walked, sure := walkedFillet(line, next, r); sure && walked != ok {
			t.Fatalf("walking along the line finds a circle that touches: %v; Fillet: %v (%+v, %+v)", walked, ok, line, next)
		}
	})
	if found < 20 || none < 20 {
		t.Errorf("%d fillets were found and %d were not", found, none)
	}
}

// drawCorner draws a leaning line and what follows it, where there may be a
// corner to the right.
func drawCorner(t *rapid.T) (line, next geom.Segment) {
	between := func(name string, least, most float64) float64 {
		return rapid.Float64Range(least, most).Draw(t, name)
	}
	line = geom.Line(pt(0, 0), pt(between("lean", 0, 60), between("shoulder", 1, 40)))
	switch rapid.SampledFrom([]string{"line", "cap", "hollow"}).Draw(t, "next") {
	case "line":
		return line, geom.Line(line.B, at(line.B, between("length", 2, 100), between("slant", -0.3, 1.5)))
	case "cap":
		across := between("across", 5, 100)
		return line, capFrom(line.B, across, across*between("rise", 0.03, 0.999))
	}
	return line, hollowFrom(line.B, between("radius", 3, 150), between("turn", 0.05, 1.5))
}

// walkedFillet slides a circle that touches the line on its right back from
// the corner and watches how far it is from the whole of the second edge: where
// that becomes r, away from the edge's ends, it touches. It is not sure where
// the distance hardly reaches r, or touches near an end.
func walkedFillet(line, next geom.Segment, r float64) (found, sure bool) {
	length := line.Length()
	ux, uy := (line.B.X-line.A.X)/length, (line.B.Y-line.A.Y)/length
	const steps = 20000
	inside := func(c geom.Point) float64 { // positive where the circle is clear of the edge
		switch {
		case next.R == 0:
			l := next.Length()
			return ((c.X-next.A.X)*(next.B.Y-next.A.Y)-(c.Y-next.A.Y)*(next.B.X-next.A.X))/l - r
		case next.CW:
			return next.R - r - c.Distance(next.C)
		}
		return c.Distance(next.C) - next.R - r
	}
	touch := func(c geom.Point) geom.Point {
		if next.R == 0 {
			l := next.Length()
			vx, vy := (next.B.X-next.A.X)/l, (next.B.Y-next.A.Y)/l
			k := (c.X-next.A.X)*vx + (c.Y-next.A.Y)*vy
			return pt(next.A.X+k*vx, next.A.Y+k*vy)
		}
		k := next.R / c.Distance(next.C)
		return pt(next.C.X+(c.X-next.C.X)*k, next.C.Y+(c.Y-next.C.Y)*k)
	}
	var last float64
	for i := range steps + 1 {
		along := length * (1 - float64(i)/steps)
		c := pt(line.A.X+along*ux+r*uy, line.A.Y+along*uy-r*ux)
		now := inside(c)
		if i == 0 && math.Abs(now) < 1e-3 || i == steps && math.Abs(now) < 1e-2 {
			return false, false // it begins or ends at a touch
		}
		if i > 0 && last < 0 && now >= 0 {
			q := touch(c)
			if q.Distance(next.A) < 0.05 || q.Distance(next.B) < 0.05 {
				return false, false
			}
			return q.X > next.A.X && q.X < next.B.X && (next.R == 0 || (q.Y > next.C.Y) == next.CW), true
		}
		last = now
	}
	return false, true
}

// The circumcentre is as far from all three, and that of a right angle is amid
// its longest side (Thales).
func TestThroughThreePointsGoesTheCircleAboutTheirCircumcentre(t *testing.T) {
	if c := geom.Through(pt(3, 1), pt(3, 9), pt(9, 1)); c.Distance(pt(6, 5)) > 1e-12 {
		t.Errorf("right angle: %v", c)
	}
	if c := geom.Through(pt(0, 0), pt(6, 0), pt(3, 3*math.Sqrt(3))); c.Distance(pt(3, math.Sqrt(3))) > 1e-12 {
		t.Errorf("three equal sides: %v", c)
	}
	rapid.Check(t, func(t *rapid.T) {
		want, r := pt(rapid.Float64Range(-100, 100).Draw(t, "x"), rapid.Float64Range(-100, 100).Draw(t, "y")), rapid.Float64Range(1, 300).Draw(t, "r")
		from, step := rapid.Float64Range(-3, 3).Draw(t, "from"), rapid.Float64Range(0.05, 2).Draw(t, "step")
		a, b, c := at(want, r, from), at(want, r, from+step), at(want, r, from+2*step)
		for _, got := range []geom.Point{geom.Through(a, b, c), geom.Through(c, b, a), geom.Through(b, a, c)} {
			near(t, "off the centre", got.Distance(want), 0, 1e-8*r/(step*step))
		}
	})
}
