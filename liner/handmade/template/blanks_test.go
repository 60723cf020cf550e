package template_test

import (
	"math"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/handmade"
	"underflap/liner/handmade/template"
	"underflap/pattern/draw"
)

// cross is a made-up blank on a sheet of its own size: a panel with a flap, a
// bottom panel and two side flaps, its cut lines slanted by amounts of no
// meaning.
func cross(width, height float64) handmade.Blank {
	l, r, top, low := width*0.17, width*0.83, height*0.25, height*0.6
	p := func(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }
	flap := []geom.Point{p(l, top), p(l+4, 0), p(r-4, 0), p(r, top)}
	right := []geom.Point{p(r, top), p(width, top+3), p(width, low-3), p(r, low)}
	bottom := []geom.Point{p(r, low), p(r-2, height-6), p(l+2, height-6), p(l, low)}
	left := []geom.Point{p(l, low), p(0, low-3), p(0, top+3), p(l, top)}
	b := handmade.Blank{Job: handmade.Job{Construction: handmade.TwoPanel, Width: r - l, Height: low - top,
		Sheet: liner.Paper{Short: "made up", Width: width, Height: height}}}
	for _, shape := range [][]geom.Point{flap, right, bottom, left} {
		b.Outline = append(b.Outline, shape[:3]...)
	}
	fold := func(name string, shape []geom.Point) handmade.Panel {
		return handmade.Panel{Name: name, Shape: shape, Fold: &handmade.Fold{Name: name + " fold", A: shape[0], B: shape[3]}}
	}
	b.Panels = []handmade.Panel{{Name: "panel", Shape: []geom.Point{p(l, top), p(r, top), p(r, low), p(l, low)}},
		fold("left side flap", left), fold("right side flap", right), fold("bottom panel", bottom), fold("flap", flap)}
	b.CutAway = []handmade.Piece{
		{Name: "corner", Shape: []geom.Point{p(0, 0), p(l+4, 0), p(l, top), p(0, top+3)}},
		{Name: "corner", Shape: []geom.Point{p(r-4, 0), p(width, 0), p(width, top+3), p(r, top)}},
	}
	b.Glue = []handmade.Piece{{Name: "glue", Shape: []geom.Point{p(l+3, low+4), p(l+18, low+5), p(l+19, height-10), p(l+3, height-9)}}}
	b.Measures = []handmade.Measure{{Name: "panel, width", MM: r - l}, {Name: "panel, height", MM: low - top}, {Name: "flap, depth", MM: top}}
	return b
}

// diamond is a made-up blank whose folds run at 30 and 120 degrees.
func diamond(side float64) handmade.Blank {
	sheet := liner.Paper{Short: "made up", Width: side, Height: side}
	outline := []geom.Point{{X: 0, Y: 0}, {X: side, Y: 0}, {X: side, Y: side}, {X: 0, Y: side}}
	c, k := side/2, side/2*0.62
	at := func(degrees float64) geom.Point {
		sin, cos := math.Sincos(degrees * math.Pi / 180)
		return geom.Point{X: c + k*cos*1.1, Y: c + k*sin*1.1}
	}
	q := []geom.Point{at(-20), at(80), at(160), at(260)}
	b := handmade.Blank{Job: handmade.Job{Construction: handmade.FourCorner, Width: q[0].Distance(q[1]), Height: q[1].Distance(q[2]), Sheet: sheet}, Outline: outline}
	b.Panels = []handmade.Panel{{Name: "panel", Shape: q}}
	for i, name := range []string{"side flap", "bottom flap", "other side flap", "flap"} {
		a, z := q[i], q[(i+1)%4]
		out := outline[[]int{2, 3, 0, 1}[i]]
		b.Panels = append(b.Panels, handmade.Panel{Name: name, Shape: []geom.Point{a, out, z}, Fold: &handmade.Fold{Name: name + " fold", A: a, B: z}})
	}
	b.Glue = []handmade.Piece{{Name: "glue", Shape: []geom.Point{{X: side - 60, Y: side - 25}, {X: side - 5, Y: side - 25}, {X: side - 5, Y: side - 5}, {X: side - 60, Y: side - 5}}}}
	b.Measures = []handmade.Measure{{Name: "square, side", MM: side}}
	return b
}

// job makes a blank by the project's own rules.
func job(t testing.TB, construction handmade.Construction, width, height float64, sheet string) handmade.Blank {
	t.Helper()
	b, err := handmade.New(handmade.Job{Construction: construction, Width: width, Height: height, Sheet: paper(t, sheet)})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func paper(t testing.TB, name string) liner.Paper {
	t.Helper()
	p, err := liner.ParsePaper("paper", name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// sketch is a case and what is drawn of it.
type sketch struct {
	blank  handmade.Blank
	paper  liner.Paper
	margin float64
	layout template.Layout
	pages  []*draw.Page
}

var drawn map[string]sketch

// sketches are drawn once for all tests.
func sketches(t testing.TB) map[string]sketch {
	t.Helper()
	if drawn != nil {
		return drawn
	}
	all := cases(t)
	for name, c := range all {
		var err error
		if c.layout, err = template.Lay(c.blank, c.paper, c.margin); err != nil {
			t.Fatal(err)
		}
		if c.pages, err = template.Pages(c.blank, c.paper, c.margin); err != nil {
			t.Fatal(err)
		}
		all[name] = c
	}
	drawn = all
	return drawn
}

func cases(t testing.TB) map[string]sketch {
	of := func(b handmade.Blank, p string, margin float64) sketch {
		return sketch{blank: b, paper: paper(t, p), margin: margin}
	}
	return map[string]sketch{
		"made up, A4 is the sheet":           of(cross(210, 297), "a4", 5),
		"made up, beside room on A4":         of(cross(150, 220), "a4", 5),
		"made up, joined from A4":            of(cross(260, 340), "a4", 5),
		"made up, as wide as A4 and longer":  of(cross(210, 400), "a4", 7),
		"made up, turned on A4":              of(cross(260, 190), "a4", 5),
		"made up, slanted, joined from A4":   of(diamond(304.8), "a4", 5),
		"two-panel, A4 is the sheet":         of(job(t, handmade.TwoPanel, 160, 115, "a4"), "a4", 5),
		"two-panel from A3, joined from A4":  of(job(t, handmade.TwoPanel, 230, 162, "a3"), "a4", 5),
		"four-corner, Letter is the sheet":   of(job(t, handmade.FourCorner, 160, 115, "letter"), "letter", 6.35),
		"four-corner from 12 in, on A4":      of(job(t, handmade.FourCorner, 184, 133, "12x12in"), "a4", 5),
		"four-corner from 8 in, joined A5":   of(job(t, handmade.FourCorner, 140, 100, "8x8in"), "a5", 5),
		"four-corner from 12 in, on A3":      of(job(t, handmade.FourCorner, 184, 133, "12x12in"), "a3", 5),
		"two-panel from B5, on Letter":       of(job(t, handmade.TwoPanel, 130, 95, "b5"), "letter", 5),
		"two-panel from A4, joined from 6in": of(job(t, handmade.TwoPanel, 160, 115, "a4"), "6x6in", 4),
	}
}

// texts are the lines of a page, each as the four corners of its letters' box.
func texts(page *draw.Page) (said []string, boxes [][]geom.Point) {
	collect(page.Nodes(), draw.Identity, func(n draw.Node, at draw.Matrix) {
		text, ok := n.(*draw.Text)
		if !ok {
			return
		}
		b := text.Font.Outlines(text.String, text.Size).Bounds()
		m := at.After(text.At)
		var box []geom.Point
		for _, p := range []draw.Point{{X: b.MinX, Y: b.MinY}, {X: b.MaxX, Y: b.MinY}, {X: b.MaxX, Y: b.MaxY}, {X: b.MinX, Y: b.MaxY}} {
			box = append(box, geom.Point(m.Apply(p)))
		}
		said, boxes = append(said, text.String), append(boxes, box)
	})
	return said, boxes
}

// collect calls f with every node and its map to the page.
func collect(nodes []draw.Node, at draw.Matrix, f func(draw.Node, draw.Matrix)) {
	for _, n := range nodes {
		f(n, at)
		switch n := n.(type) {
		case *draw.Group:
			collect(n.Nodes, at.After(n.Matrix), f)
		case *draw.Layer:
			collect(n.Nodes, at, f)
		}
	}
}
