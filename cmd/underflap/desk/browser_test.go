package desk_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"log"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/emulation"
	devlog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"underflap/cmd/underflap/desk"
	"underflap/liner/request"
	"underflap/pattern/draw/referee"
)

// patience bounds a wait for something on the page; nothing is timed by it.
const patience = 60 * time.Second

// view is how a person sees the page.
type view struct {
	width, height int64
	dark          bool
}

var (
	wide   = view{1440, 1000, false}
	narrow = view{360, 780, false}
)

// tab is the desk's page in Debian's Chromium, with a server and a profile of its
// own.
type tab struct {
	*testing.T
	ctx      context.Context
	address  string
	dir      string // downloads go there
	shelf    string // of what is kept, empty
	mu       sync.Mutex
	said     []string // on the console: errors, and what the page's policy stopped
	expected []*regexp.Regexp
}

// visit opens the page. wrap may put something before the server's answers. When
// the test ends, nothing must have been said on the console.
func visit(t *testing.T, v view, wrap ...func(http.Handler) http.Handler) *tab {
	t.Helper()
	t.Parallel() // most of a story is waiting
	chromium := referee.Program(t, "chromium")
	b := &tab{T: t, dir: t.TempDir(), shelf: t.TempDir()}
	b.serve(wrap)
	b.start(chromium)
	b.do(chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{
			Source: `addEventListener('securitypolicyviolation', e => console.error('policy: ' + e.violatedDirective + ' ' + e.blockedURI + ' ' + e.sample))`})
		return err
	}))
	b.see(v)
	b.do(chromedp.Navigate(b.address))
	b.drawn()
	return b
}

// serve runs a desk until the test ends.
func (b *tab) serve(wrap []func(http.Handler) http.Handler) {
	l, err := desk.Listen("0")
	if err != nil {
		b.Fatal(err)
	}
	var complaints bytes.Buffer
	d, err := desk.New(request.Shelf{Dir: b.shelf}, desk.UsualLimits(), &complaints)
	if err != nil {
		b.Fatal(err)
	}
	b.address = desk.Address(l)
	var port int
	if _, err := fmt.Sscanf(b.address, "http://127.0.0.1:%d/", &port); err != nil {
		b.Fatal(err)
	}
	handler := d.Handler(port)
	for _, w := range wrap {
		handler = w(handler)
	}
	server := &http.Server{Handler: handler, ErrorLog: log.New(io.Discard, "", 0)}
	go server.Serve(l)
	b.Cleanup(func() {
		server.Close()
		if complaints.Len() > 0 {
			b.Errorf("the server complained: %s", &complaints)
		}
	})
}

// start runs the browser until the test ends.
func (b *tab) start(chromium string) {
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chromium), chromedp.Flag("lang", "en-GB"), chromedp.Flag("force-device-scale-factor", "1"))
	if os.Getuid() == 0 { // as in CI: it does not run as root otherwise
		options = append(options, chromedp.NoSandbox)
	}
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, leave := chromedp.NewContext(allocator)
	b.ctx = ctx
	b.Cleanup(func() {
		leave()
		stop()
		b.mu.Lock()
		defer b.mu.Unlock()
	saying:
		for _, line := range b.said {
			for _, e := range b.expected {
				if e.MatchString(line) {
					continue saying
				}
			}
			b.Errorf("on the console: %s", line)
		}
	})
	if err := chromedp.Listen(ctx, b.listen); err != nil {
		b.Fatalf("the browser does not start: %v", err)
	}
	if _, err := chromedp.CallBrowser(ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
		Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: b.dir, EventsEnabled: new(true)}); err != nil {
		b.Fatal(err)
	}
}

// listen notes what the console says.
func (b *tab) listen(event any) {
	line := ""
	switch e := event.(type) {
	case *runtime.EventConsoleAPICalled:
		if e.Type == "error" || e.Type == "warning" {
			for _, a := range e.Args {
				line += string(a.Value) + a.Description + " "
			}
		}
	case *runtime.EventExceptionThrown:
		line = e.ExceptionDetails.Text
		if e.ExceptionDetails.Exception != nil {
			line += " " + e.ExceptionDetails.Exception.Description
		}
	case *devlog.EventEntryAdded:
		if e.Entry.Level == "error" || e.Entry.Level == "warning" {
			line = string(e.Entry.Source) + ": " + e.Entry.Text + " " + e.Entry.URL
		}
	}
	if line != "" {
		b.mu.Lock()
		b.said = append(b.said, line)
		b.mu.Unlock()
	}
}

// expect lets the console say something that a story provokes.
func (b *tab) expect(pattern string) { b.expected = append(b.expected, regexp.MustCompile(pattern)) }

// do carries out steps in the browser.
func (b *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	b.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		b.Fatal(err)
	}
}

// eval is a value of JavaScript on the page.
func eval[T any](b *tab, script string) T {
	b.Helper()
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		b.Fatalf("%s: %v", script, err)
	}
	return v
}

// quote is text as JavaScript has it.
func quote(text string) string {
	data, _ := json.Marshal(text)
	return string(data)
}

// until waits for a condition of the page.
func (b *tab) until(condition string) {
	b.Helper()
	script := `new Promise(done => {
		const end = performance.now() + 30000;
		const look = () => {
			let is = false;
			try { is = !!(` + condition + `); } catch {}
			if (is) done(true); else if (performance.now() > end) done(false); else setTimeout(look, 10);
		};
		look();
	})`
	if !eval[bool](b, script) {
		b.shot("failed-" + strings.ReplaceAll(b.Name(), "/", "-"))
		b.Fatalf("this never came true: %s\ncommand: %s\nproblems: %s", condition, b.text("command"), b.text("problems"))
	}
}

// drawn waits for the first pictures.
func (b *tab) drawn() {
	b.Helper()
	b.until(`document.documentElement.dataset.ready && document.getElementById('command').textContent && ` + whole)
}

// whole is the condition that both pictures are there and nothing is under way.
const whole = `['preview-look', 'preview-sheet'].every(id => { const e = document.getElementById(id); return e.src.startsWith('data:image/png') && e.complete && e.naturalWidth > 300; }) && !document.querySelector('#pictures.busy')`

// shows waits until the pictures are those of words: the command beside them has
// them all.
func (b *tab) shows(words ...string) {
	b.Helper()
	condition := whole
	for _, w := range words {
		if without, ok := strings.CutPrefix(w, "!"); ok {
			condition += ` && !document.getElementById('command').textContent.includes(` + quote(without) + `)`
		} else {
			condition += ` && document.getElementById('command').textContent.includes(` + quote(w) + `)`
		}
	}
	b.until(condition)
}

func (b *tab) text(id string) string {
	b.Helper()
	return eval[string](b, `document.getElementById(`+quote(id)+`)?.textContent ?? ''`)
}

func (b *tab) value(id string) string {
	b.Helper()
	return eval[string](b, `document.getElementById(`+quote(id)+`).value`)
}

// pictures are the two pictures and what is said of them.
func (b *tab) pictures() (p struct{ Look, Sheet, LookAbout, SheetAbout string }) {
	b.Helper()
	list := eval[[]string](b, `['preview-look', 'preview-sheet'].flatMap(id => { const e = document.getElementById(id); return [e.src, e.alt]; })`)
	p.Look, p.LookAbout, p.Sheet, p.SheetAbout = list[0], list[1], list[2], list[3]
	return p
}

// press clicks what an expression gives with the mouse, where a person can see it.
func (b *tab) press(element string) {
	b.Helper()
	b.until(element)
	at := eval[[]float64](b, `(async () => {
		const e = `+element+`;
		e.scrollIntoView({block: 'center', behavior: 'instant'});
		await new Promise(r => requestAnimationFrame(() => requestAnimationFrame(r)));
		const r = e.getBoundingClientRect();
		return [r.left + r.width / 2, r.top + r.height / 2, r.width * r.height];
	})()`)
	if at[2] < 1 {
		b.Fatalf("%s is not to be seen", element)
	}
	b.do(chromedp.MouseClickXY(at[0], at[1]))
}

func (b *tab) pressID(id string) {
	b.Helper()
	b.press(`document.getElementById(` + quote(id) + `)`)
}

// pick chooses a radio button or a tick box by the label on it.
func (b *tab) pick(name, value string) {
	b.Helper()
	b.press(fmt.Sprintf(`document.querySelector('input[name=%s][value=%s]').closest('label')`, quote(name), quote(value)))
}

// choose takes an option of a list.
func (b *tab) choose(id, value string) {
	b.Helper()
	eval[bool](b, fmt.Sprintf(`(() => {
		const e = document.getElementById(%s);
		e.focus();
		e.value = %s;
		e.dispatchEvent(new Event('input', {bubbles: true}));
		e.dispatchEvent(new Event('change', {bubbles: true}));
		return e.value === %[2]s || (() => { throw new Error('no such option'); })();
	})()`, quote(id), quote(value)))
}

// write types text into a field, in place of what is there.
func (b *tab) write(id, text string) {
	b.Helper()
	b.openAround(id)
	b.pressID(id)
	eval[bool](b, `(document.activeElement.select(), document.activeElement.id === `+quote(id)+` || (() => { throw new Error('not in the field'); })())`)
	if text == "" {
		text = "\b"
	}
	b.do(chromedp.KeyEvent(text))
}

// openAround opens the parts that a control lies in.
func (b *tab) openAround(id string) {
	b.Helper()
	eval[bool](b, `(() => { for (let d = document.getElementById(`+quote(id)+`).closest('details'); d; d = d.parentElement.closest('details')) d.open = true; return true; })()`)
}

// upload gives a file to a file field.
func (b *tab) upload(id, path string) {
	b.Helper()
	b.do(chromedp.SetUploadFiles(chromedp.ID(id), []string{path}))
}

// download presses a link and gives the file that it brings.
func (b *tab) download(id string) (name string, data []byte) {
	b.Helper()
	b.openAround(id)
	b.until(`document.getElementById(` + quote(id) + `).href`)
	ctx, cancel := context.WithTimeout(b.ctx, patience)
	defer cancel()
	type file struct{ guid, name string }
	began, ended := make(chan file, 4), make(chan string, 4)
	if err := chromedp.ListenBrowser(ctx, func(event any) {
		switch e := event.(type) {
		case *browser.EventDownloadWillBegin:
			began <- file{e.GUID, e.SuggestedFilename}
		case *browser.EventDownloadProgress:
			if e.State != browser.DownloadProgressStateInProgress {
				ended <- string(e.State)
			}
		}
	}); err != nil {
		b.Fatal(err)
	}
	b.pressID(id)
	var f file
	select {
	case f = <-began:
	case <-ctx.Done():
		b.Fatalf("nothing came of %s", id)
	}
	select {
	case state := <-ended:
		if state != string(browser.DownloadProgressStateCompleted) {
			b.Fatalf("%s: the download was %s", id, state)
		}
	case <-ctx.Done():
		b.Fatalf("%s: the download does not end", id)
	}
	path := filepath.Join(b.dir, f.name)
	data, err := os.ReadFile(path)
	if err != nil {
		b.Fatal(err)
	}
	os.Remove(path)
	return f.name, data
}

// see sets the window and the colours of the system.
func (b *tab) see(v view) {
	b.Helper()
	scheme := "light"
	if v.dark {
		scheme = "dark"
	}
	b.do(chromedp.EmulateViewport(v.width, v.height), chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}, {Name: "prefers-reduced-motion", Value: "reduce"}}})
		return err
	}))
}

// shot writes a picture of what is seen into the folder UNDERFLAP_SHOTS, where one
// is asked for.
func (b *tab) shot(name string) {
	b.Helper()
	dir := os.Getenv("UNDERFLAP_SHOTS")
	if dir == "" {
		return
	}
	data, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, name+".png"), data, 0o666)
	}
	if err != nil {
		b.Errorf("%s: %v", name, err)
	}
}
