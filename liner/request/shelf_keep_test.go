package request

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"underflap/pattern/words"
)

// Many save under one name at once, and others read: at every moment the shelf
// holds one whole envelope, one of those that were saved.
func TestSavingAtOnceLeavesAWholeEnvelope(t *testing.T) {
	shelf := attic(t)
	const savers, rounds = 8, 12
	depth := func(saver int) string { return fmt.Sprint(40 + saver) }
	first := measuredBy(t, Words{Pocket: "160x115", FlapDepth: depth(0)})
	if _, err := shelf.SaveEnvelope(t.Context(), "winter fair", first); err != nil {
		t.Fatal(err)
	}
	var saving, reading sync.WaitGroup
	stop := make(chan struct{})
	for range 3 {
		reading.Go(func() {
			for {
				saved, ok, err := shelf.Envelope("winter-fair")
				if !ok || err != nil || saved.Width != 160 || saved.Flap.Depth < 40 || saved.Flap.Depth > 39+savers || saved.Flap.Depth != float64(int(saved.Flap.Depth)) {
					t.Errorf("read %+v, %v, %v", saved, ok, err)
					return
				}
				if _, problems := shelf.Envelopes(); len(problems) > 0 {
					t.Errorf("%v", problems)
					return
				}
				select {
				case <-stop:
					return
				default:
				}
			}
		})
	}
	for saver := range savers {
		e := measuredBy(t, Words{Pocket: "160x115", FlapDepth: depth(saver)})
		saving.Go(func() {
			for range rounds {
				if _, err := shelf.SaveEnvelope(t.Context(), "winter fair", e); err != nil {
					t.Error(err)
				}
			}
		})
	}
	saving.Wait()
	close(stop)
	reading.Wait()
	if held := onShelf(t, shelf); len(held) != 1 || held[0] != "winter-fair.toml" {
		t.Errorf("the shelf holds %q", held)
	}
}

func TestAnInterruptedSaveKeepsWhatWasThere(t *testing.T) {
	shelf := attic(t)
	e := measuredBy(t, Words{Pocket: "160x115", FlapDepth: "70"})
	if _, err := shelf.SaveEnvelope(t.Context(), "winter fair", e); err != nil {
		t.Fatal(err)
	}
	ended, end := context.WithCancel(t.Context())
	end()
	e.Flap.Depth = 60
	if _, err := shelf.SaveEnvelope(ended, "winter fair", e); err == nil || !strings.Contains(err.Error(), "interrupted") {
		t.Errorf("%v", err)
	}
	if saved, _, _ := shelf.Envelope("winter fair"); saved.Flap.Depth != 70 || len(onShelf(t, shelf)) != 1 {
		t.Errorf("%+v among %q", saved, onShelf(t, shelf))
	}
}

// Where a folder cannot be written the reason is said, and it is no word of the
// person's that is wrong.
func TestAFolderThatCannotBeWrittenIsSaid(t *testing.T) {
	e := measuredBy(t, Words{Pocket: "160x115", FlapDepth: "70"})
	for name, c := range map[string]struct {
		prepare func(t *testing.T, s Shelf)
		says    string
	}{
		"a file where the folder should be": {func(t *testing.T, s Shelf) {
			if err := errors.Join(os.MkdirAll(filepath.Dir(s.Dir), 0o777), os.WriteFile(s.Dir, nil, 0o666)); err != nil {
				t.Fatal(err)
			}
		}, "not a directory"},
		"a folder where the file should be": {func(t *testing.T, s Shelf) {
			if err := errors.Join(os.MkdirAll(filepath.Join(s.Dir, "envelopes", "attic.toml", "inside"), 0o777), os.MkdirAll(filepath.Join(s.Dir, "printers", "attic.toml", "inside"), 0o777)); err != nil {
				t.Fatal(err)
			}
		}, "attic.toml"},
		"a read-only folder": {func(t *testing.T, s Shelf) {
			if os.Geteuid() == 0 {
				t.Skip("root writes everywhere")
			}
			for _, folder := range []string{"envelopes", "printers"} {
				dir := filepath.Join(s.Dir, folder)
				if err := errors.Join(os.MkdirAll(dir, 0o777), os.Chmod(dir, 0o555)); err != nil {
					t.Fatal(err)
				}
				t.Cleanup(func() { os.Chmod(dir, 0o777) })
			}
		}, "permission denied"},
	} {
		t.Run(name, func(t *testing.T) {
			shelf := attic(t)
			c.prepare(t, shelf)
			_, err := shelf.SaveEnvelope(t.Context(), "attic", e)
			_, printer := shelf.SavePrinter(t.Context(), "attic", Correction{1.01, 1})
			for _, err := range []error{err, printer} {
				var refused *words.Refused
				if err == nil || errors.As(err, &refused) || !strings.Contains(err.Error(), c.says) || !strings.HasPrefix(err.Error(), "cannot ") || strings.Contains(err.Error(), ".part") {
					t.Errorf("%v", err)
				}
			}
			for _, name := range onShelfIfAny(t, shelf) {
				if strings.HasSuffix(name, ".part") {
					t.Errorf("left behind: %s", name)
				}
			}
		})
	}
}

// onShelfIfAny is onShelf where the shelf may be no folder.
func onShelfIfAny(t *testing.T, s Shelf) []string {
	if info, err := os.Stat(s.Dir); err != nil || !info.IsDir() {
		return nil
	}
	return onShelf(t, s)
}

// Without a home nothing is kept, and saving says which variable to set; all else
// works.
func TestWithoutAHomeNothingIsKept(t *testing.T) {
	for _, name := range []string{"HOME", "XDG_CONFIG_HOME", "AppData", "home"} {
		t.Setenv(name, "")
	}
	shelf := UsualShelf()
	if shelf.Dir != "" {
		t.Fatalf("a shelf at %q", shelf.Dir)
	}
	e := measuredBy(t, Words{Pocket: "160x115", FlapDepth: "70"})
	_, err := shelf.SaveEnvelope(t.Context(), "attic", e)
	_, printer := shelf.SavePrinter(t.Context(), "attic", Correction{1.01, 1})
	for field, err := range map[string]error{"save-envelope": err, "printer": printer} {
		var refused *words.Refused
		if !errors.As(err, &refused) || refused.Field != field || !strings.Contains(refused.Accepts, "HOME") {
			t.Errorf("%s: %v", field, err)
		}
	}
	if list, problems := shelf.Envelopes(); len(list)+len(problems) != 0 {
		t.Errorf("%v, %v", list, problems)
	}
	if _, ok, err := shelf.Envelope("attic"); ok || err != nil {
		t.Errorf("%v, %v", ok, err)
	}
	if _, err := Resolve(t.Context(), Words{Shelf: shelf, Card: "a6"}); err != nil {
		t.Error(err)
	}
	if _, err := Resolve(t.Context(), Words{Shelf: shelf, Envelope: "attic"}); err == nil || !strings.Contains(err.Error(), "no such envelope") {
		t.Errorf("%v", err)
	}
	if entries, err := os.ReadDir("."); err != nil || len(entries) == 0 {
		t.Error(err)
	} else if _, err := os.Stat("underflap"); err == nil {
		t.Error("something was kept in the current folder")
	}
}

func TestAPrintersCorrectionsAreKeptEachWay(t *testing.T) {
	shelf := attic(t)
	for _, step := range []struct {
		x, y         string
		wantX, wantY float64
	}{
		{"98.7", "", 100 / 98.7, 1},
		{"", "", 100 / 98.7, 1},
		{"", "99.2", 100 / 98.7, 100 / 99.2},
		{"101", "", 100.0 / 101, 100 / 99.2},
		{"", "", 100.0 / 101, 100 / 99.2},
		{"100", "100", 1, 1},
		{"", "", 1, 1},
	} {
		for _, name := range []string{"Kitchen", "kitchen"} {
			got, err := resolveCorrection(Words{Printer: name, CorrectX: step.x, CorrectY: step.y, Shelf: shelf})
			if err != nil || got.X != step.wantX || got.Y != step.wantY {
				t.Errorf("%+v: %+v, %v", step, got, err)
			}
			if step.x+step.y != "" {
				if _, err := shelf.SavePrinter(t.Context(), name, got); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}

// A file may be edited in the words of the flags.
func TestAPrinterEditedByHandIsReadInTheWordsOfTheFlags(t *testing.T) {
	for content, want := range map[string]Correction{
		"correct-x = 98.7\n":                            {100 / 98.7, 1},
		"correct-y = '100/98.7'\n":                      {1, 100 / 98.7},
		"correct-x = '3.95in'\ncorrect-y = '9.9 cm'\n":  {4 / 3.95, 100.0 / 99},
		"# kitchen\ncorrect-x = 1\ncorrect-y = 1.013\n": {1, 1.013},
		"": {1, 1},
	} {
		shelf := attic(t)
		path := filepath.Join(shelf.Dir, "printers", "kitchen.toml")
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o777), os.WriteFile(path, []byte(content), 0o666)); err != nil {
			t.Fatal(err)
		}
		if got, err := resolveCorrection(Words{Printer: "kitchen", Shelf: shelf}); err != nil || got != want {
			t.Errorf("%q: %+v, %v; want %+v", content, got, err, want)
		}
	}
}

func TestASpoiltPrinterIsNamedAndCanBeSavedAnew(t *testing.T) {
	for content, says := range map[string][]string{
		"correct-z = 1.01\n":                    {"line 1, column 1", `unknown key "correct-z"`},
		"correct-x = 1.01\ncorrect-y = 1.0 1\n": {"line 2"},
		"correct-x = 'wide'\n":                  {"correct-x", "not a length"},
		"correct-x = '98.7 %'\n":                {"correct-x"},
		"correct-x = [98.7]\n":                  {"correct-x"},
		"correct-x = 2.0\n":                     {"correct-x"},
		"correct-y = nan\n":                     {"correct-y"},
		"correct-y = -1.01\n":                   {"correct-y"},
		"correct-x = 2.0\ncorrect-y = 3.0\n":    {"correct-x"},
	} {
		shelf := attic(t)
		path := filepath.Join(shelf.Dir, "printers", "kitchen.toml")
		if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o777), os.WriteFile(path, []byte(content), 0o666)); err != nil {
			t.Fatal(err)
		}
		first := ""
		for range 20 { // the same each time
			_, err := resolveCorrection(Words{Printer: "kitchen", Shelf: shelf})
			var refused *words.Refused
			if !errors.As(err, &refused) || refused.Field != "printer" || refused.Given != "kitchen" {
				t.Fatalf("%q: %v", content, err)
			}
			for _, part := range append(says, path) {
				if !strings.Contains(err.Error(), part) {
					t.Errorf("%q: %q does not say %q", content, err, part)
				}
			}
			if strings.Contains(err.Error(), "request.") {
				t.Errorf("%q: %v", content, err)
			}
			if first == "" {
				first = err.Error()
			}
			if err.Error() != first {
				t.Errorf("%q: %q, then %q", content, first, err)
			}
		}
		anew, err := resolveCorrection(Words{Printer: "kitchen", CorrectX: "99", CorrectY: "100", Shelf: shelf})
		if err != nil {
			t.Errorf("%q: cannot be measured anew: %v", content, err)
			continue
		}
		if _, err := shelf.SavePrinter(t.Context(), "kitchen", anew); err != nil {
			t.Error(err)
		}
		if got, err := resolveCorrection(Words{Printer: "kitchen", Shelf: shelf}); err != nil || got != anew {
			t.Errorf("%q: %+v, %v", content, got, err)
		}
	}
}
