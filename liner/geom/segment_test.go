package geom_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner/geom"
)

// Checks here are school geometry: circles, sectors, tangents.

func at(c geom.Point, r, angle float64) geom.Point {
	return geom.Point{X: c.X + r*math.Cos(angle), Y: c.Y + r*math.Sin(angle)}
}

// drawArc draws an arc of at most half a turn and tells the signed angle it
// turns through.
func drawArc(t *rapid.T) (s geom.Segment, turn float64) {
	c := geom.Point{X: rapid.Float64Range(-200, 200).Draw(t, "x"), Y: rapid.Float64Range(-200, 200).Draw(t, "y")}
	r := rapid.Float64Range(0.5, 300).Draw(t, "r")
	from := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "from")
	turn = rapid.Float64Range(0.01, math.Pi-0.01).Draw(t, "turn")
	cw := rapid.Bool().Draw(t, "clockwise")
	if cw {
		turn = -turn
	}
	return geom.Arc(at(c, r, from), at(c, r, from+turn), c, cw), turn
}

func circle(c geom.Point, r float64, parts int) geom.Contour {
	var out geom.Contour
	for i := range parts {
		step := 2 * math.Pi / float64(parts)
		out = append(out, geom.Arc(at(c, r, step*float64(i)), at(c, r, step*float64((i+1)%parts)), c, false))
	}
	return out
}

func near(t interface{ Errorf(string, ...any) }, what string, got, want, tolerance float64) {
	if math.IsNaN(got) || math.Abs(got-want) > tolerance {
		t.Errorf("%s is %.9g, want %.9g", what, got, want)
	}
}

func TestAnArcIsAsLongAsItsRadiusTimesItsTurn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, turn := drawArc(t)
		near(t, "length", s.Length(), s.R*math.Abs(turn), 1e-6)
		near(t, "length backwards", s.Reversed().Length(), s.R*math.Abs(turn), 1e-6)
	})
}

func TestSplittingAnArcGivesEqualPartsThatJoin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, turn := drawArc(t)
		most := rapid.Float64Range(0.02, 2).Draw(t, "most")
		parts := s.Split(most)
		if parts[0].A != s.A || parts[len(parts)-1].B != s.B {
			t.Fatalf("the parts run from %v to %v", parts[0].A, parts[len(parts)-1].B)
		}
		each := s.R * math.Abs(turn) / float64(len(parts))
		if math.Abs(turn)/float64(len(parts)) > most+1e-9 {
			t.Fatalf("%d parts of %v turn more than %v each", len(parts), turn, most)
		}
		if len(parts) > 1 && math.Abs(turn)/float64(len(parts)-1) < most-1e-9 {
			t.Fatalf("%d parts where fewer would do", len(parts))
		}
		for i, p := range parts {
			if i > 0 && parts[i-1].B != p.A {
				t.Fatalf("part %d begins at %v, the one before ends at %v", i, p.A, parts[i-1].B)
			}
			near(t, "part's length", p.Length(), each, 1e-6)
			near(t, "part's end from the centre", p.B.Distance(s.C), s.R, 1e-9)
		}
	})
	line := geom.Line(geom.Point{}, geom.Point{X: 9})
	if parts := line.Split(0.01); len(parts) != 1 || parts[0] != line {
		t.Errorf("a straight segment was split into %v", parts)
	}
}

// A chord over an angle a lies R(1 - cos a/2) inside its arc.
func TestFlatteningKeepsChordsWithinTheToleranceAndPointsOnTheArc(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, _ := drawArc(t)
		tolerance := rapid.SampledFrom([]float64{0.2, 0.05, 0.01, 0.001}).Draw(t, "tolerance")
		points := geom.Contour{s}.Flatten(tolerance)
		if points[0] != s.A || points[len(points)-1] != s.B {
			t.Fatalf("the chords run from %v to %v", points[0], points[len(points)-1])
		}
		for i, p := range points {
			near(t, "point from the centre", p.Distance(s.C), s.R, 1e-9)
			if i > 0 {
				middle := geom.Point{X: (p.X + points[i-1].X) / 2, Y: (p.Y + points[i-1].Y) / 2}
				if sagitta := s.R - middle.Distance(s.C); sagitta > tolerance+1e-9 {
					t.Fatalf("a chord lies %v inside the arc, tolerance %v", sagitta, tolerance)
				}
			}
		}
	})
	if points := (geom.Contour{}).Flatten(0.1); points != nil {
		t.Errorf("an empty contour gave %v", points)
	}
}

func TestBoundsTakeInTheBulgesOfArcs(t *testing.T) {
	c := geom.Point{X: 3, Y: -4}
	for _, parts := range []int{2, 3, 4, 7} { // few joints lie at the compass points
		got := circle(c, 5, parts).Bounds()
		near(t, "MinX", got.MinX, -2, 1e-9)
		near(t, "MaxX", got.MaxX, 8, 1e-9)
		near(t, "MinY", got.MinY, -9, 1e-9)
		near(t, "MaxY", got.MaxY, 1, 1e-9)
	}
	// a quarter turn between compass points bulges nowhere but its ends
	quarter := geom.Contour{geom.Arc(at(c, 5, 0.1), at(c, 5, 1.4), c, false)}.Bounds()
	near(t, "MaxX", quarter.MaxX, 3+5*math.Cos(0.1), 1e-9)
	near(t, "MaxY", quarter.MaxY, -4+5*math.Sin(1.4), 1e-9)
	rapid.Check(t, func(t *rapid.T) {
		s, _ := drawArc(t)
		b, fine := (geom.Contour{s}).Bounds(), geom.Contour{s}.Flatten(1e-5)
		reached := geom.Box{MinX: math.Inf(1), MinY: math.Inf(1), MaxX: math.Inf(-1), MaxY: math.Inf(-1)}
		for _, p := range fine {
			reached = reached.Union(geom.Box{MinX: p.X, MinY: p.Y, MaxX: p.X, MaxY: p.Y})
		}
		near(t, "MinX", b.MinX, reached.MinX, 2e-5)
		near(t, "MaxX", b.MaxX, reached.MaxX, 2e-5)
		near(t, "MinY", b.MinY, reached.MinY, 2e-5)
		near(t, "MaxY", b.MaxY, reached.MaxY, 2e-5)
	})
}

func TestACircleOfArcsHasTheAreaOfACircle(t *testing.T) {
	for _, parts := range []int{2, 3, 5, 8} {
		c := circle(geom.Point{X: 40, Y: 7}, 6, parts)
		near(t, "area", c.Area(), 36*math.Pi, 1e-9)
		near(t, "area backwards", c.Reversed().Area(), -36*math.Pi, 1e-9)
		moved := c.Map(func(p geom.Point) geom.Point { return geom.Point{X: 100 - p.Y, Y: p.X - 9} }, false)
		near(t, "area turned and slid", moved.Area(), 36*math.Pi, 1e-9)
		mirrored := c.Map(func(p geom.Point) geom.Point { return geom.Point{X: p.X, Y: -p.Y} }, true)
		near(t, "area mirrored", mirrored.Area(), -36*math.Pi, 1e-9)
	}
}

func TestASectorHasHalfItsRadiusSquaredTimesItsAngleAsArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, turn := drawArc(t)
		sector := geom.Contour{geom.Line(s.C, s.A), s, geom.Line(s.B, s.C)}
		near(t, "area", sector.Area(), s.R*s.R*turn/2, 1e-5)
	})
}

// A fillet touches both edges: its centre is r from each, at the feet of the
// perpendiculars, and it turns through the corner's outer angle.
func TestARoundedCornerTouchesBothEdges(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		b := geom.Point{X: rapid.Float64Range(-50, 50).Draw(t, "x"), Y: rapid.Float64Range(-50, 50).Draw(t, "y")}
		first := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "first")
		open := rapid.Float64Range(0.1, math.Pi-0.1).Draw(t, "open") * rapid.SampledFrom([]float64{-1, 1}).Draw(t, "side")
		la, lc := rapid.Float64Range(5, 100).Draw(t, "la"), rapid.Float64Range(5, 100).Draw(t, "lc")
		r := rapid.Float64Range(0.5, 40).Draw(t, "r")
		a, c := at(b, la, first), at(b, lc, first+open)
		cut := r / math.Tan(math.Abs(open)/2) // what the fillet takes off each edge
		s, ok := geom.Round(a, b, c, r)
		if fits := cut <= min(la, lc); ok != fits {
			if math.Abs(cut-min(la, lc)) > 1e-6 {
				t.Fatalf("fits: %v; it takes %v off edges of %v and %v", ok, cut, la, lc)
			}
			return
		}
		if !ok {
			return
		}
		compared++
		near(t, "taken off the first edge", s.A.Distance(b), cut, 1e-6)
		near(t, "taken off the second edge", s.B.Distance(b), cut, 1e-6)
		near(t, "first point beyond the edge", s.A.Distance(a)+cut, la, 1e-6)
		near(t, "second point beyond the edge", s.B.Distance(c)+cut, lc, 1e-6)
		near(t, "centre from A", s.C.Distance(s.A), r, 1e-6)
		near(t, "centre from B", s.C.Distance(s.B), r, 1e-6)
		near(t, "edge against radius", (s.C.X-s.A.X)*(b.X-a.X)+(s.C.Y-s.A.Y)*(b.Y-a.Y), 0, 1e-5)
		near(t, "turn", s.Length()/r, math.Pi-math.Abs(open), 1e-6) // the short way, so CW is right
	})
	if compared < 20 {
		t.Errorf("only %d corners could be rounded", compared)
	}
}
