package desk_test

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"testing"
)

// recorder keeps an answer, to be sent later, and the form that it answers.
type recorder struct {
	*httptest.ResponseRecorder
	request *http.Request
	form    string
}

func newRecorder(r *http.Request) *recorder {
	data, _ := io.ReadAll(r.Body) // of a form on this machine; what is missing is missed by the handler
	again := r.Clone(r.Context())
	again.Body = io.NopCloser(bytes.NewReader(data))
	return &recorder{httptest.NewRecorder(), again, string(data)}
}

func (r *recorder) send(w http.ResponseWriter) {
	for name, values := range r.Header() {
		w.Header()[name] = values
	}
	w.WriteHeader(r.Code)
	_, _ = w.Write(r.Body.Bytes())
}

func number(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// hexOf reads #rrggbb.
func hexOf(t *testing.T, hex string) (c [3]float64) {
	t.Helper()
	n, err := strconv.ParseUint(strings.TrimPrefix(strings.TrimSpace(hex), "#"), 16, 24)
	if err != nil {
		t.Fatalf("%q is no colour", hex)
	}
	return [3]float64{float64(n >> 16), float64(n >> 8 & 255), float64(n & 255)}
}
