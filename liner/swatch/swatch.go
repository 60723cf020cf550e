// Package swatch lays designs out side by side on a page, each with its name, to
// choose from or to pin on a wall. Lengths are millimetres in page space.
package swatch

import (
	"context"
	"fmt"
	"math"

	"underflap/liner"
	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/draw/progress"
	"underflap/pattern/draw/setting"
	"underflap/pattern/words"
)

// Sample is one design with the words under it.
type Sample struct {
	Name   string
	Design pattern.Design
}

const (
	apart    = 6.0 // between samples, across
	title    = 5.2 // em of the title
	name     = 3.0 // em of the names
	under    = 6.0 // room of a name under its sample
	leastTry = 18.0
	round    = 1.5 // of the samples' corners
)

var ink = draw.Colour{R: 57, G: 57, B: 57}

// Page lays out the samples under a title, as large as they all go on one page.
// It refuses a paper on which they would be too small to judge, and designs that
// a liner could not carry either.
func Page(ctx context.Context, paper liner.Paper, margin float64, heading string, samples []Sample) (*draw.Page, error) {
	left, top := margin+3, margin+3+1.6*title
	width, height := paper.Width-2*left, paper.Height-top-margin-3
	columns, side := grid(len(samples), width, height)
	if side < leastTry {
		return nil, &words.Refused{Field: "paper", Given: paper.Short, Why: fmt.Sprintf("%d samples would be under %s wide", len(samples), words.MM(leastTry)),
			Accepts: "a larger paper"}
	}
	rows := (len(samples) + columns - 1) / columns
	dx := (width + apart) / float64(columns)
	tall := height/float64(rows) - under
	box := draw.Rect{MaxX: dx - apart, MaxY: math.Min(tall, 1.25*(dx-apart))}
	area := middled(box)
	for _, sample := range samples {
		if err := sample.Design.Check(area); err != nil {
			return nil, err
		}
	}
	page := headed(ctx, paper, margin, heading)
	at := func(i int) (x, y float64) {
		return left + float64(i%columns)*dx, top + float64(i/columns)*(height/float64(rows))
	}
	drawn := progress.Begin(ctx, "sample", len(samples))
	defer drawn.End()
	page.Layer(draw.Artwork, func(s *draw.Surface) {
		for i, sample := range samples {
			x, y := at(i)
			s.Within(draw.Translate(x+box.MaxX/2, y+box.MaxY/2), func(s *draw.Surface) { sample.draw(s, area) })
			drawn.Done(1)
		}
	})
	page.Layer(draw.Notes, func(s *draw.Surface) {
		s.Text(heading, draw.Bold, title, draw.Translate(left, margin+3+title*0.75), ink)
		for i, sample := range samples {
			x, y := at(i)
			s.Text(setting.Shortened(sample.Name, draw.Regular, name, box.MaxX), draw.Regular, name, draw.Translate(x, y+box.MaxY+1.3*name), ink)
		}
	})
	return page, ctx.Err()
}

// headed is a page to lay samples on, still empty.
func headed(ctx context.Context, paper liner.Paper, margin float64, heading string) *draw.Page {
	page := draw.NewPage(paper.Width, paper.Height)
	page.Until(ctx)
	page.Title = heading
	page.Trim = draw.Rect{MinX: margin, MinY: margin, MaxX: paper.Width - margin, MaxY: paper.Height - margin}
	return page
}

// middled is a box at the origin moved so that the origin is its middle.
func middled(box draw.Rect) draw.Rect {
	return draw.Rect{MinX: -box.MaxX / 2, MinY: -box.MaxY / 2, MaxX: box.MaxX / 2, MaxY: box.MaxY / 2}
}

// draw draws the sample in an area, whose middle stands for the fold.
func (p Sample) draw(s *draw.Surface, area draw.Rect) {
	p.Design.Depth = area.MaxY
	s.Clipped(rounded(area), func(s *draw.Surface) { p.Design.Draw(s, area) })
}

// grid finds the columns that make the samples, a little taller than wide, the
// largest, and their width.
func grid(n int, width, height float64) (columns int, side float64) {
	for c := 1; c <= n; c++ {
		rows := float64((n + c - 1) / c)
		w := math.Min((width+apart)/float64(c)-apart, height/rows-under)
		if w > side+1e-9 {
			columns, side = c, w
		}
	}
	return max(1, columns), side
}

// rounded is a rectangle with its corners eased.
func rounded(r draw.Rect) draw.Path {
	var p draw.Path
	p.Move(r.MinX+round, r.MinY)
	p.Line(r.MaxX-round, r.MinY)
	p.Arc(draw.Point{X: r.MaxX - round, Y: r.MinY + round}, math.Pi/2)
	p.Line(r.MaxX, r.MaxY-round)
	p.Arc(draw.Point{X: r.MaxX - round, Y: r.MaxY - round}, math.Pi/2)
	p.Line(r.MinX+round, r.MaxY)
	p.Arc(draw.Point{X: r.MinX + round, Y: r.MaxY - round}, math.Pi/2)
	p.Line(r.MinX, r.MinY+round)
	p.Arc(draw.Point{X: r.MinX + round, Y: r.MinY + round}, math.Pi/2)
	p.Close()
	return p
}
