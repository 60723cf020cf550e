package desk_test

import (
	"bytes"
	"io"
	"net/http"
	"net/http/httptest"
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
