package pattern

import (
	"math"
	"math/rand/v2"
	"testing"
)

// A toss is blue noise: even from afar and without order from near. Its
// periodogram, averaged over rings as Ulichney ("Dithering with blue noise",
// Proc. IEEE 76, 1988) and Lagae and Dutré ("A comparison of methods for
// generating Poisson disk distributions", Computer Graphics Forum 27, 2008) do,
// is low below the principal frequency, which is that of as many motifs in rows
// and columns, and has no spikes; a scatter at random, as long, is 1 throughout.
func TestATossIsBlueNoise(t *testing.T) {
	for seed := range uint64(2) {
		tile := toss(seed)
		principal := math.Sqrt(float64(len(tile))) // in waves a tile
		even, _ := power(tile, 1, 0.4*principal)
		peak, spike := power(tile, 0.9*principal, 1.25*principal)

		chance := rand.New(rand.NewPCG(seed, 1))
		white := make([]scattered, len(tile))
		for i := range white {
			white[i] = scattered{x: tossSide * chance.Float64(), y: tossSide * chance.Float64()}
		}
		random, _ := power(white, 1, 0.4*principal)
		if even > 0.15*random || random < 0.8 || random > 1.25 {
			t.Errorf("seed %d: mean power %.3f below the principal frequency, of a random scatter %.3f", seed, even, random)
		}
		if peak < 1.1 || spike > 25*peak {
			t.Errorf("seed %d: mean power %.2f around the principal frequency, and a spike of %.0f", seed, peak, spike)
		}
		if grid, _ := power(inRows(), 1, 0.4*principal); grid > 1e-9 {
			t.Fatalf("rows and columns have power %g there", grid) // the periodogram itself
		}
		if _, spike := power(inRows(), 0.9*principal, 1.25*principal); spike < 1000 {
			t.Fatalf("rows and columns show no spike")
		}
	}
}

// inRows is a tile in rows and columns, about as dense as a toss.
func inRows() []scattered {
	const n = 38
	var all []scattered
	for i := range n * n {
		all = append(all, scattered{x: float64(i%n) * tossSide / n, y: float64(i/n) * tossSide / n})
	}
	return all
}

// power is the mean and the greatest of the periodogram between two
// frequencies.
func power(tile []scattered, from, to float64) (mean, most float64) {
	sum, n := 0.0, 0
	for a := -int(to); a <= int(to); a++ {
		for b := 0; b <= int(to); b++ {
			if far := math.Hypot(float64(a), float64(b)); far < from || far > to || b == 0 && a < 0 {
				continue
			}
			re, im := 0.0, 0.0
			for _, m := range tile {
				sin, cos := math.Sincos(2 * math.Pi / tossSide * (float64(a)*m.x + float64(b)*m.y))
				re, im = re+cos, im+sin
			}
			p := (re*re + im*im) / float64(len(tile))
			sum, most, n = sum+p, math.Max(most, p), n+1
		}
	}
	return sum / float64(n), most
}
