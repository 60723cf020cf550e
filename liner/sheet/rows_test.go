package sheet_test

import (
	"fmt"
	"testing"

	"underflap/liner"
	"underflap/liner/sheet"
)

// papersAtHand are those that fit compares.
func papersAtHand(t testing.TB) []liner.Paper {
	t.Helper()
	var papers []liner.Paper
	for _, name := range []string{"A4", "Letter", "Legal", "A3", "12x12in"} {
		p, err := liner.ParsePaper("paper", name)
		if err != nil {
			t.Fatal(err)
		}
		papers = append(papers, p)
	}
	return papers
}

// rowed is a task in a layout; ok is false where so many do not fit.
func rowed(task sheet.Task, layout string, n int) (p sheet.Plan, ok bool) {
	task.Layout, task.PerSheet = layout, n
	p, err := sheet.Arrange(task)
	return p, err == nil && (n == sheet.Most || p.PerSheet() == n)
}

// Pieces in boxes may always stay in their boxes: over the whole size table
// neither nesting nor the layout that is taken unasked gives less depth than
// the straight layout, or fewer liners where as many as fit are wanted.
func TestNestingNeverGivesLessThanBoxes(t *testing.T) {
	for _, paper := range papersAtHand(t) {
		t.Run(paper.Short, func(t *testing.T) {
			t.Parallel()
			compared := map[int]int{}
			for i, e := range liner.Entries() {
				task := usual(t, e, "", paper)
				task.HiddenFoot = []float64{0, 0, 8}[i%3]
				for _, n := range []int{1, 2, 3, 4, 6, sheet.Most} {
					straight, ok := rowed(task, sheet.Straight, n)
					if !ok {
						continue
					}
					for _, layout := range []string{sheet.Nested, ""} {
						got, ok := rowed(task, layout, n)
						what := fmt.Sprintf("%s on %s, %d in layout %q", e.Name, paper.Short, n, layout)
						if !ok || got.PerSheet() < straight.PerSheet() {
							t.Errorf("%s: %d, straight %d", what, got.PerSheet(), straight.PerSheet())
						}
						if got.PerSheet() == straight.PerSheet() && got.Depth < straight.Depth-1e-4 {
							t.Errorf("%s: depth %v, straight %v", what, got.Depth, straight.Depth)
						}
						compared[n]++
					}
				}
			}
			t.Log(compared)
		})
	}
}
