package sheet

import (
	"testing"

	"pgregory.net/rapid"

	"underflap/liner/geom"
)

// fit sets notes in a room as large as it lets them be.
func fit(notes []note, room geom.Box, sizes []float64) (block, bool) {
	measured := measure(notes)
	for _, size := range sizes {
		if b, ok := (trial{typeset: measured, size: size}).fit(room); ok {
			return b, true
		}
	}
	return block{}, false
}

// Mark gives up a version where no room takes it before there is a rule. So
// what goes into a room must go into every larger one.
func TestNotesThatFitARoomFitALargerOne(t *testing.T) {
	p, err := Arrange(markTasks(t)[0].task)
	if err != nil {
		t.Fatal(err)
	}
	trials := p.said("Measure.", len(p.trims())).trials()
	fitted := 0
	rapid.Check(t, func(t *rapid.T) {
		room := geom.Box{MaxX: rapid.Float64Range(10, 250).Draw(t, "width"), MaxY: rapid.Float64Range(10, 250).Draw(t, "height")}
		larger := room
		larger.MaxX += rapid.Float64Range(0, 50).Draw(t, "wider")
		larger.MaxY += rapid.Float64Range(0, 50).Draw(t, "higher")
		for _, try := range trials {
			if _, ok := try.fit(room); !ok {
				continue
			}
			fitted++
			if _, ok := try.fit(larger); !ok {
				t.Fatalf("%v steps down at %v mm fit %v and not %v", try.given, try.size, room, larger)
			}
		}
	})
	if fitted < 50 {
		t.Errorf("notes fitted %d rooms only", fitted)
	}
}
