package gang_test

import (
	"context"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/gang"
	"underflap/liner/sheet"
)

// tester is what a test and a property have in common.
type tester interface {
	Helper()
	Fatal(...any)
	Fatalf(string, ...any)
}

// wish is a line in words.
type wish struct {
	envelope string
	shape    liner.Shape
	count    int
	per      int
	layout   string
}

// line is a wish on a paper; false where its liner has no room.
func (w wish) line(t tester, paper string) (gang.Line, bool) {
	t.Helper()
	e, err := liner.LookUp(w.envelope)
	if err != nil {
		t.Fatal(err)
	}
	return arranged(t, e.Envelope(w.shape), paper, w)
}

func arranged(t tester, env liner.Envelope, paper string, w wish) (gang.Line, bool) {
	t.Helper()
	on, err := liner.ParsePaper("paper", paper)
	if err != nil {
		t.Fatal(err)
	}
	l, err := liner.New(env, liner.Clearances{SideGap: liner.DefaultSideGap, GumClearance: liner.DefaultGumClearance, CornerRadius: liner.UsualCornerRadius(env)})
	if err != nil {
		t.Fatal(err)
	}
	p, err := sheet.Arrange(sheet.Task{Liner: l, Paper: on, PrinterMargin: sheet.UsualPrinterMargin, Bleed: 2, Gap: 4, PerSheet: w.per, Count: w.count, Layout: w.layout})
	if err != nil {
		return gang.Line{}, false
	}
	p, m := p.Settle()
	return gang.Line{Plan: p, Marks: m}, true
}

// lines names wishes A, B and so on.
func lines(t tester, paper string, wishes ...wish) []gang.Line {
	t.Helper()
	var all []gang.Line
	for _, w := range wishes {
		if l, ok := w.line(t, paper); ok {
			l.Name = "line " + string(rune('A'+len(all)))
			all = append(all, l)
		}
	}
	return all
}

func share(t tester, of []gang.Line) []gang.Sheet {
	t.Helper()
	all, err := gang.Share(context.Background(), of)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// sound says what is wrong with sheets for lines.
func sound(of []gang.Line, all []gang.Sheet) error {
	got := make([]int, len(of))
	saves := false
	for _, s := range all {
		if len(s.Lines) != len(s.Plan.Pieces) || s.Plan.Count != len(s.Plan.Placements) || s.Copies < 1 {
			return fmt.Errorf("%d lines, %d pieces, %d placements, count %d, %d copies", len(s.Lines), len(s.Plan.Pieces), len(s.Plan.Placements), s.Plan.Count, s.Copies)
		}
		on := make([]int, len(s.Lines))
		for _, pl := range s.Plan.Placements {
			on[pl.Piece]++
			got[s.Lines[pl.Piece]] += s.Copies
		}
		for i, line := range s.Lines {
			l, piece := of[line], s.Plan.Pieces[i]
			if piece.Depth != l.Plan.Depth || !slices.Equal(piece.Outline.Contour, l.Plan.Pieces[0].Outline.Contour) {
				return fmt.Errorf("line %d has another outline on a sheet", line)
			}
			if per := l.Plan.Task.PerSheet; on[i] == 0 || per > 0 && on[i] > per {
				return fmt.Errorf("%d of line %d on a sheet, %d asked for", on[i], line, per)
			}
			if len(s.Lines) > 1 {
				saves = true
				if piece.Name != l.Name {
					return fmt.Errorf("line %d is named %q", line, piece.Name)
				}
				if l.Apart || l.Plan.Asked == sheet.Straight || l.Stock != of[s.Lines[0]].Stock || l.Plan.Paper != s.Plan.Paper {
					return fmt.Errorf("line %d must share no sheet with line %d", line, s.Lines[0])
				}
			}
		}
		// what is left of one line when the other on their sheets is used up lies as it did beside it
		full := len(s.Lines) == 1 && s.Plan.Count > of[s.Lines[0]].Plan.PerSheet()
		saves = saves || full
		if line := s.Lines[0]; len(s.Lines) == 1 && !full && !slices.Equal(s.Plan.Placements, of[line].Plan.Placements[:s.Plan.Count]) {
			return fmt.Errorf("a sheet of line %d alone is not as its plan has it", line)
		}
		area := 0.0
		for _, pl := range s.Plan.Placements {
			area += s.Plan.Pieces[pl.Piece].Outline.Area()
		}
		if r := s.Plan.Room(); area > r.Width*r.Height {
			return fmt.Errorf("%v mm² of liners on a sheet of %v", area, r)
		}
	}
	for i, l := range of {
		if got[i] != l.Plan.Count {
			return fmt.Errorf("%d of line %d, want %d", got[i], i, l.Plan.Count)
		}
	}
	if n, alone := gang.Sheets(all), gang.Sheets(gang.Alone(of)); n > alone || saves != (n < alone) {
		return fmt.Errorf("%d sheets, %d alone; shared: %v", n, alone, saves)
	}
	return nil
}

var envelopes = []string{"c6", "dl", "c7", "a7", "130 mm square", "b6", "a2", "a6", "c5", "a1", "155 mm square", "no. 10"}

// What Share promises of any occasion: every liner there once, cut as its line
// has it; nothing shared that may not be; never more sheets than alone; and
// nothing shared where that saves none.
func TestAnyOccasionKeepsItsPromises(t *testing.T) {
	said := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		var of []gang.Line
		paper := rapid.SampledFrom([]string{"A4", "A4", "Letter", "A3"}).Draw(t, "paper")
		for i := range rapid.IntRange(1, 6).Draw(t, "lines") {
			w := wish{
				envelope: rapid.SampledFrom(envelopes).Draw(t, "envelope"),
				shape:    rapid.SampledFrom([]liner.Shape{"", "", liner.Square, liner.Pointed}).Draw(t, "shape"),
				count:    rapid.IntRange(1, 30).Draw(t, "count"),
				per:      rapid.SampledFrom([]int{0, 0, 0, 0, 1, 2, sheet.Most}).Draw(t, "per sheet"),
				layout:   rapid.SampledFrom([]string{"", "", "", "", sheet.Nested, sheet.Straight}).Draw(t, "layout"),
			}
			l, ok := w.line(t, paper)
			if !ok {
				continue
			}
			l.Name = fmt.Sprint("line ", i)
			l.Apart = rapid.IntRange(0, 9).Draw(t, "apart") == 0
			l.Stock = rapid.SampledFrom([]string{"", "", "", "cream"}).Draw(t, "stock")
			of = append(of, l)
		}
		all := share(t, of)
		if err := sound(of, all); err != nil {
			t.Fatal(err)
		}
		again := share(t, of)
		if len(again) != len(all) {
			t.Fatalf("asked again, %d kinds of sheets are %d", len(all), len(again))
		}
		for i := range all {
			if !slices.Equal(all[i].Plan.Placements, again[i].Plan.Placements) || !slices.Equal(all[i].Lines, again[i].Lines) || all[i].Copies != again[i].Copies {
				t.Fatalf("asked again, sheet %d is another", i)
			}
		}
		if gang.Sheets(all) < gang.Sheets(gang.Alone(of)) {
			said["saved"]++
		} else {
			said["as alone"]++
		}
	})
	t.Log(said)
	if said["saved"] < 10 || said["as alone"] < 10 {
		t.Errorf("%v: the property was hardly tried", said)
	}
}

// Cases that a person counts on fingers.
func TestSheetsOfKnownOccasions(t *testing.T) {
	for _, one := range []struct {
		why    string
		wishes []wish
		want   int
	}{
		{"two odd ones of equal envelopes share: 3 + 3 at two a sheet are 3 sheets", []wish{{"c6", "", 3, 0, ""}, {"c6", "", 3, 0, ""}}, 3},
		{"even counts gain nothing", []wish{{"c6", "", 4, 0, ""}, {"c6", "", 6, 0, ""}}, 5},
		{"a straight layout was asked for", []wish{{"c6", "", 3, 0, "straight"}, {"c6", "", 3, 0, ""}}, 4},
		{"one a sheet was asked for, and kept: one of each goes on a sheet", []wish{{"c7", "", 5, 1, ""}, {"c7", "", 5, 1, ""}}, 5},
		{"two small ones go beside a large one, and nothing is fewer than one sheet", []wish{{"c6", "", 1, 0, ""}, {"c7", "", 2, 0, ""}}, 1},
		{"a line of one kind is as alone", []wish{{"c7", "", 9, 0, ""}}, 5},
		{"three replies and three packets go on a sheet: 15 replies are five of them, also when 11 packets are soon used up; 8 and 5 sheets more",
			[]wish{{"c6", liner.Square, 15, 0, ""}, {"c7", liner.Square, 15, 0, ""}, {"dl", liner.Square, 10, 0, ""}, {"c8", "", 11, 0, ""}}, 18},
		{"C5 leaves A4 no room", []wish{{"c5", "", 3, 0, ""}, {"c7", "", 4, 0, ""}}, 5},
	} {
		of := lines(t, "A4", one.wishes...)
		all := share(t, of)
		if err := sound(of, all); err != nil {
			t.Errorf("%s: %v", one.why, err)
		}
		if n := gang.Sheets(all); n != one.want {
			t.Errorf("%s: %d sheets, want %d", one.why, n, one.want)
		}
	}
}

func TestSharingStopsWhenItIsCalledOff(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if all, err := gang.Share(ctx, lines(t, "A4", wish{"c6", "", 3, 0, ""}, wish{"c7", "", 3, 0, ""})); err == nil {
		t.Errorf("called off, it gave %d sheets", len(all))
	}
}

// many are lines of a thousand liners each, all of other sizes.
func many(t tester, n int) []gang.Line {
	var of []gang.Line
	for i := range n {
		e, err := liner.LookUp("c6")
		if err != nil {
			t.Fatal(err)
		}
		env := e.Envelope("")
		env.Width, env.Height = 90+float64(i*37%120), 65+float64(i*53%70)
		env.Flap.Depth = env.Height * 0.55
		l, ok := arranged(t, env, "A4", wish{count: 1000 - 3*i})
		if !ok {
			t.Fatalf("%v x %v does not fit", env.Width, env.Height)
		}
		l.Name = fmt.Sprint("line ", i)
		of = append(of, l)
	}
	return of
}

func TestAHundredLinesOfAThousandAreShared(t *testing.T) {
	of := many(t, 100)
	all := share(t, of)
	if err := sound(of, all); err != nil {
		t.Fatal(err)
	}
	t.Logf("%d sheets, %d alone, of %d kinds", gang.Sheets(all), gang.Sheets(gang.Alone(of)), len(all))
}

// BenchmarkShare is the time that sharing takes, and its sheets beside those of each
// line alone.
func BenchmarkShare(b *testing.B) {
	for _, one := range []struct {
		name string
		of   []gang.Line
	}{
		{"supper", lines(b, "A4", wish{"c6", "", 12, 0, ""}, wish{"dl", "", 9, 0, ""}, wish{"c7", "", 7, 0, ""}, wish{"130 mm square", "", 5, 0, ""})},
		{"100 lines of 1000", many(b, 100)},
	} {
		b.Run(one.name, func(b *testing.B) {
			var all []gang.Sheet
			for b.Loop() {
				all = share(b, one.of)
			}
			b.ReportMetric(float64(gang.Sheets(all)), "sheets")
			b.ReportMetric(float64(gang.Sheets(gang.Alone(one.of))), "sheets-of-each-line-alone")
		})
	}
}
