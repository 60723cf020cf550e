package sheet_test

import (
	"fmt"
	"testing"

	"underflap/liner"
	"underflap/liner/sheet"
)

// What a person waits for when two liners are nested on one sheet.
func BenchmarkSolve(b *testing.B) {
	for _, one := range []struct {
		envelope string
		shape    liner.Shape
		paper    string
	}{
		{"C6", liner.Pointed, "A4"}, {"C6", liner.Rounded, "A4"}, {"C6", liner.Contour, "A4"}, {"C5", liner.Contour, "A3"},
		{"DL", liner.Square, "A4"}, {"A7", liner.Contour, "Letter"}, {"No. 10", liner.Pointed, "Letter"}, {"155 mm square", liner.Pointed, "12x12in"},
	} {
		b.Run(fmt.Sprintf("%s %s on %s", one.envelope, one.shape, one.paper), func(b *testing.B) {
			task := benchTask(b, one.envelope, one.shape, one.paper)
			task.Layout, task.PerSheet = sheet.Nested, 2
			for b.Loop() {
				if _, err := sheet.Arrange(task); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func benchTask(b *testing.B, envelope string, shape liner.Shape, paper string) sheet.Task {
	b.Helper()
	e, err := liner.LookUp(envelope)
	if err != nil {
		b.Fatal(err)
	}
	on, err := liner.ParsePaper("paper", paper)
	if err != nil {
		b.Fatal(err)
	}
	env := e.Envelope(shape)
	l, err := liner.New(env, liner.Clearances{SideGap: liner.DefaultSideGap, GumClearance: liner.DefaultGumClearance, CornerRadius: liner.UsualCornerRadius(env)})
	if err != nil {
		b.Fatal(err)
	}
	return sheet.Task{Liner: l, Paper: on, PrinterMargin: sheet.UsualPrinterMargin, Bleed: 2, Gap: 4}
}

// What fit waits for, for every envelope of the table: five papers in two
// layouts each.
func BenchmarkFitWholeTable(b *testing.B) {
	var plans []sheet.Plan
	for _, e := range liner.Entries() {
		p, err := sheet.Arrange(benchTask(b, e.Name, "", "12x12in"))
		if err != nil { // too large for the paper at hand
			p.Task = benchTask(b, e.Name, "", "12x12in")
		}
		plans = append(plans, p)
	}
	for b.Loop() {
		for _, p := range plans {
			p.Compare()
		}
	}
}
