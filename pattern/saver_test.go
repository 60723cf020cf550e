package pattern

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"math"
	"testing"
	"time"

	"underflap/pattern/draw"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/png"
	"underflap/pattern/draw/referee"
	"underflap/pattern/draw/svg"
)

// photo is art with colours of its own, and a see-through corner.
func photo() *draw.Art {
	img := image.NewNRGBA(image.Rect(0, 0, 120, 90))
	for y := range 90 {
		for x := range 120 {
			img.SetNRGBA(x, y, color.NRGBA{R: uint8(2 * x), G: uint8(160 - y), B: 90, A: 255})
			if x+y < 40 {
				img.SetNRGBA(x, y, color.NRGBA{})
			}
		}
	}
	return &draw.Art{Width: 120, Height: 90, Image: &draw.Image{NRGBA: img}}
}

func inkedArt() *draw.Art {
	cover := image.NewAlpha(image.Rect(0, 0, 80, 80))
	for y := range 80 {
		for x := range 80 {
			if math.Hypot(float64(x)-40, float64(y)-40) < 38 {
				cover.SetAlpha(x, y, color.Alpha{A: 255})
			}
		}
	}
	return &draw.Art{Width: 80, Height: 80, Ink: 1, Cover: &draw.Cover{Alpha: cover}}
}

func traced() *draw.Art {
	return &draw.Art{Width: 10, Height: 10, Ink: 1, Shapes: []draw.Shape{{Path: draw.Circle(5, 5, 5)}}}
}

func stampsOf(t *testing.T, art *draw.Art) Motif {
	t.Helper()
	motif, err := New(Stamps, map[string]Setting{"size": {Field: "size", Value: "12"}, "spacing": {Field: "spacing", Value: "3"}}, art)
	if err != nil {
		t.Fatal(err)
	}
	return motif
}

// board is a page of 70 by 70 mm with a liner's part about the fold, turned.
const boardSide, boardDPI = 70.0, 150.0

var boardPart = draw.Rect{MinX: -25, MinY: -20, MaxX: 25, MaxY: 40}

func board(d Design, turn float64) (*draw.Page, draw.Matrix) {
	page := draw.NewPage(boardSide, boardSide)
	page.Trim = draw.Rect{MaxX: boardSide, MaxY: boardSide}
	m := draw.Translate(35, 35).After(draw.Turn(turn)).After(draw.Translate(0, -10))
	page.Within(m, func(s *draw.Surface) {
		s.Clipped(draw.Rectangle(boardPart), func(s *draw.Surface) { d.Draw(s, boardPart) })
	})
	return page, m
}

// pixels is the page in true colour; a file might have fewer for soft edges.
func pixels(page *draw.Page) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 0, 0))
	png.Rows(context.Background(), page, boardDPI, func(row []byte) {
		img.Stride = len(row)
		img.Rect = image.Rect(0, 0, len(row)/4, img.Rect.Dy()+1)
		img.Pix = append(img.Pix, row...)
	})
	return img
}

// eased is how much is gone at a depth below the fold: 3t2 - 2t3, smoothstep.
func eased(y, depth float64) float64 {
	t := math.Max(0, math.Min(1, (y-depth)/SaverRun))
	return t * t * (3 - 2*t)
}

// Of every family, and of art of every kind, pixels over the depth are what they
// are without a saver, those past its end white, and those between mixed with
// white by smoothstep. The picture is the same but for that.
func TestASavedDesignIsTheDesignAndThenBarePaper(t *testing.T) {
	const depth = 14.0
	motifs := map[string]Motif{"photo": stampsOf(t, photo()), "stamp in ink": stampsOf(t, inkedArt()), "traced stamp": stampsOf(t, traced())}
	for _, name := range Names() {
		if name != Stamps {
			motifs[name] = settled(name)
		}
	}
	colours := Colours{Name: "three", Ground: draw.Colour{R: 240, G: 226, B: 200}, Inks: []draw.Colour{{R: 150, G: 40, B: 30}, {R: 30, G: 80, B: 60}, {R: 90, G: 60, B: 120}}}
	for name, motif := range motifs {
		for _, fade := range []Fade{{}, {Of: FadeInk, To: 0.3}} {
			turn := 0.0
			if fade.Of != "" {
				turn = 90
			}
			d := Design{Name: name, Motif: motif, Colours: colours, Scale: 1, Turn: 20, Fade: fade, Depth: 40}
			whole, _ := board(d, turn)
			d.Saver = Saver{Depth: depth, Bare: draw.White}
			saved, m := board(d, turn)
			was, is := pixels(whole), pixels(saved)
			back := m.Inverse()
			wrong := 0
			for py := range is.Bounds().Dy() {
				for px := range is.Bounds().Dx() {
					at := back.Apply(draw.Point{X: (float64(px) + 0.5) / boardDPI * 25.4, Y: (float64(py) + 0.5) / boardDPI * 25.4})
					if math.Abs(at.X) > 24.5 || at.Y < -19.5 || at.Y > 39.5 {
						continue
					}
					gone := eased(at.Y, depth)
					a, b := rgb8(was.At(px, py)), rgb8(is.At(px, py))
					for k := range a {
						if want := float64(a[k]) + gone*(255-float64(a[k])); math.Abs(float64(b[k])-want) > 6 {
							if wrong++; wrong == 1 {
								t.Errorf("%s, fade %q: at %.2f, %.2f mm %v; without the saver %v", name, fade.Of, at.X, at.Y, b, a)
							}
							break
						}
					}
				}
			}
			if wrong > 0 {
				t.Errorf("%s, fade %q: %d pixels", name, fade.Of, wrong)
			}
		}
	}
}

func rgb8(c color.Color) [3]uint8 {
	r, g, b, _ := c.RGBA()
	return [3]uint8{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8)}
}

// In every program's drawing, however the piece is turned, stripes fade down their
// length by the same curve: nowhere darker again, so no line shows where it begins
// or ends. A fade of own art is a veil, too, and goes straight.
func TestSavedStripesFadeAlikeInEveryProgram(t *testing.T) {
	const depth = 12.0
	for _, turn := range []float64{0, 90, 180, 270} {
		d := Design{Name: "stripes", Motif: &Stripes{Bands: []Band{{6, 1}, {6, 0}}}, Scale: 1, Saver: Saver{Depth: depth, Bare: draw.White}, Depth: 40,
			Colours: Colours{Name: "dark", Ground: draw.Colour{R: 170, G: 170, B: 170}, Inks: []draw.Colour{{R: 40, G: 40, B: 40}}}}
		page, m := board(d, turn)
		for name, drawn := range everyProgram(t, page) {
			for _, column := range []struct{ x, grey float64 }{{0, 40}, {6, 170}, {-12, 40}, {18, 170}} {
				before := 0.0
				for y := -18.0; y < 39; y += 0.05 {
					at := m.Apply(draw.Point{X: column.x, Y: y})
					got, want := drawn.At(at.X, at.Y), column.grey+eased(y, depth)*(255-column.grey)
					if math.Abs(got-want) > 9 { // a pixel is up to 4 levels of the steepest part
						t.Fatalf("%s, turned %g: %.0f at %.2f mm, %g below the fold; want %.0f", name, turn, got, column.x, y, want)
					}
					if got < before-1.5 {
						t.Fatalf("%s, turned %g: a dark line at %.2f, %.2f mm: %.0f after %.0f", name, turn, column.x, y, got, before)
					}
					before = got
				}
			}
		}
	}
}

// A photo of one grey, tiled, fades to what is left at the foot by a straight line.
func TestOwnArtFadesByAStraightLine(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 40, 40))
	for i := range img.Pix {
		img.Pix[i] = 60
		if i%4 == 3 {
			img.Pix[i] = 255
		}
	}
	motif, err := New(Stamps, map[string]Setting{"size": {Field: "size", Value: "200"}}, &draw.Art{Width: 40, Height: 40, Image: &draw.Image{NRGBA: img}})
	if err != nil {
		t.Fatal(err)
	}
	d := Design{Name: Stamps, Motif: motif, Scale: 1, Fade: Fade{FadeInk, 0.2}, Depth: 36, Colours: Colours{Name: "light", Ground: draw.Colour{R: 220, G: 220, B: 220}, Inks: []draw.Colour{{}}}}
	page, m := board(d, 0)
	for name, drawn := range everyProgram(t, page) {
		for y := -18.0; y < 39; y += 0.25 {
			at := m.Apply(draw.Point{X: 7, Y: y})
			left := d.Fade.left(y, d.Depth)
			if got, want := drawn.At(at.X, at.Y), 220+(60-220)*left; math.Abs(got-want) > 4 {
				t.Fatalf("%s: %.0f, %g below the fold; want %.0f", name, got, y, want)
			}
		}
	}
}

// everyProgram draws a page with ours and with the referees.
func everyProgram(t *testing.T, page *draw.Page) map[string]*referee.Raster {
	t.Helper()
	var vector, file, own bytes.Buffer
	if err := pdf.Write(t.Context(), &vector, []*draw.Page{page}, time.Time{}); err != nil {
		t.Fatal(err)
	}
	if err := svg.Write(t.Context(), &file, page); err != nil {
		t.Fatal(err)
	}
	if err := png.Write(t.Context(), &own, page, boardDPI); err != nil {
		t.Fatal(err)
	}
	all := map[string]*referee.Raster{"ours": referee.PNG(t, own.Bytes(), boardDPI), "librsvg": referee.SVG(t, file.Bytes(), boardDPI, "")}
	for name, draws := range referee.Renderers {
		all[name] = draws(t, vector.Bytes(), boardDPI)
	}
	return all
}

func TestOnPaperEverythingMultiplies(t *testing.T) {
	kraft := draw.Colour{R: 201, G: 167, B: 124}
	d := Design{Name: "photo", Motif: stampsOf(t, photo()), Scale: 1, Saver: Saver{Depth: 10, Bare: draw.White}, Depth: 40,
		Colours: Colours{Ground: draw.Colour{R: 240, G: 226, B: 200}, Inks: []draw.Colour{{}}}}
	white, _ := board(d, 0)
	paper, m := board(d.OnPaper(t.Context(), kraft), 0)
	was, is := pixels(white), pixels(paper)
	back := m.Inverse()
	for py := range is.Bounds().Dy() {
		for px := range is.Bounds().Dx() {
			at := back.Apply(draw.Point{X: (float64(px) + 0.5) / boardDPI * 25.4, Y: (float64(py) + 0.5) / boardDPI * 25.4})
			if math.Abs(at.X) > 24.5 || at.Y < -19.5 || at.Y > 10+SaverRun-0.2 { // further down nothing is drawn
				continue
			}
			a, b := rgb8(was.At(px, py)), rgb8(is.At(px, py))
			want := draw.Multiply(kraft, draw.Colour{R: a[0], G: a[1], B: a[2]})
			for k, v := range [3]uint8{want.R, want.G, want.B} {
				if math.Abs(float64(b[k])-float64(v)) > 3 {
					t.Fatalf("at %.2f, %.2f mm: %v; on white %v, so %s", at.X, at.Y, b, a, want.Hex())
				}
			}
		}
	}
}
