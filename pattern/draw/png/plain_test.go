package png

import (
	"bytes"
	"image"
	"image/color"
	stdpng "image/png"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/fogleman/gg"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// What we write is what gg makes of the same calls on one canvas as large as the
// page, within the softness of edges. Differences are in levels of 255, the
// greatest of red, green and blue. Fills in true colour differ where a chord of
// ours leaves its curve by up to a 64th of a pixel, and by gg's own chords, a pixel
// long; in indexed colour by half a step of a ramp too. gg takes the direction of a
// stroke from steps of a pixel rounded to 64ths, which roughens its edges. The edge
// of a clip is softened once, where gg softens all that is drawn through it. A
// picture lies within an eighth of a pixel of its place and is softened by up to half
// a pixel by the shift to it.
func TestPagesEqualPlainDrawing(t *testing.T) {
	many := func(s *draw.Surface) { // one ink a motif: too many for a palette
		for i := range 20 {
			s.Fill(draw.Circle(float64(4+5*i), 4, 1.7), draw.Colour{R: uint8(12 * i), G: 99, B: uint8(255 - 12*i)})
		}
	}
	for _, c := range []struct {
		name       string
		art        func(*draw.Surface)
		mean, wide float64 // most levels on average, and most of the pixels over eight levels
		most       int     // levels anywhere
	}{
		{"motifs in true colour", func(s *draw.Surface) { tossed(s); many(s) }, 0.15, 0.0001, 12},
		{"bands in true colour", func(s *draw.Surface) { banded(s); many(s) }, 0.15, 0.0001, 12},
		{"lines and words in true colour", func(s *draw.Surface) { lined(s); many(s) }, 0.4, 0.005, 32},
		{"motifs in indexed colour", tossed, 0.2, 0.001, 40},
		{"bands in indexed colour", banded, 0.2, 0.001, 40},
		{"lines and words in indexed colour", lined, 0.4, 0.005, 48},
		{"clips in a clip", clippedTwice, 0.15, 0.001, 80},
		{"pictures", pictured, 0.5, 0.01, 24},
	} {
		for _, dpi := range []float64{100, 347} {
			page := draw.NewPage(110, 90)
			page.Layer(draw.Artwork, c.art)
			got, want := written(t, page, dpi), plain(page, dpi)
			sum, most, wide := 0.0, 0, 0
			// gg draws what lies just beyond the first row and column into them
			for y := 1; y < want.Rect.Dy(); y++ {
				for x := 1; x < want.Rect.Dx(); x++ {
					d := apart(color.RGBAModel.Convert(got.At(x, y)).(color.RGBA), want.RGBAAt(x, y))
					sum, most = sum+float64(d), max(most, d)
					if d > 8 {
						wide++
					}
				}
			}
			pixels := float64(want.Rect.Dx() * want.Rect.Dy())
			mean, share := sum/pixels, float64(wide)/pixels
			t.Logf("%s at %g DPI: %.4f levels on average, %.5f of the pixels over eight, %d at most", c.name, dpi, mean, share, most)
			if mean > c.mean || share > c.wide || most > c.most {
				t.Errorf("%s at %g DPI: more than %g, %g or %d", c.name, dpi, c.mean, c.wide, c.most)
			}
		}
	}
}

func apart(a, b color.RGBA) int {
	d := func(x, y uint8) int { return max(int(x)-int(y), int(y)-int(x)) }
	return max(d(a.R, b.R), d(a.G, b.G), d(a.B, b.B))
}

func written(t *testing.T, page *draw.Page, dpi float64) image.Image {
	t.Helper()
	var file bytes.Buffer
	if err := Write(t.Context(), &file, page, dpi); err != nil {
		t.Fatal(err)
	}
	img, err := stdpng.Decode(&file)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// plain replays a page on one gg context, call for call.
func plain(page *draw.Page, dpi float64) *image.RGBA {
	width, height := Size(page, dpi)
	img := image.NewRGBA(image.Rect(0, 0, width, height))
	to := gg.NewContextForRGBA(img)
	to.SetColor(color.White)
	to.Clear()
	replay(to, page.Nodes(), draw.Scale(dpi/words.MillimetresPerInch))
	return img
}

func replay(to *gg.Context, nodes []draw.Node, m draw.Matrix) {
	set := func(c draw.Colour) { to.SetColor(color.RGBA{c.R, c.G, c.B, 255}) }
	path := func(p draw.Path, m draw.Matrix) {
		p.Transform(m).Steps(func(v draw.Verb, q []draw.Point) {
			switch v {
			case draw.Move:
				to.MoveTo(q[0].X, q[0].Y)
			case draw.Line:
				to.LineTo(q[0].X, q[0].Y)
			case draw.Cubic:
				to.CubicTo(q[0].X, q[0].Y, q[1].X, q[1].Y, q[2].X, q[2].Y)
			case draw.Close:
				to.ClosePath()
			}
		})
	}
	for _, n := range nodes {
		switch n := n.(type) {
		case *draw.Fill:
			set(n.Colour)
			if n.EvenOdd {
				to.SetFillRule(gg.FillRuleEvenOdd)
			}
			path(n.Path, m)
			to.Fill()
			to.SetFillRule(gg.FillRuleWinding)
		case *draw.Text:
			set(n.Colour)
			path(n.Font.Outlines(n.String, n.Size), m.After(n.At))
			to.Fill()
		case *draw.Stroke:
			set(n.Colour)
			to.SetLineWidth(n.Width * m.Size())
			to.SetLineCapRound()
			to.SetLineJoinRound()
			path(n.Path, m)
			to.Stroke()
		case *draw.Layer:
			replay(to, n.Nodes, m)
		case *draw.Use:
			for _, at := range n.At {
				replay(to, n.Symbol.Nodes, m.After(at))
			}
		case *draw.Group:
			to.Push()
			if len(n.Clip.Points) > 0 {
				path(n.Clip, m.After(n.Matrix))
				to.Clip()
			}
			replay(to, n.Nodes, m.After(n.Matrix))
			to.Pop()
		case *draw.Picture:
			at := m.After(n.At) // turned and sized, not slanted
			to.Push()
			to.Translate(at.E, at.F)
			to.Rotate(math.Atan2(at.B, at.A))
			to.Scale(math.Hypot(at.A, at.B)/float64(n.Image.Rect.Dx()), math.Hypot(at.C, at.D)/float64(n.Image.Rect.Dy()))
			to.DrawImage(n.Image, 0, 0)
			to.Pop()
		}
	}
}

var rust, plum, straw = draw.Colour{R: 180, G: 71, B: 46}, draw.Colour{R: 91, G: 43, B: 69}, draw.Colour{R: 246, G: 236, B: 217}

// tossed lays leaves with a round hole in random places, turns and sizes, some
// beyond the page.
func tossed(s *draw.Surface) {
	chance := rand.New(rand.NewPCG(1, 2))
	leaf := s.Symbol("leaf", func(s *draw.Surface) {
		var p draw.Path
		p.Move(-4, 0)
		p.Cubic(draw.Point{X: -2, Y: -3}, draw.Point{X: 2, Y: -3}, draw.Point{X: 4})
		p.Cubic(draw.Point{X: 2, Y: 3}, draw.Point{X: -2, Y: 3}, draw.Point{X: -4})
		p.Close()
		s.Fill(p, rust)
		s.Fill(draw.Circle(0.5, 0, 0.8), straw)
	})
	for range 200 {
		at := draw.Translate(120*chance.Float64()-5, 100*chance.Float64()-5)
		s.Place(leaf, at.After(draw.Turn(360*chance.Float64())).After(draw.Scale(0.4+chance.Float64())))
	}
}

// banded crosses bands at a slant that reach far beyond the page.
func banded(s *draw.Surface) {
	for i, c := range []draw.Colour{straw, rust, plum} {
		s.Within(draw.Translate(55, 45).After(draw.Turn(float64(31*i))), func(s *draw.Surface) {
			for x := -100.0; x < 100; x += 11.3 {
				s.Fill(draw.Rectangle(draw.Rect{MinX: x, MinY: -500, MaxX: x + 4.1, MaxY: 500}), c)
			}
		})
	}
}

// lined strokes curves and long lines and sets words, upright and turned.
func lined(s *draw.Surface) {
	for r := 3.0; r < 60; r += 4.7 {
		s.Stroke(draw.Circle(55, 45, r), plum, r/100)
	}
	var p draw.Path
	p.Move(-20, 3)
	p.Line(130, 84)
	p.Line(3, 70)
	s.Stroke(p, rust, 1.3)
	s.Text("Reach the flap, fold and glue", draw.Bold, 6, draw.Translate(6, 30), rust)
	s.Text("and let it dry", draw.Regular, 4, draw.Translate(20, 80).After(draw.Turn(270)), plum)
}

func clippedTwice(s *draw.Surface) {
	s.Fill(draw.Rectangle(draw.Rect{MaxX: 110, MaxY: 30}), straw)
	s.Clipped(draw.Circle(55, 45, 40), func(s *draw.Surface) {
		tossed(s)
		s.Clipped(draw.Circle(40, 40, 20), func(s *draw.Surface) {
			s.Fill(draw.Rectangle(draw.Rect{MaxX: 110, MaxY: 90}), plum)
			s.Stroke(draw.Circle(45, 45, 15), straw, 1)
		})
	})
}

// pictured lays a soft-edged disc of changing colour, upright and turned.
func pictured(s *draw.Surface) {
	img := image.NewNRGBA(image.Rect(0, 0, 90, 80))
	for y := range 80 {
		for x := range 90 {
			edge := 38 - math.Hypot(float64(x)-45, float64(y)-40)
			img.SetNRGBA(x, y, color.NRGBA{R: uint8(2 * x), G: uint8(3 * y), B: 90, A: uint8(255 * max(0, min(1, edge/4)))})
		}
	}
	art := &draw.Image{NRGBA: img}
	for i := range 12 {
		at := draw.Translate(7.3+17.77*float64(i%6), 8+21.11*float64(i/6))
		s.Picture(art, at.After(draw.Turn(float64(i/6*20))).After(draw.Matrix{A: 18, D: 16}))
	}
}
