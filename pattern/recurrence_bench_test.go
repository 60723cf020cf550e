package pattern

import (
	"math"
	"testing"
)

// Where about 5,000 motifs go: every repeat and one group of each lattice. The
// first of a seed or cell, which is scattered or searched for, is timed by
// itself.
func BenchmarkPlaces(b *testing.B) {
	const reach, motifs = 2.0, 5000
	for _, name := range []string{"straight", "brick", "half-drop", "mirror", "toss", "p1", "p2mg", "p4gm", "p6mm"} {
		r := everyRecurrence()[name]
		area := box(math.Sqrt(motifs / r.count(box(1), reach)))
		b.Run(name, func(b *testing.B) {
			for range b.N {
				r.each(area, reach, func(Place) {})
			}
		})
	}
	b.Run("toss/first", func(b *testing.B) {
		for i := range b.N {
			toss(uint64(i) + 1000)
		}
	})
	b.Run("p6mm/first", func(b *testing.B) {
		for range b.N {
			newOrbit(groupOf("p6mm"), Cell{1, 90})
		}
	})
}
