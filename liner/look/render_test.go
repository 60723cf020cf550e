package look_test

import (
	"bytes"
	"math"
	"testing"
	"time"

	"underflap/liner"
	"underflap/liner/look"
	"underflap/pattern/draw"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/png"
	"underflap/pattern/draw/referee"
	"underflap/pattern/draw/svg"
)

// Referees: poppler, MuPDF, Ghostscript and librsvg draw our pages, and our own
// PNG stands beside them.
const (
	dpi    = 200
	pixel  = 25.4 / dpi
	coarse = 72 // dots per inch, to look for stray ink
)

func TestRenderersDrawTheEnvelopeWhereTheLabelsSay(t *testing.T) {
	cases := map[string]struct {
		envelope string
		shape    liner.Shape
		extent   look.Extent
	}{
		"C6 pointed":            {"c6", liner.Pointed, look.All},
		"C4, on the short side": {"c4", liner.Square, look.All},
		"A7 contour, three":     {"a7", liner.Contour, look.Three},
	}
	for name, c := range cases {
		page, found := look.Explain(named(t, c.envelope, c.shape), c.extent)
		var asPDF, asSVG, asPNG bytes.Buffer
		for _, err := range []error{pdf.Write(t.Context(), &asPDF, []*draw.Page{page}, time.Time{}), svg.Write(t.Context(), &asSVG, page), png.Write(t.Context(), &asPNG, page, dpi)} {
			if err != nil {
				t.Fatal(err)
			}
		}
		art := referee.OnlyLayer(t, asPDF.Bytes(), draw.Artwork)
		for renderer, render := range referee.Renderers {
			t.Run(name+" "+renderer, func(t *testing.T) {
				checkEdges(t, found, render(t, art, dpi))
				checkBorder(t, render(t, asPDF.Bytes(), coarse))
			})
		}
		t.Run(name+" librsvg", func(t *testing.T) {
			checkEdges(t, found, referee.SVG(t, asSVG.Bytes(), dpi, "#notes { display: none }"))
			checkBorder(t, referee.SVG(t, asSVG.Bytes(), coarse, ""))
		})
		t.Run(name+" PNG", func(t *testing.T) { checkBorder(t, referee.PNG(t, asPNG.Bytes(), dpi)) })
	}
}

// checkEdges looks across the pocket's three edges and up through the flap's
// tip, and compares the lines found there with the labels.
func checkEdges(t *testing.T, found look.Labels, page *referee.Raster) {
	t.Helper()
	p := found.Pocket
	low, across := p.MinY+0.55*p.Height(), p.MinX+0.4*p.Width()
	for _, edge := range []struct {
		of           string
		x, y, nx, ny float64
	}{
		{"left edge", p.MinX, low, 1, 0},
		{"right edge", p.MaxX, low, 1, 0},
		{"bottom", across, p.MaxY, 0, 1},
		{"flap's tip", found.Tip.X - 1, found.Tip.Y, 0, 1},
	} {
		tolerance := 0.02 + pixel // renderers put thin lines on whole pixels
		if edge.of == "flap's tip" {
			tolerance += 0.15 // it may be round: 1 mm beside it the edge is a little lower
		}
		off, ink := lineAcross(page, edge.x, edge.y, edge.nx, edge.ny)
		if ink < 0.03 {
			t.Errorf("no line at the %s, %.2f %.2f", edge.of, edge.x, edge.y)
		} else if math.Abs(off) > tolerance {
			t.Errorf("the %s lies %.3f mm away from where the labels say", edge.of, off)
		}
	}
}

// lineAcross is where what is darker than paper, within 0.6 mm across a line,
// has its middle, and how many millimetres of black it amounts to.
func lineAcross(page *referee.Raster, x, y, nx, ny float64) (off, ink float64) {
	const reach, step, paper = 0.6, 0.01, 205.0
	sum, moment := 0.0, 0.0
	for d := -reach; d <= reach; d += step {
		dark := max(0, paper-page.At(x+d*nx, y+d*ny)) / 255
		sum += dark
		moment += dark * d
	}
	return moment / sum, sum * step
}

// checkBorder looks for ink near the page's edges.
func checkBorder(t *testing.T, page *referee.Raster) {
	t.Helper()
	edge := int(border * page.DPI / 25.4)
	inked := 0
	for y := range page.Height {
		for x := range page.Width {
			if x < edge || y < edge || x >= page.Width-edge || y >= page.Height-edge {
				if page.Pixel(x, y, 255) {
					inked++
				}
			}
		}
	}
	if inked > 0 {
		t.Errorf("%d pixels of ink in the page's outer %v mm", inked, border)
	}
	if share := page.InkedShare(edge, edge, page.Width-edge, page.Height-edge); share < 0.01 || share > 0.3 {
		t.Errorf("%.1f%% of the page is inked", 100*share)
	}
}

// Circles and letters are drawn by every output alike.
func TestOurPNGAgreesWithTheRenderers(t *testing.T) {
	page, found := look.Explain(named(t, "c6", liner.Pointed), look.All)
	var asPDF, asPNG bytes.Buffer
	if err := pdf.Write(t.Context(), &asPDF, []*draw.Page{page}, time.Time{}); err != nil {
		t.Fatal(err)
	}
	if err := png.Write(t.Context(), &asPNG, page, dpi); err != nil {
		t.Fatal(err)
	}
	ours := referee.PNG(t, asPNG.Bytes(), dpi)
	theirs := referee.Renderers["poppler"](t, asPDF.Bytes(), dpi)
	for _, part := range []struct {
		of  string
		box draw.Rect
	}{{"page", draw.Rect{MaxX: page.Width, MaxY: page.Height}}, {"detail", found.Detail}} {
		b := [4]float64{part.box.MinX, part.box.MinY, part.box.MaxX, part.box.MaxY}
		if share := ours.Overlap(theirs, 245, b); share < 0.96 {
			t.Errorf("%.3f of the %s's ink agrees with poppler's", share, part.of)
		}
	}
}
