package desk

import (
	"bytes"
	"fmt"
	"io"
	"net/http"
	"net/url"
	"runtime"
	"strings"
	"testing"
	"time"

	"underflap/liner/request"
)

// Many who send at once hold so much memory and no more: by what has arrived, so
// that those who only promise much keep nobody out, nor does anybody a preview.
func TestUploadsTogetherAreBounded(t *testing.T) {
	s := serve(t, func(l *Limits) { l.Receiving = 3_000_000 })
	begin := func(path string, sent int) io.Reader {
		c := s.dial(t)
		fmt.Fprintf(c, "POST %s HTTP/1.1\r\nHost: %s\r\nContent-Length: 1000000\r\n\r\n%s", path, s.addr, strings.Repeat("x", sent))
		return c
	}
	for range 20 {
		begin("/art?name=a.png", 10)
	}
	until(t, "twenty promise", func() bool { return held(s.receiving, s.limits.Receiving) == 200 })
	s.add(t, "disc.png", disc(60))
	for i := range 3 {
		begin([]string{"/art?name=a.png", "/photo?name=a.png", "/open"}[i], 999_000)
	}
	until(t, "three send much", func() bool { return held(s.receiving, s.limits.Receiving) == 3*999_000+200 })
	for _, path := range []string{"/art?name=a.png", "/photo?name=a.png", "/open"} {
		if res, data := s.post(t, path, "application/octet-stream", bytes.Repeat([]byte("x"), 5_000_000)); res.StatusCode != 503 || len(problemsOf(t, data)) != 1 {
			t.Errorf("%s beside them: %s %s", path, res.Status, data)
		}
	}
	s.answers(t, "beside uploads")
	s.stop()
	if n := held(s.receiving, s.limits.Receiving); n != 0 {
		t.Errorf("%d bytes are held in the end", n)
	}
}

// RFC 9112, 7.1: a body in chunks does not say how long it is, and ends at its bound.
func TestBodiesOfNoSaidLengthAreBounded(t *testing.T) {
	s := serve(t, func(l *Limits) { l.UploadBytes, l.FormBytes = 100_000, 1000 })
	for path, size := range map[string]int{"/art?name=a.png": 100_001, "/photo?name=a.png": 100_001, "/preview": 1001} {
		req, err := http.NewRequest("POST", s.at+path, io.MultiReader(bytes.NewReader(bytes.Repeat([]byte("x"), size))))
		if err != nil {
			t.Fatal(err)
		}
		req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		if res, data := s.do(t, req); res.StatusCode != 413 || len(problemsOf(t, data)) != 1 {
			t.Errorf("%s: %s %.200s", path, res.Status, data)
		}
	}
}

// What was read is let go, whatever came of it.
func TestUploadsAreLetGo(t *testing.T) {
	s := serve(t, func(l *Limits) { l.UploadBytes = 100_000 })
	for _, path := range []string{"/art?name=a.png", "/photo?name=a.png", "/open"} {
		for _, data := range [][]byte{disc(60), []byte("holly"), bytes.Repeat([]byte("x"), 100_001), nil} {
			s.post(t, path, "application/octet-stream", data)
		}
	}
	if n := held(s.receiving, s.limits.Receiving); n != 0 {
		t.Errorf("%d bytes are held", n)
	}
}

// A thousand who ask and leave at once leave nothing behind.
func TestAThousandWhoVanish(t *testing.T) {
	s := serve(t, nil)
	s.answers(t, "at first")
	before := runtime.NumGoroutine()
	form := url.Values{"envelope": {"c6"}, "pattern": {"dots"}}.Encode()
	for i := range 1000 {
		c := s.dial(t)
		switch i % 4 {
		case 0:
			fmt.Fprintf(c, "POST /preview HTTP/1.1\r\nHost: %s\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: %d\r\n\r\n%s", s.addr, len(form), form)
		case 1:
			fmt.Fprintf(c, "GET /liners.png?dpi=600 HTTP/1.1\r\nHost: %s\r\n\r\n", s.addr)
		case 2:
			fmt.Fprintf(c, "POST /art?name=a.png HTTP/1.1\r\nHost: %s\r\nContent-Length: 1000000\r\n\r\nxxxx", s.addr)
		case 3:
			fmt.Fprintf(c, "GET /samples/pattern.png?pattern=scallops HTTP/1.1\r\nHost: %s\r\n\r\n", s.addr)
		}
		c.Close()
	}
	until(t, "nothing of them is left", func() bool {
		return runtime.NumGoroutine() <= before+5 && len(s.previews.inside)+len(s.samples.inside)+len(s.downloads.inside)+len(s.decoding.inside) == 0 &&
			held(s.receiving, s.limits.Receiving) == 0 && s.sends() == 0
	})
	s.answers(t, "after them")
}

// The time for a photo is bounded as that of a picture is.
func TestAPhotoHasATimeLimit(t *testing.T) {
	s := serve(t, func(l *Limits) { l.PreviewTime = 1 })
	if res, data := s.post(t, "/photo?name=a.png", "image/png", disc(60)); res.StatusCode != 503 || !strings.Contains(string(data), "too long") {
		t.Errorf("%s %s", res.Status, data)
	}
}

// RFC 9112, 3.2.4: a request for no page, which net/http would answer on its own.
func TestTheGuardSeesEveryRequest(t *testing.T) {
	s := serve(t, nil)
	for host, want := range map[string]string{"tarnlane.example": "421", s.addr: "4"} {
		c := s.dial(t)
		fmt.Fprintf(c, "OPTIONS * HTTP/1.1\r\nHost: %s\r\nConnection: close\r\n\r\n", host)
		if data := closedByDesk(t, c); !strings.HasPrefix(data, "HTTP/1.1 "+want) || !strings.Contains(data, "Content-Security-Policy") {
			t.Errorf("at %s: %.100q", host, data)
		}
	}
}

// What takes as long as it may to draw is still sent, and the largest of all fits.
func TestTheUsualLimitsFitOneAnother(t *testing.T) {
	l := UsualLimits()
	if l.Write < l.DownloadTime+time.Minute || l.Receiving < request.MostJob+l.UploadBytes || l.Sending < int64(l.DownloadSize) {
		t.Errorf("%+v", l)
	}
}
