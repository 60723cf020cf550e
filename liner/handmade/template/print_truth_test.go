package template_test

import (
	"bytes"
	"fmt"
	"math"
	"testing"
	"time"

	"underflap/liner/geom"
	"underflap/liner/handmade"
	"underflap/liner/handmade/template"
	"underflap/pattern/draw"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/referee"
	"underflap/pattern/draw/svg"
)

// True size is the promise: three PDF renderers and one SVG renderer draw our
// pages, and every cut line and fold lies where the blank has it.
//
// Referees: poppler (pdftoppm), MuPDF (mutool), Ghostscript and librsvg
// (rsvg-convert), all from Debian.

const (
	truthDPI = 600
	// 0.05 mm, and half a pixel for where a renderer puts its grid
	truth = 0.05 + 25.4/truthDPI/2
)

// print draws one layer of a page with every referee.
func eachPrint(t *testing.T, page *draw.Page, layer string, f func(*testing.T, *referee.Raster)) {
	var asPDF, asSVG bytes.Buffer
	if err := pdf.Write(t.Context(), &asPDF, []*draw.Page{page}, time.Time{}); err != nil {
		t.Fatal(err)
	}
	if err := svg.Write(t.Context(), &asSVG, page); err != nil {
		t.Fatal(err)
	}
	alone := referee.OnlyLayer(t, asPDF.Bytes(), layer)
	for renderer, render := range referee.Renderers {
		t.Run(renderer+" "+layer, func(t *testing.T) { f(t, render(t, alone, truthDPI)) })
	}
	css := ""
	for _, name := range []string{draw.Artwork, draw.Cut, draw.Fold, draw.Notes} {
		if name != layer {
			css += fmt.Sprintf("#%s { display: none }\n", name)
		}
	}
	t.Run("librsvg "+layer, func(t *testing.T) { f(t, referee.SVG(t, asSVG.Bytes(), truthDPI, css)) })
}

func TestEveryCutAndFoldPrintsAtItsTrueDistance(t *testing.T) {
	all := sketches(t)
	for _, name := range []string{"made up, A4 is the sheet", "made up, turned on A4", "made up, slanted, joined from A4", "four-corner from 12 in, on A4"} {
		t.Run(name, func(t *testing.T) {
			c := all[name]
			l, pages := c.layout, c.pages
			for i, tile := range l.Tiles[:min(2, len(l.Tiles))] {
				eachPrint(t, pages[i], draw.Cut, func(t *testing.T, print *referee.Raster) {
					looked := 0
					for k, p := range c.blank.Outline {
						looked += checkLine(t, l, tile, p, c.blank.Outline[(k+1)%len(c.blank.Outline)], print, 1)
					}
					if looked < 20 {
						t.Errorf("cut lines were looked at in %d places", looked)
					}
				})
				eachPrint(t, pages[i], draw.Fold, func(t *testing.T, print *referee.Raster) {
					looked := 0
					for _, p := range c.blank.Panels[1:] {
						looked += checkLine(t, l, tile, p.Fold.A, p.Fold.B, print, 0.4) // dashes
						checkEnds(t, l, tile, *p.Fold, print)
					}
					if looked < 20 {
						t.Errorf("folds were looked at in %d places", looked)
					}
				})
			}
		})
	}
}

// shown is the part of the page that the printer prints of the tile.
func shown(l template.Layout, tile template.Tile) geom.Box {
	w, o := tile.Window, tile.Offset
	on := geom.Box{MinX: w.MinX + o.X, MinY: w.MinY + o.Y, MaxX: w.MaxX + o.X, MaxY: w.MaxY + o.Y}
	return on.Within(geom.Box{MaxX: l.Paper.Width, MaxY: l.Paper.Height}.Grow(-l.PrinterMargin))
}

// checkLine looks across a line at many places for its ink, compares the
// ink's middle with where the blank has the line, and wants at least a share
// of the places to be inked. It returns how many places it found ink at.
func checkLine(t *testing.T, l template.Layout, tile template.Tile, from, to geom.Point, page *referee.Raster, share float64) (found int) {
	a, b := l.OnPage(tile, from), l.OnPage(tile, to)
	see := shown(l, tile).Grow(-0.7)
	long := a.Distance(b)
	nx, ny := -(b.Y-a.Y)/long, (b.X-a.X)/long
	looked := 0
	for along := 2.5; along <= long-2.5; along += 0.7 {
		x, y := a.X+(b.X-a.X)*along/long, a.Y+(b.Y-a.Y)*along/long
		if x < see.MinX || x > see.MaxX || y < see.MinY || y > see.MaxY {
			continue
		}
		looked++
		off, ink := lineAcross(page, x, y, nx, ny)
		switch {
		case ink > 0.1:
			found++
			if math.Abs(off) > truth {
				t.Errorf("a line is %.3f mm off at %.2f, %.2f", off, x, y)
			}
		case share == 1:
			t.Fatalf("no line at %.2f, %.2f", x, y)
		}
	}
	if looked > 20 && float64(found) < share*float64(looked) {
		t.Errorf("ink at %d of %d places of a line", found, looked)
	}
	return found
}

// lineAcross is where the darkness within 0.6 mm across a line has its middle,
// and how many millimetres of full ink it amounts to.
func lineAcross(page *referee.Raster, x, y, nx, ny float64) (off, ink float64) {
	const reach, step = 0.6, 0.01
	sum, moment := 0.0, 0.0
	for d := -reach; d <= reach; d += step {
		dark := 1 - page.At(x+d*nx, y+d*ny)/255
		sum += dark
		moment += dark * d
	}
	return moment / sum, sum * step
}

// checkEnds wants the fold's first and last dash to end where the fold does.
func checkEnds(t *testing.T, l template.Layout, tile template.Tile, f handmade.Fold, page *referee.Raster) {
	see := shown(l, tile).Grow(-2)
	for _, ends := range [][2]geom.Point{{f.A, f.B}, {f.B, f.A}} {
		a, b := l.OnPage(tile, ends[0]), l.OnPage(tile, ends[1])
		if a.X < see.MinX || a.X > see.MaxX || a.Y < see.MinY || a.Y > see.MaxY {
			continue
		}
		long := a.Distance(b)
		at := func(d float64) float64 { return page.At(a.X+(b.X-a.X)*d/long, a.Y+(b.Y-a.Y)*d/long) }
		full, sum := 255-at(1), 0.0
		const step = 0.005
		for d := -1.0; d < 1; d += step {
			sum += (255 - at(d)) / full * step
		}
		if end := 1 - sum; math.Abs(end) > truth+0.03 { // round, 0.25 mm wide
			t.Errorf("%s begins %.3f mm off its end", f.Name, end)
		}
	}
}

// The 100 mm rule is among what is drawn, its base line exact. How rules print
// is liner/ruler's to prove.
func TestEveryTemplateCarriesARuleOfOneHundredMillimetres(t *testing.T) {
	for name, c := range sketches(t) {
		pages := c.pages
		rules := 0
		for _, page := range pages {
			collect(page.Nodes(), draw.Identity, func(n draw.Node, at draw.Matrix) {
				f, ok := n.(*draw.Fill)
				if !ok {
					return
				}
				b := at.Bounds(f.Bounds())
				if math.Abs(max(b.Width(), b.Height())-100) < 1e-9 && min(b.Width(), b.Height()) < 0.3 {
					rules++
				}
			})
		}
		if rules == 0 {
			t.Errorf("%s: no rule", name)
		}
	}
}
