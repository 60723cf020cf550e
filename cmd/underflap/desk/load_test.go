package desk

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"underflap/palettes"
	"underflap/pattern"
)

// Of the load: previews in all, and clients that ask at once. `make load` asks for
// 10,000.
const (
	usualLoad = 1000
	clients   = 3
	loadWord  = "UNDERFLAP_LOAD"
)

// sitting is how many previews a person looks at before taking another envelope.
const sitting = 40

// loaded is one preview with words that change all the time; the envelope, its view
// and the paper change now and then.
func loaded(i int) url.Values {
	chance := rand.New(rand.NewPCG(uint64(i/sitting), 3))
	of := func(list []string) string { return list[chance.IntN(len(list))] }
	names := slices.DeleteFunc(slices.Clone(pattern.Names()), func(name string) bool { return name == pattern.Stamps })
	form := url.Values{
		"envelope": {of([]string{"c6", "dl", "c5", "c7", "a7", "a2", "number10", "155square"})}, "paper": {of([]string{"a4", "letter"})}, "view": {of([]string{"open", "open", "open", "half", "closed"})},
	}
	if chance.IntN(8) == 0 { // measured
		form.Del("envelope")
		form.Set("pocket", fmt.Sprintf("%dx%dmm", 120+chance.IntN(60), 90+chance.IntN(40)))
		form.Set("flap-depth", "60mm")
	}
	chance = rand.New(rand.NewPCG(uint64(i), 7))
	for name, word := range map[string]string{"pattern": of(names), "palette": of(palettes.Names()),
		"scale": fmt.Sprintf("%.2f", 0.7+chance.Float64()), "turn": fmt.Sprint(chance.IntN(180)), "seed": fmt.Sprint(chance.IntN(1000)),
		"count": fmt.Sprint(1 + chance.IntN(60)), "units": of([]string{"mm", "in"})} {
		form.Set(name, word)
	}
	if chance.IntN(20) == 0 { // something is wrong
		form.Set("side-gap", "wide")
	}
	return form
}

// The real program in a process of its own answers every preview, and takes no more
// memory at the end than after the first tenth, in which it fills what it keeps.
func TestTheDeskBearsALoad(t *testing.T) {
	previews := usualLoad
	if word := os.Getenv(loadWord); word != "" {
		var err error
		if previews, err = strconv.Atoi(word); err != nil || previews < 300 {
			t.Fatalf("%s=%q: a number from 300", loadWord, word)
		}
	} else if testing.Short() {
		previews = 300
	}
	program := start(t)
	var mu sync.Mutex
	var times []time.Duration
	ask := func(clients, from, to int) {
		next := make(chan int)
		var all sync.WaitGroup
		for range clients {
			all.Go(func() {
				client := &http.Client{Timeout: patience}
				defer client.CloseIdleConnections()
				for i := range next {
					took, err := program.preview(client, loaded(i))
					if err != nil {
						t.Errorf("preview %d: %v", i, err)
					}
					mu.Lock()
					times = append(times, took)
					mu.Unlock()
				}
			})
		}
		for i := from; i < to; i++ {
			next <- i
		}
		close(next)
		all.Wait()
	}
	first := max(previews/10, 100)
	ask(clients, 0, first)
	before := program.resident(t)
	times = times[:0]
	begun := time.Now()
	for from := first; from < previews; from += first {
		ask(clients, from, min(from+first, previews))
		t.Logf("after %d previews: resident %d MB", min(from+first, previews), program.resident(t)>>20)
	}
	span := time.Since(begun)
	after := program.resident(t)
	say := func(who string) {
		slices.Sort(times)
		share := func(p float64) time.Duration { return times[int(p*float64(len(times)-1))].Round(time.Millisecond) }
		t.Logf("%d previews, %s: p50 %v, p95 %v, most %v", len(times), who, share(0.5), share(0.95), share(1))
	}
	say(fmt.Sprintf("%d at once", clients))
	t.Logf("%.0f a second; resident %d MB after the first %d, %d MB at the end", float64(len(times))/span.Seconds(), before>>20, first, after>>20)
	times = times[:0]
	ask(1, previews, previews+first) // as one person does
	say("one after another")
	if previews >= 10_000 && float64(after) > 1.15*float64(before) || after > mostResident {
		t.Errorf("memory grows from %d MB to %d MB", before>>20, after>>20)
	}
	program.interrupt(t)
}

// mostResident is more than the program may ever take under this load, in bytes:
// what it keeps at most, twice, since rubbish is collected when there is as much.
const mostResident = 1 << 30

// program is the command in a process of its own.
type program struct {
	cmd *exec.Cmd
	at  string
	end chan error
	err *bytes.Buffer
}

// start builds the command and starts its desk, as `underflap desk --no-open --port 0`.
func start(t *testing.T) *program {
	t.Helper()
	if runtime.GOOS == "windows" {
		t.Skip("is ended by a signal")
	}
	home := t.TempDir()
	file := filepath.Join(home, "underflap")
	if out, err := exec.Command("go", "build", "-o", file, "underflap/cmd/underflap").CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	p := &program{cmd: exec.Command(file, "desk", "--no-open", "--port", "0"), end: make(chan error, 1), err: &bytes.Buffer{}}
	p.cmd.Env = append(os.Environ(), "HOME="+home, "XDG_CONFIG_HOME="+home)
	p.cmd.Stderr = p.err
	out, err := p.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := p.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = p.cmd.Process.Kill() })
	line, err := bufio.NewReader(out).ReadString('\n')
	found := regexp.MustCompile(`^underflap desk: (http://127\.0\.0\.1:\d+/) \(Ctrl-C ends it\)\n$`).FindStringSubmatch(line)
	if found == nil {
		t.Fatalf("%q, %v, %s", line, err, p.err)
	}
	p.at = found[1]
	go func() { p.end <- p.cmd.Wait() }()
	return p
}

// preview asks for one, and says what is wrong with the answer.
func (p *program) preview(client *http.Client, form url.Values) (time.Duration, error) {
	begun := time.Now()
	res, err := client.PostForm(p.at+"preview", form)
	if err != nil {
		return 0, err
	}
	defer res.Body.Close()
	data, err := io.ReadAll(res.Body)
	took := time.Since(begun)
	var answer preview
	switch {
	case err != nil:
		return took, err
	case res.StatusCode != 200:
		return took, fmt.Errorf("%s: %.300s", res.Status, data)
	}
	if err := json.Unmarshal(data, &answer); err != nil {
		return took, err
	}
	wrong := form.Get("side-gap") != ""
	if wrong != (len(answer.Problems) > 0) || wrong == (answer.Look != nil && len(answer.Look.Src) > 2000 && answer.Sheet != nil) {
		return took, fmt.Errorf("%v: %+v", form, answer.Problems)
	}
	return took, nil
}

// resident is the memory that the process has, in bytes (proc(5), VmRSS), 0 where
// there is no such file.
func (p *program) resident(t *testing.T) int64 {
	t.Helper()
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", p.cmd.Process.Pid))
	if err != nil {
		if runtime.GOOS == "linux" {
			t.Fatal(err)
		}
		return 0
	}
	for line := range strings.Lines(string(data)) {
		var kB int64
		if n, _ := fmt.Sscanf(line, "VmRSS: %d kB", &kB); n == 1 {
			return kB << 10
		}
	}
	t.Fatal("no VmRSS")
	return 0
}

// interrupt is Ctrl-C: the program ends with status 0, and has complained of nothing.
func (p *program) interrupt(t *testing.T) {
	t.Helper()
	if err := p.cmd.Process.Signal(syscall.SIGINT); err != nil {
		t.Fatal(err)
	}
	select {
	case err := <-p.end:
		if err != nil || p.err.Len() > 0 {
			t.Errorf("ended with %v, %s", err, p.err)
		}
	case <-time.After(patience):
		t.Error("Ctrl-C does not end it")
	}
}
