package desk

import (
	"bytes"
	"context"
	"encoding/json"
	"image"
	"image/color"
	"image/png"
	"io"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"golang.org/x/sync/semaphore"

	"underflap/liner/request"
)

// patience is how long a test waits for what should come at once.
const patience = 2 * time.Minute

// served is a desk that listens, with a shelf of its own.
type served struct {
	*Desk
	at    string // its address, without the last slash
	addr  string
	shelf string
	log   *bytes.Buffer // to be read once it has stopped
	stop  func()        // as Ctrl-C does, and waits for its end
}

func serve(t *testing.T, change func(*Limits)) *served {
	t.Helper()
	limits := UsualLimits()
	limits.Grace = 500 * time.Millisecond
	limits.PreviewTime, limits.DownloadTime = patience, patience // a machine may be busy with something else
	if change != nil {
		change(&limits)
	}
	s := &served{shelf: t.TempDir(), log: &bytes.Buffer{}}
	var err error
	if s.Desk, err = New(request.Shelf{Dir: s.shelf}, limits, s.log); err != nil {
		t.Fatal(err)
	}
	l, err := Listen("0")
	if err != nil {
		t.Fatal(err)
	}
	s.at, s.addr = strings.TrimSuffix(Address(l), "/"), l.Addr().String()
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(ctx, l) }()
	s.stop = sync.OnceFunc(func() {
		cancel()
		select {
		case err := <-ended:
			if err != nil {
				t.Errorf("serving ended with %v", err)
			}
		case <-time.After(patience):
			t.Error("serving does not end")
		}
	})
	t.Cleanup(s.stop)
	return s
}

// fresh is a client that keeps no connection.
var fresh = &http.Client{Transport: &http.Transport{DisableKeepAlives: true}, Timeout: patience}

func (s *served) do(t *testing.T, req *http.Request) (*http.Response, []byte) {
	t.Helper()
	res, err := fresh.Do(req)
	if err != nil {
		t.Fatal(err)
	}
	defer res.Body.Close()
	data, err := io.ReadAll(res.Body)
	if err != nil {
		t.Fatal(err)
	}
	return res, data
}

func (s *served) get(t *testing.T, path string) (*http.Response, []byte) {
	t.Helper()
	req, err := http.NewRequest("GET", s.at+path, nil)
	if err != nil {
		t.Fatal(err)
	}
	return s.do(t, req)
}

func (s *served) post(t *testing.T, path, kind string, body []byte) (*http.Response, []byte) {
	t.Helper()
	req, err := http.NewRequest("POST", s.at+path, bytes.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	req.Header.Set("Content-Type", kind)
	return s.do(t, req)
}

func (s *served) previewed(t *testing.T, words url.Values) preview {
	t.Helper()
	res, data := s.post(t, "/preview", "application/x-www-form-urlencoded", []byte(words.Encode()))
	var p preview
	if err := json.Unmarshal(data, &p); res.StatusCode != 200 || err != nil {
		t.Fatalf("%v: %s %.300s", words, res.Status, data)
	}
	return p
}

// add uploads a file and gives its word.
func (s *served) add(t *testing.T, name string, data []byte) art {
	t.Helper()
	res, answer := s.post(t, "/art?name="+url.QueryEscape(name), "application/octet-stream", data)
	var a art
	if err := json.Unmarshal(answer, &a); res.StatusCode != 200 || err != nil {
		t.Fatalf("%s: %s %s", name, res.Status, answer)
	}
	return a
}

// sends is how many bytes of downloads are held until they are sent.
func (s *served) sends() int64 { return held(s.sending, s.limits.Sending) }

// held is how much of something is taken.
func held(of *semaphore.Weighted, all int64) int64 {
	low, high := int64(0), all // of what is free
	for low < high {
		middle := (low + high + 1) / 2
		if of.TryAcquire(middle) {
			of.Release(middle)
			low = middle
		} else {
			high = middle - 1
		}
	}
	return all - low
}

func problemsOf(t *testing.T, data []byte) []problem {
	t.Helper()
	var p struct{ Problems []problem }
	if err := json.Unmarshal(data, &p); err != nil {
		t.Fatalf("%v: %.200s", err, data)
	}
	return p.Problems
}

// disc is a scan of a stamp: a dark disc on light paper.
func disc(side int) []byte {
	img := image.NewGray(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			v := uint8(245)
			if dx, dy := x-side/2, y-side/2; dx*dx+dy*dy < side*side/9 {
				v = 30
			}
			img.SetGray(x, y, color.Gray{Y: v})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// plant writes a file into a folder.
func plant(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
}

var dialer net.Dialer

// dial opens a bare connection.
func (s *served) dial(t *testing.T) net.Conn {
	t.Helper()
	c, err := net.Dial("tcp4", s.addr)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close() })
	return c
}

// until waits for something to become true.
func until(t *testing.T, what string, is func() bool) {
	t.Helper()
	for end := time.Now().Add(patience); !is(); time.Sleep(2 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("not in %v: %s", patience, what)
		}
	}
}
