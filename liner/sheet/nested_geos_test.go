package sheet_test

import (
	"fmt"
	"slices"
	"strconv"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/sheet"
	"underflap/pattern/draw/referee"
)

// The nested layout as the GEOS library sees it: geosop measures how far apart
// the placed cut lines are and whether the printable rectangle covers them. It
// knows no arcs, so it is given chords.

// Chords lie within this of their arcs, inside a bulge and outside a hollow. A
// distance of two outlines is off by twice as much at most, so that nothing is
// judged wrongly by more than a thousandth of a millimetre.
const chordsWithin = 0.0004

// field is wider than any sheet and gap.
const field = 1000.0

// sheetsForGEOS collects placed cut lines, each in a field of its own on one
// long strip, so that geosop is started twice and not thousands of times.
type sheetsForGEOS struct {
	names  []string
	gaps   []float64
	lines  []string // the cut lines
	shown  []string // the same without a hidden foot
	before []string // those placed earlier on the same sheet, in the line's field
	first  []bool   // none was
	rooms  []string // the printable rectangle, in every field
}

func (s *sheetsForGEOS) add(name string, p sheet.Plan) {
	for i, pl := range p.Placements {
		at := float64(len(s.lines)) * field
		s.names = append(s.names, fmt.Sprintf("%s: cut line %d of %d", name, i+1, p.PerSheet()))
		s.gaps, s.first = append(s.gaps, p.Gap), append(s.first, i == 0)
		s.lines = append(s.lines, "POLYGON"+ringAt(at, p.CutLine(pl)))
		shown := p.Liner.Outline(max(p.Depth-p.HiddenFoot, p.Liner.CornerRadius))
		s.shown = append(s.shown, "POLYGON"+ringAt(at, pl.OnPage(shown.Contour)))
		for _, other := range p.Placements[:i] {
			s.before = append(s.before, ringAt(at, p.CutLine(other)))
		}
		const digits = 1e-6 // what is written of a coordinate
		a, b := geom.Point{X: p.PrinterMargin - digits, Y: p.PrinterMargin - digits}, geom.Point{X: p.Paper.Width - p.PrinterMargin + digits, Y: p.Paper.Height - p.PrinterMargin + digits}
		c, d := geom.Point{X: b.X, Y: a.Y}, geom.Point{X: a.X, Y: b.Y}
		s.rooms = append(s.rooms, ringAt(at, geom.Contour{geom.Line(a, c), geom.Line(c, b), geom.Line(b, d), geom.Line(d, a)}))
	}
}

// ringAt is a closed contour moved right, as WKT's ring.
func ringAt(x float64, c geom.Contour) string {
	var b []byte
	for _, q := range c.Flatten(chordsWithin) {
		b = append(b, ',')
		b = strconv.AppendFloat(b, q.X+x, 'f', 7, 64)
		b = append(b, ' ')
		b = strconv.AppendFloat(b, q.Y, 'f', 7, 64)
	}
	return "((" + string(b[1:]) + "))"
}

func (s *sheetsForGEOS) judge(t *testing.T) {
	t.Helper()
	for i, said := range referee.GEOS(t, "coversPrep", s.rooms, s.shown) {
		if said != "true" {
			t.Errorf("%s leaves the printable area (%s)", s.names[i], said)
		}
	}
	least := 1.0
	for i, said := range referee.GEOS(t, "distancePrep", s.before, s.lines) {
		distance, err := strconv.ParseFloat(said, 64)
		if err != nil {
			t.Fatalf("geosop said %q", said)
		}
		if s.first[i] {
			continue // the nearest lies in another field
		}
		if distance < s.gaps[i]-0.001 {
			t.Errorf("%s is %v from another, want %v", s.names[i], distance, s.gaps[i])
		}
		least = min(least, distance-s.gaps[i])
	}
	t.Logf("%d cut lines; the nearest two are the gap and %.6f apart", len(s.lines), least)
}

// Two on a sheet, over the whole size table and the papers at hand: pointed and
// square flaps, and every shape for the commonest envelopes, settled among the
// ways that lie as deep.
func TestTwoNestedLinersLieWellAsGEOSMeasures(t *testing.T) {
	var all sheetsForGEOS
	for i, e := range liner.Entries() {
		shapes := []liner.Shape{liner.Pointed, liner.Square}
		common := slices.Contains(commonest, e.Trade[0])
		if common {
			shapes = liner.Shapes
		}
		for _, shape := range shapes {
			for _, paper := range papersAtHand(t) {
				task := usual(t, e, shape, paper)
				task.Gap, task.HiddenFoot, task.Layout = []float64{4, 0, 7}[i%3], []float64{0, 0, 0, 8}[i%4], sheet.Nested
				p, err := sheet.Arrange(task)
				if err != nil || p.PerSheet() != 2 {
					continue
				}
				if common { // which takes a while
					p, _ = p.Settle()
				}
				all.add(fmt.Sprintf("%s %s on %s", e.Name, shape, paper.Short), p)
			}
		}
	}
	all.judge(t)
	if len(all.lines) < 2*600 {
		t.Errorf("only %d cut lines were placed: the check hardly ran", len(all.lines))
	}
}

// Three to eleven on a sheet, and as many as fit: every one keeps the gap to all
// others.
func TestNestedRowsLieWellAsGEOSMeasures(t *testing.T) {
	var all sheetsForGEOS
	for _, name := range []string{"C7", "A1", "6 in square", "130 mm square"} {
		e, err := liner.LookUp(name)
		if err != nil {
			t.Fatal(err)
		}
		for i, paper := range papersAtHand(t) {
			for _, shape := range []liner.Shape{liner.Pointed, liner.Square, liner.Contour} {
				for n := 3; n <= 12; n++ {
					task := usual(t, e, shape, paper)
					task.Gap, task.HiddenFoot = []float64{4, 0, 7}[i%3], []float64{0, 0, 0, 8}[i%4]
					task.Layout, task.PerSheet = sheet.Nested, n
					if n == 12 {
						task.PerSheet = sheet.Most
					}
					p, err := sheet.Arrange(task)
					if err != nil {
						break // nor will more
					}
					all.add(fmt.Sprintf("%s %s on %s", e.Name, shape, paper.Short), p)
				}
			}
		}
	}
	all.judge(t)
	if len(all.lines) < 1000 {
		t.Errorf("only %d cut lines were placed: the check hardly ran", len(all.lines))
	}
}
