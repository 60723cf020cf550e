package request

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underflap/liner"
	"underflap/pattern/words"
)

// shelfWith is a shelf with one file in it, written by anybody.
func shelfWith(t *testing.T, folder, name string, data []byte) Shelf {
	s := Shelf{t.TempDir()}
	if err := os.MkdirAll(filepath.Join(s.Dir, folder), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(s.Dir, folder, name), data, 0o600); err != nil {
		t.Fatal(err)
	}
	return s
}

// A saved envelope is passed over with one line that names its file, or is an
// envelope that makes a flap and that is kept again as the same.
func FuzzSavedEnvelope(f *testing.F) {
	for _, seed := range []string{"name = \"Winter Fair\"\npocket = \"162x114\"\nflap-depth = 64\n", "pocket = \"5 3/4in x 4 3/8in\"\nflap = \"square\"\nflap-depth = \"1 3/8in\"\ntip-radius = 6\ngum = 0\n",
		"pocket = \"162x114\"\npoints = [[0, 0], [81, 60], [162, 0]]\n", "pocket = \"162x114\"\npoints = [[nan, inf], [1], []]\n", "pocket = 162\n", "flap-depth = 1e308\npocket = '1x1'", "name = \"\x1b[2J\"\npocket = '200x150'\nflap-depth = 60\n",
		"pocket = '162x114'\nflap = 'contour'\nflap-depth = 64\nshoulder = 12\ntaper = 3\nbase-gap = 2\nflap-corner-radius = 4\n", "pocket = '162x114'\nflap-depth = -0.0\n", "pocket = '162x114'\nflap-depth = 1979-05-27\n", strings.Repeat("[a]\n", 500)} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<14 {
			t.Skip()
		}
		s := shelfWith(t, envelopeFolder, "fair.toml", data)
		list, problems := s.Envelopes()
		if len(list)+len(problems) != 1 {
			t.Fatalf("%v, %v", list, problems)
		}
		for _, p := range problems {
			if strings.ContainsAny(p.Error(), "\n\r") || !strings.HasPrefix(p.Error(), s.Dir) {
				t.Fatalf("%q", p)
			}
		}
		for _, e := range list {
			if err := e.Check(); err != nil || !nameable(e.Name) || min(e.Width, e.Height) < leastKeptPocket || max(e.Width, e.Height) > mostKeptPocket {
				t.Fatalf("%+v, %v", e, err)
			}
			if _, err := liner.LookUp(e.Name); err == nil {
				return // a name of the table cannot be kept
			}
			to := Shelf{t.TempDir()}
			if _, err := to.SaveEnvelope(t.Context(), e.Name, e.Envelope); err != nil {
				t.Fatalf("%+v is not kept: %v", e, err)
			}
			again, problems := to.Envelopes()
			if len(problems) > 0 || len(again) != 1 {
				t.Fatalf("%+v is kept as %v, %v", e, again, problems)
			}
			p, err := e.Flap.Profile(e.Width)
			q, errQ := again[0].Flap.Profile(again[0].Width)
			if err != nil || errQ != nil || len(p) != len(q) || again[0].Width != e.Width || again[0].Height != e.Height || !(p.Height()-q.Height() < 1e-5 && q.Height()-p.Height() < 1e-5) {
				t.Fatalf("%+v is kept as %+v, %v, %v", e, again[0], err, errQ)
			}
		}
	})
}

// A printer's file gives a correction within a tenth, or one line that says what
// is wrong.
func FuzzSavedPrinter(f *testing.F) {
	for _, seed := range []string{"correct-x = 1.013\ncorrect-y = 1", "correct-x = \"100/98.7\"\ncorrect-y = \"3.95in\"", "correct-x = nan\ncorrect-y = inf", "correct-x = 98.7", "correct-x = [1]\ncorrect-y = {a=1}", "correct-z = 1", "correct-x = 1e-400\ncorrect-y = 9223372036854775807"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<14 {
			t.Skip()
		}
		s := shelfWith(t, printerFolder, "kitchen.toml", data)
		c, err := s.printer("kitchen")
		if err != nil {
			if strings.ContainsAny(err.Error(), "\n\r") {
				t.Fatalf("%q", err)
			}
			return
		}
		for _, k := range []float64{c.X, c.Y} {
			if !(k >= 0.9 && k <= 1.1) {
				t.Fatalf("%+v", c)
			}
		}
		if _, err := s.SavePrinter(t.Context(), "attic", c); err != nil {
			t.Fatal(err)
		}
		if again, err := s.printer("attic"); err != nil || again != c {
			t.Fatalf("%+v is kept as %+v, %v", c, again, err)
		}
	})
}

// A job's words, whatever they are, settle into a request or are refused in one
// line; no word makes it work long.
func FuzzWordsOfAJob(f *testing.F) {
	for _, seed := range []string{"envelope = 'c5'\npattern = 'scallops'\ncount = 30\n[set]\nsize = '14mm'\n", "pocket = '162x114'\nflap-depth = 64\nflap = 'square'\npaper = '305x305'\nper-sheet = 'most'",
		"handmade = 'four-corner'\ncard = 'a6'\nfrom = '210x210'", "card = '5x7in'\npaper = 'letter'\nlayout = 'straight'\nturn = 45", "palette = 'complement:navy'\nink-saver = 25\ngrey = true", "count = 1000000000", "side-gap = 1e308\n", "paper = 'NaNxNaN'", "printer = '../../etc'", "seed = 18446744073709551615", "hidden-foot = 100\ngap = 0\nbleed = 0"} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<12 {
			t.Skip()
		}
		j, err := ParseJob(data)
		if err != nil {
			return
		}
		w := j.Look.Words
		w.Files = j.Source(nil)
		r, err := Resolve(t.Context(), w)
		if err == nil {
			var l liner.Liner
			if _, l, err = ResolveLiner(w); err == nil && !(l.Width() > 0 && l.Width() < l.Envelope.Width+1e-9 && l.FlapHeight() > 0 && r.Task.Count >= 0 && r.Task.Count <= 1000) {
				t.Fatalf("%+v, %+v", l, r.Task)
			}
		}
		if err != nil {
			if line := j.Blame(err).Error(); strings.ContainsAny(line, "\n\r") || len([]rune(line)) > 2000 {
				t.Fatalf("%q", line)
			}
			var refused *words.Refused
			if !errors.As(err, &refused) || refused.Field == "" {
				t.Fatalf("%T: %v", err, err)
			}
			if errors.Is(err, os.ErrNotExist) {
				t.Fatalf("a file of the disc was asked for: %v", err)
			}
		}
	})
}
