package pattern

import (
	"bytes"
	"fmt"
	"math"
	"testing"
	"time"

	"underflap/pattern/draw"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/png"
	"underflap/pattern/draw/referee"
	"underflap/pattern/draw/svg"
)

// Closed forms: how much of a repeat is inked, to 0.2 % at 600 DPI. Our PNG,
// and MuPDF and librsvg on our PDF and SVG.

// dot is a pixel at 600 DPI; repeats made of whole pixels can be cut out exactly.
const dot = 25.4 / 600

var blackOnWhite = Colours{Name: "black on white", Ground: draw.White, Inks: []draw.Colour{{}}}

func TestInkedShareIsTheClosedForm(t *testing.T) {
	lens := func(a, b, d float64) float64 { // common area of two discs, their middles d apart (Weisstein, "Circle-Circle Intersection", MathWorld; from memory)
		if d >= a+b {
			return 0
		}
		return a*a*math.Acos((d*d+a*a-b*b)/(2*d*a)) + b*b*math.Acos((d*d+b*b-a*a)/(2*d*b)) -
			math.Sqrt((-d+a+b)*(d+a-b)*(d-a+b)*(d+a+b))/2
	}
	r := pitch / 2
	cases := []shareCase{
		{"square dots", settled("dots", "size=6", "spacing=10.16", "repeat=straight"), pitch, pitch,
			math.Pi * 3 * 3 / (pitch * pitch)},
		{"staggered dots", settled("dots", "size=6", "spacing=10.16"), pitch, pitch * math.Sqrt(3),
			math.Pi * 3 * 3 / (pitch * pitch * math.Sqrt(3) / 2)},
		{"half-drop dots", settled("dots", "size=4", "spacing=10.16", "repeat=half-drop"), pitch * math.Sqrt(3), pitch,
			math.Pi * 2 * 2 / (pitch * pitch * math.Sqrt(3) / 2)},
		{"stripes", &Stripes{Bands: []Band{{100 * dot, 1}, {60 * dot, 0}, {30 * dot, 1}, {50 * dot, 0}}}, pitch, pitch, 130.0 / 240},
		// a scale shows what the two scales of the row above leave of it; their
		// middles lie sqrt(2) r away. Its inner disc, ground, has radius r/2.
		{"scallops of two rings", &Scallops{Size: pitch, Rise: pitch / 2, Rings: 2, Inks: []int{1, 0}}, pitch, pitch,
			1 - (math.Pi*r*r/4-2*lens(r/2, r, math.Sqrt2*r))/(2*r*r)},
		{"scallops of three rings", &Scallops{Size: pitch, Rise: pitch / 2, Rings: 3, Inks: []int{0, 1, 0}}, pitch, pitch,
			(math.Pi*r*r*4/9 - 2*lens(r*2/3, r, math.Sqrt2*r) - math.Pi*r*r/9) / (2 * r * r)},
		// a quatrefoil of lobes a is a square and four half discs; the line along one
		// of lobes b turns square corners with round joins. Petals are lenses of two
		// arcs, and the star is square but for four parabolas, two thirds of their
		// triangles.
		{"quatrefoils", settled("quatrefoil", fmt.Sprint("size=", 240*dot)), 2 * pitch, 2 * pitch, func() float64 {
			const a, b, line, petal, chord = 4.6, 3.9, 0.35, 3.6, 4.3
			contour := 4*math.Pi*b*line - 4*(1-math.Pi/4)*line*line/4
			angle := 2 * math.Asin(chord/2/petal)
			star := 4 * (2.7*2.7/2 - 2.0/3*(2.7*2.45-2.7*0.25)/2)
			return (4*a*a + 2*math.Pi*a*a - contour - 4*petal*petal*(angle-math.Sin(angle)) + star) / (14 * 28)
		}()},
		// two diamonds are half of a cell of 32 x 25; two families of lines cover the
		// other half as if by chance. A line crosses its cell's breadth once and its
		// height twice before it meets itself.
		{"argyle", settled("argyle", fmt.Sprint("size=", 320*dot)), 320 * dot, 250 * dot, func() float64 {
			covered := 0.4 / (32 * 25 / math.Hypot(32, 2*25))
			return 0.5 + 0.5*(2*covered-covered*covered)
		}()},
	}
	shares(t, 0, cases)
}

type shareCase struct {
	name   string
	motif  Motif
	dx, dy float64 // a rectangle that recurs
	want   float64
}

// pitch is the side of most rectangles that recur: 10.16 mm.
const pitch = 240 * dot

// shares wants every closed form to 0.2 %, and slack more.
func shares(t *testing.T, slack float64, cases []shareCase) {
	t.Helper()
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			const side = 70.0
			page := pageOf(Design{Name: "x", Motif: c.motif, Colours: blackOnWhite, Scale: 1}, side)
			x0, y0 := 100, 100
			x1, y1 := x0+int(math.Round(5*c.dx/dot)), y0+int(math.Round(math.Floor(55/c.dy)*c.dy/dot))
			if c.dx > pitch {
				x1 = x0 + int(math.Round(3*c.dx/dot))
			}
			for name, raster := range draws(t, page) {
				got := raster.InkedShare(x0, y0, x1, y1)
				if math.Abs(got-c.want) > 0.002*c.want+slack {
					t.Errorf("%s: inked share %.5f, closed form %.5f", name, got, c.want)
				}
			}
		})
	}
}

// pageOf covers a square page with a design, its origin in the middle.
func pageOf(d Design, side float64) *draw.Page {
	page := draw.NewPage(side, side)
	page.Title = d.Name
	page.Trim = draw.Rect{MaxX: side, MaxY: side}
	page.Layer(draw.Artwork, func(s *draw.Surface) {
		s.Within(draw.Translate(side/2, side/2), func(s *draw.Surface) {
			d.Draw(s, draw.Rect{MinX: -side / 2, MinY: -side / 2, MaxX: side / 2, MaxY: side / 2})
		})
	})
	return page
}

// draws gives the page as our PNG and as MuPDF and librsvg draw it.
func draws(t *testing.T, page *draw.Page) map[string]*referee.Raster {
	t.Helper()
	return map[string]*referee.Raster{
		"png":     referee.PNG(t, written(t, page, "png", 600), 600),
		"mupdf":   referee.Renderers["mupdf"](t, written(t, page, "pdf", 600), 600),
		"librsvg": referee.SVG(t, written(t, page, "svg", 600), 600, ""),
	}
}

func written(t *testing.T, page *draw.Page, format string, dpi float64) []byte {
	t.Helper()
	var b bytes.Buffer
	var err error
	switch format {
	case "png":
		err = png.Write(t.Context(), &b, page, dpi)
	case "pdf":
		err = pdf.Write(t.Context(), &b, []*draw.Page{page}, time.Time{})
	case "svg":
		err = svg.Write(t.Context(), &b, page)
	}
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
