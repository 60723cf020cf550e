package index_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/index"
	"underflap/liner/sheet"
	"underflap/pattern/draw"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/referee"
	"underflap/pattern/words"
)

// texts are all texts of a page, which stand outside any group.
func texts(page *draw.Page) (all []*draw.Text) {
	draw.Walk(page.Nodes(), func(n draw.Node) {
		if t, ok := n.(*draw.Text); ok {
			all = append(all, t)
		}
	})
	return all
}

// letters is the box of a text's letters.
func letters(t *draw.Text) draw.Rect {
	return t.Font.Outlines(t.String, t.Size).Transform(t.At).Bounds()
}

// drawn are the parts of a layer of a page.
func drawn(page *draw.Page, layer string) (all []draw.Node) {
	for _, n := range page.Nodes() {
		if l, ok := n.(*draw.Layer); ok && l.Name == layer {
			all = append(all, l.Nodes...)
		}
	}
	return all
}

func meet(a, b draw.Rect) bool {
	return a.MinX < b.MaxX && b.MinX < a.MaxX && a.MinY < b.MaxY && b.MinY < a.MaxY
}

func within(a, b draw.Rect) bool {
	return a.MinX >= b.MinX && a.MaxX <= b.MaxX && a.MinY >= b.MinY && a.MaxY <= b.MaxY
}

// someOccasion is any number of lines and sheets of what is on the shelf, with words
// of any length and alphabet.
func someOccasion(t *rapid.T, of index.Occasion) index.Occasion {
	name := rapid.OneOf(rapid.StringMatching(`[A-Z][a-z]{2,9}( [a-z]{1,12}){0,14}`), rapid.StringMatching(`[A-Za-z]{30,60}`), rapid.String(),
		rapid.SampledFrom([]string{"", "招待状", "Приглашение на зимнюю ярмарку", "Cafe\u0301 menus", "a\tb\nc"}))
	o := index.Occasion{Title: name.Draw(t, "title"), Paper: paperOf(rapid.SampledFrom([]string{"a4", "letter", "a5", "a3"}).Draw(t, "paper")),
		PrinterMargin: rapid.Float64Range(0, 15).Draw(t, "margin"), Ahead: rapid.Bool().Draw(t, "ahead"),
		Totals: rapid.SliceOfN(name, 0, 6).Draw(t, "totals")}
	var from []int
	for i := range rapid.IntRange(0, 30).Draw(t, "lines") {
		k := rapid.IntRange(0, len(of.Lines)-1).Draw(t, "kind")
		line := of.Lines[k]
		line.Letter, line.Name, line.Says = letter(i), name.Draw(t, "name"), name.Draw(t, "says")
		line.Count = rapid.IntRange(1, 1000).Draw(t, "count")
		o.Lines, from = append(o.Lines, line), append(from, k)
	}
	files := rapid.Bool().Draw(t, "files")
	page := 1
	for i := 0; len(o.Lines) > 0 && i < rapid.IntRange(0, 60).Draw(t, "sheets"); i++ {
		line := rapid.IntRange(0, len(o.Lines)-1).Draw(t, "line")
		s := of.Sheets[from[line]]
		if n := s.Plan.PerSheet(); rapid.IntRange(0, 3).Draw(t, "full") == 0 && n > 1 {
			s.Plan = s.Plan.Part(rapid.IntRange(1, n).Draw(t, "on it"))
			s.Marks = sheet.Mark(s.Plan)
		}
		s.Lines = []int{line}
		s.First = page
		s.Last = page + rapid.SampledFrom([]int{0, 0, 1, 40}).Draw(t, "more")
		page = s.Last + 1
		if files {
			s.Last, s.First, s.File = s.Last-s.First+1, 1, fmt.Sprintf("%02d %s.pdf", i+1, name.Draw(t, "file"))
		}
		o.Sheets = append(o.Sheets, s)
	}
	return o
}

// Of any occasion on any paper, no word touches another or a picture, but the
// letters on their grounds, and nothing stands in the printer margin. Measured on the
// letters' outlines.
func TestNothingOnAnIndexOverlapsOrLeavesThePage(t *testing.T) {
	var whole []int // one full sheet of every kind
	for _, k := range shelf {
		p, _ := k.plan(t)
		whole = append(whole, p.PerSheet())
	}
	all := made(t, "", "a4", shelf, whole)
	pages, words := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		o := someOccasion(t, all)
		made, err := index.Draw(context.Background(), o)
		if err != nil {
			t.Fatal(err)
		}
		for i, page := range made {
			pages++
			printable := draw.Rect{MaxX: page.Width, MaxY: page.Height}.Grow(-o.PrinterMargin)
			var grounds, pictures []draw.Rect
			for _, n := range drawn(page, draw.Artwork) {
				box := n.Bounds()
				if !within(box, printable) {
					t.Fatalf("page %d: a drawing at %v leaves %v", i+1, box, printable)
				}
				if f, ok := n.(*draw.Fill); ok && f.Colour == (draw.Colour{R: 0xa8, G: 0x41, B: 0x2b}) {
					grounds = append(grounds, box)
				} else {
					pictures = append(pictures, box)
				}
			}
			var before []draw.Rect
			for _, w := range texts(page) {
				words++
				box := letters(w)
				if strings.TrimSpace(w.String) == "" {
					continue
				}
				if !within(box, printable) {
					t.Fatalf("page %d: %q at %v leaves %v", i+1, w.String, box, printable)
				}
				if k := slices.IndexFunc(before, func(o draw.Rect) bool { return meet(o, box) }); k >= 0 {
					t.Fatalf("page %d: %q at %v touches what stands at %v", i+1, w.String, box, before[k])
				}
				before = append(before, box)
				if slices.ContainsFunc(grounds, func(o draw.Rect) bool { return within(box, o) }) {
					continue
				}
				if k := slices.IndexFunc(append(pictures, grounds...), func(o draw.Rect) bool { return meet(o, box) }); k >= 0 {
					t.Fatalf("page %d: %q at %v lies on a drawing at %v", i+1, w.String, box, append(pictures, grounds...)[k])
				}
			}
		}
	})
	if pages < 100 || words < 1000 {
		t.Errorf("%d pages with %d words", pages, words)
	}
}

var spans = regexp.MustCompile(`\d+(–\d+)?`)

// The headings of the sheets name every page of the file once: those of the index
// come first when it stands ahead, and a hundred sheets cut alike are one.
func TestEveryPageOfTheFileIsNamed(t *testing.T) {
	for name, o := range map[string]index.Occasion{"varied": varied(t), "mixed": mixed(t), "seven": made(t, "Winter fair", "a4", shelf, []int{3, 40, 7})} {
		t.Run(name, func(t *testing.T) {
			pages, err := index.Draw(t.Context(), o)
			if err != nil {
				t.Fatal(err)
			}
			named := map[int]int{}
			headings := 0
			for _, page := range pages {
				for _, w := range texts(page) {
					if !strings.HasPrefix(w.String, "Page") {
						continue
					}
					headings++
					for _, span := range spans.FindAllString(w.String, -1) {
						from, to, several := strings.Cut(span, "–")
						first, _ := strconv.Atoi(from)
						last := first
						if several {
							last, _ = strconv.Atoi(to)
						}
						for p := first; p <= last; p++ {
							named[p]++
						}
					}
				}
			}
			ahead, sheets := 0, 0
			if o.Ahead {
				ahead = len(pages)
			}
			for _, s := range o.Sheets {
				sheets += s.Last - s.First + 1
			}
			if len(named) != sheets {
				t.Errorf("%d pages are named, of %d", len(named), sheets)
			}
			for p := range sheets {
				if named[ahead+p+1] != 1 {
					t.Errorf("page %d is named %d times", ahead+p+1, named[ahead+p+1])
				}
			}
			if name == "varied" && headings != 1 {
				t.Errorf("%d drawings of sheets that are cut alike", headings)
			}
		})
	}
}

// Of files that are cut alike the first is named, and how many more there are.
func TestFilesThatAreCutAlikeAreNamed(t *testing.T) {
	o := made(t, "Winter fair", "a3", shelf[:2], []int{2, 2})
	a, b := o.Sheets[0], o.Sheets[1]
	a.Last, b.First, b.Last = a.First, 1, 1
	for want, sheets := range map[string]string{"1.pdf and 2 more": "aaab", "1.pdf and 1 more": "aba", "2.pdf": "aba", "4.pdf": "aaab"} {
		o.Sheets = nil
		for i, kind := range sheets {
			s := a
			if kind == 'b' {
				s = b
			}
			s.File = fmt.Sprintf("%d.pdf", i+1)
			o.Sheets = append(o.Sheets, s)
		}
		pages, err := index.Draw(t.Context(), o)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(texts(pages[0]), func(w *draw.Text) bool { return w.String == want }) {
			t.Errorf("%s: nothing says %q", sheets, want)
		}
	}
}

// A long name of a file is told whole, over several lines: its end tells it from
// others.
func TestALongNameOfAFileIsWhole(t *testing.T) {
	const name = "sheet-replies-seed-packets-place-cards-and-thank-you-notes-60cf64a73739.pdf"
	o := made(t, "Harvest supper", "a4", shelf[:2], []int{2, 2})
	o.Sheets = o.Sheets[:1]
	o.Sheets[0].First, o.Sheets[0].Last, o.Sheets[0].File = 1, 1, name
	pages, err := index.Draw(t.Context(), o)
	if err != nil {
		t.Fatal(err)
	}
	var found strings.Builder
	for _, w := range texts(pages[0]) {
		if strings.HasPrefix(w.String, "sheet-") || found.Len() > 0 && found.Len() < len(name) {
			found.WriteString(w.String)
		}
	}
	if found.String() != name {
		t.Errorf("the index says %q, the file is %q", found.String(), name)
	}
}

func written(t testing.TB, pages []*draw.Page) []byte {
	t.Helper()
	var file bytes.Buffer
	if err := pdf.Write(t.Context(), &file, pages, time.Time{}); err != nil {
		t.Fatal(err)
	}
	return file.Bytes()
}

// What a person reads, as poppler finds it in the file (pdftotext).
func TestAnIndexSaysWhatIsToBeDone(t *testing.T) {
	o := made(t, "Harvest supper", "a4", shelf[:2], []int{24, 5})
	pages, err := index.Draw(t.Context(), o)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "index.pdf")
	if err := os.WriteFile(path, written(t, pages), 0o600); err != nil {
		t.Fatal(err)
	}
	said := strings.Join(strings.Fields(string(referee.Run(t, "pdftotext", "-layout", "-nopgbrk", path, "-"))), " ")
	level, upright := []string{}, []string{}
	for _, cut := range o.Sheets[1].Marks.Cuts() {
		if cut.Upright {
			upright = append(upright, words.Tenth(cut.At))
		} else {
			level = append(level, words.Tenth(cut.At))
		}
	}
	if len(level) != 2 || len(upright) != 2 {
		t.Fatalf("cuts %v", o.Sheets[1].Marks.Cuts())
	}
	for _, want := range append([]string{"Harvest supper", "2 kinds of liners, 29 in all, on 15 sheets", "leaves invitations", "24 liners", "dots menus", "5 liners",
		"Pages 1–12", "12 sheets, cut alike", "2 × A leaves invitations", "2 × B dots menus", "Page 15", "1 × B dots menus", "Cuts 1–2: level", "Cuts 3–4: upright",
		"Score before you cut", "Glue the flap part only", "Blades are sharp", "15 sheets of paper"}, append(level, upright...)...) {
		if !strings.Contains(said, want) {
			t.Errorf("nothing says %q:\n%s", want, said)
		}
	}
}

// Sheets of several papers say which, and a rule is measured on a sheet that has one.
func TestAnIndexKnowsPapersAndRules(t *testing.T) {
	o := made(t, "Winter fair", "a3", []kind{shelf[0], shelf[4]}, []int{4})
	if pages, err := index.Draw(t.Context(), o); err != nil || !says(pages, "Measure the rule on the first sheet") {
		t.Errorf("the rule of the first sheet is not named: %v", err)
	}
	o.Sheets[0].Marks.HasRule = false
	for want, of := range map[string]index.Occasion{"2 sheets of Letter, cut alike": o, "First print a sheet with a rule": o} {
		pages, err := index.Draw(t.Context(), of)
		if err != nil {
			t.Fatal(err)
		}
		if !says(pages, want) {
			t.Errorf("nothing says %q", want)
		}
	}
	for i := range o.Sheets {
		o.Sheets[i].Marks.HasRule = false
	}
	pages, err := index.Draw(t.Context(), o)
	if err != nil {
		t.Fatal(err)
	}
	if want := "it must be " + words.MM(o.Lines[0].Plan.Liner.Width()) + " wide"; !says(pages, want) {
		t.Errorf("nothing says %q", want)
	}
}

// says tells whether the pages hold some words, over lines too.
func says(pages []*draw.Page, what string) bool {
	var all []string
	for _, page := range pages {
		for _, w := range texts(page) {
			all = append(all, w.String)
		}
	}
	return strings.Contains(strings.Join(all, " "), what)
}

// The small picture is the liner itself: what poppler makes of it agrees with what
// it makes of the whole liner drawn at that scale, be it paths or dots. The largest
// difference of means over squares of a millimetre tells.
func TestThePictureOfALinerIsTrue(t *testing.T) {
	for name, k := range map[string]kind{"paths": shelf[0], "dots": {"c5", liner.Contour, "a4", "", 0, "dots", "orchard-table"}} {
		t.Run(name, func(t *testing.T) {
			o := made(t, "Harvest supper", "a4", []kind{k}, []int{1})
			if name == "dots" {
				o.Lines[0].Design.Scale = 0.3 // thousands of motifs
			}
			pages, err := index.Draw(t.Context(), o)
			if err != nil {
				t.Fatal(err)
			}
			var at draw.Rect
			dots := false
			draw.Walk(drawn(pages[0], draw.Artwork)[:6], func(n draw.Node) {
				if _, ok := n.(*draw.Picture); ok {
					dots = true
				}
			})
			for _, n := range drawn(pages[0], draw.Artwork) { // its edge is the first line drawn
				if s, ok := n.(*draw.Stroke); ok {
					at = s.Path.Bounds()
					break
				}
			}
			if dots != (name == "dots") {
				t.Fatalf("dots: %t", dots)
			}
			line := o.Lines[0].Plan.KeptLine().Bounds()
			scale := at.Width() / line.MaxX
			if math.Abs(at.Height()/line.MaxY-scale) > 1e-9 || at.Width() < 30 {
				t.Fatalf("a liner of %v as %v", line, at)
			}
			const dpi = 400.0
			small := referee.Renderers["poppler"](t, written(t, pages[:1]), dpi)
			kept := o.Lines[0].Plan.Kept(t.Context(), o.Lines[0].Design, draw.White)
			whole := referee.Renderers["poppler"](t, written(t, []*draw.Page{kept}), 300)
			mean := func(r *referee.Raster, x, y, side float64) float64 {
				sum := 0.0
				for i := range 20 {
					for k := range 20 {
						sum += r.At(x+side*(float64(i)+0.5)/20, y+side*(float64(k)+0.5)/20)
					}
				}
				return sum / 400
			}
			most, spread := 0.0, map[int]bool{}
			for x := 2.0; x < at.Width()-3; x++ {
				for y := 0.45 * at.Height(); y < at.Height()-3; y++ { // the pocket part fills it
					a, b := mean(small, at.MinX+x, at.MinY+y, 1), mean(whole, x/scale, y/scale, 1/scale)
					most = math.Max(most, math.Abs(a-b))
					spread[int(b/16)] = true
				}
			}
			if most > 12 || name == "paths" && len(spread) < 4 {
				t.Errorf("squares differ by up to %.1f of 255, in %d tones", most, len(spread))
			}
		})
	}
}

func TestAnIndexIsRefusedWhereNobodyCouldReadIt(t *testing.T) {
	o := made(t, "Harvest supper", "a4", shelf[:1], []int{2})
	o.Paper = kind{paper: "65x200"}.paperOf(t)
	var refused *words.Refused
	if _, err := index.Draw(t.Context(), o); !errors.As(err, &refused) || refused.Field != "paper" {
		t.Errorf("error %v, want a refused paper", err)
	}
}

func TestAnIndexStops(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := index.Draw(ctx, made(t, "Harvest supper", "a4", shelf, []int{2})); err != context.Canceled {
		t.Errorf("error %v, want that of the context", err)
	}
}

// Drawn twice, an index is the same bytes.
func TestAnIndexIsTheSameEachTime(t *testing.T) {
	var files [2][]byte
	for i := range files {
		pages, err := index.Draw(t.Context(), made(t, "Winter fair", "a4", shelf, []int{3, 9}))
		if err != nil {
			t.Fatal(err)
		}
		files[i] = written(t, pages)
	}
	if !bytes.Equal(files[0], files[1]) {
		t.Error("other bytes the second time")
	}
}
