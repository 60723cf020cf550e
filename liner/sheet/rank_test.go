package sheet

import "testing"

// complete tells that nothing is lacking: the rule is there, every fold shows,
// and the notes say as much as is wanted and read well.
func (m Marks) complete() bool {
	return m.HasRule && m.folds == "" && (m.unasked || m.noted && m.notes.given == 0)
}

// On every sheet of the table marks that are complete have nothing to remark
// on, and rank above all that are not.
func TestCompleteMarksLackNothingAndRankHighest(t *testing.T) {
	complete, lacking := 0, 0
	least, most := 2000.0, -2000.0
	for _, one := range everyPlan(t) {
		name, p, m := one.name, one.plan, one.marks
		if !m.complete() {
			lacking++
			most = max(most, m.rank())
			continue
		}
		complete++
		least = min(least, m.rank())
		if m.Remarks() != nil || m.notes.size < readable[len(readable)-1] || m.rank() < 1000 {
			t.Errorf("%s, bleed %v, gap %v: complete at %v mm, rank %v, yet %q", name, p.Bleed, p.Gap, m.notes.size, m.rank(), m.Remarks())
		}
	}
	if complete < 100 || lacking < 10 || most >= least {
		t.Errorf("%d complete from rank %v, %d lacking up to rank %v", complete, least, lacking, most)
	}
}

// Where no notes are wanted none are lacking.
func TestMarksWithoutNotesAreCompleteWhenNoneAreWanted(t *testing.T) {
	task := markTasks(t)[0].task
	task.Notes = NotesNone
	p, err := Arrange(task)
	if err != nil {
		t.Fatal(err)
	}
	if m := Mark(p); !m.complete() || m.noted || m.Remarks() != nil {
		t.Errorf("complete %v, noted %v, %q", m.complete(), m.noted, m.Remarks())
	}
}
