package desk

import (
	"bytes"
	"fmt"
	"net/http"
	"strings"
)

// action answers a request, or says why it cannot.
type action func(http.ResponseWriter, *http.Request) error

// Handler answers the requests that come to a port of this machine.
func (d *Desk) Handler(port int) http.Handler {
	mux := http.NewServeMux()
	takes := map[string]string{}
	for route, do := range map[string]action{
		"GET /{$}":                 d.home,
		"GET /assets/{name...}":    d.asset,
		"POST /preview":            d.preview,
		"GET /samples/pattern.png": d.sample,
		"GET /explain.svg":         d.explain,
		"GET /liners.pdf":          d.sheets("pdf", true),
		"GET /liners.png":          d.sheets("png", true),
		"GET /liners.svg":          d.sheets("svg", true),
		"GET /print.pdf":           d.sheets("pdf", false),
		"GET /look.png":            d.look,
		"GET /fold.pdf":            d.fold,
		"GET /ruler.pdf":           d.ruler,
		"GET /job.toml":            d.save,
		"POST /open":               d.open,
		"POST /art":                d.addArt,
		"GET /art/original.png":    d.showArt(d.originalArt),
		"GET /art/cleaned.png":     d.showArt(cleanedArt),
		"POST /photo":              d.photo,
	} {
		mux.HandleFunc(route, d.answer(do))
		method, path, _ := strings.Cut(route, " ")
		takes[strings.TrimSuffix(path, "{$}")] = method
	}
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		if method := takes[r.URL.Path]; method != "" {
			w.Header().Set("Allow", method)
			answerError(w, r, http.StatusMethodNotAllowed, "This address takes "+method+" and nothing else.")
			return
		}
		d.fail(w, r, speech{}, errNothingHere)
	})
	return guard(port, mux)
}

// answer runs an action; a slip of ours in it ends that answer and nothing else.
func (d *Desk) answer(do action) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		defer func() {
			if slip := recover(); slip != nil {
				if slip == http.ErrAbortHandler {
					panic(slip)
				}
				d.fail(w, r, speech{}, fmt.Errorf("panic: %v", slip))
			}
		}()
		if err := do(w, r); err != nil {
			d.fail(w, r, d.speechOf(r), err)
		}
	}
}

// home is the page itself.
func (d *Desk) home(w http.ResponseWriter, _ *http.Request) error {
	choices, _ := choices(d.shelf) // what is passed over is said when it is asked for
	var b bytes.Buffer
	if err := d.html.ExecuteTemplate(&b, "page.html", choices); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	_, _ = w.Write(b.Bytes()) // a browser that left needs no answer
	return nil
}
