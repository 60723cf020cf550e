package pattern

import "math/rand/v2"

// seeded is a family whose arrangement is left to chance, with no single motifs
// to toss.
type seeded interface{ setSeed(uint64) }

// seed is the arrangement that a design asks for.
type seed uint64

func (s *seed) setSeed(to uint64) { *s = seed(to) }

// chance is what falls to one cell of the plane. It hangs on nothing but the
// cell and the seed, so that a part of the paper is drawn as the whole would be.
func (s seed) chance(column, row int) *rand.Rand {
	return rand.New(rand.NewPCG(uint64(s)^0x63656c6c, uint64(uint32(column))<<32|uint64(uint32(row))))
}
