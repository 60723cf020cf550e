package desk

import (
	"bytes"
	"context"
	"net/http"

	"underflap/liner/request"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// tileWide is the width of a pattern's picture in pixels.
const tileWide = 480.0

// sample answers with a piece of a pattern in the colours given.
func (d *Desk) sample(w http.ResponseWriter, r *http.Request) error {
	return d.small(w, r, "png", tileWide, func(ctx context.Context, f form) ([]*draw.Page, error) {
		page, err := request.Sample(ctx, f.Words)
		return []*draw.Page{page}, err
	})
}

// explain answers with the labelled drawing of the three measurements.
func (d *Desk) explain(w http.ResponseWriter, r *http.Request) error {
	return d.small(w, r, "svg", 0, func(ctx context.Context, f form) ([]*draw.Page, error) {
		_, liner, err := request.ResolveLiner(f.Words)
		if err != nil {
			return nil, err
		}
		return request.Letters(liner), nil
	})
}

// small answers with a picture for the page, wide pixels across, that the browser
// may keep for a while.
func (d *Desk) small(w http.ResponseWriter, r *http.Request, format string, wide float64, make func(context.Context, form) ([]*draw.Page, error)) error {
	f, err := d.fromQuery(r)
	if err != nil {
		return err
	}
	ctx, done, err := d.samples.within(r.Context(), d.limits.PreviewTime)
	if err != nil {
		return err
	}
	defer done()
	if err := d.warm(ctx, f.Look); err != nil {
		return err
	}
	pages, err := make(ctx, f)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := (request.Output{Format: format, DPI: wide * words.MillimetresPerInch / pages[0].Width}).Encode(ctx, &b, pages); err != nil {
		return err
	}
	w.Header().Set("Cache-Control", "private, max-age=600") // a pattern of one's own may be edited
	tagged(w, r, mediaTypes[format], tagOf(b.Bytes()), b.Bytes())
	return nil
}
