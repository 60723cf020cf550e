package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	const noSpeed = time.Hour // no machine is so busy that quick work says something
	quickWork = noSpeed
	after := func(quick time.Duration) func() {
		return func() {
			quickWork = quick
			main()
		}
	}
	testscript.Main(homeless{m}, map[string]func(){"underflap": after(noSpeed), "underflap-telling": after(0), "measured": measured})
}

// homeless runs the tests without the home of whoever runs them: a test that
// forgets to furnish one finds an empty folder.
type homeless struct{ *testing.M }

func (h homeless) Run() int {
	home, err := os.MkdirTemp("", "underflap-home")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(home)
	for name, dir := range homes(home) {
		os.Setenv(name, dir)
	}
	return h.M.Run()
}

// homes are the variables by which os.UserConfigDir finds a configuration
// folder on any system, for a home.
func homes(home string) map[string]string {
	config := filepath.Join(home, ".config")
	return map[string]string{"HOME": home, "XDG_CONFIG_HOME": config, "AppData": config}
}

// answer is what one call of the command gave.
type answer struct {
	status         int
	stdout, stderr string
	took           time.Duration
}

// call runs the command in this process and in the current folder. A panic is
// a failed test and no end of the others.
func call(t *testing.T, args ...string) (a answer) {
	t.Helper()
	if asProcesses.takes(args) {
		return asProcesses.call(t, args)
	}
	var stdout, stderr bytes.Buffer
	start, used := time.Now(), processorTime()
	defer func() {
		if p := recover(); p != nil {
			t.Errorf("%s: panic: %v", line(args), p)
			a = answer{status: -1}
		}
	}()
	status := run(t.Context(), args, &stdout, &stderr)
	// not what a busy machine lets it wait
	return answer{status, stdout.String(), stderr.String(), min(time.Since(start), processorTime()-used)}
}

// line is the command line as a person would type it.
func line(args []string) string {
	words := []string{"underflap"}
	for _, a := range args {
		if a == "" || strings.ContainsAny(a, " \n\"") {
			a = fmt.Sprintf("%q", a)
		}
		words = append(words, a)
	}
	return strings.Join(words, " ")
}

// folder is everything below the current folder and the home, hidden files too:
// each name with a digest of its content.
func folder(t *testing.T) map[string]string {
	t.Helper()
	found := map[string]string{}
	for _, top := range []string{".", os.Getenv("HOME")} {
		err := filepath.WalkDir(top, func(path string, d fs.DirEntry, err error) error {
			if err != nil || path == top {
				return err
			}
			if d.IsDir() {
				found[filepath.ToSlash(path)] = "folder"
				return nil
			}
			data, err := os.ReadFile(path)
			found[filepath.ToSlash(path)] = fmt.Sprintf("%x", sha256.Sum256(data))
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return found
}

// workbench is an empty current folder and an empty home, without the
// environment's date.
func workbench(t *testing.T) {
	t.Helper()
	t.Chdir(t.TempDir())
	t.Setenv("SOURCE_DATE_EPOCH", "")
	for name, dir := range homes(t.TempDir()) {
		t.Setenv(name, dir)
	}
}

// makes runs a command line that should work and write exactly one new file,
// and returns that file's content.
func makes(t *testing.T, file string, args ...string) []byte {
	t.Helper()
	before := folder(t)
	a := call(t, args...)
	if a.status != done {
		t.Errorf("%s: status %d, stderr %q", line(args), a.status, a.stderr)
		return nil
	}
	if strings.Count(a.stdout, "\n") != 1 || !strings.HasPrefix(a.stdout, file+": ") {
		t.Errorf("%s: stdout %q is not one line that begins with %s", line(args), a.stdout, file)
	}
	for _, l := range strings.Split(strings.TrimSuffix(a.stderr, "\n"), "\n") {
		if l != "" && !strings.HasPrefix(l, "underflap: ") {
			t.Errorf("%s: stderr line %q", line(args), l)
		}
	}
	after := folder(t)
	delete(after, file)
	delete(before, file)
	if fmt.Sprint(after) != fmt.Sprint(before) {
		t.Errorf("%s: other files changed: before %v, after %v", line(args), names(before), names(after))
	}
	data, err := os.ReadFile(file)
	if err != nil {
		t.Errorf("%s: %v", line(args), err)
	}
	kind := map[string]string{".pdf": "%PDF-1.", ".png": "\x89PNG\r\n", ".svg": "<?xml "}[strings.ToLower(filepath.Ext(file))]
	if kind == "" || !bytes.HasPrefix(data, []byte(kind)) {
		t.Errorf("%s: %s begins with %q", line(args), file, data[:min(8, len(data))])
	}
	return data
}

func names(files map[string]string) []string {
	var out []string
	for name := range files {
		out = append(out, name)
	}
	return out
}
