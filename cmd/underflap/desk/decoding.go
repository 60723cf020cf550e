package desk

import (
	"context"
	"net/http"
)

// uploadToDecode reads what a browser sends, of most bytes, and then waits for the
// one turn to decode it. done ends both.
func (d *Desk) uploadToDecode(w http.ResponseWriter, r *http.Request, most int64) (data []byte, ctx context.Context, done func(), err error) {
	data, sent, err := d.upload(w, r, most)
	if err != nil {
		return nil, nil, nil, err
	}
	ctx, decoded, err := d.decoding.within(r.Context(), d.limits.PreviewTime)
	if err != nil {
		sent()
		return nil, nil, nil, err
	}
	return data, ctx, func() { decoded(); sent() }, nil
}
