package sheet

import (
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// outlinePath is a contour as a drawing path; the contour is in the space that
// is drawn in.
func outlinePath(c geom.Contour) draw.Path {
	var p draw.Path
	p.Move(c[0].A.X, c[0].A.Y)
	for i, s := range c {
		switch {
		case s.R != 0:
			// y runs down here, so anticlockwise of geom is a positive turn
			p.Arc(draw.Point{X: s.C.X, Y: s.C.Y}, s.Sweep())
		case i < len(c)-1: // the last straight one is the closing line
			p.Line(s.B.X, s.B.Y)
		}
	}
	p.Close()
	return p
}

func rect(b geom.Box) draw.Rect {
	return draw.Rect{MinX: b.MinX, MinY: b.MinY, MaxX: b.MaxX, MaxY: b.MaxY}
}

// art is the map from the space patterns draw in, whose origin is the middle
// of the fold with y down, to the page.
func (pl Placement) art(pocketWidth float64) draw.Matrix {
	return draw.Translate(pl.DX, pl.DY).After(draw.Turn(float64(pl.Turn))).After(draw.Translate(pocketWidth/2, 0))
}

// artContour carries a liner-space contour into the space patterns draw in.
func artContour(c geom.Contour, pocketWidth float64) geom.Contour {
	return c.Map(func(q geom.Point) geom.Point { return geom.Point{X: q.X - pocketWidth/2, Y: -q.Y} }, true)
}

// CutPath is the placed outline on the page, to draw.
func (p Plan) CutPath(pl Placement) draw.Path { return outlinePath(p.CutLine(pl)) }

// FoldLine is where the fold of a placed piece lies on the page, from the liner's
// left side to its right one.
func (p Plan) FoldLine(pl Placement) (a, b draw.Point) {
	o := p.Pieces[pl.Piece].Outline
	left, right := pl.page(geom.Point{X: o.Left}), pl.page(geom.Point{X: o.Right})
	return draw.Point{X: left.X, Y: left.Y}, draw.Point{X: right.X, Y: right.Y}
}

// PocketMiddle is the middle of a placed piece's pocket part, on the page.
func (p Plan) PocketMiddle(pl Placement) draw.Point {
	piece := p.Pieces[pl.Piece]
	q := pl.page(geom.Point{X: (piece.Outline.Left + piece.Outline.Right) / 2, Y: -piece.Depth / 2})
	return draw.Point{X: q.X, Y: q.Y}
}
