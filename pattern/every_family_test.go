package pattern

import (
	"fmt"
	"math"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// What every family owes, as it comes: a new one is asked without being named
// here.

// asItComes is a family with its defaults; stamps have none, for want of art.
func asItComes(t *testing.T) map[string]Motif {
	t.Helper()
	all := map[string]Motif{}
	for _, name := range Names() {
		if name == Stamps {
			continue
		}
		motif, err := New(name, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		all[name] = motif
	}
	return all
}

// Every output has the same share of ink, and none has a gap line where repeats
// meet: our PNG, and MuPDF and librsvg on our PDF and SVG. The shares agree to
// 0.5 % at 648 pixels to the inch; well below that, MuPDF's greys rounded down and
// librsvg's curves, which stray a tenth of a pixel, cost more than that.
func TestEveryFamilyAtEveryScaleAndTurn(t *testing.T) {
	for name, motif := range asItComes(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for _, scale := range []float64{0.5, 1, 2.2} {
				for _, turn := range []float64{0, 31} {
					d := Design{Name: name, Motif: motif, Colours: greys, Scale: scale, Turn: turn}
					where := fmt.Sprintf("scale %g, turn %g", scale, turn)
					drawn := fineAndCoarse(t, pageOf(d, 25.4))
					want := share(drawn["png"].fine)
					if want == 0 {
						t.Errorf("%s: no ink", where)
					}
					for output, o := range drawn {
						if got := share(o.fine); math.Abs(got-want) > 0.005*want {
							t.Errorf("%s, %s: inked share %.5f, our PNG has %.5f", where, output, got, want)
						}
						if pale := o.pale(); pale > mostPale*crowded(name) {
							t.Errorf("%s, %s: a gap line: %.4f of the pixels are too pale", where, output, pale)
						}
					}
				}
			}
		})
	}
}

// greys tell inks apart by their darkness.
var greys = Colours{Name: "greys", Ground: draw.White, Inks: []draw.Colour{{R: 0, G: 0, B: 0}, {R: 30, G: 30, B: 30}, {R: 60, G: 60, B: 60}, {R: 15, G: 15, B: 15}}}

const (
	coarseDPI = 72
	finer     = 9
	mostPale  = 0.005
)

// crowded loosens the bounds for families of many thin shapes that share pixels
// without overlapping there: laid over each other they come out paler than side by
// side (Porter and Duff 1984), which is no gap. None of them covers an area.
func crowded(family string) float64 {
	switch family {
	case "guilloche":
		return 6
	case "leaves":
		return 2
	}
	return 1
}

// resolutions are one output drawn at two.
type resolutions struct{ fine, coarse *referee.Raster }

// fineAndCoarse gives each output of a page.
func fineAndCoarse(t *testing.T, page *draw.Page) map[string]resolutions {
	t.Helper()
	pdf, svg := written(t, page, "pdf", 0), written(t, page, "svg", 0)
	both := func(render func(dpi float64) *referee.Raster) resolutions {
		return resolutions{render(coarseDPI * finer), render(coarseDPI)}
	}
	return map[string]resolutions{
		"png":     both(func(dpi float64) *referee.Raster { return referee.PNG(t, written(t, page, "png", dpi), dpi) }),
		"mupdf":   both(func(dpi float64) *referee.Raster { return referee.Renderers["mupdf"](t, pdf, dpi) }),
		"librsvg": both(func(dpi float64) *referee.Raster { return referee.SVG(t, svg, dpi, "") }),
	}
}

// share leaves out the pixels at the edge, where the page itself ends.
func share(r *referee.Raster) float64 { return r.InkedShare(2, 2, r.Width-2, r.Height-2) }

// pale is the share of coarse pixels that are paler than the fine ones they are
// made of. An edge is as dark in both; a hairline between two shapes that only
// abut is about a pixel wide at any resolution, and so many times as pale in the
// coarse one.
func (o resolutions) pale() float64 {
	pale := 0
	for y := 1; y < o.coarse.Height-1; y++ {
		for x := 1; x < o.coarse.Width-1; x++ {
			sum := 0
			for fy := y * finer; fy < (y+1)*finer; fy++ {
				for fx := x * finer; fx < (x+1)*finer; fx++ {
					sum += int(o.fine.Grey[fy*o.fine.Width+fx])
				}
			}
			if int(o.coarse.Grey[y*o.coarse.Width+x])-sum/finer/finer > 28 {
				pale++
			}
		}
	}
	return float64(pale) / float64((o.coarse.Width-2)*(o.coarse.Height-2))
}

// abutting squares are drawn as no family may be.
type abutting struct{}

func (abutting) Count(area draw.Rect) float64 { return cells(area, 12, 12) }

func (abutting) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	square := s.Symbol("square", func(s *draw.Surface) { s.Fill(draw.Rectangle(draw.Rect{MaxX: 12, MaxY: 12}), inks.Ink(1)) })
	rows := Recurrence{Repeat: Straight, DX: 12, DY: 12}
	rows.each(area, 12, func(p Place) { s.Place(square, p.At) })
}

func TestAGapLineIsSeenForWhatItIs(t *testing.T) {
	d := Design{Name: "abutting", Motif: abutting{}, Colours: greys, Scale: 1, Turn: 31}
	for output, o := range fineAndCoarse(t, pageOf(d, 25.4)) {
		if pale := o.pale(); pale < 2*mostPale {
			t.Errorf("%s: squares that only abut pass for whole: %.4f of the pixels are pale", output, pale)
		}
	}
}

// Count is what a design is refused by: it grows as the scale shrinks, and is
// not far below what is really drawn.
func TestEveryFamilyCountsWhatItDraws(t *testing.T) {
	area := draw.Rect{MinX: -80, MinY: -60, MaxX: 80, MaxY: 100}
	for name, motif := range asItComes(t) {
		for _, turn := range []float64{0, 31} {
			counted := func(scale float64) float64 {
				d := Design{Motif: motif, Scale: scale, Turn: turn}
				return motif.Count(d.space().Inverse().Bounds(area))
			}
			for _, scale := range []float64{0.25, 0.5, 1} {
				if small, large := counted(scale), counted(2*scale); small < 1.5*large {
					t.Errorf("%s: counts %.0f at scale %g and %.0f at twice that", name, small, scale, large)
				}
				s := draw.NewSurface()
				Design{Name: name, Motif: motif, Colours: greys, Scale: scale, Turn: turn}.Draw(s, area)
				if drawn, most := float64(placed(s.Nodes())), 2*counted(scale)+300; drawn > most {
					t.Errorf("%s at scale %g: draws %.0f and counts %.0f", name, scale, drawn, counted(scale))
				}
			}
		}
	}
}

// placed is how many symbols a record places, and what it draws besides.
func placed(nodes []draw.Node) int {
	sum := 0
	for _, n := range nodes {
		switch n := n.(type) {
		case *draw.Group:
			sum += placed(n.Nodes)
		case *draw.Use:
			sum += len(n.At)
		default:
			sum++
		}
	}
	return sum
}
