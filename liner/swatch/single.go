package swatch

import (
	"context"

	"underflap/pattern/draw"
)

// Single is a page that one sample covers from edge to edge, without words. It
// refuses a design that a liner could not carry either. When ctx ends it
// stops and gives the context's error.
func Single(ctx context.Context, sample Sample, width, height float64) (*draw.Page, error) {
	area := middled(draw.Rect{MaxX: width, MaxY: height})
	d := sample.Design
	if err := d.Check(area); err != nil {
		return nil, err
	}
	d.Depth = area.MaxY
	page := draw.NewPage(width, height)
	page.Until(ctx)
	page.Title = sample.Name
	page.Trim = draw.Rect{MaxX: width, MaxY: height}
	page.Layer(draw.Artwork, func(s *draw.Surface) {
		s.Within(draw.Translate(width/2, height/2), func(s *draw.Surface) { d.Draw(s, area.Grow(1)) })
	})
	return page, ctx.Err()
}
