package main

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
)

// refusal is a command line that must not work: what it is blamed on, and with
// which status.
type refusal struct {
	naming string // the flag or file that the line must name
	status int
	args   []string
}

// no is a refusal with the status of a wrong command line.
func no(naming string, args ...string) refusal { return refusal{naming, wrong, args} }

// fails is a command line that is right but whose work cannot be done.
func fails(naming string, args ...string) refusal { return refusal{naming, failed, args} }

// check runs the command line in the current folder: one line on standard
// error that names what is to blame, nothing on standard output, no file made
// or changed, and no waiting.
func (r refusal) check(t *testing.T) answer {
	t.Helper()
	before := folder(t)
	a := call(t, r.args...)
	if a.status == -1 {
		return a // a panic, reported already
	}
	if a.status != r.status {
		t.Errorf("%s: status %d, want %d; stdout %q, stderr %q", line(r.args), a.status, r.status, a.stdout, a.stderr)
		return a
	}
	if a.stdout != "" {
		t.Errorf("%s: stdout %q", line(r.args), a.stdout)
	}
	if !strings.HasPrefix(a.stderr, "underflap: ") || strings.Count(a.stderr, "\n") != 1 || !strings.HasSuffix(a.stderr, "\n") {
		t.Errorf("%s: stderr is not one line from underflap: %q", line(r.args), a.stderr)
	}
	if named := regexp.MustCompile(regexp.QuoteMeta(r.naming) + `($|[^-\w])`); !named.MatchString(a.stderr) {
		t.Errorf("%s: %q does not name %s", line(r.args), a.stderr, r.naming)
	}
	if after := folder(t); fmt.Sprint(after) != fmt.Sprint(before) {
		t.Errorf("%s: the folder held %v and now holds %v", line(r.args), names(before), names(after))
	}
	took := a.took
	for try := 0; took > soon && try < 4; try++ { // nothing was done, so that it may be asked again on a busy machine
		took = min(took, call(t, r.args...).took)
	}
	if took > soon {
		t.Errorf("%s: took %v, more than %v", line(r.args), took, soon)
	}
	return a
}

// checkAll runs each refusal as a test of its own in an empty folder.
func checkAll(t *testing.T, all []refusal) {
	for _, r := range all {
		t.Run(strings.ReplaceAll(line(r.args), "/", "∕"), func(t *testing.T) {
			workbench(t)
			r.check(t)
		})
	}
}

// helps is what a line must say beside what is wrong: what would be accepted
// or, for an empty word, what to do instead.
var helps = regexp.MustCompile(`; accepted: \S|leave the flag out`)

// checkAccepted is checkAll for words that one flag reads: the line also helps.
func checkAccepted(t *testing.T, all []refusal) {
	for _, r := range all {
		t.Run(strings.ReplaceAll(line(r.args), "/", "∕"), func(t *testing.T) {
			workbench(t)
			if a := r.check(t); a.status == wrong && !helps.MatchString(a.stderr) {
				t.Errorf("%s: %q does not say what would be accepted", line(r.args), a.stderr)
			}
		})
	}
}

// TestSameRefusalTwice asks one question with two mistakes in it often: the
// answer must not depend on chance.
func TestSameRefusalTwice(t *testing.T) {
	workbench(t)
	mustDraw(t, "png", "art.png")
	for _, r := range []refusal{
		no("--set", "sheet", "--set", "bogus=3", "--set", "nonesuch=4", "--set", "phantom=5"),
		no("--output", "palettes", "--save-palette", "hedge", "-o", "hedge.gpl"),
		no("--stamp-trace", "sheet", "--blank", "--grey", "--stamp-trace"),
		no("--output", "sheet", "--stamp", "art.png", "--palette", "photo:art.png", "-o", "art.png"),
	} {
		first := r.check(t).stderr
		for range 20 {
			if again := r.check(t).stderr; again != first {
				t.Fatalf("%s: %q, then %q", line(r.args), first, again)
			}
		}
	}
}
