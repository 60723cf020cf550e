package occasion

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underflap/pattern/draw/progress"
	"underflap/pattern/words"
)

// stopAfter ends a context once so many sheets are done.
type stopAfter struct {
	sheets int
	stop   context.CancelFunc
}

func (s stopAfter) Begin(string, int) {}
func (s stopAfter) End()              {}
func (s stopAfter) Done(done int) {
	if done >= s.sheets {
		s.stop()
	}
}

func stopped(t *testing.T, sheets int) context.Context {
	ctx, stop := context.WithCancel(t.Context())
	t.Cleanup(stop)
	return progress.With(ctx, stopAfter{sheets, stop})
}

const fair = "title = 'Winter fair'\npaper = 'a5'\nvary = true\n[[liner]]\nname = 'bells'\npattern = 'stars'\nenvelope = 'c7'\ncount = 9\n" +
	"[[liner]]\nname = 'makers'\npattern = 'dots'\nenvelope = 'c6'\ncount = 3\nvary = false\n"

// A stop leaves whole files; what is there is kept, and in the end everything is as
// if nothing had happened.
func TestAStopIsMadeGood(t *testing.T) {
	want := filepath.Join(t.TempDir(), "want")
	o := settled(t, fair, Wish{})
	if _, err := o.Fill(t.Context(), want, Part{}, true); err != nil {
		t.Fatal(err)
	}
	all := len(o.files(Part{}))
	for _, after := range []int{1, 4} {
		dir := filepath.Join(t.TempDir(), "fair")
		f, err := o.Fill(stopped(t, after), dir, Part{}, true)
		if !errors.Is(err, context.Canceled) || f.Made < after || f.Made == all {
			t.Fatalf("%+v, %v", f, err)
		}
		whole := contents(t, want)
		for name, data := range contents(t, dir) {
			if name != journalFile && data != whole[name] {
				t.Errorf("%s is not whole after the stop", name)
			}
		}
		kept, of, err := o.Found(t.Context(), dir, Part{})
		if err != nil || kept != f.Made || of != all {
			t.Errorf("%d of %d found, %v; %d were made", kept, of, err, f.Made)
		}
		again, err := o.Fill(t.Context(), dir, Part{}, true)
		if err != nil || again.Kept != f.Made || again.Kept+again.Made != all {
			t.Errorf("%+v, %v", again, err)
		}
		if fmt.Sprint(contents(t, dir)) != fmt.Sprint(whole) {
			t.Error("after the stop it is another folder")
		}
	}
}

func TestAStopIsMadeGoodInOnePDF(t *testing.T) {
	o := settled(t, fair, Wish{})
	want, got := filepath.Join(t.TempDir(), "fair.pdf"), filepath.Join(t.TempDir(), "fair.pdf")
	if _, err := o.Book(t.Context(), want); err != nil {
		t.Fatal(err)
	}
	f, err := o.Book(stopped(t, 2), got)
	if !errors.Is(err, context.Canceled) {
		t.Fatal(err)
	}
	holds(t, filepath.Dir(got), ".fair.pdf.sheets")
	if kept, _, err := o.BookFound(t.Context(), got); err != nil || kept != f.Made {
		t.Errorf("%d found, %v; %d were made", kept, err, f.Made)
	}
	again, err := o.Book(t.Context(), got)
	if err != nil || again.Kept != f.Made {
		t.Errorf("%+v, %v", again, err)
	}
	holds(t, filepath.Dir(got), "fair.pdf")
	a, errA := os.ReadFile(want)
	b, errB := os.ReadFile(got)
	if errA != nil || errB != nil || string(a) != string(b) {
		t.Errorf("another file after the stop: %v, %v", errA, errB)
	}
}

// A context that has ended leaves nothing at all.
func TestNothingIsBegunAfterTheEnd(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	stop()
	o := settled(t, fair, Wish{})
	dir := t.TempDir()
	if _, err := o.Fill(ctx, filepath.Join(dir, "fair"), Part{}, true); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
	if _, err := o.Book(ctx, filepath.Join(dir, "fair.pdf")); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
	holds(t, dir)
	if _, err := New(ctx, read(t, fair), Wish{}); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

// One word changed makes the sheets again that carry it, and no others; what was
// made of the old word goes. Files of the person's own stay.
func TestAChangedWordMakesOnlyItsSheetsAgain(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "fair")
	fill := func(text string) (*Occasion, Filled) {
		t.Helper()
		o := settled(t, text, Wish{})
		f, err := o.Fill(t.Context(), dir, Part{}, true)
		if err != nil {
			t.Fatal(err)
		}
		return o, f
	}
	fairNow := fair
	first, _ := fill(fair)
	of := func(o *Occasion, name string) (n int) {
		for _, s := range o.files(Part{}) {
			if strings.Contains(s.File, name) {
				n++
			}
		}
		return n
	}
	if err := os.WriteFile(filepath.Join(dir, "shopping.txt"), []byte("ribbon"), 0o666); err != nil {
		t.Fatal(err)
	}
	if _, f := fill(fair); f.Made != 0 || len(f.Removed) != 0 {
		t.Errorf("nothing is changed: %+v", f)
	}
	for _, change := range []struct{ name, from, to string }{
		{"makers", "pattern = 'dots'", "pattern = 'rings'"},
		{"makers", "pattern = 'rings'", "pattern = 'rings'\npalette = 'hop-garden'"},
		{"bells", "pattern = 'stars'", "pattern = 'stars'\nseed = 4"},
		{"bells", "envelope = 'c7'", "envelope = 'c7'\nside-gap = 4"},
		{"makers", "count = 3", "count = 4"},
	} {
		text := strings.Replace(fairNow, change.from, change.to, 1)
		o, f := fill(text)
		want := of(o, change.name)
		if change.to == "count = 4" { // one more copy of the same sheet: the file has another page
			want = 1
		}
		if f.Made == 0 || f.Made > want || f.Kept < len(o.files(Part{}))-want {
			t.Errorf("%s: %+v, %d sheets of %s", change.to, f, want, change.name)
		}
		fairNow = text
	}
	if _, f := fill(fair); f.Made == 0 || f.Kept != 0 {
		t.Errorf("every line was changed: %+v", f)
	}
	names := []string{SumsFile, IndexFile}
	for _, s := range first.files(Part{}) {
		names = append(names, s.File)
	}
	names = append(names, "shopping.txt")
	if got := contents(t, dir); len(got) != len(names) {
		t.Errorf("%d files, want %d", len(got), len(names))
	}
}

// What is not as it was recorded is made again: damaged, cut short, gone, or there
// without being recorded.
func TestADamagedFileIsMadeAgain(t *testing.T) {
	o := settled(t, fair, Wish{})
	dir := filepath.Join(t.TempDir(), "fair")
	if _, err := o.Fill(t.Context(), dir, Part{}, true); err != nil {
		t.Fatal(err)
	}
	want := contents(t, dir)
	path := filepath.Join(dir, o.Sheets[1].File)
	data := []byte(want[o.Sheets[1].File])
	for what, damage := range map[string]func() error{
		"a bit":       func() error { data[len(data)/2] ^= 1; return os.WriteFile(path, data, 0o666) },
		"cut short":   func() error { return os.Truncate(path, 100) },
		"gone":        func() error { return os.Remove(path) },
		"no record":   func() error { return os.WriteFile(filepath.Join(dir, SumsFile), nil, 0o666) },
		"half a line": func() error { return os.WriteFile(filepath.Join(dir, journalFile), []byte("0123"), 0o666) },
		"half-made": func() error {
			return os.WriteFile(filepath.Join(dir, "."+o.Sheets[1].File+".0123abcd.part"), data[:9], 0o666)
		},
		"another link": func() error { return errors.Join(os.Remove(path), os.Symlink(SumsFile, path)) },
	} {
		if what == "no record" {
			if err := os.Remove(filepath.Join(dir, IndexFile)); err != nil {
				t.Fatal(err)
			}
		}
		if err := damage(); err != nil {
			t.Fatal(err)
		}
		f, err := o.Fill(t.Context(), dir, Part{}, true)
		least := map[string]int{"no record": len(o.files(Part{})), "half a line": 0, "half-made": 0}
		if n, all := least[what]; err != nil || all && f.Made != n || !all && f.Made != 1 {
			t.Errorf("%s: %+v, %v", what, f, err)
		}
		if fmt.Sprint(contents(t, dir)) != fmt.Sprint(want) {
			t.Errorf("%s: not made good", what)
		}
	}
}

// A folder's index or sums that are somebody else's are left alone.
func TestAnothersFilesAreLeftAlone(t *testing.T) {
	o := settled(t, fair, Wish{})
	for name, data := range map[string]string{IndexFile: "a book", SumsFile: strings.Repeat("0", 64) + "  holiday.jpg\n"} {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o666); err != nil {
			t.Fatal(err)
		}
		var refused *words.Refused
		if _, err := o.Fill(t.Context(), dir, Part{}, true); !errors.As(err, &refused) || refused.Field != "output" {
			t.Errorf("%s: %v", name, err)
		}
		holds(t, dir, name)
	}
}

// Made alone, a line's sheets are those it has when it shares none with others, and
// what was there stays.
func TestOnlySomeLines(t *testing.T) {
	text := strings.Replace(fair, "vary = true", "vary = true\nshare = false", 1)
	dir := filepath.Join(t.TempDir(), "fair")
	all := settled(t, text, Wish{})
	if _, err := all.Fill(t.Context(), dir, Part{}, true); err != nil {
		t.Fatal(err)
	}
	before := contents(t, dir)
	o := settled(t, text, Wish{Only: []string{" Makers"}})
	if len(o.Lines) != 1 || o.Lines[0].Name != "makers" || o.Lines[0].Letter != "B" {
		t.Fatalf("%+v", o.Lines)
	}
	f, err := o.Fill(t.Context(), dir, Part{}, false)
	if err != nil || f.Made != 0 || f.Kept != len(o.files(Part{})) || len(f.Removed) != 0 {
		t.Errorf("%+v, %v", f, err)
	}
	after := contents(t, dir)
	delete(before, IndexFile)
	delete(after, IndexFile)
	delete(before, SumsFile)
	if sums := after[SumsFile]; strings.Count(sums, "\n") != len(before)+1 {
		t.Errorf("on record:\n%s", sums)
	}
	delete(after, SumsFile)
	if fmt.Sprint(before) != fmt.Sprint(after) {
		t.Error("other files were changed")
	}
}
