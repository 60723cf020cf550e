package desk

import (
	"context"
	"net/http"
)

// atDecoding waits for the one turn to decode. The context ends when the browser
// leaves or the time for a preview is over; done ends the turn.
func (d *Desk) atDecoding(r *http.Request) (ctx context.Context, done func(), err error) {
	ctx, cancel := context.WithTimeout(r.Context(), d.limits.PreviewTime)
	leave, err := d.decoding.take(ctx)
	if err != nil {
		cancel()
		return nil, nil, err
	}
	return ctx, func() { leave(); cancel() }, nil
}

// uploadToDecode reads what a browser sends, of most bytes, and then waits for the
// turn to decode it. done ends both.
func (d *Desk) uploadToDecode(w http.ResponseWriter, r *http.Request, most int64) (data []byte, ctx context.Context, done func(), err error) {
	data, sent, err := d.upload(w, r, most)
	if err != nil {
		return nil, nil, nil, err
	}
	ctx, decoded, err := d.atDecoding(r)
	if err != nil {
		sent()
		return nil, nil, nil, err
	}
	return data, ctx, func() { decoded(); sent() }, nil
}
