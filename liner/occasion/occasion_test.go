package occasion

import (
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"underflap/liner/request"
	"underflap/pattern/draw/referee"
	"underflap/pattern/words/filed"
)

// press is where Tarn Lane Press keeps its occasions.
const press = "../../testdata/occasions"

var occasions = []string{"harvest-supper", "winter-fair", "small-wedding"}

// read reads an occasion's file.
func read(t testing.TB, text string) request.Occasion {
	t.Helper()
	file, err := request.ParseOccasion([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return file
}

// settled settles an occasion without a shelf.
func settled(t testing.TB, text string, wish Wish) *Occasion {
	t.Helper()
	if wish.Title == "" {
		wish.Title = "supper"
	}
	wish.Beside = filed.Held{}
	o, err := New(t.Context(), read(t, text), wish)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func textOf(t testing.TB, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(press, name+".toml"))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// pagesOf is how many pages poppler counts in a file.
func pagesOf(t *testing.T, path string) int {
	t.Helper()
	said := string(referee.Run(t, "pdfinfo", path))
	m := regexp.MustCompile(`(?m)^Pages: +(\d+)$`).FindStringSubmatch(said)
	if m == nil {
		t.Fatalf("pdfinfo %s: %s", path, said)
	}
	n, _ := strconv.Atoi(m[1])
	return n
}

// Every liner is on a sheet once, with the very cut line that it has alone, and the
// sheets are no more than the closed form of each line alone: its count over what
// one sheet carries, rounded up.
func TestEveryLinerIsThereOnce(t *testing.T) {
	saves := 0
	for _, name := range occasions {
		t.Run(name, func(t *testing.T) {
			o := settled(t, textOf(t, name), Wish{})
			on := make([]int, len(o.Lines))
			for _, s := range o.Sheets {
				if s.Plan.Count != len(s.Plan.Placements) || len(s.Designs) != len(s.Plan.Placements) {
					t.Errorf("%s: %d liners, %d placements, %d designs", s.File, s.Plan.Count, len(s.Plan.Placements), len(s.Designs))
				}
				for _, pl := range s.Plan.Placements {
					l := o.Lines[s.Lines[pl.Piece]]
					on[s.Lines[pl.Piece]] += s.Copies
					cut, alone := s.Plan.CutLine(pl), l.Plan.Pieces[0].Outline
					if math.Abs(math.Abs(cut.Area())-alone.Area()) > 1e-6 || s.Plan.Paper != l.Plan.Paper {
						t.Errorf("%s: a liner of %s of %g mm² on %s, alone it is %g mm² on %s", s.File, l.Name, cut.Area(), s.Plan.Paper.Short, alone.Area(), l.Plan.Paper.Short)
					}
				}
			}
			alone := 0
			for i, l := range o.Lines {
				if on[i] != l.Count || l.Count == 0 {
					t.Errorf("%s: %d liners are laid, %d wanted", l.Name, on[i], l.Count)
				}
				alone += (l.Count + l.Plan.PerSheet() - 1) / l.Plan.PerSheet()
			}
			if o.Alone != alone || o.Count() > alone {
				t.Errorf("%d sheets, %d alone; by closed form %d", o.Count(), o.Alone, alone)
			}
			saves += alone - o.Count()
			area, weight := o.Paper()
			byHand := 0.0
			for _, s := range o.Sheets {
				byHand += float64(s.Copies) * map[string]float64{"A4": 0.210 * 0.297, "Letter": 0.2159 * 0.2794}[s.Plan.Paper.Short] // ISO 216, ANSI Y14.1
			}
			if math.Abs(area-byHand) > 1e-9 || math.Abs(weight-80*byHand) > 1e-6 {
				t.Errorf("%g m², %g g; want %g m²", area, weight, byHand)
			}
			clearOnSheets(t, o)
		})
	}
	if saves == 0 {
		t.Error("no occasion saves paper by sharing")
	}
}

// clearOnSheets asks GEOS how far apart cut lines of one sheet are, and whether the
// printable rectangle covers them. It is given chords within 0.001 mm.
func clearOnSheets(t *testing.T, o *Occasion) {
	t.Helper()
	dir := t.TempDir()
	file := func(name string, lines []string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(strings.Join(lines, "\n")+"\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	for n, alike := range o.runs() {
		s := alike[0]
		var rings []string
		for _, pl := range s.Plan.Placements {
			var points []string
			for _, q := range s.Plan.CutLine(pl).Flatten(0.001) {
				points = append(points, fmt.Sprintf("%.6f %.6f", q.X, q.Y))
			}
			rings = append(rings, "(("+strings.Join(points, ",")+"))")
		}
		m, w, h := s.Plan.PrinterMargin-0.001, s.Plan.Paper.Width, s.Plan.Paper.Height
		room := file(fmt.Sprint("room", n), []string{fmt.Sprintf("POLYGON((%g %g,%g %g,%g %g,%g %g,%g %g))", m, m, w-m, m, w-m, h-m, m, h-m, m, m)})
		all := file(fmt.Sprint("all", n), []string{"MULTIPOLYGON(" + strings.Join(rings, ",") + ")"})
		if said := strings.TrimSpace(string(referee.Run(t, "geosop", "-a", room, "-b", all, "-f", "txt", "covers"))); said != "true" {
			t.Errorf("%s: leaves the printable rectangle: %s", s.File, said)
		}
		for i := range rings {
			if i == 0 {
				continue
			}
			a, b := file(fmt.Sprint("a", n, i), []string{"POLYGON" + rings[i]}), file(fmt.Sprint("b", n, i), []string{"MULTIPOLYGON(" + strings.Join(rings[:i], ",") + ")"})
			said := strings.TrimSpace(string(referee.Run(t, "geosop", "-a", a, "-b", b, "-f", "txt", "-p", "9", "distance")))
			if d, err := strconv.ParseFloat(said, 64); err != nil || d < s.Plan.Gap-0.003 {
				t.Errorf("%s: liner %d is %s mm from another, the gap is %g", s.File, i+1, said, s.Plan.Gap)
			}
		}
	}
}

// The PDF has the index and then every sheet; the folder has them one by one, and
// what it tells of them is what sha256sum of GNU coreutils finds.
func TestOccasionsAreMade(t *testing.T) {
	for _, name := range occasions {
		t.Run(name, func(t *testing.T) {
			o := settled(t, textOf(t, name), Wish{})
			dir := filepath.Join(t.TempDir(), "é supper")
			f, err := o.Fill(t.Context(), dir, Part{}, true)
			if err != nil {
				t.Fatal(err)
			}
			if files := o.files(Part{}); f.Made != len(files) || f.Kept != 0 {
				t.Errorf("%+v of %d files", f, len(files))
			}
			pages := 0
			for _, s := range o.Sheets {
				n := pagesOf(t, filepath.Join(dir, s.File))
				if n != s.Copies {
					t.Errorf("%s: %d pages of %d copies", s.File, n, s.Copies)
				}
				pages += n
			}
			check := string(referee.Run(t, "sh", "-c", "cd '"+dir+"' && sha256sum --strict -c SHA256SUMS"))
			if n := strings.Count(check, ": OK\n"); n != len(o.files(Part{}))+1 {
				t.Errorf("sha256sum: %s", check)
			}
			book := filepath.Join(t.TempDir(), "supper.pdf")
			if _, err := o.Book(t.Context(), book); err != nil {
				t.Fatal(err)
			}
			index := pagesOf(t, filepath.Join(dir, IndexFile))
			if n := pagesOf(t, book); n < pages+1 || n > pages+index+1 || pages != o.Count() {
				t.Errorf("%d pages, with %d sheets and %d pages of index", n, o.Count(), index)
			}
			referee.Run(t, "qpdf", "--check", book)
			holds(t, filepath.Dir(book), "supper.pdf")
		})
	}
}

// holds tells whether a folder holds these files and no more.
func holds(t *testing.T, dir string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, e := range entries {
		found = append(found, e.Name())
	}
	if strings.Join(found, "\n") != strings.Join(names, "\n") {
		t.Errorf("%s holds %q, want %q", dir, found, names)
	}
}

// Who was first decides nothing: the same bytes from one worker and from several,
// and from one program and from two that share the work.
func TestTheBytesDoNotDependOnWhoWasFirst(t *testing.T) {
	text := "title = 'Winter fair'\nvary = true\npattern = 'stars'\npaper = 'a5'\n[[liner]]\nenvelope = 'c7'\ncount = 6\n[[liner]]\nenvelope = 'c8'\ncount = 5\n"
	var before map[string]string
	for _, round := range []string{"alone", "again", "in parts"} {
		o := settled(t, text, Wish{})
		dir := filepath.Join(t.TempDir(), "fair")
		if round == "in parts" {
			if err := os.Mkdir(dir, 0o777); err != nil {
				t.Fatal(err)
			}
			done := make(chan error)
			for n := 1; n <= 2; n++ {
				go func() {
					_, err := o.Fill(context.WithoutCancel(t.Context()), dir, Part{n, 2}, true)
					done <- err
				}()
			}
			for range 2 {
				if err := <-done; err != nil {
					t.Fatal(err)
				}
			}
		}
		f, err := o.Fill(t.Context(), dir, Part{}, true)
		if err != nil {
			t.Fatal(err)
		}
		if want := map[bool]int{true: 0, false: len(o.files(Part{}))}[round == "in parts"]; f.Made != want {
			t.Errorf("%s: %d made, want %d", round, f.Made, want)
		}
		got := contents(t, dir)
		if before != nil && fmt.Sprint(got) != fmt.Sprint(before) {
			t.Errorf("%s: other bytes", round)
		}
		before = got
	}
}

// contents are a folder's files, each with what it holds.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		all[e.Name()] = string(data)
	}
	return all
}
