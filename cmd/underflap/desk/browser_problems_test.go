package desk_test

import (
	"context"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// A mistake is told beside its field, the last good pictures stay, and the cure
// takes it all away.
func TestAProblemAndItsCure(t *testing.T) {
	b := visit(t, wide)
	good := b.pictures()
	b.write("side-gap", "400")
	b.until(`document.getElementById('side-gap').getAttribute('aria-invalid') === 'true'`)
	said := eval[string](b, `(e => e.getAttribute('aria-describedby').split(' ').map(id => document.getElementById(id)).filter(p => p.matches('.problem')).map(p => p.textContent).join(' '))(document.getElementById('side-gap'))`)
	if !strings.Contains(said, "50 mm") || strings.Contains(said, "--") {
		t.Errorf("said beside the field is %q", said)
	}
	b.until(`!document.getElementById('stale').hidden && document.getElementById('problems').textContent.includes('50 mm')`)
	if b.pictures() != good {
		t.Error("the last good pictures are gone")
	}
	if eval[bool](b, `!!document.getElementById('pdf').href || !document.getElementById('print').disabled`) {
		t.Error("what is not seen can be printed")
	}
	b.shot("problem-wide")
	b.write("side-gap", "6")
	b.shows("--side-gap 6")
	b.until(`!document.querySelector('.problem') && !document.querySelector('[aria-invalid=true]') && document.getElementById('stale').hidden && !document.getElementById('problems').textContent && document.getElementById('pdf').href`)
	if b.pictures().Look == good.Look {
		t.Error("the picture did not change")
	}
}

// Several mistakes are told at once, each in its place, also in what was closed.
func TestProblemsInClosedParts(t *testing.T) {
	b := visit(t, wide)
	eval[bool](b, `(location.hash = '#side-gap=400&ground=nonesuch&pattern=dots&set=size%3D5000mm', true)`)
	b.until(`['side-gap', 'ground'].every(id => (e => e.getAttribute('aria-invalid') === 'true' && e.getBoundingClientRect().height > 0)(document.getElementById(id)))`)
	b.until(`(e => e.dataset.wrong === '' && e.getBoundingClientRect().height > 0)(document.querySelector('[data-settings=dots] [data-set=size]'))`)
	if n := eval[int](b, `document.querySelectorAll('#problems p').length`); n != 3 {
		t.Errorf("%d problems are told: %s", n, b.text("problems"))
	}
}

// held keeps back the answer to every preview that says a word, until it is let go.
type held struct {
	word          string
	came, go_, at chan struct{}
	once          sync.Once
}

func hold(word string) *held {
	return &held{word: word, came: make(chan struct{}, 9), go_: make(chan struct{}), at: make(chan struct{}, 9)}
}

func (h *held) wrap(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path != "/preview" {
			next.ServeHTTP(w, r)
			return
		}
		kept := newRecorder(r)
		next.ServeHTTP(kept, kept.request)
		if strings.Contains(kept.form, h.word) {
			h.came <- struct{}{}
			<-h.go_
			defer func() { h.at <- struct{}{} }()
		}
		kept.send(w)
	})
}

func (h *held) release() { h.once.Do(func() { close(h.go_) }) }

// wait waits for a channel, as long as patience lasts.
func (b *tab) wait(c <-chan struct{}, what string) {
	b.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	select {
	case <-c:
	case <-ctx.Done():
		b.Fatalf("%s never came", what)
	}
}

// An old answer that comes late never takes the place of a newer one: neither when
// the page gave the old question up, nor when that could not be done.
func TestOldAnswersAreLate(t *testing.T) {
	for name, spoil := range map[string]string{"given up": "true", "not given up": `(AbortController.prototype.abort = () => {}, true)`} {
		t.Run(name, func(t *testing.T) {
			h := hold("pattern=stripes")
			defer h.release()
			b := visit(t, wide, h.wrap)
			eval[bool](b, spoil)
			b.pickPattern("stripes")
			b.wait(h.came, "the question about stripes")
			b.pickPattern("scallops")
			b.shows("--pattern scallops")
			newer := b.pictures()
			h.release()
			b.wait(h.at, "the late answer")
			eval[bool](b, `fetch('/assets/desk.css').then(r => r.text()).then(() => new Promise(r => requestAnimationFrame(() => requestAnimationFrame(() => r(true)))))`)
			if b.pictures() != newer || !strings.Contains(b.text("command"), "scallops") {
				t.Error("a late answer took the place of a newer one")
			}
		})
	}
}

// When the server is gone the page says so and goes on when it is back.
func TestTheServerIsGoneAndBack(t *testing.T) {
	var gone sync.Map
	b := visit(t, wide, func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if _, is := gone.Load("gone"); is {
				panic(http.ErrAbortHandler) // the connection breaks, as that of a program that ended
			}
			next.ServeHTTP(w, r)
		})
	})
	b.expect("ERR_EMPTY_RESPONSE|ERR_CONNECTION|ERR_INCOMPLETE")
	good := b.pictures()
	gone.Store("gone", true)
	b.pick("envelope", "c5")
	b.until(`(e => !e.hidden && e.textContent)(document.getElementById('gone'))`)
	if b.pictures().Look != good.Look {
		t.Error("the last good picture is gone")
	}
	gone.Delete("gone")
	b.shows("--envelope c5") // by itself
	b.until(`document.getElementById('gone').hidden`)
}

// The page leaves: its question is given up, and the server goes on.
func TestLeavingGivesUp(t *testing.T) {
	ended := make(chan struct{}, 99)
	b := visit(t, wide, func(next http.Handler) http.Handler {
		return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			if r.URL.Path == "/preview" && r.Header.Get("X-Held") == "" {
				kept := newRecorder(r)
				if strings.Contains(kept.form, "count=3") {
					select {
					case <-r.Context().Done():
						ended <- struct{}{}
					case <-time.After(patience):
					}
					return
				}
				next.ServeHTTP(w, kept.request)
				return
			}
			next.ServeHTTP(w, r)
		})
	})
	b.write("count", "3")
	b.until(`document.querySelector('#pictures.busy')`)
	b.do(chromedp.Navigate("about:blank"))
	b.wait(ended, "the end of a question that nobody waits for")
}
