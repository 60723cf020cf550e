package request

import (
	"context"

	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Of the picture of a person's own art, in millimetres: its longer side, and the
// ground around it.
const artSide, artEdge = 100.0, 4.0

// Art draws the person's own art alone, as it will be printed: cleaned or traced
// as the words wish, on the ground and in the ink of their palette. Remarks say
// what was done to it, a line each. When ctx ends it stops and gives the context's error.
func Art(ctx context.Context, w Words) (page *draw.Page, remarks []string, err error) {
	if w.Stamp == "" {
		return nil, nil, &words.Refused{Field: "stamp", Why: "there is no art", Accepts: "a picture or an SVG file"}
	}
	w.Pattern = ""
	_, own, err := resolveArt(ctx, w)
	if err != nil {
		return nil, nil, err
	}
	p, _, err := ResolvePalette(ctx, w)
	if err != nil {
		return nil, nil, err
	}
	on, err := resolvePress(w)
	if err != nil {
		return nil, nil, err
	}
	d, _ := on.picture(ctx, pattern.Design{Motif: &pattern.StampTiles{Art: own.art}, Colours: p.Colours})
	art := d.Motif.(*pattern.StampTiles).Art
	width, height := artSide, art.HeightAt(artSide)
	if height > artSide {
		width, height = artSide*artSide/height, artSide
	}
	page = draw.NewPage(width+2*artEdge, height+2*artEdge)
	page.Fill(page.Whole(), d.Colours.Ground)
	page.Within(draw.Translate(page.Width/2, page.Height/2), func(s *draw.Surface) { art.Draw(s, width, d.Colours.Ink) })
	return page, own.remarks, ctx.Err()
}
