package index

import (
	"bytes"
	"context"
	"image"
	imagedraw "image/draw"
	imagepng "image/png"
	"math"

	"underflap/pattern/draw"
	"underflap/pattern/draw/png"
	"underflap/pattern/words"
)

// picture is one liner of a kind, drawn small.
type picture struct {
	Line
	edge          draw.Path // of the liner, at true size
	scale         float64
	width, height float64
}

// newPicture is as large as goes into a room.
func newPicture(line Line, wide, high float64) picture {
	edge := line.Plan.KeptLine()
	box := edge.Bounds()
	k := math.Min(1, math.Min(wide/box.MaxX, high/box.MaxY))
	return picture{line, edge, k, k * box.MaxX, k * box.MaxY}
}

func (p picture) paper() draw.Colour {
	if p.Colour == (draw.Colour{}) {
		return draw.White
	}
	return p.Colour
}

// draw draws the artwork as paths where it is light, else as dots: hundreds of
// liners with thousands of motifs each, or a photograph, are no burden then. An edge
// of its own shows pale ones on the paper.
func (p picture) draw(ctx context.Context, s *draw.Surface, at draw.Point) error {
	place := draw.Translate(at.X, at.Y).After(draw.Scale(p.scale))
	edge := p.edge.Transform(place)
	switch {
	case p.Plan.Blank:
		s.Fill(edge, draw.White)
	default:
		kept := p.Plan.Kept(ctx, p.Design, p.paper())
		if err := ctx.Err(); err != nil {
			return err
		}
		if !heavy(kept) {
			s.Fill(edge, p.paper())
			s.Within(place, func(s *draw.Surface) { p.Plan.DrawKept(s, p.Design) })
			break
		}
		dots, err := p.dots(ctx, kept)
		if err != nil {
			return err
		}
		s.Clipped(edge, func(s *draw.Surface) {
			s.Picture(dots, draw.Translate(at.X, at.Y).After(draw.Matrix{A: p.width, D: p.height}))
		})
	}
	s.Stroke(edge, pale, hairline)
	return nil
}

// heavyPoints is about 30 kB of paths in a PDF.
const heavyPoints = 6000

// heavy tells whether a page takes more points and placed motifs than that, or
// any photograph.
func heavy(page *draw.Page) bool {
	points, photos := 0, false
	draw.Walk(page.Nodes(), func(n draw.Node) {
		switch n := n.(type) {
		case *draw.Fill:
			points += len(n.Path.Points)
		case *draw.Stroke:
			points += len(n.Path.Points)
		case *draw.Use:
			points += 3 * len(n.At)
		case *draw.Picture:
			photos = true
		}
	})
	return photos || points > heavyPoints
}

// dotsPerInch of a picture on the printed index.
const dotsPerInch = 300

func (p picture) dots(ctx context.Context, kept *draw.Page) (*draw.Image, error) {
	var file bytes.Buffer
	if err := png.Write(ctx, &file, kept, math.Max(dotsPerInch*p.scale, 2*words.MillimetresPerInch/math.Min(kept.Width, kept.Height))); err != nil {
		return nil, err
	}
	read, err := imagepng.Decode(&file)
	if err != nil {
		return nil, err
	}
	flat := image.NewNRGBA(read.Bounds())
	imagedraw.Draw(flat, flat.Bounds(), read, image.Point{}, imagedraw.Src)
	return &draw.Image{NRGBA: flat}, nil
}
