package desk

import (
	"context"
	"errors"
	"net/http"
	"net/url"
	"strings"
	"testing"
)

func TestTurnsAreTakenAndBounded(t *testing.T) {
	line := newTurns(1, 1)
	leave, err := line.take(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	waits, cancel := context.WithCancel(t.Context())
	waited := make(chan error)
	go func() { _, err := line.take(waits); waited <- err }()
	until(t, "one waits", func() bool { return len(line.inside) == 2 })
	if _, err := line.take(t.Context()); !errors.Is(err, errBusy) {
		t.Errorf("a third: %v", err)
	}
	cancel()
	if err := <-waited; !errors.Is(err, context.Canceled) || len(line.inside) != 1 {
		t.Errorf("one who left: %v, %d inside", err, len(line.inside))
	}
	leave()
	if leave, err = line.take(t.Context()); err != nil || len(line.inside) != 1 {
		t.Errorf("after all: %v", err)
	}
	leave()
	for range 40 { // both are ready, and either may be seen first
		if _, err := line.take(waits); err == nil || len(line.inside)+len(line.working) != 0 {
			t.Fatalf("one who had left before: %v, %d inside", err, len(line.inside))
		}
	}
}

// full takes every place in a line.
func full(t *testing.T, line *turns) (leave func()) {
	t.Helper()
	for range cap(line.working) {
		line.working <- struct{}{}
	}
	for range cap(line.inside) {
		line.inside <- struct{}{}
	}
	return func() {
		for range cap(line.working) {
			<-line.working
		}
		for range cap(line.inside) {
			<-line.inside
		}
	}
}

// Who finds the line full is told to come again; each line is its own.
func TestALineThatIsFullSaysSo(t *testing.T) {
	s := serve(t, nil)
	ask := map[string]func() (*http.Response, []byte){
		"preview": func() (*http.Response, []byte) {
			return s.post(t, "/preview", "application/x-www-form-urlencoded", nil)
		},
		"sample":   func() (*http.Response, []byte) { return s.get(t, "/samples/pattern.png?pattern=dots") },
		"download": func() (*http.Response, []byte) { return s.get(t, "/liners.pdf") },
		"decoding": func() (*http.Response, []byte) { return s.post(t, "/photo?name=a.png", "image/png", disc(60)) },
	}
	for busy, line := range map[string]*turns{"preview": s.previews, "sample": s.samples, "download": s.downloads, "decoding": s.decoding} {
		leave := full(t, line)
		for name, ask := range ask {
			res, data := ask()
			switch {
			case name != busy && res.StatusCode != 200:
				t.Errorf("with every %s taken, a %s: %s %.200s", busy, name, res.Status, data)
			case name == busy && (res.StatusCode != 503 || res.Header.Get("Retry-After") == "" || len(problemsOf(t, data)) != 1):
				t.Errorf("a %s too many: %s %.200s", name, res.Status, data)
			}
		}
		leave()
		if res, _ := ask[busy](); res.StatusCode != 200 {
			t.Errorf("a %s afterwards: %s", busy, res.Status)
		}
	}
}

// A browser that goes away leaves the line, and the work that was begun for it ends.
func TestABrowserThatLeavesIsForgotten(t *testing.T) {
	s := serve(t, nil)
	for range cap(s.previews.working) {
		s.previews.working <- struct{}{}
		s.previews.inside <- struct{}{}
	}
	before := len(s.previews.inside)
	ctx, cancel := context.WithCancel(t.Context())
	gone := make(chan error)
	for range 5 {
		req, err := http.NewRequestWithContext(ctx, "POST", s.at+"/preview", strings.NewReader("envelope=c6"))
		if err != nil {
			t.Fatal(err)
		}
		req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		go func() { _, err := fresh.Do(req); gone <- err }()
	}
	until(t, "five wait", func() bool { return len(s.previews.inside) == before+5 })
	cancel()
	for range 5 {
		if err := <-gone; !errors.Is(err, context.Canceled) {
			t.Error(err)
		}
	}
	until(t, "the line is as it was", func() bool { return len(s.previews.inside) == before })
	for range cap(s.previews.working) {
		<-s.previews.working
		<-s.previews.inside
	}
	// in the midst of the work: the slowest that a download may be
	ctx, cancel = context.WithCancel(t.Context())
	req, _ := http.NewRequestWithContext(ctx, "GET", s.at+"/liners.png?"+url.Values{"dpi": {"1200"}, "paper": {"a3"}, "envelope": {"c4"}, "pattern": {"guilloche"}, "scale": {"0.2"}}.Encode(), nil)
	go func() { _, err := fresh.Do(req); gone <- err }()
	until(t, "it is being drawn", func() bool { return len(s.downloads.working) == 1 })
	cancel()
	if err := <-gone; err == nil {
		t.Error("it was drawn before the browser left")
	}
	until(t, "the turn is free", func() bool { return len(s.downloads.working) == 0 && s.sends() == 0 })
}

// What takes too long to draw ends, and is said.
func TestDrawingHasATimeLimit(t *testing.T) {
	s := serve(t, func(l *Limits) { l.DownloadTime, l.PreviewTime = 1, 1 })
	for _, path := range []string{"/liners.pdf", "/look.png", "/samples/pattern.png"} {
		if res, data := s.get(t, path); res.StatusCode != 503 || !strings.Contains(string(data), "too long") {
			t.Errorf("%s: %s %s", path, res.Status, data)
		}
	}
	if res, data := s.post(t, "/preview", "application/x-www-form-urlencoded", nil); res.StatusCode != 503 || !strings.Contains(string(data), "too long") {
		t.Errorf("%s %s", res.Status, data)
	}
}

func TestAFileThatGrowsTooLargeIsRefused(t *testing.T) {
	s := serve(t, func(l *Limits) { l.DownloadSize = 10_000 })
	res, data := s.get(t, "/liners.png?dpi=300")
	if list := problemsOf(t, data); res.StatusCode != 422 || list[0].Field != "dpi" {
		t.Errorf("%s %s", res.Status, data)
	}
}
