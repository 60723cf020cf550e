package png

import (
	"context"
	"math"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Rows draws a page at a density and gives its rows from the top, without making
// a file: for measuring what is drawn. A row is four bytes a pixel, red, green,
// blue and 255, and is used again for the next. The page is not scaled to whole
// pixels; its last row and column may reach past it,
// and are white there. When ctx ends it stops, and gives the context's error.
func Rows(ctx context.Context, page *draw.Page, dpi float64, each func(row []byte)) error {
	scale := dpi / words.MillimetresPerInch
	width, height := int(math.Ceil(page.Width*scale)), int(math.Ceil(page.Height*scale))
	j := &job{ctx: ctx, page: page, scale: scale, width: width, height: height, rows: rowsOf(width), tiles: newTiles(ctx, page, scale, nil)}
	c := newCanvas(j)
	for top := 0; top < height; top += j.rows {
		c.paint(top)
		if err := ctx.Err(); err != nil {
			return err
		}
		for y := range min(j.rows, height-top) {
			each(c.row(y))
		}
	}
	return nil
}
