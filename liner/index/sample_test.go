package index_test

import (
	"fmt"
	"slices"
	"testing"

	"underflap/liner"
	"underflap/liner/index"
	"underflap/liner/sheet"
	"underflap/palettes"
	"underflap/pattern"
)

// kind is liners of an envelope, settled on a paper.
type kind struct {
	envelope string
	shape    liner.Shape
	paper    string
	layout   string
	perSheet int
	pattern  string
	palette  string
}

func (k kind) paperOf(t testing.TB) liner.Paper {
	t.Helper()
	return paperOf(k.paper)
}

func paperOf(name string) liner.Paper {
	paper, err := liner.ParsePaper("paper", name)
	if err != nil {
		panic(err)
	}
	return paper
}

func (k kind) plan(t testing.TB) (sheet.Plan, sheet.Marks) {
	t.Helper()
	e, err := liner.LookUp(k.envelope)
	if err != nil {
		t.Fatal(err)
	}
	env := e.Envelope(k.shape)
	l, err := liner.New(env, liner.Clearances{SideGap: liner.DefaultSideGap, GumClearance: liner.DefaultGumClearance, CornerRadius: liner.UsualCornerRadius(env)})
	if err != nil {
		t.Fatal(err)
	}
	p, err := sheet.Arrange(sheet.Task{Liner: l, Paper: k.paperOf(t), PrinterMargin: sheet.UsualPrinterMargin, Bleed: 2, Gap: 4, Layout: k.layout, PerSheet: k.perSheet})
	if err != nil {
		t.Fatal(err)
	}
	return p.Settle()
}

func (k kind) design(t testing.TB) pattern.Design {
	t.Helper()
	motif, err := pattern.New(k.pattern, nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	palette, err := palettes.Named("palette", k.palette)
	if err != nil {
		t.Fatal(err)
	}
	return pattern.Design{Name: k.pattern, Motif: motif, Scale: 1, Colours: palette.Colours}
}

// shelf are kinds that Tarn Lane Press might want.
var shelf = []kind{
	{"c6", liner.Pointed, "a4", sheet.Nested, 0, "leaves", "orchard-table"},
	{"dl", liner.Square, "a4", sheet.Straight, 0, "dots", "orchard-table"},
	{"c5", liner.Contour, "a4", "", 0, "stars", "orchard-table"},
	{"c7", liner.Rounded, "a4", sheet.Straight, sheet.Most, "stripes", "orchard-table"},
	{"a7", liner.Pointed, "letter", sheet.Nested, 0, "waves", "orchard-table"},
	{"no. 10", liner.Square, "letter", sheet.Straight, 0, "confetti", "orchard-table"},
	{"c6", liner.Rounded, "a4", sheet.Straight, 0, "scallops", "orchard-table"},
}

// made is an occasion of kinds, counts of each, every kind on sheets of its own.
func made(t testing.TB, title, paper string, kinds []kind, counts []int) index.Occasion {
	t.Helper()
	o := index.Occasion{Title: title, Paper: kind{paper: paper}.paperOf(t), PrinterMargin: sheet.UsualPrinterMargin}
	page := 1
	type settled struct {
		plan  sheet.Plan
		marks sheet.Marks
	}
	known := map[kind]settled{}
	for i, k := range kinds {
		s, ok := known[k]
		if !ok {
			s.plan, s.marks = k.plan(t)
			known[k] = s
		}
		count := counts[i%len(counts)]
		d := k.design(t)
		o.Lines = append(o.Lines, index.Line{Letter: letter(i), Name: fmt.Sprintf("%s %s", k.pattern, []string{"invitations", "menus", "place cards", "thanks"}[i%4]),
			Says: fmt.Sprintf("%s, %s flap, %s, pocket depth %.1f mm", s.plan.Liner.Envelope.Short, k.shape, sheet.DesignTitle(d), s.plan.Depth), Plan: s.plan, Design: d, Count: count})
		full, left := count/s.plan.PerSheet(), count%s.plan.PerSheet()
		if full > 0 {
			o.Sheets = append(o.Sheets, index.Sheet{Plan: s.plan, Marks: s.marks, Lines: []int{i}, First: page, Last: page + full - 1})
			page += full
		}
		if left > 0 {
			part := s.plan.Part(left)
			o.Sheets = append(o.Sheets, index.Sheet{Plan: part, Marks: sheet.Mark(part), Lines: []int{i}, First: page, Last: page})
			page++
		}
	}
	o.Totals = []string{fmt.Sprintf("%d sheets of paper", page-1), "About 14 ml of ink, as much as 40 pages of text", "An hour and a half of cutting, at a minute a liner"}
	return o
}

func letter(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return letter(i/26-1) + letter(i%26)
}

// mixed adds a sheet on which two kinds, made for halves of A3, lie together.
func mixed(t testing.TB) index.Occasion {
	t.Helper()
	a, b := shelf[0], shelf[1]
	a.paper, b.paper = "297x210", "297x210"
	o := made(t, "A small wedding", "a4", []kind{a, b, shelf[2]}, []int{12, 7, 3})
	one, other := o.Lines[0].Plan, o.Lines[1].Plan
	both := one
	both.Paper = kind{paper: "a3"}.paperOf(t)
	both.Layout = sheet.Nested
	both.Pieces = append(slices.Clone(one.Pieces), other.Pieces...)
	both.Placements = slices.Clone(one.Placements)
	for _, pl := range other.Placements {
		pl.Piece += len(one.Pieces)
		pl.DY += 210
		both.Placements = append(both.Placements, pl)
	}
	last := o.Sheets[len(o.Sheets)-1].Last
	o.Sheets = append([]index.Sheet{{Plan: both, Marks: sheet.Mark(both), Lines: []int{0, 1}, First: last + 1, Last: last + 5}}, o.Sheets...)
	return o
}

// varied is a hundred sheets, each with designs of its own.
func varied(t testing.TB) index.Occasion {
	t.Helper()
	o := made(t, "Winter fair", "a4", shelf[:2], []int{2, 1})
	first := o.Sheets[0]
	o.Sheets = nil
	for i := range 100 {
		s := first
		s.First, s.Last = i+1, i+1
		o.Sheets = append(o.Sheets, s)
	}
	o.Ahead = true
	return o
}
