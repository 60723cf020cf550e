package liner_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/geom"
)

// drawDepth draws a pocket depth a sheet may choose.
func drawDepth(t *rapid.T, l liner.Liner) float64 {
	return rapid.Float64Range(l.LeastPocketDepth(), l.FullPocketDepth()).Draw(t, "pocket depth")
}

// The design's definition of an outline: closed, and cut in one go.
func TestEveryOutlineIsClosedAndSimple(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLiner(t)
		o := l.Outline(drawDepth(t, l))
		for i, s := range o.Contour {
			if next := o.Contour[(i+1)%len(o.Contour)]; s.B.Distance(next.A) > 1e-9 {
				t.Fatalf("segment %d ends at %v and the next begins at %v", i, s.B, next.A)
			}
			if s.R != 0 && (math.Abs(s.A.Distance(s.C)-s.R) > 1e-6 || math.Abs(s.B.Distance(s.C)-s.R) > 1e-6) {
				t.Fatalf("arc %d from %v to %v does not lie on its circle about %v, radius %v", i, s.A, s.B, s.C, s.R)
			}
		}
		if a, b, crossed := withoutRepeats(o.Flatten(0.02)).crossing(); crossed {
			t.Fatalf("the outline crosses itself near %v and %v", a, b)
		}
		if o.Area() <= 0 {
			t.Fatalf("area %v: not anticlockwise", o.Area())
		}
	})
}

// The clearances are the design's; the 0.01 mm is for chords of arcs.
func TestEveryOutlineKeepsItsClearances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLiner(t)
		depth := drawDepth(t, l)
		o := l.Outline(depth)
		edge := geom.Contour(l.FlapProfile()).Flatten(0.001)
		flap := []ring{append(append(ring{}, edge...), edge[0])}
		for _, p := range densified(o.Flatten(0.001), 1) {
			if p.X < l.SideGap-1e-6 || p.X > l.Envelope.Width-l.SideGap+1e-6 {
				t.Fatalf("%v is nearer to a side than %v", p, l.SideGap)
			}
			if p.Y < -depth-1e-6 || p.Y > l.Envelope.Flap.Depth-l.Margin()+1e-6 {
				t.Fatalf("%v is below the pocket depth %v or above the flap less its margin", p, depth)
			}
			if p.Y < 1e-3 {
				continue
			}
			if !inside(p, flap) {
				t.Fatalf("%v lies outside the flap", p)
			}
			if d := toChain(p, edge); d < l.Margin()-0.01 {
				t.Fatalf("%v is %.4f from the flap's free edge, margin %.4f", p, d, l.Margin())
			}
		}
		if gap := l.Envelope.Height - l.FullPocketDepth(); math.Abs(gap-liner.BottomGap) > 1e-9 {
			t.Fatalf("a liner of full depth leaves %v at the pocket's bottom", gap)
		}
	})
}

// The mirror image of a flap gets the mirror image of the liner; that of every
// shape with a name is the flap itself.
func TestTheMirrorImageOfAFlapGetsTheMirrorImageOfTheLiner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLiner(t)
		depth := drawDepth(t, l)
		other := l
		if l.Envelope.Flap.Shape == liner.Traced {
			var turned []geom.Point
			for _, p := range slices.Backward(l.Envelope.Flap.Trace) {
				turned = append(turned, geom.Point{X: max(0, l.Envelope.Width-p.X), Y: p.Y})
			}
			e := l.Envelope
			e.Flap = liner.TracedFlap(turned)
			var err error
			if other, err = liner.New(e, l.Clearances); err != nil {
				t.Fatalf("the mirror image is refused: %v", err)
			}
		}
		ours, theirs := ring(l.Outline(depth).Flatten(0.0005)), ring(other.Outline(depth).Flatten(0.0005))
		for _, p := range ours {
			if d := theirs.distance(geom.Point{X: l.Envelope.Width - p.X, Y: p.Y}); d > 0.002 {
				t.Fatalf("the mirror image of %v is %v off the outline", p, d)
			}
		}
		if math.Abs(l.Outline(depth).Area()-other.Outline(depth).Area()) > 1e-3 {
			t.Fatalf("area %v, of the mirror image %v", l.Outline(depth).Area(), other.Outline(depth).Area())
		}
	})
}

// More clearance, less liner, and no place that was outside before. Without gum
// the gum clearance must change nothing, with gum the border.
func TestALinerShrinksAsItsClearancesGrow(t *testing.T) {
	compared := map[liner.Shape]int{}
	rapid.Check(t, func(t *rapid.T) {
		l := drawLiner(t)
		more := rapid.Float64Range(0.05, 3).Draw(t, "more")
		now := l.Outline(l.LeastPocketDepth())
		before := []ring{ring(now.Flatten(0.001))}
		grow := func(what string, e liner.Envelope, c liner.Clearances) {
			other, err := liner.New(e, c)
			if err != nil {
				return // nothing is left
			}
			o := other.Outline(l.LeastPocketDepth())
			if unused := map[bool]string{true: "gum clearance", false: "border"}[l.Envelope.Gum == 0]; what == unused {
				if o.Area() != now.Area() {
					t.Fatalf("%s %v more on a flap with %v of gum: area %v after %v", what, more, l.Envelope.Gum, o.Area(), now.Area())
				}
				return
			}
			if o.Area() >= now.Area() {
				t.Fatalf("%s %v more: area %v after %v", what, more, o.Area(), now.Area())
			}
			for _, p := range densified(o.Flatten(0.001), 1) {
				if d := before[0].distance(p); d > 0.005 && !inside(p, before) {
					t.Fatalf("%s %v more: %v is %v outside the liner as it was", what, more, p, d)
				}
			}
			compared[l.Envelope.Flap.Shape]++
		}
		wider, clearer, bordered, gummier := l.Clearances, l.Clearances, l.Clearances, l.Envelope
		wider.SideGap += more
		clearer.GumClearance += more
		grow("side gap", l.Envelope, wider)
		grow("gum clearance", l.Envelope, clearer)
		bordered.Border = l.Margin() + more
		grow("border", l.Envelope, bordered)
		if gummier.Gum > 0 {
			gummier.Gum += more
			grow("gum", gummier, l.Clearances)
		}
	})
	if len(compared) != 5 {
		t.Errorf("compared %v", compared)
	}
}

// A bleed is the outline's Minkowski sum with a disc: every point of its edge
// is exactly d from the outline, on the outside.
func TestABleedLiesItsDistanceOutsideTheOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLiner(t)
		o := l.Outline(drawDepth(t, l))
		d := rapid.Float64Range(0.5, 6).Draw(t, "bleed")
		cut, bleed := ring(o.Flatten(0.002)), ring(o.Bleed(d).Flatten(0.002))
		if end := bleed[len(bleed)-1]; end.Distance(bleed[0]) > 1e-6 {
			t.Fatalf("the bleed begins at %v and ends at %v", bleed[0], end)
		}
		for _, p := range densified(bleed, 1) {
			if off := cut.distance(p); math.Abs(off-d) > 0.02 {
				t.Fatalf("%v of the bleed is %.4f from the outline, want %.4f", p, off, d)
			}
			if inside(p, []ring{cut}) {
				t.Fatalf("%v of the bleed lies inside the outline", p)
			}
		}
		for _, p := range cut {
			if !inside(p, []ring{bleed}) {
				t.Fatalf("%v of the outline lies outside the bleed", p)
			}
		}
		if a, b, crossed := withoutRepeats(bleed).crossing(); crossed {
			t.Fatalf("the bleed crosses itself near %v and %v", a, b)
		}
	})
}

// withoutRepeats drops points within a micron of the one before: no blade cuts
// the loops that rounding may make there.
func withoutRepeats(points []geom.Point) ring {
	r := ring{points[0]}
	for _, p := range points[1:] {
		if p.Distance(r[len(r)-1]) > 1e-3 {
			r = append(r, p)
		}
	}
	if n := len(r) - 1; n > 0 && r[n] != r[0] { // the last point repeats the first
		if r[n].Distance(r[0]) < 1e-3 {
			r[n] = r[0]
		} else {
			r = append(r, r[0])
		}
	}
	return r
}

func toChain(p geom.Point, chain []geom.Point) float64 { return ring(chain).distance(p) }
