package pattern

import (
	"math"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// A field fades in bands, and no band shows: down a line of one ink no place is
// more than two levels from the next, none is stronger than one above it, and
// each is what a straight line from the fold to the foot gives. Ours, and as
// general-purpose programs draw our PDF and SVG; on a page where the liner lies
// askew too, where every band's edge is softened.
func TestFieldsFadeWithoutASeam(t *testing.T) {
	const side, rounding, levels = 38.1, 1.0, 2
	solid := Colours{Name: "solid", Ground: draw.White, Inks: []draw.Colour{{}, {}}}
	for _, c := range []struct {
		name                    string
		motif                   Motif
		turn, askew, depth, to  float64
		columns                 []float64
		mupdfOnly, withReferees bool
	}{
		{"stripes", settled("stripes", "bands=6:1,6:0"), 0, 0, 16, 0, []float64{-12.5, -1.5, 0, 12}, false, true},
		{"stripes askew", settled("stripes", "bands=6:1,6:0"), 0, 10, 16, 0, []float64{-12.5, -1.5, 0, 12}, true, true},
		{"stripes that meet", settled("stripes", "bands=6:1,5:2,4:1"), 30, 10, 16, 0.4, []float64{-11, 0.3, 7}, true, true},
		{"scallops", settled("scallops", "size=9", "inks=1,2"), 0, 0, 16, 0.5, []float64{-11, 0.3, 7}, false, false},
		{"scallops askew", settled("scallops", "size=9", "inks=1,2"), 20, 10, 12, 0.7, []float64{-11, 0.3, 7}, true, true},
	} {
		d := Design{Name: c.name, Motif: c.motif, Colours: solid, Scale: 1, Turn: c.turn, Fade: Fade{FadeInk, c.to}, Depth: c.depth}
		page := draw.NewPage(side, side)
		page.Layer(draw.Artwork, func(s *draw.Surface) {
			s.Within(draw.Translate(side/2, side/2).After(draw.Turn(c.askew)), func(s *draw.Surface) { d.Draw(s, box(side)) })
		})
		check := func(renderer string, r *referee.Raster) {
			t.Helper()
			step := 25.4 / r.DPI
			steepest := 255*(1-c.to)/c.depth*step + levels // over a pixel's height, and a band's step
			for _, x := range c.columns {
				last := math.NaN()
				for below := -side/2 + 4; below < side/2-4; below += step {
					p := draw.Turn(c.askew).Apply(draw.Point{X: x, Y: below})
					grey := r.At(p.X+side/2, p.Y+side/2)
					want := 255 * (1 - c.to) * math.Max(0, math.Min(1, below/c.depth))
					if grey-last > steepest+rounding || grey-last < -rounding || math.Abs(grey-want) > steepest/2+levels+rounding {
						t.Errorf("%s at %g DPI by %s: grey %.1f after %.1f at %.2f mm below the fold, the line gives %.1f", c.name, r.DPI, renderer, grey, last, below, want)
						return
					}
					last = grey
				}
			}
		}
		for _, dpi := range []float64{72, 150} {
			check("png", referee.PNG(t, written(t, page, "png", dpi), dpi))
		}
		if c.withReferees {
			for renderer, render := range referee.Renderers {
				// poppler softens a slanting clip's edge once for everything in it, and
				// shows a hair of ground there: known, and none on paper
				if renderer == "mupdf" || !c.mupdfOnly && (renderer != "poppler" || c.askew == 0) {
					check(renderer, render(t, written(t, page, "pdf", 150), 150))
				}
			}
			check("librsvg", referee.SVG(t, written(t, page, "svg", 150), 150, ""))
		}
	}
}

// Motifs of a fading pattern stay whole: as many separate spots as without a
// fade, with their middles where they were.
func TestFadingMotifsStayWhole(t *testing.T) {
	for _, fade := range []Fade{{FadeInk, 0.3}, {FadeSize, 0.4}} {
		for name, r := range everyRecurrence() {
			if r.Symmetry != "" && tabulated[r.Symmetry].multiplicity < 6 {
				continue // the ways of drawing are the same
			}
			d := flagged(r, 3)
			plain := likenessOf(t, d).blots()
			d.Fade, d.Depth = fade, 30
			faded := likenessOf(t, d).blots()
			whole := 0
			for _, p := range plain {
				for _, q := range faded {
					if math.Hypot(p.X-q.X, p.Y-q.Y) < 1 { // a smaller flag's ink is nearer its middle
						whole++
						break
					}
				}
			}
			if whole != len(plain) { // those that the page's edge cuts are left out
				t.Errorf("%s fading in %s: %d motifs, %d of them whole and in their places", name, fade.Of, len(plain), whole)
			}
		}
	}
}
