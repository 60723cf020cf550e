package occasion

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"underflap/pattern/draw/progress"
)

// whenDone calls when a sheet is done.
type whenDone func()

func (w whenDone) Begin(string, int) {}
func (w whenDone) End()              {}
func (w whenDone) Done(int)          { w() }

func onDone(t *testing.T, call func()) context.Context {
	return progress.With(t.Context(), whenDone(call))
}

// Parts that are made in folders of their own, as on several machines, are put
// together by copying all files, the hidden ones too: the whole then finds every
// sheet made.
func TestPartsOfSeveralMachinesArePutTogether(t *testing.T) {
	o := settled(t, fair, Wish{})
	home, want := filepath.Join(t.TempDir(), "fair"), filepath.Join(t.TempDir(), "fair")
	for n := 1; n <= 3; n++ {
		away := filepath.Join(t.TempDir(), "fair")
		if _, err := o.Fill(t.Context(), away, Part{n, 3}, true); err != nil {
			t.Fatal(err)
		}
		if err := os.MkdirAll(home, 0o777); err != nil {
			t.Fatal(err)
		}
		for name, data := range contents(t, away) {
			if err := os.WriteFile(filepath.Join(home, name), []byte(data), 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
	f, err := o.Fill(t.Context(), home, Part{}, true)
	if err != nil || f.Made != 0 || f.Kept != len(o.files(Part{})) {
		t.Errorf("%+v, %v", f, err)
	}
	if _, err := o.Fill(t.Context(), want, Part{}, true); err != nil {
		t.Fatal(err)
	}
	if fmt.Sprint(contents(t, home)) != fmt.Sprint(contents(t, want)) {
		t.Error("another folder than one machine fills")
	}
}

// Several runs of one PDF at once take turns as they fall: each ends well, and what
// is there is whole.
func TestRunsOfOnePDFAtOnce(t *testing.T) {
	o := settled(t, fair, Wish{})
	want, got := filepath.Join(t.TempDir(), "fair.pdf"), filepath.Join(t.TempDir(), "fair.pdf")
	if _, err := o.Book(t.Context(), want); err != nil {
		t.Fatal(err)
	}
	errs := make([]error, 2)
	var all sync.WaitGroup
	for i := range errs {
		all.Go(func() { _, errs[i] = o.Book(t.Context(), got) })
	}
	all.Wait()
	for _, err := range errs {
		if err != nil {
			t.Error(err)
		}
	}
	a, _ := os.ReadFile(want)
	if b, err := os.ReadFile(got); err != nil || string(a) != string(b) {
		t.Errorf("another file: %v", err)
	}
	holds(t, filepath.Dir(got), "fair.pdf")
}

// Sheets that another run takes away while a PDF is put together are made again.
func TestSheetsThatAreTakenAwayAreMadeAgain(t *testing.T) {
	o := settled(t, fair, Wish{})
	got := filepath.Join(t.TempDir(), "fair.pdf")
	ctx := stopped(t, 1) // leaves a sheet or more
	if _, err := o.Book(ctx, got); err == nil {
		t.Fatal("it was not stopped")
	}
	dir := sheetsFolder(got)
	var asked atomic.Int32
	index := func() ([]byte, error) { // asked for while sheets are made, and again when all are there
		if asked.Add(1) == 2 {
			if err := os.RemoveAll(dir); err != nil {
				t.Error(err)
			}
		}
		return o.indexPDF(t.Context(), false)
	}
	if _, err := o.book(t.Context(), got, index); err == nil {
		t.Error("it is put together of nothing")
	}
	holds(t, filepath.Dir(got))
	if _, err := o.bookAgain(t.Context(), got, index); err != nil {
		t.Error(err)
	}
	holds(t, filepath.Dir(got), "fair.pdf")
}

// A PDF that is there and whole is kept; changed by a byte, or of another occasion,
// it is made again.
func TestAWholePDFIsKept(t *testing.T) {
	o := settled(t, fair, Wish{})
	other := settled(t, strings.Replace(fair, "Winter", "Summer", 1), Wish{})
	heavy := settled(t, fair, Wish{PaperWeight: "160gsm"}) // which only the index tells
	path := filepath.Join(t.TempDir(), "fair.pdf")
	all := len(o.files(Part{}))
	book := func(o *Occasion, made int) {
		t.Helper()
		kept, _, err := o.BookFound(t.Context(), path)
		if err != nil || kept != all-made {
			t.Errorf("%d found, %v, want %d", kept, err, all-made)
		}
		f, err := o.Book(t.Context(), path)
		if err != nil || f.Made != made || f.Kept != all-made {
			t.Errorf("%+v, %v, want %d made", f, err, made)
		}
	}
	book(o, all)
	book(o, 0)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []int{20, len(whole) / 2, len(whole) - 2000, len(whole) - 200, len(whole) - 100, len(whole) - 2} {
		damaged := []byte(string(whole))
		damaged[at] ^= 1
		if err := os.WriteFile(path, damaged, 0o666); err != nil {
			t.Fatal(err)
		}
		if f, err := o.Book(t.Context(), path); err != nil || f.Made != all {
			t.Errorf("byte %d changed: %+v, %v", at, f, err)
		}
	}
	if again, err := os.ReadFile(path); err != nil || string(again) != string(whole) {
		t.Errorf("another file: %v", err)
	}
	book(other, all)
	book(o, all)
	book(heavy, all)
}

// A line that was cut short in a journal costs nothing of what comes after it.
func TestALineCutShortCostsNoOther(t *testing.T) {
	o := settled(t, fair, Wish{})
	dir := filepath.Join(t.TempDir(), "fair")
	if err := os.Mkdir(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, journalFile), []byte("0123"), 0o666); err != nil {
		t.Fatal(err)
	}
	f, err := o.Fill(stopped(t, 2), dir, Part{}, true)
	if err == nil || f.Made < 2 {
		t.Fatalf("%+v, %v", f, err)
	}
	if kept, _, err := o.Found(t.Context(), dir, Part{}); err != nil || kept != f.Made {
		t.Errorf("%d found, %v; %d were made", kept, err, f.Made)
	}
}

// A name as long as a disc takes is one that an occasion can have.
func TestALongNameOfAPDF(t *testing.T) {
	o := settled(t, fair, Wish{})
	path := filepath.Join(t.TempDir(), strings.Repeat("y", 251)+".pdf")
	if _, err := o.Book(t.Context(), path); err != nil {
		t.Error(err)
	}
	holds(t, filepath.Dir(path), filepath.Base(path))
}

// Two lines that are made at once into one folder are both on record.
func TestWhatOthersMakeMeanwhileStaysOnRecord(t *testing.T) {
	text := strings.Replace(fair, "vary = true", "vary = true\nshare = false", 1)
	bells, makers := settled(t, text, Wish{Only: []string{"bells"}}), settled(t, text, Wish{Only: []string{"makers"}})
	dir := filepath.Join(t.TempDir(), "fair")
	began := false
	ctx := onDone(t, func() { // in the middle of the bells
		if !began {
			began = true
			if _, err := makers.Fill(t.Context(), dir, Part{}, false); err != nil {
				t.Error(err)
			}
		}
	})
	if _, err := bells.Fill(ctx, dir, Part{}, false); err != nil {
		t.Fatal(err)
	}
	for _, o := range []*Occasion{bells, makers} {
		if kept, all, err := o.Found(t.Context(), dir, Part{}); err != nil || kept != all {
			t.Errorf("%d of %d, %v", kept, all, err)
		}
	}
}

// stopAtBegin ends a context when the sheets are begun.
type stopAtBegin struct{ stop context.CancelFunc }

func (s stopAtBegin) Begin(string, int) { s.stop() }
func (s stopAtBegin) Done(int)          {}
func (s stopAtBegin) End()              {}

// A run that is stopped before its first sheet leaves nothing, no empty journal
// either.
func TestAStopBeforeTheFirstSheetLeavesNothing(t *testing.T) {
	o := settled(t, fair, Wish{})
	parent := t.TempDir()
	for _, make := range []func(context.Context) (Filled, error){
		func(ctx context.Context) (Filled, error) {
			return o.Fill(ctx, filepath.Join(parent, "fair"), Part{}, true)
		},
		func(ctx context.Context) (Filled, error) { return o.Book(ctx, filepath.Join(parent, "fair.pdf")) },
	} {
		ctx, stop := context.WithCancel(t.Context())
		if f, err := make(progress.With(ctx, stopAtBegin{stop})); err == nil || f.Made > 0 {
			t.Errorf("%+v, %v", f, err)
		}
		holds(t, parent)
	}
}

// An index that is there before SHA256SUMS is known as ours.
func TestAnIndexIsOnRecordBeforeTheEnd(t *testing.T) {
	o := settled(t, fair, Wish{})
	dir := t.TempDir()
	if err := saveIndex(t.Context(), dir, record{}, func() ([]byte, error) { return o.indexPDF(t.Context(), true) }); err != nil {
		t.Fatal(err)
	}
	known, err := readRecord(dir)
	sum, errSum := sumOf(t.Context(), filepath.Join(dir, IndexFile))
	if err != nil || errSum != nil || known[IndexFile] != sum {
		t.Errorf("%v, %v, %v", known, err, errSum)
	}
}
