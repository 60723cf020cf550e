package liner_test

import (
	"math"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
)

// The outline where school geometry gives the answer, with no other program
// asked. The definitions are the design's: the flap part is the flap eroded by
// the margin, the pocket part a rectangle with eased corners.

func mustLine(t *testing.T, e liner.Envelope, c liner.Clearances) liner.Liner {
	t.Helper()
	l, err := liner.New(e, c)
	if err != nil {
		t.Fatalf("New(%+v, %+v): %v", e, c, err)
	}
	return l
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) > tolerance || math.IsNaN(got) {
		t.Errorf("%s is %.9f, want %.9f", what, got, want)
	}
}

// Two edges moved inwards by m meet on the bisector of a corner of half angle
// a, at m / sin a from it.
func TestTheApexOfASharpFlapSinksByTheMarginOverTheSineOfItsHalfAngle(t *testing.T) {
	compared := 0
	for _, width := range []float64{114, 162, 229} {
		for _, depth := range []float64{40, 64, 88} {
			for _, gum := range []float64{4, 8, 12} {
				e := liner.Envelope{Width: width, Height: 120, Gum: gum, Flap: liner.Flap{Shape: liner.Pointed, Depth: depth}}
				l := mustLine(t, e, liner.Clearances{SideGap: 3, GumClearance: 1.5})
				half := math.Atan2(width/2, depth)
				want := depth - (gum+1.5)/math.Sin(half)
				near(t, "flap height", l.FlapHeight(), want, 1e-9)
				// the apex is on the centre line
				apex := geom.Point{X: width / 2, Y: want}
				off := ring(l.Outline(60).Flatten(0.001)).distance(apex)
				near(t, "apex to outline", off, 0, 1e-9)
				compared++
			}
		}
	}
	if compared != 27 {
		t.Errorf("compared %d flaps", compared)
	}
}

// Upright sides and a level edge move straight inwards: the flap part is
// (W - 2m) x (D - m), standing on the pocket part of W - 2s.
func TestASquareFlapWithoutTaperLeavesARectangle(t *testing.T) {
	const width, depth, gum, clear, side, pocket = 162.0, 45.0, 10.0, 1.5, 3.0, 80.0
	e := liner.Envelope{Width: width, Height: 114, Gum: gum, Flap: liner.Flap{Shape: liner.Square, Depth: depth}}
	o := mustLine(t, e, liner.Clearances{SideGap: side, GumClearance: clear}).Outline(pocket)
	const m = gum + clear
	want := ring{{X: side, Y: -pocket}, {X: width - side, Y: -pocket}, {X: width - side}, {X: width - m}, {X: width - m, Y: depth - m},
		{X: m, Y: depth - m}, {X: m}, {X: side}, {X: side, Y: -pocket}}
	got := ring(o.Flatten(0.001))
	for _, p := range densified(want, 0.5) {
		if d := got.distance(p); d > 1e-9 {
			t.Errorf("the outline misses %v by %g", p, d)
		}
	}
	for _, p := range densified(got, 0.5) {
		if d := want.distance(p); d > 1e-9 {
			t.Errorf("the outline strays to %v, by %g", p, d)
		}
	}
	near(t, "area", o.Area(), (width-2*m)*(depth-m)+(width-2*side)*pocket, 1e-6)
}

// A side gap wider than the margin cuts the flap part off upright.
func TestTheSideGapBoundsTheFlapPartWhereItIsWiderThanTheMargin(t *testing.T) {
	const width, depth, side, pocket = 162.0, 45.0, 9.0, 80.0
	e := liner.Envelope{Width: width, Height: 114, Flap: liner.Flap{Shape: liner.Square, Depth: depth}} // no gum: 5 mm border
	o := mustLine(t, e, liner.Clearances{SideGap: side}).Outline(pocket)
	near(t, "area", o.Area(), (width-2*side)*(pocket+depth-liner.UngummedBorder), 1e-6)
}

// A flap without gum has a border, the usual one or one's own.
func TestAFlapWithoutGumKeepsItsBorder(t *testing.T) {
	for own, border := range map[float64]float64{0: liner.UngummedBorder, 1: 1, 12: 12} {
		e := liner.Envelope{Width: 162, Height: 114, Flap: liner.Flap{Shape: liner.Square, Depth: 45}}
		l := mustLine(t, e, liner.Clearances{SideGap: 3, GumClearance: 2, Border: own})
		near(t, "margin", l.Margin(), border, 0)
		near(t, "flap height", l.FlapHeight(), 45-border, 1e-9)
		e.Gum = 10
		near(t, "margin with gum", mustLine(t, e, liner.Clearances{SideGap: 3, GumClearance: 2, Border: own}).Margin(), 12, 0)
	}
}

// Each eased corner takes a square of side r less a quarter disc.
func TestEasedCornersTakeASquareLessAQuarterDisc(t *testing.T) {
	const r = 4.0
	e := liner.Envelope{Width: 162, Height: 114, Gum: 12, Flap: liner.Flap{Shape: liner.Square, Depth: 45}}
	sharp := mustLine(t, e, liner.Clearances{SideGap: 3, GumClearance: 1.5}).Outline(80)
	eased := mustLine(t, e, liner.Clearances{SideGap: 3, GumClearance: 1.5, CornerRadius: r}).Outline(80)
	near(t, "area of both corners", sharp.Area()-eased.Area(), 2*(r*r-math.Pi*r*r/4), 1e-6)
}

// A convex corner rounded by R and eroded by m < R is rounded by R - m about
// the same centre; by m > R it is sharp.
func TestARoundedTipIsErodedToTheSmallerRoundAboutTheSameCentre(t *testing.T) {
	const width, depth, tip = 162.0, 70.0, 20.0
	for _, gum := range []float64{4, 10, 18} {
		e := liner.Envelope{Width: width, Height: 114, Gum: gum, Flap: liner.Flap{Shape: liner.Pointed, Depth: depth, TipRadius: tip}}
		l := mustLine(t, e, liner.Clearances{SideGap: 3})
		near(t, "flap height", l.FlapHeight(), depth-gum, 1e-9)
	}
	// beyond the tip's radius the two slants meet: the tip's circle touches
	// both, so their meeting point lies R / sin a above its centre
	const gum = 26.0
	e := liner.Envelope{Width: width, Height: 114, Gum: gum, Flap: liner.Flap{Shape: liner.Pointed, Depth: depth, TipRadius: tip}}
	l := mustLine(t, e, liner.Clearances{SideGap: 3})
	// the slant from (0,0) touches the circle about (W/2, D-R)
	centre := depth - tip
	toCentre := math.Hypot(width/2, centre)
	slope := math.Atan2(centre, width/2) + math.Asin(tip/toCentre)
	half := math.Pi/2 - slope
	near(t, "flap height", l.FlapHeight(), centre-(gum-tip)/math.Sin(half), 1e-9)
}

// Green's theorem along arcs against the shoelace formula along chords.
func TestTheOutlinesAreaEqualsTheShoelaceAreaOfAFineFlattening(t *testing.T) {
	for _, l := range tableLiners(t) {
		o := l.Outline(l.FullPocketDepth())
		fine := ring(o.Flatten(1e-6)).area()
		near(t, l.Envelope.Name+": area", o.Area(), fine, 1e-3)
		if o.Area() <= 0 {
			t.Errorf("%s: the outline runs clockwise", l.Envelope.Name)
		}
	}
}
