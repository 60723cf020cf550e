package cutfile

import (
	"bufio"
	"fmt"
	"io"
	"math"

	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// digits are the decimals of millimetres and degrees. An arc's end is worked out
// from its middle, radius and angle: so many keep it within 1e-10 mm of the line
// that begins there.
const digits = 12

// dxf writes release 12 of the Drawing Exchange Format in text, AC1009, which
// Autodesk publishes (AutoCAD Release 12 Customization Manual, "Drawing
// Interchange File Formats") and every program reads: a header, a table of layers,
// and LINE and ARC entities, y up, origin at the sheet's lower left. Its header
// has no word for the unit.
func (d Drawing) dxf(w io.Writer) error {
	out := &pairs{to: bufio.NewWriter(w)}
	out.text(0, "SECTION", 2, "HEADER")
	out.text(9, "$ACADVER", 1, "AC1009")
	box := d.extent()
	out.text(9, "$EXTMIN")
	out.at(10, box.MinX, box.MinY)
	out.text(9, "$EXTMAX")
	out.at(10, box.MaxX, box.MaxY)
	out.text(9, "$LIMMIN")
	out.number(10, 0)
	out.number(20, 0)
	out.text(9, "$LIMMAX")
	out.number(10, d.Width)
	out.number(20, d.Height)
	out.text(9, "$LUNITS", 70, "2") // decimal, no feet and inches
	out.text(0, "ENDSEC")

	out.text(0, "SECTION", 2, "TABLES")
	out.text(0, "TABLE", 2, "LTYPE", 70, "1", 0, "LTYPE", 2, "CONTINUOUS", 70, "0", 3, "Solid line", 72, "65", 73, "0")
	out.number(40, 0)
	out.text(0, "ENDTAB", 0, "TABLE", 2, "LAYER", 70, fmt.Sprint(1+len(d.layers())))
	out.text(0, "LAYER", 2, "0", 70, "0", 62, "7", 6, "CONTINUOUS")
	for _, l := range d.layers() {
		out.text(0, "LAYER", 2, l.name, 70, "0", 62, fmt.Sprint(l.index), 6, "CONTINUOUS")
	}
	out.text(0, "ENDTAB", 0, "ENDSEC")

	out.text(0, "SECTION", 2, "ENTITIES")
	for _, l := range d.layers() {
		for _, c := range l.lines {
			for _, s := range d.up(c) {
				out.segment(l.name, s)
			}
		}
	}
	out.text(0, "ENDSEC", 0, "EOF")
	if out.err != nil {
		return out.err
	}
	return out.to.Flush()
}

// up stands a contour of the page on its feet: y up from the sheet's lower edge.
func (d Drawing) up(c geom.Contour) geom.Contour {
	return c.Map(func(p geom.Point) geom.Point { return geom.Point{X: p.X, Y: d.Height - p.Y} }, true)
}

// extent is the box around all lines.
func (d Drawing) extent() geom.Box {
	box := geom.Box{MinX: math.Inf(1), MinY: math.Inf(1), MaxX: math.Inf(-1), MaxY: math.Inf(-1)}
	for _, l := range d.layers() {
		for _, c := range l.lines {
			box = box.Union(d.up(c).Bounds())
		}
	}
	return box
}

// pairs writes groups: a code on one line, what it stands for on the next.
type pairs struct {
	to  *bufio.Writer
	err error
}

// text writes codes and words in turn.
func (p *pairs) text(all ...any) {
	for i := 0; i+1 < len(all) && p.err == nil; i += 2 {
		_, p.err = fmt.Fprintf(p.to, "%3d\n%s\n", all[i], all[i+1])
	}
}

func (p *pairs) number(code int, v float64) { p.text(code, real(v)) }

// at writes a point from the code of its x on; z is 0.
func (p *pairs) at(code int, x, y float64) {
	p.number(code, x)
	p.number(code+10, y)
	p.number(code+20, 0)
}

// segment writes a line or an arc, which always runs anticlockwise.
func (p *pairs) segment(layer string, s geom.Segment) {
	if s.R == 0 {
		p.text(0, "LINE", 8, layer)
		p.at(10, s.A.X, s.A.Y)
		p.at(11, s.B.X, s.B.Y)
		return
	}
	if s.CW {
		s = s.Reversed()
	}
	p.text(0, "ARC", 8, layer)
	p.at(10, s.C.X, s.C.Y)
	p.number(40, s.R)
	p.number(50, angle(s.C, s.A))
	p.number(51, angle(s.C, s.B))
}

// angle is the direction from c to p in degrees from 0 to 360.
func angle(c, p geom.Point) float64 {
	a := math.Atan2(p.Y-c.Y, p.X-c.X) * 180 / math.Pi
	if a < 0 {
		a += 360
	}
	return a
}

// real is a number that programs know for one that is not whole.
func real(v float64) string {
	s := draw.Decimals(v, digits)
	for _, r := range s {
		if r == '.' {
			return s
		}
	}
	return s + ".0"
}
