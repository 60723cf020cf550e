package liner_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/draw/referee"
)

// GEOS's buffer draws a quarter turn with eight chords and drops corners
// shallower than a hundredth of its distance (OffsetCurveBuilder's
// simplifyFactor and BufferParameters' quadrant segments; geosop takes neither
// as an argument). A disc is the Minkowski sum of many small ones, so the
// margin is taken off in this many steps and both faults shrink with the step.
//
// Each step's fine chords would make the next one drop a corner that two of
// them end in, and in sixteen steps lose 0.1 mm of it. So every step ends with
// a simplification (Douglas and Peucker's) that keeps within a small part of it.
const (
	steps    = 16
	simplest = "0.0003" // of a step
)

// erodedByGEOS gives, for each flap standing on a slab as wide as its foot, what
// GEOS leaves of it at the margin. The slab makes the fold no edge, and as
// flaps never overhang their foot, nothing above the fold has a place on the
// slab's sides nearer than the foot itself. Shapes are scaled so that one step
// is 1, which lets each step be one call for all of them.
func erodedByGEOS(t *testing.T, liners []liner.Liner) [][]ring {
	var wkt strings.Builder
	for _, l := range liners {
		k := steps / l.Margin()
		flap := geom.Contour(l.FlapProfile()).Flatten(0.0005)
		left, right := flap[0], flap[len(flap)-1]
		const deep = 60.0
		slab := []geom.Point{{X: right.X, Y: -deep}, {X: left.X, Y: -deep}}
		wkt.WriteString(polygonWKT(append(slab, flap...), k) + "\n")
	}
	shapes := []byte(wkt.String())
	for range steps {
		shapes = referee.RunInput(t, shapes, "geosop", "-a", "stdin", "-f", "wkt", "-p", "9", "buffer", "N-1")
		shapes = referee.RunInput(t, shapes, "geosop", "-a", "stdin", "-f", "wkt", "-p", "9", "simplifyDP", simplest)
	}
	lines := nonEmptyLines(string(shapes))
	if len(lines) != len(liners) {
		t.Fatalf("geosop answered %d shapes for %d flaps", len(lines), len(liners))
	}
	var all [][]ring
	for i, line := range lines {
		all = append(all, ringsOf(t, line, liners[i].Margin()/steps))
	}
	return all
}

// The flap part is the flap eroded by the margin (the design's definition),
// between the side gaps and above the fold. GEOS 3.11 does the erosion.
func TestTheFlapPartOfEveryRowIsTheFlapErodedAsGEOSErodesIt(t *testing.T) {
	t.Parallel()
	if n := compareWithGEOS(t, tableLiners(t)); n[liner.Contour] < 60 || n["eased"] < 20 {
		t.Errorf("too few were compared: %v", n)
	}
}

func TestTheFlapPartOfAnyFlapIsTheFlapErodedAsGEOSErodesIt(t *testing.T) {
	t.Parallel()
	const random = 400
	var liners []liner.Liner
	s := seeded(rand.New(rand.NewPCG(1, 2)))
	for tries := 0; len(liners) < random; tries++ {
		if tries > 10*random {
			t.Fatalf("only %d random flaps in %d tries were accepted", len(liners), tries)
		}
		row := anyLining(s)
		if f := &row.envelope.Flap; f.Shape == liner.Traced {
			*f = liner.TracedFlap(anyTrace(s, row.envelope.Width, f.Depth, true))
		}
		if l, err := liner.New(row.envelope, row.clearances); err == nil {
			liners = append(liners, l)
		}
	}
	n := compareWithGEOS(t, liners)
	for _, kind := range slices.Concat(liner.Shapes, []liner.Shape{liner.Traced, "eased", "hollow corners"}) {
		if n[kind] < 40 {
			t.Errorf("too few %s were compared: %v", kind, n)
		}
	}
}

// compareWithGEOS counts what it compared by shape and by what is special
// about a flap.
func compareWithGEOS(t *testing.T, liners []liner.Liner) map[liner.Shape]int {
	const tolerance = 0.02
	n, worst := map[liner.Shape]int{}, 0.0
	for i, eroded := range erodedByGEOS(t, liners) {
		l := liners[i]
		f := l.Envelope.Flap
		n[f.Shape]++
		if f.Shape != liner.Contour && f.Shape != liner.Traced && hollow(l.FlapProfile()) {
			n["hollow corners"]++
		}
		if f.CornerRadius > 0 && f.Shape != liner.Square {
			n["eased"]++
		}
		off, where := flapPartOff(l, eroded)
		worst = max(worst, off)
		if off > tolerance {
			t.Errorf("%s: flap part is %.3f mm off at %.3f (flap %+v, pocket %.2f x %.2f, margin %.2f, side gap %.2f)",
				l.Envelope.Name, off, where, f, l.Envelope.Width, l.Envelope.Height, l.Margin(), l.SideGap)
		}
	}
	t.Logf("compared %v; worst %.4f mm", n, worst)
	return n
}

// flapPartOff is the greatest distance between our flap part and GEOS's, both
// ways, and where it occurs.
func flapPartOff(l liner.Liner, eroded []ring) (off float64, where geom.Point) {
	note := func(d float64, p geom.Point) {
		if d > off {
			off, where = d, p
		}
	}
	const tiny = 1e-6
	left, right := l.SideGap, l.Envelope.Width-l.SideGap
	our := ring(l.Outline(l.FullPocketDepth()).Flatten(0.001))
	step := max(0.4, l.Envelope.Width/600) // giants coarsely
	// what GEOS keeps inside the band and above the fold is on our edge
	for _, theirs := range eroded {
		for _, p := range densified(theirs, step) {
			if p.X > left && p.X < right && p.Y > tiny {
				note(our.distance(p), p)
			}
		}
	}
	// our edge is on theirs, or along a side gap or the fold, inside theirs
	for _, p := range densified(our, step) {
		if p.Y <= tiny {
			continue
		}
		if beside := min(p.X-left, right-p.X) < tiny; beside && inside(p, eroded) {
			continue
		}
		d := math.Inf(1)
		for _, theirs := range eroded {
			d = min(d, theirs.distance(p))
		}
		note(d, p)
	}
	return off, where
}

// hollow tells whether a profile turns left somewhere above the fold.
func hollow(p geom.Profile) bool {
	points := geom.Contour(p).Flatten(0.01)
	for i := 2; i < len(points); i++ {
		a, b, c := points[i-2], points[i-1], points[i]
		if (b.X-a.X)*(c.Y-b.Y)-(b.Y-a.Y)*(c.X-b.X) > 1e-6 {
			return true
		}
	}
	return false
}

func polygonWKT(points []geom.Point, scale float64) string {
	var b strings.Builder
	b.WriteString("POLYGON((")
	for _, p := range append(points, points[0]) {
		if b.Len() > len("POLYGON((") {
			b.WriteString(",")
		}
		fmt.Fprintf(&b, "%.9f %.9f", p.X*scale, p.Y*scale)
	}
	return b.String() + "))"
}

// ringsOf reads the rings of a WKT polygon or multipolygon.
func ringsOf(t *testing.T, wkt string, scale float64) []ring {
	var rings []ring
	for _, part := range strings.FieldsFunc(wkt, func(r rune) bool { return r == '(' || r == ')' }) {
		if !strings.ContainsAny(part, "0123456789") {
			continue
		}
		var points ring
		for _, pair := range strings.Split(part, ",") {
			xy := strings.Fields(pair)
			if len(xy) != 2 {
				t.Fatalf("not a point of WKT: %q", pair)
			}
			x, errX := strconv.ParseFloat(xy[0], 64)
			y, errY := strconv.ParseFloat(xy[1], 64)
			if errX != nil || errY != nil {
				t.Fatalf("not a point of WKT: %q", pair)
			}
			points = append(points, geom.Point{X: x * scale, Y: y * scale})
		}
		rings = append(rings, points)
	}
	return rings
}

func nonEmptyLines(s string) []string {
	return strings.FieldsFunc(s, func(r rune) bool { return r == '\n' })
}
