package desk

import (
	"errors"
	"fmt"
	"io"
	"net/http"
)

// body is all that a browser sends, of most bytes.
func body(w http.ResponseWriter, r *http.Request, most int64) ([]byte, error) {
	tooLong := &statusError{http.StatusRequestEntityTooLarge, fmt.Sprintf("That is too large: %s at most.", size(most))}
	if r.ContentLength > most { // before a byte of it is read
		return nil, tooLong
	}
	data, err := io.ReadAll(http.MaxBytesReader(w, r.Body, most))
	var long *http.MaxBytesError
	switch {
	case errors.As(err, &long):
		return nil, tooLong
	case err != nil: // cut short, or too slow
		return nil, &statusError{http.StatusBadRequest, "Only a part of it arrived. Try again."}
	}
	return data, nil
}

func size(bytes int64) string {
	if bytes >= 1<<20 {
		return fmt.Sprintf("%d MB", bytes>>20)
	}
	return fmt.Sprintf("%d kB", bytes>>10)
}
