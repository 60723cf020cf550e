package sheet

import (
	"fmt"
	"strings"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// blank draws one sheet of outlines to trace: no artwork, the fold dashed all
// the way across, and in each piece the words that belong there.
func (p Plan) blank(marks Marks) *draw.Page {
	page := draw.NewPage(p.Paper.Width, p.Paper.Height)
	p.cut(page)
	page.Layer(draw.Fold, func(s *draw.Surface) {
		for _, pl := range p.Placements {
			o := p.Pieces[pl.Piece].Outline
			for x := o.Left + blankDash; x < o.Right-blankDash; x += 2 * blankDash {
				a, b := pl.page(geom.Point{X: x}), pl.page(geom.Point{X: min(x+blankDash, o.Right-blankDash)})
				var dash draw.Path
				dash.Move(a.X, a.Y)
				dash.Line(b.X, b.Y)
				s.Stroke(dash, marginColour, tickWidth)
			}
		}
	})
	page.Layer(draw.Notes, func(s *draw.Surface) {
		marks.draw(s)
		p.drawRegistration(s)
		for _, pl := range p.Placements {
			o := p.Pieces[pl.Piece].Outline
			mid := (o.Left + o.Right) / 2
			set := func(line string, y float64) {
				width := draw.Regular.Width(line, blankType)
				if width > 0.8*(o.Right-o.Left) {
					return
				}
				at := pl.page(geom.Point{X: mid - width/2, Y: y})
				s.Text(line, draw.Regular, blankType, draw.Translate(at.X, at.Y).After(draw.Turn(float64(pl.Turn))), marginColour)
			}
			if o.Bounds().MaxY > 4*blankType {
				set("flap part, glued", 1.2*blankType)
			}
			set("fold", -1.6*blankType)
			depth := p.Pieces[pl.Piece].Depth
			set("pocket part, slides loose", -depth/2)
			set(p.Pieces[pl.Piece].Name, -depth/2-1.6*blankType)
		}
	})
	return page
}

const (
	blankDash = 3.0 // and as long a gap
	blankType = 3.2
)

// adviseCraft says which craft sheets the template goes on, and how turned.
// Nobody prints on those, so that their whole area counts.
func (p *Plan) adviseCraft() {
	var said []string
	for _, paper := range liner.Papers() {
		if !paper.Craft() {
			continue
		}
		t := p.Task
		t.Paper, t.PrinterMargin, t.Gap, t.Registration = paper, 0, 0, Registration{}
		t.Liner.PocketDepth = p.Depth
		t.PerSheet, t.Count = Most, 0
		fits := "too small"
		n := layouts[""].wanted(t)
		switch got, ok := deeper(t, n); {
		case ok && n == 1:
			fits = "1 fits, " + lying(got.ways()[0])
		case ok:
			fits = fmt.Sprintf("%d fit, %s", n, lying(got.ways()[0]))
		}
		said = append(said, paper.Short+": "+fits)
	}
	p.advise("on craft sheets: " + strings.Join(said, "; "))
}

// lying says how pieces are turned on a sheet.
func lying(at []Placement) string {
	turns := map[int]bool{}
	for _, pl := range at {
		turns[pl.Turn] = true
	}
	switch {
	case len(turns) == 1 && turns[0]:
		return "upright"
	case len(turns) == 1 && (turns[90] || turns[270]):
		return "turned a quarter"
	case len(turns) == 2 && (turns[0] && turns[180] || turns[90] && turns[270]):
		return "head to tail"
	}
	return "some turned a quarter"
}
