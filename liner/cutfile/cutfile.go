// Package cutfile writes what a home cutting machine needs of one sheet: cut
// lines, creases and registration marks at true size, in millimetres, each kind
// on a layer of its own. Lines and arcs are those of the geometry: nothing is
// flattened, and where one ends the next begins.
package cutfile

import (
	"fmt"
	"io"

	"underflap/liner/geom"
	"underflap/liner/sheet"
)

// Drawing is the lines of one sheet in page space: origin at the sheet's top
// left, y down, millimetres.
type Drawing struct {
	Title         string
	Width, Height float64 // of the sheet

	Cut          []geom.Contour // closed, one a liner
	Fold         []geom.Contour // of each liner the creases, from cut line to cut line
	Registration []geom.Contour // open, the middle of each mark's arms
}

// The layers' names.
const (
	cutLayer          = "cut"
	foldLayer         = "fold"
	registrationLayer = "registration"
)

// layer is lines of one kind.
type layer struct {
	name   string
	colour string // of its lines in SVG
	index  int    // of its lines in DXF, among the first seven colours of the AutoCAD Color Index
	lines  []geom.Contour
	closed bool
}

// layers are always all three, so that a machine's settings for them can be kept.
func (d Drawing) layers() []layer {
	return []layer{
		{cutLayer, "#000000", 7, d.Cut, true},
		{foldLayer, "#1b7a3d", 3, d.Fold, false},
		{registrationLayer, "#8a2f8f", 6, d.Registration, false},
	}
}

// Of is what is to be cut and creased of a plan's full sheet.
func Of(p sheet.Plan) Drawing {
	d := Drawing{Title: fmt.Sprintf("Cut lines of %d on %s", len(p.Placements), p.Paper.Short), Width: p.Paper.Width, Height: p.Paper.Height}
	for _, pl := range p.Placements {
		d.Cut = append(d.Cut, closed(p.CutLine(pl)))
		for _, crease := range p.Pieces[pl.Piece].Outline.Creases() {
			d.Fold = append(d.Fold, pl.OnPage(geom.Contour{crease}))
		}
	}
	for _, m := range p.CornerMarks() {
		d.Registration = append(d.Registration, geom.Contour{geom.Line(m.Level, m.At), geom.Line(m.At, m.Up)})
	}
	return d
}

// Formats are the kinds of file by their endings.
var Formats = []string{"dxf", "svg"}

// Write writes the drawing in one of the Formats. The same drawing gives the
// same bytes.
func (d Drawing) Write(w io.Writer, format string) error {
	if format == "dxf" {
		return d.dxf(w)
	}
	return d.svg(w)
}

// Past is how far, in millimetres, some cut line lies past the sheet's edge, where a
// machine would cut what is under the sheet.
func (d Drawing) Past() float64 {
	past := 0.0
	for _, c := range d.Cut {
		b := c.Bounds()
		past = max(past, -b.MinX, -b.MinY, b.MaxX-d.Width, b.MaxY-d.Height)
	}
	return past
}

// shortest is the length, in millimetres, below which a segment is rounding noise.
// What begins where it was left out moves by less than that.
const shortest = 1e-9

// closed is a contour each of whose segments begins at the very point where the
// one before ended, and the first where the last did.
func closed(c geom.Contour) geom.Contour {
	var out geom.Contour
	for _, s := range c {
		if len(out) > 0 {
			s.A = out[len(out)-1].B
		}
		if s.A.Distance(s.B) >= shortest { // an arc is at most half a turn, never all round
			out = append(out, s)
		}
	}
	out[len(out)-1].B = out[0].A
	return out
}
