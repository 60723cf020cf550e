package desk

import (
	"net/http"
	"net/http/httptest"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// Who may ask what. Hosts, Origin and Sec-Fetch-* as browsers send them: RFC 9110
// 7.2, RFC 6454 7, and Fetch Metadata Request Headers (W3C), 2.
func TestOnlyThisPageIsAnswered(t *testing.T) {
	s := serve(t, nil)
	handler := s.Handler(4000)
	type head map[string]string
	const here = "127.0.0.1:4000"
	navigate := head{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document"}
	for _, c := range []struct {
		method, host, path string
		head               head
		want               int
	}{
		{"GET", here, "/", nil, 200},
		{"GET", "localhost:4000", "/", nil, 200},
		{"GET", "127.0.0.1", "/", nil, 421},
		{"GET", "localhost", "/", nil, 421},
		{"GET", "127.0.0.1:4001", "/", nil, 421},
		{"GET", "[::1]:4000", "/", nil, 421},
		{"GET", "0.0.0.0:4000", "/", nil, 421},
		{"GET", "127.0.0.2:4000", "/", nil, 421},
		{"GET", "2130706433:4000", "/", nil, 421},
		{"GET", "tarnlane.example:4000", "/", nil, 421},
		{"GET", "127.0.0.1.tarnlane.example:4000", "/", nil, 421},
		{"GET", "LOCALHOST:4000", "/", nil, 421},
		{"GET", "localhost.:4000", "/", nil, 421},
		{"GET", "", "/", nil, 421},
		{"POST", "tarnlane.example", "/preview", nil, 421},

		{"POST", here, "/preview", head{"Origin": "http://" + here}, 200},
		{"POST", here, "/preview", head{"Origin": "http://" + here, "Sec-Fetch-Site": "same-origin"}, 200},
		{"POST", "localhost:4000", "/preview", head{"Origin": "http://localhost:4000"}, 200},
		{"POST", here, "/preview", head{"Origin": "http://localhost:4000"}, 403},
		{"POST", here, "/preview", head{"Origin": "https://" + here}, 403},
		{"POST", here, "/preview", head{"Origin": "http://127.0.0.1:4001"}, 403},
		{"POST", here, "/preview", head{"Origin": "http://127.0.0.1"}, 403},
		{"POST", here, "/preview", head{"Origin": "null"}, 403},
		{"POST", here, "/preview", head{"Origin": ""}, 403},
		{"POST", here, "/preview", head{"Origin": "http://tarnlane.example"}, 403},
		{"GET", here, "/liners.pdf", head{"Origin": "http://tarnlane.example"}, 403},

		{"GET", here, "/liners.pdf", head{"Sec-Fetch-Site": "same-origin"}, 200},
		{"GET", here, "/liners.pdf", head{"Sec-Fetch-Site": "none"}, 200},
		{"GET", here, "/liners.pdf", head{"Sec-Fetch-Site": "cross-site"}, 403},
		{"GET", here, "/liners.pdf", head{"Sec-Fetch-Site": "same-site"}, 403},
		{"GET", here, "/liners.pdf", navigate, 403},
		{"GET", here, "/samples/pattern.png", head{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors", "Sec-Fetch-Dest": "image"}, 403},
		{"POST", here, "/preview", head{"Sec-Fetch-Site": "cross-site"}, 403},
		{"POST", here, "/photo", head{"Sec-Fetch-Site": "same-site"}, 403},
		{"GET", here, "/", navigate, 200}, // a link to the desk
		{"GET", here, "/?envelope=c6", navigate, 403},
		{"POST", here, "/", navigate, 403},
		{"GET", here, "/", head{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "iframe"}, 403},
		{"GET", here, "/", head{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "cors", "Sec-Fetch-Dest": "empty"}, 403},

		{"POST", here, "/", nil, 405},
		{"GET", here, "/preview", nil, 405},
		{"PUT", here, "/preview", nil, 405},
		{"DELETE", here, "/liners.pdf", nil, 405},
		{"OPTIONS", here, "/preview", head{"Origin": "http://tarnlane.example", "Access-Control-Request-Method": "POST"}, 403},
		{"GET", here, "/etc/passwd", nil, 404},
		{"GET", here, "/assets/page.html", nil, 404}, // a template
		{"GET", here, "/assets/%2e%2e/desk.go", nil, 404},
		{"GET", here, "/assets/..%2fdesk.go", nil, 404},
	} {
		req := httptest.NewRequest(c.method, c.path, strings.NewReader("envelope=c6"))
		req.Host = c.host
		if c.method == "POST" {
			req.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		}
		for name, value := range c.head {
			req.Header[name] = []string{value}
		}
		res := httptest.NewRecorder()
		handler.ServeHTTP(res, req)
		if res.Code != c.want {
			t.Errorf("%s %s at %q with %v: %d, want %d", c.method, c.path, c.host, c.head, res.Code, c.want)
		}
		for name, want := range map[string]string{"Content-Security-Policy": policy, "X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer",
			"X-Frame-Options": "DENY", "Cross-Origin-Resource-Policy": "same-origin", "Cross-Origin-Opener-Policy": "same-origin"} {
			if got := res.Header().Get(name); got != want {
				t.Errorf("%s %s: %s is %q", c.method, c.path, name, got)
			}
		}
		if kept := res.Header().Get("Cache-Control"); kept != "no-store" && (c.want != 200 || c.path != "/samples/pattern.png") {
			t.Errorf("%s %s: Cache-Control is %q", c.method, c.path, kept)
		}
		for name := range res.Header() { // nobody elsewhere may read an answer
			if strings.HasPrefix(name, "Access-Control-") {
				t.Errorf("%s %s: %s", c.method, c.path, name)
			}
		}
	}
}

// A header given twice is no browser's, and the second is not passed over.
func TestHeadersGivenTwiceAreRefused(t *testing.T) {
	s := serve(t, nil)
	for name, second := range map[string]string{"Origin": "http://tarnlane.example", "Sec-Fetch-Site": "cross-site"} {
		first := map[string]string{"Origin": s.at, "Sec-Fetch-Site": "same-origin"}[name]
		for _, values := range [][]string{{first, second}, {second, first}} {
			req := httptest.NewRequest("GET", "/", nil)
			req.Host = s.addr
			req.Header[name] = values
			res := httptest.NewRecorder()
			if s.Handler(portIn(t, s.addr)).ServeHTTP(res, req); res.Code != 403 {
				t.Errorf("%s %q: %d", name, values, res.Code)
			}
		}
	}
}

func portIn(t *testing.T, addr string) int {
	t.Helper()
	_, word, _ := strings.Cut(addr, ":")
	port, err := strconv.Atoi(word)
	if err != nil {
		t.Fatal(err)
	}
	return port
}

// Content Security Policy Level 3 (W3C): nothing from elsewhere, and nothing that
// stands in the page itself, is run or applied.
func TestThePolicyAllowsNothingInline(t *testing.T) {
	for _, part := range strings.Split(policy, ";") {
		words := strings.Fields(part)
		for _, source := range words[1:] {
			switch source {
			case "'none'", "'self'":
			case "data:", "blob:":
				if words[0] != "img-src" {
					t.Errorf("%s takes %s", words[0], source)
				}
			default:
				t.Errorf("%s takes %s", words[0], source)
			}
		}
	}
	s := serve(t, nil)
	inline := regexp.MustCompile(`(?i)<style|\sstyle\s*=|\son[a-z]+\s*=|javascript:|<script(?:\s[^>]*)?>\s*[^<\s]|<base|<iframe|<object|<embed`)
	for _, path := range []string{"/", "/nothing", "/fold.pdf"} {
		req, _ := http.NewRequest("GET", s.at+path, nil)
		req.Header.Set("Accept", "text/html")
		if _, data := s.do(t, req); inline.Match(data) || !strings.Contains(string(data), "<html") {
			t.Errorf("%s: %s in %.200s", path, inline.Find(data), data)
		}
	}
}

func TestTheDeskListensToThisMachineAlone(t *testing.T) {
	for _, word := range []string{"", "0"} {
		l, err := Listen(word)
		if err != nil {
			t.Fatal(err)
		}
		if host, _, _ := strings.Cut(l.Addr().String(), ":"); host != "127.0.0.1" {
			t.Errorf("port %q listens at %s", word, l.Addr())
		}
		l.Close()
	}
}

// A second desk finds another port; one that is asked for by number is refused.
func TestATakenPort(t *testing.T) {
	first, err := Listen("")
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	second, err := Listen("")
	if err != nil {
		t.Fatal(err)
	}
	defer second.Close()
	if _, err := Listen(strings.TrimPrefix(first.Addr().String(), "127.0.0.1:")); err == nil || !strings.Contains(err.Error(), "port: ") {
		t.Errorf("a taken port: %v", err)
	}
	for _, word := range []string{"x", "-1", "65536", "80.5", "8o8o", "99999999999999999999"} {
		if _, err := Listen(word); err == nil || !strings.Contains(err.Error(), "65535") {
			t.Errorf("port %q: %v", word, err)
		}
	}
}
