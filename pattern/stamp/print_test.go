package stamp

import (
	"bytes"
	"testing"
	"time"

	"underflap/pattern/draw"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/png"
	"underflap/pattern/draw/referee"
	"underflap/pattern/draw/svg"
)

// TestArtPrintsAlikeInEveryOutput places art in the middle of a page and lets
// other programs draw our PDF and SVG: nearly all of their ink is where ours is.
func TestArtPrintsAlikeInEveryOutput(t *testing.T) {
	ring := []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 40"><path fill-rule="evenodd" d="M5 5h30v30h-30zM12 12h16v16h-16z"/>` +
		`<path d="M15 20l5-5 5 5-5 5z" stroke="#963" stroke-width="2" fill="gold"/></svg>`)
	photo := asPNG(t, berries(black))
	ink := func(n int) draw.Colour {
		return []draw.Colour{draw.White, {R: 20, G: 30, B: 60}, {R: 120, G: 20, B: 20}}[n]
	}
	for name, tc := range map[string]struct {
		data []byte
		wish Wish
	}{
		"drawing":            {ring, Wish{}},
		"drawing in one ink": {ring, Wish{Colour: "2"}},
		"one ink":            {photo, Wish{}},
		"traced":             {photo, Wish{Trace: true, Colour: "2"}},
	} {
		art, _ := read(t, "art", tc.data, tc.wish)
		page := draw.NewPage(60, 60)
		page.Trim = draw.Rect{MaxX: 60, MaxY: 60}
		page.Layer(draw.Artwork, func(s *draw.Surface) {
			mark := s.Symbol(art.Key(40, ink), func(s *draw.Surface) { art.Draw(s, 40, ink) })
			s.Place(mark, draw.Translate(30, 30))
		})
		if b := boundsOf(page.Nodes()); b.MinX < 9.99 || b.MaxX > 50.01 || b.Width() < 39.5 {
			t.Errorf("%s: lies on %v, want 40 mm in the middle of 60", name, b)
		}
		const dpi, level = 150, 200
		var asPNG, asPDF, asSVG bytes.Buffer
		if err := png.Write(t.Context(), &asPNG, page, dpi); err != nil {
			t.Fatal(err)
		}
		if err := pdf.Write(t.Context(), &asPDF, []*draw.Page{page}, time.Time{}); err != nil {
			t.Fatal(err)
		}
		if err := svg.Write(t.Context(), &asSVG, page); err != nil {
			t.Fatal(err)
		}
		ours := referee.PNG(t, asPNG.Bytes(), dpi)
		theirs := map[string]*referee.Raster{"librsvg": referee.SVG(t, asSVG.Bytes(), dpi, "")}
		for program, render := range referee.Renderers {
			theirs[program] = render(t, asPDF.Bytes(), dpi)
		}
		for program, raster := range theirs {
			if alike := ours.Overlap(raster, level, [4]float64{5, 5, 55, 55}); !(alike > 0.975) {
				t.Errorf("%s: %s has %.4f of its ink where we have it", name, program, alike)
			}
		}
	}
}

func boundsOf(nodes []draw.Node) draw.Rect {
	r := nodes[0].Bounds()
	for _, n := range nodes[1:] {
		r = r.Union(n.Bounds())
	}
	return r
}
