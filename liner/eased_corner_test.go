package liner_test

import (
	"math"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
)

// directions are those in which a segment leaves A and arrives at B.
func directions(s geom.Segment) (leaves, arrives geom.Point) {
	along := func(p geom.Point) geom.Point {
		if s.R == 0 {
			l := s.A.Distance(s.B)
			return geom.Point{X: (s.B.X - s.A.X) / l, Y: (s.B.Y - s.A.Y) / l}
		}
		d := geom.Point{X: (p.Y - s.C.Y) / s.R, Y: -(p.X - s.C.X) / s.R} // clockwise
		if !s.CW {
			d = geom.Point{X: -d.X, Y: -d.Y}
		}
		return d
	}
	return along(s.A), along(s.B)
}

// turnsAt are the angles, positive to the left, by which a profile turns where
// its pieces meet.
func turnsAt(p geom.Profile) []float64 {
	var turns []float64
	for i := 1; i < len(p); i++ {
		_, in := directions(p[i-1])
		out, _ := directions(p[i])
		turns = append(turns, math.Atan2(in.X*out.Y-in.Y*out.X, in.X*out.X+in.Y*out.Y))
	}
	return turns
}

// Where an arc touches both its neighbours, the edge turns nowhere but along
// arcs. Without the easing it turns where the shoulders end, to the right.
func TestAnEasedCornerTouchesTheShoulderAndWhatFollows(t *testing.T) {
	const width = 190.0
	compared := 0
	for _, shape := range []liner.Shape{liner.Pointed, liner.Rounded, liner.Contour} {
		for _, depth := range []float64{40, 60, 85} {
			for _, taper := range []float64{0, 1, 4} {
				for _, radius := range []float64{0.5, 3, 10} {
					f := liner.Flap{Shape: shape, Depth: depth, Shoulder: 16, Taper: taper, BaseGap: 1, TipRadius: 12, CornerRadius: radius}
					sharp := f
					sharp.CornerRadius = 0
					p, before := mustProfile(t, f, width), mustProfile(t, sharp, width)
					whole(t, string(shape), p)
					for i, turn := range turnsAt(p) {
						if math.Abs(turn) > 1e-6 {
							t.Errorf("%+v: turns by %v after piece %d", f, turn, i)
						}
					}
					if first := turnsAt(before)[0]; first > -0.01 {
						t.Errorf("%+v: without easing it turns by %v at the shoulder's end", sharp, first)
					}
					corner := p[1]
					near(t, "radius", corner.R, radius, 1e-9)
					near(t, "radius on the right", p[len(p)-2].R, radius, 1e-9)
					if !corner.CW || len(p) != len(before)+2 {
						t.Errorf("%+v: the corner is %+v, in %d pieces for %d", f, corner, len(p), len(before))
					}
					near(t, "height", p.Height(), depth, 1e-9)
					lost := closedArea(before) - closedArea(p)
					if lost <= 0 {
						t.Errorf("%+v: easing takes off an area of %v", f, lost)
					}
					if shape == liner.Pointed { // at each corner two triangles less a sector (tangents and arc)
						half := (math.Pi + turnsAt(before)[0]) / 2
						near(t, "area taken off a pointed flap", lost, 2*radius*radius*(1/math.Tan(half)-(math.Pi/2-half)), 1e-6)
					}
					compared++
				}
			}
		}
	}
	if compared != 81 {
		t.Errorf("compared %d corners", compared)
	}
}

// An upright shoulder and a level hollow make a right angle: the arc's centre is
// its radius to the right, and as high as Pythagoras says from the hollow's.
func TestAnEasedCornerBesideAnUprightShoulderStandsWherePythagorasPutsIt(t *testing.T) {
	const width, depth, shoulder, radius = 190.0, 70.0, 15.0, 6.0
	across, rise := width/2, depth-shoulder
	both := radiusOver(across, rise)
	for _, tip := range []float64{20, 50} {
		p := mustProfile(t, liner.Flap{Shape: liner.Contour, Depth: depth, Shoulder: shoulder, TipRadius: tip, CornerRadius: radius}, width)
		hollow := both - tip
		near(t, "contour: x of the centre", p[1].C.X, radius, 1e-9)
		near(t, "contour: y of the centre", p[1].C.Y, shoulder+hollow-math.Sqrt((hollow+radius)*(hollow+radius)-radius*radius), 1e-9)
	}
	p := mustProfile(t, liner.Flap{Shape: liner.Rounded, Depth: depth, Shoulder: shoulder, CornerRadius: radius}, width)
	near(t, "rounded: x of the centre", p[1].C.X, radius, 1e-9)
	near(t, "rounded: y of the centre", p[1].C.Y, depth-both+math.Sqrt((both-radius)*(both-radius)-(across-radius)*(across-radius)), 1e-9)
	// the slant of a sharp point: the centre is radius from shoulder and slant
	p = mustProfile(t, liner.Flap{Shape: liner.Pointed, Depth: depth, Shoulder: shoulder, CornerRadius: radius}, width)
	slant := math.Atan2(rise, across)
	near(t, "pointed: x of the centre", p[1].C.X, radius, 1e-9)
	near(t, "pointed: y of the centre", p[1].C.Y, shoulder-radius*math.Tan((math.Pi/2-slant)/2), 1e-9)
}

// A square flap's two corners are where its shoulders end.
func TestASquareFlapsCornerRadiusIsItsTipRadius(t *testing.T) {
	byTip := mustProfile(t, liner.Flap{Shape: liner.Square, Depth: 45, Taper: 5, BaseGap: 1, TipRadius: 9}, 162)
	byCorner := mustProfile(t, liner.Flap{Shape: liner.Square, Depth: 45, Taper: 5, BaseGap: 1, TipRadius: 6, CornerRadius: 9}, 162)
	if len(byTip) != len(byCorner) {
		t.Fatalf("%d pieces and %d", len(byTip), len(byCorner))
	}
	for i := range byTip {
		if byTip[i] != byCorner[i] {
			t.Errorf("piece %d: %+v by the tip radius, %+v by the corner radius", i, byTip[i], byCorner[i])
		}
	}
	near(t, "radius", byTip[1].R, 9, 1e-9)
	for _, turn := range turnsAt(byTip) {
		near(t, "turn", turn, 0, 1e-6)
	}
}
