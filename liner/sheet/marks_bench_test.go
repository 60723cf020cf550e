package sheet

import (
	"testing"

	"underflap/liner"
)

// markTask is a sheet to be marked.
type markTask struct {
	name string
	task Task
}

// markTasks are sheets from roomy to crowded.
func markTasks(t testing.TB) (all []markTask) {
	t.Helper()
	add := func(name string, e liner.Envelope, paper, layout string, perSheet int) {
		l, err := liner.New(e, liner.Clearances{SideGap: liner.DefaultSideGap, GumClearance: liner.DefaultGumClearance, CornerRadius: liner.UsualCornerRadius(e)})
		if err != nil {
			t.Fatal(err)
		}
		on, err := liner.ParsePaper("paper", paper)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, markTask{name, Task{Liner: l, Paper: on, PrinterMargin: UsualPrinterMargin, Bleed: 2, Gap: 4, Layout: layout, PerSheet: perSheet}})
	}
	known := func(name string, shape liner.Shape) liner.Envelope {
		e, err := liner.LookUp(name)
		if err != nil {
			t.Fatal(err)
		}
		return e.Envelope(shape)
	}
	square := liner.Envelope{Name: "measured", Short: "155 mm square", Width: 155, Height: 155, Gum: 10}
	square.Flap = liner.UsualFlap(liner.Pointed, 80, square.Width)
	add("C6 on A4, straight", known("C6", ""), "A4", Straight, 0)
	add("C6 on A4, nested", known("C6", ""), "A4", Nested, 0)
	add("DL on A3", known("DL", ""), "A3", "", 0)
	add("A7 on Letter", known("A7", ""), "Letter", "", 0)
	add("No. 10 contour on Legal", known("No. 10", liner.Contour), "Legal", "", 0)
	add("155 mm square on A4", square, "A4", "", 0)
	add("most C7 on A3", known("C7", ""), "A3", Straight, Most)
	return all
}

// BenchmarkMark times finding room for the rule and the steps.
func BenchmarkMark(b *testing.B) {
	for _, one := range markTasks(b) {
		p, err := Arrange(one.task)
		if err != nil {
			b.Fatal(one.name, err)
		}
		b.Run(one.name, func(b *testing.B) {
			for b.Loop() {
				Mark(p)
			}
		})
	}
}
