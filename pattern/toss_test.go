package pattern

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"underflap/pattern/draw"
)

// The scattering of a toss: Poisson discs as Bridson defines them ("Fast Poisson
// Disk Sampling in Arbitrary Dimensions", SIGGRAPH 2007), all on a tile whose
// sides meet.

// around is the distance of two places on the tile, sides joined.
func around(ax, ay, bx, by float64) float64 {
	dx, dy := math.Abs(ax-bx), math.Abs(ay-by)
	return math.Hypot(math.Min(dx, tossSide-dx), math.Min(dy, tossSide-dy))
}

func TestNoTwoTossedMotifsAreTooNear(t *testing.T) {
	for seed := range uint64(5) {
		tile := toss(seed)
		for i, a := range tile {
			for _, b := range tile[:i] {
				if d := around(a.x, a.y, b.x, b.y); d < 1-1e-12 {
					t.Fatalf("seed %d: two motifs are %g apart", seed, d)
				}
			}
		}
	}
}

// Across the borders of tiles too, and with any density, spacing and shrinking
// by a fade, the discs that motifs keep within stay the spacing apart.
func TestTossedMotifsNeverTouch(t *testing.T) {
	for _, density := range []float64{1, 0.6, 0.1, 0.05} {
		for _, spacing := range []float64{0, 0.5, 12} {
			for _, fade := range []bool{false, true} {
				const reach = 1.5
				r := Recurrence{Repeat: Toss, Density: density, Spacing: spacing, seed: 3}
				if fade {
					r.grown = func(x, y float64) float64 { return Fade{Of: FadeSize, To: 0.3}.left(y, 80) }
				}
				side := r.apart(reach) * tossSide
				across := box(0.4 * side) // four tiles meet in its middle
				all := placesOf(&r, across, reach)
				slices.SortFunc(all, func(a, b Place) int { return cmp.Compare(a.At.E, b.At.E) })
				least := math.Inf(1)
				for i, p := range all {
					if size := p.At.Size(); size > 1+1e-12 || !fade && math.Abs(size-1) > 1e-12 {
						t.Fatalf("a motif is drawn %g times as large", size)
					}
					for _, q := range all[i+1:] {
						if q.At.E-p.At.E > 2*reach+spacing {
							break
						}
						free := math.Hypot(p.At.E-q.At.E, p.At.F-q.At.F) - reach*(p.At.Size()+q.At.Size())
						least = math.Min(least, free)
					}
				}
				if least < spacing-1e-9 {
					t.Errorf("density %g: motifs come as near as %g, spacing %g", density, least, spacing)
				}
				if density == 1 && !fade && least > spacing+0.1*(2*reach+spacing) {
					t.Errorf("spacing %g: no two motifs are nearer than %g", spacing, least)
				}
			}
		}
	}
}

// As many as there is room for. Bridson gives up on a motif after 30 misses, so
// a hole may stay: at most 0.3 % of the plane is farther than the least distance
// from every motif, and nothing is farther than 1.3 of it. And no tile is
// thinner than 0.6 motifs a square: throwing at random until no more fit comes
// to 0.547 of the plane under discs, 0.697 a square (Feder, J. Theor. Biol. 87,
// 1980; from memory), and Bridson's, which creeps outwards, a little less.
func TestATossLeavesNoHoles(t *testing.T) {
	for seed := range uint64(3) {
		tile := toss(seed)
		if share := float64(len(tile)) / (tossSide * tossSide); share < 0.6 || share > 0.7 {
			t.Errorf("seed %d: %.3f motifs a square", seed, share)
		}
		buckets := map[[2]int][]scattered{}
		for _, m := range tile {
			at := [2]int{int(m.x / 2), int(m.y / 2)}
			buckets[at] = append(buckets[at], m)
		}
		const fine, half = 6, tossSide / 2
		free, largest := 0, 0.0
		for i := range tossSide * fine {
			for j := range tossSide * fine {
				x, y := (float64(i)+0.5)/fine, (float64(j)+0.5)/fine
				nearest := 2.0 // as far as the neighbouring buckets tell
				for dx := -1; dx <= 1; dx++ {
					for dy := -1; dy <= 1; dy++ {
						for _, m := range buckets[[2]int{(int(x/2) + dx + half) % half, (int(y/2) + dy + half) % half}] {
							nearest = math.Min(nearest, around(x, y, m.x, m.y))
						}
					}
				}
				if nearest > 1 {
					free++
				}
				largest = math.Max(largest, nearest)
			}
		}
		if share := float64(free) / (tossSide * tossSide * fine * fine); share > 0.003 || largest > 1.3 {
			t.Errorf("seed %d: %.4f of the tile has room for a motif, the largest hole reaches %.2f", seed, share, largest)
		}
	}
}

// Density is in proportion: half of it, half as many.
func TestDensityScalesTheCountInProportion(t *testing.T) {
	count := func(density float64) float64 {
		r := Recurrence{Repeat: Toss, Density: density, Spacing: 0.5}
		inside := 0
		for _, p := range placesOf(&r, box(400), 0.75) {
			if math.Abs(p.At.E) <= 200 && math.Abs(p.At.F) <= 200 {
				inside++
			}
		}
		return float64(inside)
	}
	full := count(1)
	for _, density := range []float64{0.8, 0.5, 0.25, 0.1, 0.05} {
		if got := count(density); math.Abs(got/full-density) > 0.05*density {
			t.Errorf("density %g: %.0f motifs of %.0f", density, got, full)
		}
	}
}

// A seed is an arrangement: the same every time, and another for another seed.
// Motifs are turned every way.
func TestSeedsTossDifferently(t *testing.T) {
	places := func(seed uint64) []Place {
		r := Recurrence{Repeat: Toss, Density: 1, Spacing: 1, seed: seed}
		return placesOf(&r, box(120), 2)
	}
	seen := map[draw.Matrix]bool{}
	for seed := range uint64(20) {
		first := places(seed)
		if !slices.Equal(first, places(seed)) || !slices.Equal(newToss(seed), newToss(seed)) {
			t.Errorf("seed %d differs from one time to the next", seed)
		}
		quarters := map[[2]bool]int{}
		for _, p := range first {
			if seen[p.At] {
				t.Fatalf("seed %d has a motif where another seed has one", seed)
			}
			seen[p.At] = true
			quarters[[2]bool{p.At.A > 0, p.At.B > 0}]++
		}
		for _, n := range quarters {
			if len(quarters) < 4 || n < len(first)/8 {
				t.Errorf("seed %d: of %d motifs as few as %d point to one quarter", seed, len(first), n)
			}
		}
	}
}
