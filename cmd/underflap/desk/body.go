package desk

import (
	"errors"
	"fmt"
	"io"
	"net/http"

	"golang.org/x/sync/semaphore"
)

// upload reads a file that a browser sends, of most bytes. Many at once hold so
// much memory and no more, by what has arrived: one that promises much and sends
// little keeps nobody out. done ends its hold.
func (d *Desk) upload(w http.ResponseWriter, r *http.Request, most int64) (data []byte, done func(), err error) {
	held := &holding{from: r.Body, room: d.receiving}
	if data, err = body(w, r, held, most); err != nil {
		held.end()
		if errors.Is(err, errBusy) { // heard once all is sent, as below
			_, _ = io.Copy(io.Discard, io.LimitReader(r.Body, most))
		}
		return nil, nil, err
	}
	return data, held.end, nil
}

// body is all that a browser sends, of most bytes.
func body(w http.ResponseWriter, r *http.Request, from io.ReadCloser, most int64) ([]byte, error) {
	tooLong := &statusError{http.StatusRequestEntityTooLarge, fmt.Sprintf("That is too large: %s at most.", size(most))}
	if r.ContentLength > most {
		if r.ContentLength <= 16*most { // a browser may hear no answer before it has sent all, so that is thrown away
			_, _ = io.Copy(io.Discard, r.Body)
		}
		return nil, tooLong
	}
	data, err := io.ReadAll(http.MaxBytesReader(w, from, most))
	var long *http.MaxBytesError
	switch {
	case errors.As(err, &long):
		return nil, tooLong
	case errors.Is(err, errBusy):
		return nil, errBusy
	case err != nil: // cut short, or too slow
		return nil, &statusError{http.StatusBadRequest, "Only a part of it arrived. Try again."}
	}
	return data, nil
}

// holding is a reader that takes room for what it reads.
type holding struct {
	from io.ReadCloser
	room *semaphore.Weighted // bytes
	held int64
}

func (h *holding) Read(p []byte) (int, error) {
	n, err := h.from.Read(p)
	if !h.room.TryAcquire(int64(n)) {
		return 0, errBusy
	}
	h.held += int64(n)
	return n, err
}

func (h *holding) Close() error { return h.from.Close() }

func (h *holding) end() {
	h.room.Release(h.held)
	h.held = 0
}

func size(bytes int64) string {
	if bytes >= 1<<20 {
		return fmt.Sprintf("%d MB", bytes>>20)
	}
	return fmt.Sprintf("%d kB", bytes>>10)
}
