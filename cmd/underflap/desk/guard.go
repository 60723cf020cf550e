package desk

import (
	"fmt"
	"net/http"
	"slices"
)

// policy lets the page load what this server sends and nothing else, and run no
// script that stands in the page itself (Content Security Policy Level 3).
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self'; " +
	"form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// guard refuses what a page of this desk would never ask: other names for this
// machine, so that no page elsewhere may point its own name here, and requests
// that pages elsewhere send, also those that only fetch a costly picture.
// net/http.CrossOriginProtection lets those pass.
func guard(port int, next http.Handler) http.Handler {
	ours := []string{fmt.Sprintf("127.0.0.1:%d", port), fmt.Sprintf("localhost:%d", port)}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Cache-Control", "no-store")
		if !slices.Contains(ours, r.Host) {
			answerError(w, r, http.StatusMisdirectedRequest, "This desk answers only under its own address, http://"+ours[0]+"/.")
			return
		}
		if from := r.Header.Values("Origin"); len(from) > 1 || len(from) == 1 && from[0] != "http://"+r.Host {
			answerError(w, r, http.StatusForbidden, "Another page asked for this, and the desk answers only its own.")
			return
		}
		if !fetchedHere(r) {
			answerError(w, r, http.StatusForbidden, "Another page asked for this, and the desk answers only its own.")
			return
		}
		next.ServeHTTP(w, r)
	})
}

// fetchedHere goes by what the browser says of who asks (Fetch Metadata). A link
// elsewhere may lead to the page itself, which shows a form and does nothing.
func fetchedHere(r *http.Request) bool {
	sites := r.Header.Values("Sec-Fetch-Site")
	if len(sites) == 0 { // no browser, or an old one
		return true
	}
	if len(sites) > 1 {
		return false
	}
	switch sites[0] {
	case "same-origin", "none":
		return true
	}
	return r.Method == http.MethodGet && r.URL.Path == "/" && r.URL.RawQuery == "" &&
		r.Header.Get("Sec-Fetch-Mode") == "navigate" && r.Header.Get("Sec-Fetch-Dest") == "document"
}
