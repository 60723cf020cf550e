// Package png writes a page as a PNG file at a stated density. The page is drawn
// in horizontal bands by several goroutines, each band compressed on its own, so
// that memory does not grow with the page. Flat designs are written in indexed
// colour, pages with pictures in true colour. The same page gives the same bytes
// however many goroutines share the work.
package png

import (
	"context"
	"fmt"
	"io"
	"math"

	"underflap/pattern/draw"
	"underflap/pattern/draw/progress"
	"underflap/pattern/words"
)

// Size is the page in pixels at a density, to the nearest pixel.
func Size(page *draw.Page, dpi float64) (width, height int) {
	return int(math.Round(page.Width / words.MillimetresPerInch * dpi)), int(math.Round(page.Height / words.MillimetresPerInch * dpi))
}

// Write writes one page to w with dpi pixels to the inch, recorded in pHYs. When
// ctx ends it stops and gives the context's error.
func Write(ctx context.Context, w io.Writer, page *draw.Page, dpi float64) error {
	return WriteKeeping(ctx, w, page, dpi, nil)
}

// WriteKeeping is Write for one of many pages that show the same pictures, which
// keeper remembers.
func WriteKeeping(ctx context.Context, w io.Writer, page *draw.Page, dpi float64, keeper *Keeper) error {
	width, height := Size(page, dpi)
	if width < 1 || height < 1 {
		return fmt.Errorf("png: a page of %d by %d pixels", width, height)
	}
	inks := newIndex(page)
	c := &chunks{w: w}
	c.head(width, height, dpi, inks)
	j := &job{ctx: ctx, page: page, scale: dpi / words.MillimetresPerInch, width: width, height: height, rows: rowsOf(width), inks: inks, tiles: newTiles(ctx, page, dpi/words.MillimetresPerInch, keeper)}
	strips := progress.Begin(ctx, "strip", j.bands())
	defer strips.End()
	sum := uint32(1)
	c.data(zlibHeader)
	j.run(func(b band) bool {
		if ctx.Err() != nil {
			return false
		}
		c.data(b.packed)
		sum = joinSums(sum, b.sum, b.size)
		strips.Done(1)
		return c.err == nil
	})
	if err := ctx.Err(); err != nil {
		return err
	}
	c.tail(sum)
	if c.err != nil {
		return fmt.Errorf("png: %w", c.err)
	}
	return nil
}
