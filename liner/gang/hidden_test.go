package gang_test

import (
	"testing"

	"underflap/liner/gang"
	"underflap/liner/sheet"
)

// Lines with a hidden foot keep to themselves, as Share promises, also among each
// other: 3 and 3 at two a sheet are four sheets, where three would do.
func TestLinesWithAHiddenFootKeepToThemselves(t *testing.T) {
	of := lines(t, "A4", wish{envelope: "c6", count: 3}, wish{envelope: "c6", count: 3})
	if n := gang.Sheets(share(t, of)); n != 3 {
		t.Errorf("without a foot %d sheets", n)
	}
	for i := range of {
		task := of[i].Plan.Task
		task.HiddenFoot = 4
		p, err := sheet.Arrange(task)
		if err != nil {
			t.Fatal(err)
		}
		of[i].Plan, of[i].Marks = p.Settle()
	}
	if n := gang.Sheets(share(t, of)); n != 4 {
		t.Errorf("with one %d sheets", n)
	}
}
