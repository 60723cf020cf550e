package cutfile

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"underflap/liner/geom"
)

// stadium is two straight sides and two half turns, 40 by 20, on a sheet of 60 by
// 50; a speck of rounding noise stands for what exact geometry may leave.
func stadium() Drawing {
	p := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	line := geom.Contour{
		geom.Line(p(20, 10), p(40, 10)),
		geom.Line(p(40, 10), p(40+2e-13, 10)),
		geom.Arc(p(40+2e-13, 10), p(40, 30), p(40, 20), false),
		geom.Line(p(40, 30), p(20, 30)),
		geom.Arc(p(20, 30), p(20, 10), p(20, 20), false),
	}
	return Drawing{Title: "Stadium & marks", Width: 60, Height: 50, Cut: []geom.Contour{closed(line)},
		Fold:         []geom.Contour{{geom.Line(p(10, 20), p(50, 20))}},
		Registration: []geom.Contour{{geom.Line(p(15, 5), p(5, 5)), geom.Line(p(5, 5), p(5, 15))}}}
}

func written(t *testing.T, d Drawing, format string) string {
	t.Helper()
	var b bytes.Buffer
	if err := d.Write(&b, format); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestDXFByHand compares the entities with those that one writes down from the DXF
// Reference of release 12: y up, arcs anticlockwise, angles in degrees.
func TestDXFByHand(t *testing.T) {
	file := written(t, stadium(), "dxf")
	_, entities, _ := strings.Cut(file, "ENTITIES\n")
	got := strings.Fields(entities)
	want := strings.Fields(`
		0 LINE 8 cut 10 20.0 20 40.0 30 0.0 11 40.0 21 40.0 31 0.0
		0 ARC 8 cut 10 40.0 20 30.0 30 0.0 40 10.0 50 270.0 51 90.0
		0 LINE 8 cut 10 40.0 20 20.0 30 0.0 11 20.0 21 20.0 31 0.0
		0 ARC 8 cut 10 20.0 20 30.0 30 0.0 40 10.0 50 90.0 51 270.0
		0 LINE 8 fold 10 10.0 20 30.0 30 0.0 11 50.0 21 30.0 31 0.0
		0 LINE 8 registration 10 15.0 20 45.0 30 0.0 11 5.0 21 45.0 31 0.0
		0 LINE 8 registration 10 5.0 20 45.0 30 0.0 11 5.0 21 35.0 31 0.0
		0 ENDSEC 0 EOF`)
	if strings.Join(got, " ") != strings.Join(want, " ") {
		t.Errorf("entities\n%s\nwant\n%s", strings.Join(got, " "), strings.Join(want, " "))
	}
	if head := strings.Join(strings.Fields(file)[:22], " "); head != "0 SECTION 2 HEADER 9 $ACADVER 1 AC1009 9 $EXTMIN 10 5.0 20 20.0 30 0.0 9 $EXTMAX 10 50.0 20 45.0" {
		t.Errorf("the header begins %q", head)
	}
}

// TestSVGByHand compares paths with those that one writes down from SVG 1.1.
func TestSVGByHand(t *testing.T) {
	file := written(t, stadium(), "svg")
	at := func(degrees float64) string {
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		return plain(40+10*cos) + "," + plain(20+10*sin)
	}
	for _, want := range []string{
		`width="60mm" height="50mm" viewBox="0 0 60 50"`, `<title>Stadium &amp; marks</title>`,
		`M20,10 L40,10 A10,10 0 0 1 ` + at(0) + ` A10,10 0 0 1 40,30 L20,30 `, ` 20,10 Z"`,
		`<path d="M10,20 L50,20"/>`, `<path d="M15,5 L5,5 L5,15"/>`,
	} {
		if !strings.Contains(file, want) {
			t.Errorf("no %s in\n%s", want, file)
		}
	}
}

// TestPast measures what lies beyond the sheet.
func TestPast(t *testing.T) {
	d := stadium()
	if got := d.Past(); got != 0 {
		t.Errorf("on the sheet, yet %g past it", got)
	}
	d.Width = 47.5
	if got := d.Past(); math.Abs(got-2.5) > 1e-9 {
		t.Errorf("%g past the sheet, want 2.5", got)
	}
}

// TestPastTheLowerEdge measures on another side.
func TestPastTheLowerEdge(t *testing.T) {
	d := stadium()
	d.Width, d.Height = 90, 28.25
	if got := d.Past(); math.Abs(got-1.75) > 1e-9 {
		t.Errorf("%g past the sheet, want 1.75", got)
	}
}
