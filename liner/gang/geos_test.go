package gang_test

import (
	"fmt"
	"math/rand/v2"
	"strconv"
	"testing"

	"underflap/liner"
	"underflap/liner/gang"
	"underflap/liner/geom"
	"underflap/pattern/draw/referee"
)

// Shared sheets as the GEOS library sees them: geosop measures how far apart the
// placed cut lines are, and whether the printable rectangle covers them. It knows
// no arcs, so it is given chords, within chordsWithin of them; every cut line
// lies in a field of its own, on one long strip, with those before it on its
// sheet.
const (
	chordsWithin = 0.0004
	field        = 1000.0
)

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

func TestSharedSheetsLieWellAsGEOSMeasures(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	var rooms, cuts, before, names []string
	var first []bool
	shared := 0
	add := func(s gang.Sheet) {
		p := s.Plan
		if len(s.Lines) > 1 {
			shared++
		}
		for i, pl := range p.Placements {
			at := float64(len(cuts)) * field
			cuts = append(cuts, "POLYGON"+ringAt(at, p.CutLine(pl)))
			names = append(names, fmt.Sprintf("line %d on a sheet of %v", s.Lines[pl.Piece], s.Lines))
			first = append(first, i == 0)
			for _, other := range p.Placements[:i] {
				before = append(before, ringAt(at, p.CutLine(other)))
			}
			const digits = 1e-6 // what is written of a coordinate
			m := p.PrinterMargin - digits
			a, b := geom.Point{X: m, Y: m}, geom.Point{X: p.Paper.Width - m, Y: p.Paper.Height - m}
			c, d := geom.Point{X: b.X, Y: a.Y}, geom.Point{X: a.X, Y: b.Y}
			rooms = append(rooms, ringAt(at, geom.Contour{geom.Line(a, c), geom.Line(c, b), geom.Line(b, d), geom.Line(d, a)}))
		}
	}
	for i := range 36 {
		var wishes []wish
		for range 2 + r.IntN(4) {
			wishes = append(wishes, wish{envelopes[r.IntN(len(envelopes))], liner.Shapes[r.IntN(len(liner.Shapes))], 1 + r.IntN(12), 0, ""})
		}
		of := lines(t, []string{"A4", "Letter", "A3", "12x12in"}[i%4], wishes...)
		for _, s := range share(t, of) {
			add(s)
		}
	}
	for i, said := range referee.GEOS(t, "coversPrep", rooms, cuts) {
		if said != "true" {
			t.Errorf("%s leaves the printable area", names[i])
		}
	}
	const gap = 4.0
	least := 1.0
	for i, said := range referee.GEOS(t, "distancePrep", before, cuts) {
		distance, err := strconv.ParseFloat(said, 64)
		if err != nil {
			t.Fatalf("geosop said %q", said)
		}
		if first[i] {
			continue // the nearest lies in another field
		}
		if distance < gap-2*chordsWithin-1e-6 {
			t.Errorf("%s is %v from another, want %v", names[i], distance, gap)
		}
		least = min(least, distance-gap)
	}
	t.Logf("%d cut lines on %d shared sheets and others; the nearest two are the gap and %.6f apart", len(cuts), shared, least)
	if shared < 25 {
		t.Errorf("only %d sheets were shared: the check hardly ran", shared)
	}
}
