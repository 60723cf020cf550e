package scene

import "testing"

// A page of cells is wider than high, but never a strip, and what belongs
// together starts no new row.
func TestColumnsMakeAHandyPage(t *testing.T) {
	const dx, dy = 190.0, 225.0 // of a C6 and its name
	for n := 1; n <= MostCells; n++ {
		for together := 1; together <= 10; together++ {
			if n%together != 0 {
				continue
			}
			c := bestColumns(n, together, dx, dy)
			rows := (n + c - 1) / c
			if c%together != 0 || c > n {
				t.Errorf("%d cells by %d: %d columns", n, together, c)
			}
			page := float64(c) * dx / (float64(rows) * dy)
			if together == 1 && n > 5 && (page < 0.8 || page > 2.2) {
				t.Errorf("%d cells: %d columns, %.2f times as wide as high", n, c, page)
			}
			if empty := c*rows - n; together == 1 && n > 5 && empty > n/3 {
				t.Errorf("%d cells: %d places stay empty", n, empty)
			}
		}
	}
	if got := bestColumns(60, 5, dx, dy); got != 10 {
		t.Errorf("twelve patterns in five palettes: %d columns, want two patterns a row", got)
	}
}
