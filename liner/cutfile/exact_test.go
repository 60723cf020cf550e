package cutfile

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"underflap/liner/geom"
)

// TestContoursOfADXFCloseToTheLastDigit works out from a file's own numbers where
// each line and arc ends (an arc by middle, radius and angle): there the next one
// begins, within a nanometre, also after noise at a contour's end.
func TestContoursOfADXFCloseToTheLastDigit(t *testing.T) {
	p := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	c, r := p(41.3/3, 100.0/7), math.Sqrt(733)
	at := func(degrees float64) geom.Point {
		return p(c.X+r*math.Cos(degrees*math.Pi/180), c.Y+r*math.Sin(degrees*math.Pi/180))
	}
	a, b, d := at(10.1/3), at(50.7), at(140.0/3*2)
	start := p(11.1/7, 22.2/7)
	d2 := geom.Contour{geom.Line(start, a), geom.Arc(a, b, c, false), geom.Arc(b, d, c, false), geom.Line(d, p(start.X+4e-10, start.Y))}
	exact := closed(d2)
	if exact[len(exact)-1].B != exact[0].A {
		t.Errorf("ends at %v and began at %v", exact[len(exact)-1].B, exact[0].A)
	}
	file := written(t, Drawing{Width: 90, Height: 90, Cut: []geom.Contour{exact}}, "dxf")
	_, entities, _ := strings.Cut(file, "ENTITIES\n")
	words := strings.Fields(entities)
	type entity map[string]float64
	var all []entity
	for i := 0; i+1 < len(words); i += 2 {
		switch v, err := strconv.ParseFloat(words[i+1], 64); {
		case words[i] == "0":
			all = append(all, entity{})
		case err == nil:
			all[len(all)-1][words[i]] = v
		}
	}
	ends := func(e entity) (one, other geom.Point) {
		if e["40"] == 0 {
			return p(e["10"], e["20"]), p(e["11"], e["21"])
		}
		on := func(degrees float64) geom.Point {
			return p(e["10"]+e["40"]*math.Cos(degrees*math.Pi/180), e["20"]+e["40"]*math.Sin(degrees*math.Pi/180))
		}
		return on(e["50"]), on(e["51"])
	}
	all = all[:len(exact)]
	for i, e := range all {
		a1, a2 := ends(e)
		b1, b2 := ends(all[(i+1)%len(all)])
		if gap := min(a1.Distance(b1), a1.Distance(b2), a2.Distance(b1), a2.Distance(b2)); gap > 1e-9 {
			t.Errorf("%g mm between segment %d and the next", gap, i)
		}
	}
}
