package desk

import (
	"context"
	"encoding/json"
	"errors"
	"html/template"
	"net/http"
	"strings"

	"underflap/pattern/words"
)

// problem is what is wrong with one field of the form, in plain words.
type problem struct {
	Field string `json:"field"`
	Param string `json:"param,omitempty"` // of the pattern, where the field is set
	Says  string `json:"says"`
	Given string `json:"given"`
}

// statusError is an answer with a status of its own.
type statusError struct {
	status int
	says   string
}

func (e *statusError) Error() string { return e.says }

var (
	errNothingHere = &statusError{http.StatusNotFound, "There is nothing under this address."}
	errTooLong     = &statusError{http.StatusRequestEntityTooLarge, "That is too much at once."}
)

// answerProblems answers with what is wrong with the words.
func answerProblems(w http.ResponseWriter, r *http.Request, status int, list []problem) {
	w.Header().Set("Cache-Control", "no-store")
	h := w.Header()
	h.Del("ETag")
	h.Del("Content-Disposition")
	if !wantsPage(r) {
		answerJSON(w, status, map[string]any{"problems": list})
		return
	}
	h.Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_ = plainPage.Execute(w, list) // a browser that left needs no answer
}

// plainPage is shown where a browser came for a page and there is only a problem.
var plainPage = template.Must(template.New("").Parse(`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><meta name="color-scheme" content="light dark"><title>underflap desk</title></head>
<body><h1>That did not work</h1>
{{range .}}<p>{{.Says}}</p>
{{end}}<p><a href="/">Back to the desk</a></p></body></html>
`))

// wantsPage tells whether a browser is on its way to a page and no script asks.
func wantsPage(r *http.Request) bool {
	if mode := r.Header.Get("Sec-Fetch-Mode"); mode != "" {
		return mode == "navigate"
	}
	return strings.Contains(r.Header.Get("Accept"), "text/html")
}

func answerError(w http.ResponseWriter, r *http.Request, status int, says string) {
	if status == http.StatusServiceUnavailable {
		w.Header().Set("Retry-After", "2")
	}
	answerProblems(w, r, status, []problem{{Says: says}})
}

func answerJSON(w http.ResponseWriter, status int, v any) {
	data, err := json.Marshal(v)
	if err != nil { // of our own structs
		panic(err)
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_, _ = w.Write(data) // a browser that left needs no answer
}

// fail answers with what an error says, in the terms of the person who asked.
func (d *Desk) fail(w http.ResponseWriter, r *http.Request, say speech, err error) {
	var refused *words.Refused
	var status *statusError
	var many *refusals
	var long *http.MaxBytesError
	switch {
	case errors.As(err, &status):
		answerError(w, r, status.status, status.says)
	case r.Context().Err() != nil: // the browser went away, or the desk closes: hardly anybody hears it
		answerError(w, r, http.StatusServiceUnavailable, "The desk is closing.")
	case errors.As(err, &many):
		answerProblems(w, r, many.status, many.list)
	case errors.As(err, &refused):
		answerProblems(w, r, http.StatusUnprocessableEntity, []problem{say.problem(refused)})
	case errors.As(err, &long):
		answerError(w, r, http.StatusRequestEntityTooLarge, errTooLong.says)
	case errors.Is(err, errBusy):
		answerError(w, r, http.StatusServiceUnavailable, "Too much is asked for at once. Try again in a moment.")
	case errors.Is(err, context.DeadlineExceeded):
		answerError(w, r, http.StatusServiceUnavailable, "This took too long to draw. A larger scale or spacing makes it quicker.")
	default:
		d.log.Printf("%s %s: %s", r.Method, r.URL.Path, words.Printable(err.Error()))
		answerError(w, r, http.StatusInternalServerError, "Something went wrong inside the desk; the window it was started from says what.")
	}
}

// refusals are several problems at once.
type refusals struct {
	status int
	list   []problem
}

func (r *refusals) Error() string { return r.list[0].Says }
