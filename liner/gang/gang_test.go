package gang_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"underflap/liner"
	"underflap/liner/gang"
	"underflap/liner/sheet"
)

// wish is a line in words.
type wish struct {
	envelope string
	shape    liner.Shape
	count    int
	per      int
	layout   string
}

func lineOf(t testing.TB, w wish, paper string) gang.Line {
	t.Helper()
	e, err := liner.LookUp(w.envelope)
	if err != nil {
		t.Fatal(err)
	}
	on, err := liner.ParsePaper("paper", paper)
	if err != nil {
		t.Fatal(err)
	}
	env := e.Envelope(w.shape)
	l, err := liner.New(env, liner.Clearances{SideGap: liner.DefaultSideGap, GumClearance: liner.DefaultGumClearance, CornerRadius: liner.UsualCornerRadius(env)})
	if err != nil {
		t.Fatal(err)
	}
	p, err := sheet.Arrange(sheet.Task{Liner: l, Paper: on, PrinterMargin: sheet.UsualPrinterMargin, Bleed: 2, Gap: 4, PerSheet: w.per, Count: w.count, Layout: w.layout})
	if err != nil {
		t.Skip(err)
	}
	p, m := p.Settle()
	return gang.Line{Name: fmt.Sprintf("%s %d", w.envelope, w.count), Plan: p, Marks: m}
}

func linesOf(t testing.TB, paper string, wishes ...wish) []gang.Line {
	t.Helper()
	var all []gang.Line
	for i, w := range wishes {
		l := lineOf(t, w, paper)
		l.Name = fmt.Sprintf("line %c", 'A'+i)
		all = append(all, l)
	}
	return all
}

func TestTry(t *testing.T) {
	for _, one := range [][]wish{
		{{"c6", "", 12, 0, ""}, {"dl", "", 9, 0, ""}, {"c7", "", 7, 0, ""}},
		{{"c6", "", 3, 0, ""}, {"c6", "", 3, 0, ""}, {"c6", "square", 1, 0, ""}},
		{{"c6", "", 1, 0, ""}, {"dl", "", 1, 0, ""}},
		{{"c5", "", 10, 0, ""}, {"c7", "", 30, 0, ""}},
		{{"c7", "", 30, 0, ""}, {"c7", "", 10, 0, ""}},
		{{"130 mm square", "", 5, 0, ""}, {"c7", "", 5, 0, ""}},
		{{"b6", "", 20, 0, ""}, {"c7", "", 11, 0, ""}, {"dl", "", 11, 0, ""}},
	} {
		lines := linesOf(t, "A4", one...)
		at := time.Now()
		all, err := gang.Share(context.Background(), lines)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%v: %d sheets, alone %d, %v", one, gang.Sheets(all), gang.Sheets(gang.Alone(lines)), time.Since(at))
		for _, s := range all {
			t.Logf("   %d x %v: %d on it, %v %s fair", s.Copies, s.Lines, len(s.Plan.Placements), s.Marks.Remarks(), s.Plan.Layout)
		}
	}
}
