package template_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/handmade"
	"underflap/liner/handmade/template"
	"underflap/pattern/words"
)

// Whatever the sheet, the paper and its margin: every point of the cut line
// and of the folds lies on a page, where the printer prints or, where the paper
// is the sheet, on the paper; lengths are kept; and pages that meet show
// 10 mm of the same.
func TestPagesCoverTheWholeOutlineAndOverlap(t *testing.T) {
	tiled, turned, refused := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Custom(func(t *rapid.T) float64 {
			return rapid.OneOf(rapid.Float64Range(90, 700), rapid.SampledFrom([]float64{148, 190, 200, 210, 215.9, 279.4, 297, 304.8})).Draw(t, "side")
		})
		b := cross(side.Draw(t, "width"), side.Draw(t, "height"))
		paper := liner.Paper{Short: "drawn", Width: side.Draw(t, "paper width"), Height: side.Draw(t, "paper height")}
		margin := rapid.Float64Range(0, 15).Draw(t, "margin")
		l, err := template.Lay(b, paper, margin)
		if err != nil {
			var r *words.Refused
			if !errors.As(err, &r) || r.Field != "paper" {
				t.Fatal(err)
			}
			refused++
			return
		}
		if len(l.Tiles) != l.Rows*l.Columns {
			t.Fatalf("%d tiles, %d rows, %d columns", len(l.Tiles), l.Rows, l.Columns)
		}
		if len(l.Tiles) > 1 {
			tiled++
		}
		width, height := b.Sheet.Width, b.Sheet.Height
		if l.Turned {
			turned++
			width, height = height, width
		}
		// the part of a page that counts
		good := geom.Box{MinX: margin, MinY: margin, MaxX: paper.Width - margin, MaxY: paper.Height - margin}
		if math.Abs(width-paper.Width) <= 0.05 {
			good.MinX, good.MaxX = 0, paper.Width
		}
		if math.Abs(height-paper.Height) <= 0.05 {
			good.MinY, good.MaxY = 0, paper.Height
		}
		good = good.Grow(0.05)
		look := func(a, z geom.Point) {
			steps := int(a.Distance(z)/2) + 1
			for i := range steps + 1 {
				k := float64(i) / float64(steps)
				p := geom.Point{X: a.X + (z.X-a.X)*k, Y: a.Y + (z.Y-a.Y)*k}
				seen := false
				for _, tile := range l.Tiles {
					q, laid := l.OnPage(tile, p), l.Laid(p)
					w := tile.Window.Grow(1e-6)
					if laid.X >= w.MinX && laid.X <= w.MaxX && laid.Y >= w.MinY && laid.Y <= w.MaxY &&
						q.X >= good.MinX && q.X <= good.MaxX && q.Y >= good.MinY && q.Y <= good.MaxY {
						seen = true
					}
				}
				if !seen {
					t.Fatalf("%v is on no page of %+v", p, l)
				}
			}
			if d := l.OnPage(l.Tiles[0], a).Distance(l.OnPage(l.Tiles[0], z)); math.Abs(d-a.Distance(z)) > 1e-9 {
				t.Fatalf("%v becomes %v", a.Distance(z), d)
			}
		}
		for i, p := range b.Outline {
			look(p, b.Outline[(i+1)%len(b.Outline)])
		}
		for _, p := range b.Panels[1:] {
			look(p.Fold.A, p.Fold.B)
		}
		for i, tile := range l.Tiles {
			if tile.Column < l.Columns {
				if o := tile.Window.MaxX - l.Tiles[i+1].Window.MinX; math.Abs(o-template.Overlap) > 1e-9 {
					t.Errorf("columns overlap by %v", o)
				}
			}
			if tile.Row < l.Rows {
				if o := tile.Window.MaxY - l.Tiles[i+l.Columns].Window.MinY; math.Abs(o-template.Overlap) > 1e-9 {
					t.Errorf("rows overlap by %v", o)
				}
			}
			// all that a page shows inside a border it was parted by is printed
			if tile.Window.Width() > paper.Width+0.05 || tile.Window.Height() > paper.Height+0.05 {
				t.Errorf("a page of %v × %v shows %v", paper.Width, paper.Height, tile.Window)
			}
		}
	})
	t.Log(tiled, "joined", turned, "turned", refused, "refused")
	if tiled < 10 || turned < 5 {
		t.Errorf("%d joined and %d turned: the check hardly ran", tiled, turned)
	}
}

// A sheet that is the paper lies on it edge on edge; a smaller one inside the
// margin; a larger one is parted.
func TestASheetThatIsThePaperIsOnePageEdgeOnEdge(t *testing.T) {
	for name, c := range map[string]struct {
		sheet      [2]float64
		paper      string
		rows       int
		columns    int
		turned     bool
		edgeOnEdge bool
	}{
		"A4 on A4":                 {[2]float64{210, 297}, "a4", 1, 1, false, true},
		"A4 less a hair":           {[2]float64{209.97, 297.03}, "a4", 1, 1, false, true},
		"Letter on Letter":         {[2]float64{215.9, 279.4}, "letter", 1, 1, false, true},
		"A4 lying on A4":           {[2]float64{297, 210}, "a4", 1, 1, true, true},
		"the printable part of A4": {[2]float64{200, 287}, "a4", 1, 1, false, false},
		"small on A4":              {[2]float64{150, 150}, "a4", 1, 1, false, false},
		"lying on A4":              {[2]float64{280, 150}, "a4", 1, 1, true, false},
		"A3 on A4":                 {[2]float64{297, 420}, "a4", 1, 3, true, false}, // as wide as A4 is long
		"12 in on A4":              {[2]float64{304.8, 304.8}, "a4", 2, 2, false, false},
		"A4 on A3":                 {[2]float64{210, 297}, "a3", 1, 1, false, false},
	} {
		b := cross(c.sheet[0], c.sheet[1])
		l, err := template.Lay(b, paper(t, c.paper), 5)
		if err != nil {
			t.Fatal(err)
		}
		if l.Rows != c.rows || l.Columns != c.columns || l.Turned != c.turned {
			t.Errorf("%s: %d rows, %d columns, turned %v", name, l.Rows, l.Columns, l.Turned)
		}
		corner := l.OnPage(l.Tiles[0], geom.Point{})
		if l.Turned { // anticlockwise: the sheet's top left comes to lie at the bottom left
			corner.Y = l.Paper.Height - corner.Y
		}
		if onEdge := math.Hypot(corner.X, corner.Y) < 0.05; onEdge != c.edgeOnEdge {
			t.Errorf("%s: the sheet's corner lies at %v", name, corner)
		}
	}
}

func TestPaperTooSmallForATemplateIsRefused(t *testing.T) {
	for _, small := range []liner.Paper{{Short: "50 × 50 mm", Width: 50, Height: 50}, {Short: "80 × 80 mm", Width: 80, Height: 80}, {Short: "70 × 300 mm", Width: 70, Height: 300}} {
		for name, b := range map[string]handmade.Blank{"cross": cross(420, 594), "diamond": diamond(300)} {
			pages, err := template.Pages(b, small, 6)
			var refused *words.Refused
			if !errors.As(err, &refused) || refused.Field != "paper" || refused.Given != small.Short || pages != nil {
				t.Errorf("%s on %s: %d pages, %v", name, small.Short, len(pages), err)
			}
		}
	}
}
