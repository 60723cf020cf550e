package desk

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/url"
	"runtime"
	"strings"
	"testing"
	"time"
)

// answers tells that the desk still answers somebody else.
func (s *served) answers(t *testing.T, when string) {
	t.Helper()
	if p := s.previewed(t, url.Values{"envelope": {"c6"}}); p.Look == nil {
		t.Errorf("%s: %+v", when, p.Problems)
	}
	if res, _ := s.get(t, "/liners.pdf"); res.StatusCode != 200 {
		t.Errorf("%s: a download: %s", when, res.Status)
	}
}

// closedByDesk waits for the desk to end a connection.
func closedByDesk(t *testing.T, c io.Reader) string {
	t.Helper()
	said := make(chan string, 1)
	go func() { data, _ := io.ReadAll(c); said <- string(data) }()
	select {
	case data := <-said:
		return data
	case <-time.After(patience):
		t.Error("the connection stays open")
		return ""
	}
}

// Browsers that send nothing, half a head or half a body hold up nobody, and are
// cut off.
func TestSlowBrowsersHoldUpNobody(t *testing.T) {
	s := serve(t, func(l *Limits) { l.Header, l.Read = 400*time.Millisecond, 800*time.Millisecond })
	var slow []io.Reader
	for i := range 60 {
		c := s.dial(t)
		switch i % 4 {
		case 1:
			fmt.Fprintf(c, "GET / HTTP/1.1\r\nHost: %s\r\nX-A:", s.addr)
		case 2:
			fmt.Fprintf(c, "POST /art?name=a.png HTTP/1.1\r\nHost: %s\r\nContent-Length: 1000000\r\n\r\n\x89PNG", s.addr)
		case 3:
			fmt.Fprintf(c, "POST /preview HTTP/1.1\r\nHost: %s\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 100\r\n\r\nenvelope=", s.addr)
		}
		slow = append(slow, c)
	}
	s.answers(t, "beside sixty slow ones")
	for i, c := range slow {
		data := closedByDesk(t, c)
		if i%4 >= 2 && !strings.HasPrefix(data, "HTTP/1.1 4") {
			t.Errorf("half a body: %.100q", data)
		}
	}
	s.answers(t, "after them")
	if n := s.uploads.kept.Len(); n != 0 {
		t.Errorf("%d half files are kept", n)
	}
}

// A browser that asks for a file and never reads it, and those that break off or
// talk nonsense.
func TestBrokenBrowsersHoldUpNobody(t *testing.T) {
	s := serve(t, func(l *Limits) { l.Header, l.Sending = time.Second, 50<<20 })
	for range 2 { // 19 MB fit into no buffer on the way
		c := s.dial(t)
		_ = c.(*net.TCPConn).SetReadBuffer(4096)
		fmt.Fprintf(c, "GET /liners.svg?pattern=terrazzo&scale=0.1 HTTP/1.1\r\nHost: %s\r\n\r\n", s.addr)
	}
	until(t, "two are being sent", func() bool { return s.sends() > 30<<20 && len(s.downloads.inside) == 0 })
	s.answers(t, "beside two who do not read")
	if res, data := s.get(t, "/liners.svg?pattern=terrazzo&scale=0.1"); res.StatusCode != 503 || len(problemsOf(t, data)) != 1 || res.Header.Get("Content-Disposition") != "" {
		t.Errorf("a third of that size: %s", res.Status)
	}
	for _, nonsense := range []string{"\x00\x01\x02", "GET\r\n\r\n", "GET / HTTP/9.9\r\n\r\n", "\x16\x03\x01\x02\x00\x01\x00", "POST /preview HTTP/1.1\r\nHost: " + s.addr + "\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n",
		"GET /" + strings.Repeat("a", 100_000) + " HTTP/1.1\r\nHost: " + s.addr + "\r\n\r\n", "POST /art HTTP/1.1\r\nHost: " + s.addr + "\r\nContent-Length: 99999999999\r\n\r\n",
		"POST /art HTTP/1.1\r\nHost: " + s.addr + "\r\nContent-Length: -1\r\n\r\n", "GET / HTTP/1.1\r\nHost: " + s.addr + "\r\nHost: tarnlane.example\r\n\r\n"} {
		c := s.dial(t)
		fmt.Fprint(c, nonsense)
		buf := make([]byte, 20)
		_ = c.SetReadDeadline(time.Now().Add(patience))
		if n, _ := c.Read(buf); n > 0 && !strings.HasPrefix(string(buf[:n]), "HTTP/1.1 4") && !strings.HasPrefix(string(buf[:n]), "HTTP/1.1 505") {
			t.Errorf("%.30q: %q", nonsense, buf[:n])
		}
		c.Close()
	}
	for range 20 { // gone before the answer
		c := s.dial(t)
		fmt.Fprintf(c, "GET /look.png HTTP/1.1\r\nHost: %s\r\n\r\n", s.addr)
		c.Close()
	}
	until(t, "those who left are forgotten", func() bool { return s.sends() > 30<<20 && s.sends() < 50<<20 && len(s.downloads.inside) == 0 })
	s.answers(t, "after them all")
}

// Ctrl-C: what is under way ends or is cut off, and nothing goes on.
func TestTheDeskEndsCleanly(t *testing.T) {
	before := runtime.NumGoroutine()
	s := serve(t, func(l *Limits) { l.Grace = 300 * time.Millisecond })
	s.answers(t, "at first")
	idle := s.dial(t)
	half := s.dial(t)
	fmt.Fprintf(half, "POST /art HTTP/1.1\r\nHost: %s\r\nContent-Length: 1000\r\n\r\nx", s.addr)
	unread := s.dial(t)
	fmt.Fprintf(unread, "GET /liners.png?dpi=1200&paper=a3&envelope=c4&pattern=guilloche&scale=0.2 HTTP/1.1\r\nHost: %s\r\n\r\n", s.addr)
	until(t, "it draws", func() bool { return len(s.downloads.working) == 1 })
	s.stop()
	for _, c := range []io.Reader{idle, half, unread} {
		closedByDesk(t, c)
	}
	if len(s.downloads.inside)+len(s.previews.inside) != 0 || s.sends() != 0 {
		t.Error("something goes on")
	}
	if _, err := fresh.Get(s.at + "/"); err == nil {
		t.Error("it still answers")
	}
	fresh.CloseIdleConnections()
	until(t, "no goroutine is left", func() bool { return runtime.NumGoroutine() <= before+1 })
	if said := s.log.String(); strings.Contains(said, "panic") {
		t.Error(said)
	}
}

// A picture that was nearly done is still sent.
func TestWhatIsUnderWayMayEnd(t *testing.T) {
	s := serve(t, func(l *Limits) { l.Grace = patience })
	for range cap(s.previews.working) {
		s.previews.working <- struct{}{}
	}
	status := make(chan int)
	go func() {
		res, err := fresh.Post(s.at+"/preview", "application/x-www-form-urlencoded", strings.NewReader("envelope=c6"))
		if err != nil {
			status <- 0
			return
		}
		_, _ = io.Copy(io.Discard, res.Body)
		res.Body.Close()
		status <- res.StatusCode
	}()
	until(t, "one waits", func() bool { return len(s.previews.inside) == 1 })
	go s.stop()
	until(t, "the door is shut", func() bool {
		ctx, cancel := context.WithTimeout(t.Context(), time.Second)
		defer cancel()
		_, err := dialer.DialContext(ctx, "tcp4", s.addr)
		return err != nil
	})
	for range cap(s.previews.working) {
		<-s.previews.working
	}
	if got := <-status; got != 200 {
		t.Errorf("the one who waited got %d", got)
	}
}

// A slip of ours in one answer ends that one, and is told where the desk was started.
func TestASlipEndsOneAnswer(t *testing.T) {
	s := serve(t, nil)
	s.uploads.kept = nil // adding panics
	if res, data := s.post(t, "/art?name=a.png", "image/png", disc(50)); res.StatusCode != 500 || len(problemsOf(t, data)) != 1 {
		t.Errorf("%s %s", res.Status, data)
	}
	s.answers(t, "after a slip")
	s.stop()
	if !strings.Contains(s.log.String(), "panic") {
		t.Errorf("nothing is told: %q", s.log.String())
	}
}
