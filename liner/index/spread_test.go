package index

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Numbers of close cuts move apart in their order and stay on their side; those
// that already stand free stay where they are. Told by their stretches alone.
func TestNumbersOfCutsMoveApart(t *testing.T) {
	moved, kept, none := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		long := rapid.Float64Range(10, 60).Draw(t, "long")
		middles := rapid.SliceOfN(rapid.Float64Range(0, long), 1, 12).Draw(t, "middles")
		slices.Sort(middles)
		var sizes []float64
		total, free := 0.0, true
		for i, m := range middles {
			size := rapid.Float64Range(1, 6).Draw(t, "size")
			sizes = append(sizes, size)
			total += size
			free = free && m-size/2 >= 0 && m+size/2 <= long && (i == 0 || m-size/2 >= middles[i-1]+sizes[i-1]/2)
		}
		given := slices.Clone(middles)
		if !spread(middles, sizes, long) {
			none++
			if total < long-1e-6 {
				t.Fatalf("no room for %v on %v", sizes, long)
			}
			return
		}
		end := 0.0
		for i, m := range middles {
			if m-sizes[i]/2 < end-1e-9 || m+sizes[i]/2 > long+1e-9 {
				t.Fatalf("%v of %v touch or leave %v", middles, sizes, long)
			}
			end = m + sizes[i]/2
			if free && math.Abs(m-given[i]) > 1e-9 {
				t.Fatalf("%v moved to %v for nothing", given, middles)
			}
		}
		if free {
			kept++
		} else {
			moved++
		}
	})
	if moved < 5 || kept < 5 || none < 5 {
		t.Errorf("%d moved, %d stayed, %d found no room", moved, kept, none)
	}
}
