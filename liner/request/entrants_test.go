//go:build unix

package request

import (
	"image"
	"image/color"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"underflap/pattern/draw"
)

// entrants are the designs that race: sheets as people ask for them, and pages
// drawn by hand. A new family is one line.
var entrants = []entrant{
	{"dots", sheetOf(Words{})},
	{"stripes", sheetOf(Words{Pattern: "stripes", Turn: "45"})},
	{"scallops", sheetOf(Words{Pattern: "scallops"})},
	{"bands crossing", pageOf(crossing)},
	{"5000 motifs", pageOf(scattered)},
	{"stamp", func(stamp string) ([]*draw.Page, error) { return sheetOf(Words{Stamp: stamp})(stamp) }},
}

func sheetOf(w Words) func(string) ([]*draw.Page, error) {
	return func(string) ([]*draw.Page, error) {
		r, err := Resolve(w)
		if err != nil {
			return nil, err
		}
		made, err := r.Make()
		return made.Pages, err
	}
}

var inks = []draw.Colour{{R: 180, G: 71, B: 46}, {R: 214, G: 149, B: 58}, {R: 111, G: 125, B: 63}, {R: 91, G: 43, B: 69}}

// pageOf is A4 with art in a large rounded outline and a cut line around it.
func pageOf(art func(s *draw.Surface, area draw.Rect)) func(string) ([]*draw.Page, error) {
	return func(string) ([]*draw.Page, error) {
		page := draw.NewPage(210, 297)
		page.Trim = draw.Rect{MinX: 8, MinY: 8, MaxX: 202, MaxY: 289}
		area, corner := page.Trim, 40.0
		var edge draw.Path
		edge.Move(area.MinX+corner, area.MinY)
		edge.Line(area.MaxX-corner, area.MinY)
		edge.Arc(draw.Point{X: area.MaxX - corner, Y: area.MinY + corner}, math.Pi/2)
		edge.Line(area.MaxX, area.MaxY)
		edge.Line(area.MinX, area.MaxY)
		edge.Line(area.MinX, area.MinY+corner)
		edge.Arc(draw.Point{X: area.MinX + corner, Y: area.MinY + corner}, math.Pi/2)
		edge.Close()
		page.Layer(draw.Artwork, func(s *draw.Surface) {
			s.Clipped(edge, func(s *draw.Surface) {
				s.Fill(draw.Rectangle(area), draw.Colour{R: 246, G: 236, B: 217})
				art(s, area)
			})
		})
		page.Layer(draw.Cut, func(s *draw.Surface) { s.Stroke(edge, draw.Colour{R: 58, G: 56, B: 60}, 0.15) })
		return []*draw.Page{page}, nil
	}
}

// crossing lays bands down and across, and squares of a third ink where they
// meet, with thin lines between.
func crossing(s *draw.Surface, area draw.Rect) {
	const pitch, wide, thin = 12.0, 7.0, 0.6
	for x := area.MinX; x < area.MaxX; x += pitch {
		s.Fill(draw.Rectangle(draw.Rect{MinX: x, MinY: area.MinY, MaxX: x + wide, MaxY: area.MaxY}), inks[1])
	}
	for y := area.MinY; y < area.MaxY; y += pitch {
		s.Fill(draw.Rectangle(draw.Rect{MinX: area.MinX, MinY: y, MaxX: area.MaxX, MaxY: y + wide}), inks[2])
	}
	for x := area.MinX; x < area.MaxX; x += pitch {
		for y := area.MinY; y < area.MaxY; y += pitch {
			s.Fill(draw.Rectangle(draw.Rect{MinX: x, MinY: y, MaxX: x + wide, MaxY: y + wide}), inks[3])
		}
	}
	for x := area.MinX + 9.3; x < area.MaxX; x += pitch {
		s.Fill(draw.Rectangle(draw.Rect{MinX: x, MinY: area.MinY, MaxX: x + thin, MaxY: area.MaxY}), inks[0])
	}
	for y := area.MinY + 9.3; y < area.MaxY; y += pitch {
		s.Fill(draw.Rectangle(draw.Rect{MinX: area.MinX, MinY: y, MaxX: area.MaxX, MaxY: y + thin}), inks[0])
	}
}

// scattered lays 5,000 leaves, berries and stars, each turned and sized its own
// way.
func scattered(s *draw.Surface, area draw.Rect) {
	chance := rand.New(rand.NewPCG(5, 5000))
	motifs := []*draw.Symbol{
		s.Symbol("leaf", func(s *draw.Surface) {
			for i, k := range []float64{1, 0.6} {
				var p draw.Path
				p.Move(-1.8*k, 0)
				p.Cubic(draw.Point{X: -0.8 * k, Y: -1.3 * k}, draw.Point{X: 0.8 * k, Y: -1.3 * k}, draw.Point{X: 1.8 * k})
				p.Cubic(draw.Point{X: 0.8 * k, Y: 1.3 * k}, draw.Point{X: -0.8 * k, Y: 1.3 * k}, draw.Point{X: -1.8 * k})
				p.Close()
				s.Fill(p, inks[2-i])
			}
		}),
		s.Symbol("berry", func(s *draw.Surface) {
			s.Fill(draw.Circle(0, 0, 1.1), inks[0])
			s.Fill(draw.Circle(-0.3, -0.3, 0.3), draw.White)
		}),
		s.Symbol("star", func(s *draw.Surface) {
			var p draw.Path
			for i := range 10 {
				r := 1.7 - 0.9*float64(i%2)
				sin, cos := math.Sincos(float64(i) * math.Pi / 5)
				if i == 0 {
					p.Move(r*cos, r*sin)
				} else {
					p.Line(r*cos, r*sin)
				}
			}
			p.Close()
			s.Fill(p, inks[3])
		}),
	}
	for range 5000 {
		at := draw.Translate(area.MinX+chance.Float64()*area.Width(), area.MinY+chance.Float64()*area.Height())
		s.Place(motifs[chance.IntN(len(motifs))], at.After(draw.Turn(360*chance.Float64())).After(draw.Scale(0.7+0.6*chance.Float64())))
	}
}

// art is a picture like a painted one: an apple of soft, grainy colours on a
// transparent ground.
func art(b *testing.B, dir string) string {
	const side = 700
	chance := rand.New(rand.NewPCG(7, 700))
	img := image.NewNRGBA(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			dx, dy := float64(x)-side/2, float64(y)-side/2
			edge := 300 + 20*math.Cos(3*math.Atan2(dy, dx)) - math.Hypot(dx, dy)
			light := 0.6 + 0.4*math.Cos(math.Hypot(dx+100, dy+100)/200) + 0.02*chance.NormFloat64()
			tone := func(v float64) uint8 { return uint8(max(0, min(255, v*light))) }
			img.SetNRGBA(x, y, color.NRGBA{R: tone(200), G: tone(70 + 0.1*dx), B: tone(60), A: uint8(255 * max(0, min(1, edge+0.5)))})
		}
	}
	path := filepath.Join(dir, "stamp.png")
	f, err := os.Create(path)
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		b.Fatal(err)
	}
	return path
}
