package draw_test

import (
	"bytes"
	"image"
	"image/color"
	stdpng "image/png"
	"math"
	"testing"
	"time"

	"underflap/pattern/draw"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/png"
	"underflap/pattern/draw/svg"
)

// scene draws one of everything through m: what Corrected must do is what comes
// of drawing it there in the first place.
func scene(width, height float64, m draw.Matrix) *draw.Page {
	black, red := draw.Colour{}, draw.Colour{R: 180}
	page := draw.NewPage(width, height)
	page.Title, page.Bleed = "scene", 2
	page.Trim = m.Bounds(draw.Rect{MinX: 10, MinY: 20, MaxX: 60, MaxY: 90})
	box := func(x0, y0, x1, y1 float64) (p draw.Path) {
		for i, at := range [][2]float64{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}} {
			x, y := m.A*at[0]+m.C*at[1]+m.E, m.B*at[0]+m.D*at[1]+m.F
			if i == 0 {
				p.Move(x, y)
			} else {
				p.Line(x, y)
			}
		}
		p.Close()
		return p
	}
	page.Layer(draw.Artwork, func(s *draw.Surface) {
		s.Fill(box(10, 20, 60, 50), red)
		s.Clipped(box(12, 60, 40, 85), func(s *draw.Surface) {
			s.Fill(box(0, 70, 80, 200), black)
			s.Picture(stamp(), m.After(draw.Translate(30, 55)).After(draw.Scale(14)))
		})
		dot := s.Symbol("dot", func(s *draw.Surface) {
			var p draw.Path
			p.Move(-2, -1)
			p.Line(2, -1)
			p.Line(0, 3)
			p.Close()
			s.Fill(p, black)
		})
		s.Place(dot, m.After(draw.Translate(48, 62)), m.After(draw.Translate(55, 70)).After(draw.Turn(30)))
	})
	page.Layer(draw.Notes, func(s *draw.Surface) {
		s.Text("100 mm", draw.Bold, 8, m.After(draw.Translate(12, 110)), black)
		s.Text("up", draw.Regular, 6, m.After(draw.Translate(70, 100)).After(draw.Turn(270)), red)
	})
	page.Fill(box(62, 5, 76, 15), black) // beside the layers
	return page
}

// stamp is a picture of four colours, one of them see-through.
func stamp() *draw.Image {
	img := image.NewNRGBA(image.Rect(0, 0, 2, 2))
	img.SetNRGBA(0, 0, color.NRGBA{R: 200, A: 255})
	img.SetNRGBA(1, 0, color.NRGBA{G: 120, A: 255})
	img.SetNRGBA(0, 1, color.NRGBA{B: 90, A: 255})
	return &draw.Image{NRGBA: img}
}

const kx, ky, paperWidth, paperHeight = 1.04, 0.95, 80.0, 120.0

// about is the stretch about the middle of the page.
var about = draw.Matrix{A: kx, D: ky, E: paperWidth/2 - kx*paperWidth/2, F: paperHeight/2 - ky*paperHeight/2}

func TestACorrectedPageIsThePageDrawnStretched(t *testing.T) {
	corrected, drawn := scene(paperWidth, paperHeight, draw.Identity).Corrected(kx, ky), scene(paperWidth, paperHeight, about)
	one, other := pixels(t, corrected), pixels(t, drawn)
	plain := pixels(t, scene(paperWidth, paperHeight, draw.Identity))
	if one.Bounds() != other.Bounds() || one.Bounds() != plain.Bounds() {
		t.Fatalf("%v, %v, %v", one.Bounds(), other.Bounds(), plain.Bounds())
	}
	differ, moved := 0, 0
	for y := range one.Bounds().Dy() {
		for x := range one.Bounds().Dx() {
			if far(one.At(x, y), other.At(x, y)) {
				differ++
			}
			if far(one.At(x, y), plain.At(x, y)) {
				moved++
			}
		}
	}
	if differ > 0 {
		t.Errorf("%d pixels differ from the page drawn stretched", differ)
	}
	if moved < 1000 {
		t.Errorf("only %d pixels differ from the page as it was", moved)
	}
}

// far tells apart what is not the same but for rounding.
func far(a, b color.Color) bool {
	ar, ag, ab, _ := a.RGBA()
	br, bg, bb, _ := b.RGBA()
	most := 0.0
	for _, d := range [][2]uint32{{ar, br}, {ag, bg}, {ab, bb}} {
		most = max(most, math.Abs(float64(d[0])-float64(d[1])))
	}
	return most > 0x300
}

func pixels(t *testing.T, page *draw.Page) image.Image {
	t.Helper()
	var b bytes.Buffer
	if err := png.Write(t.Context(), &b, page, 200); err != nil {
		t.Fatal(err)
	}
	img, err := stdpng.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func TestACorrectedPageKeepsPaperLayersAndSymbols(t *testing.T) {
	page := scene(paperWidth, paperHeight, draw.Identity)
	got := page.Corrected(kx, ky)
	if got.Width != paperWidth || got.Height != paperHeight || got.Title != "scene" || got.Bleed != 2 {
		t.Errorf("%g by %g, %q, bleed %g", got.Width, got.Height, got.Title, got.Bleed)
	}
	want := draw.Rect{MinX: 40 - 1.04*30, MinY: 60 - 0.95*40, MaxX: 40 + 1.04*20, MaxY: 60 + 0.95*30}
	if near := func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }; !near(got.Trim.MinX, want.MinX) || !near(got.Trim.MinY, want.MinY) || !near(got.Trim.MaxX, want.MaxX) || !near(got.Trim.MaxY, want.MaxY) {
		t.Errorf("trim %v, want %v", got.Trim, want)
	}
	var layers []string
	symbols := map[*draw.Symbol]bool{}
	draw.Walk(got.Nodes(), func(n draw.Node) {
		switch n := n.(type) {
		case *draw.Layer:
			layers = append(layers, n.Name)
		case *draw.Use:
			symbols[n.Symbol] = true
		}
	})
	if len(got.Nodes()) != 3 || len(layers) != 2 || layers[0] != draw.Artwork || layers[1] != draw.Notes || len(symbols) != 1 {
		t.Errorf("%d nodes, layers %q, %d symbols", len(got.Nodes()), layers, len(symbols))
	}
	again := got.Symbol("dot", func(*draw.Surface) { t.Error("the symbol is drawn a second time") })
	if !symbols[again] {
		t.Error("another symbol under the same key")
	}
}

func TestCorrectingLeavesThePageItselfAlone(t *testing.T) {
	page := scene(paperWidth, paperHeight, draw.Identity)
	before := svgOf(t, page)
	var over draw.Path
	over.Move(0, 0)
	over.Line(80, 0)
	over.Line(0, 80)
	page.Corrected(kx, ky).Fill(over, draw.White)
	page.Corrected(kx, 1)
	page.Corrected(1, ky)
	if svgOf(t, page) != before {
		t.Error("the page itself is another one")
	}
	if page.Corrected(1, 1) != page {
		t.Error("nothing to correct, and another page")
	}
	one, other := svgOf(t, page.Corrected(kx, 1)), svgOf(t, page.Corrected(1, ky))
	if one == before || other == before || one == other {
		t.Error("a correction one way is a correction")
	}
}

// Corrected there and back is where it was.
func TestACorrectionIsUndoneByItsInverse(t *testing.T) {
	page := scene(paperWidth, paperHeight, draw.Identity)
	back := page.Corrected(kx, ky).Corrected(1/kx, 1/ky)
	for i, n := range back.Nodes() {
		got, want := n.Bounds(), page.Nodes()[i].Bounds()
		if math.Abs(got.MinX-want.MinX)+math.Abs(got.MinY-want.MinY)+math.Abs(got.MaxX-want.MaxX)+math.Abs(got.MaxY-want.MaxY) > 1e-9 {
			t.Errorf("node %d: %v, was %v", i, got, want)
		}
	}
	if a, b := pixels(t, back), pixels(t, page); a.Bounds() != b.Bounds() || far(a.At(100, 100), b.At(100, 100)) {
		t.Error("drawn, it is another page")
	}
}

func svgOf(t *testing.T, page *draw.Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := svg.Write(t.Context(), &b, page); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Every writer takes a corrected page, twice as the same bytes.
func TestEveryWriterTakesACorrectedPage(t *testing.T) {
	for name, write := range map[string]func(*bytes.Buffer, *draw.Page) error{
		"pdf": func(b *bytes.Buffer, p *draw.Page) error {
			return pdf.Write(t.Context(), b, []*draw.Page{p, p}, time.Time{})
		},
		"png": func(b *bytes.Buffer, p *draw.Page) error { return png.Write(t.Context(), b, p, 96) },
		"svg": func(b *bytes.Buffer, p *draw.Page) error { return svg.Write(t.Context(), b, p) },
	} {
		var one, two bytes.Buffer
		page := scene(paperWidth, paperHeight, draw.Identity).Corrected(kx, ky)
		if err := write(&one, page); err != nil || one.Len() == 0 {
			t.Errorf("%s: %v", name, err)
		}
		if err := write(&two, page); err != nil || !bytes.Equal(one.Bytes(), two.Bytes()) {
			t.Errorf("%s: other bytes the second time (%v)", name, err)
		}
	}
}
