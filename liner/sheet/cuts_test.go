package sheet

import (
	"testing"

	"underflap/liner"
)

// Where the trimmer is laid, by sums that need no drawing: every cut lies on a
// straight side of some liner, as far from the edge as it is said.
func TestCutsLieOnTheLinersSides(t *testing.T) {
	e, err := liner.LookUp("C6")
	if err != nil {
		t.Fatal(err)
	}
	paper, err := liner.ParsePaper("paper", "A4")
	if err != nil {
		t.Fatal(err)
	}
	env := e.Envelope("")
	l, err := liner.New(env, liner.Clearances{SideGap: 3, GumClearance: 1.5, CornerRadius: liner.UsualCornerRadius(env)})
	if err != nil {
		t.Fatal(err)
	}
	p, err := Arrange(Task{Liner: l, Paper: paper, PrinterMargin: 5, Bleed: 2, Gap: 4, Layout: Straight})
	if err != nil {
		t.Fatal(err)
	}
	p, m := p.Settle()
	cuts := m.Cuts()
	if len(cuts) < 2 {
		t.Fatalf("%d cuts", len(cuts))
	}
	for i, c := range cuts {
		if c.Number != i+1 {
			t.Errorf("cut %d is numbered %d", i+1, c.Number)
		}
		on := false
		for _, pl := range p.Placements {
			box := p.CutLine(pl).Bounds()
			if c.Upright {
				on = on || near(c.At, box.MinX) || near(c.At, box.MaxX)
			} else {
				on = on || near(c.At, box.MinY) || near(c.At, box.MaxY)
			}
		}
		if !on {
			t.Errorf("cut %+v lies on no liner's side", c)
		}
	}
}
