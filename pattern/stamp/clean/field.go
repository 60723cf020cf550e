package clean

import "math"

// field holds one density for each pixel.
type field struct {
	w, h int
	v    []float32
}

func newField(w, h int) *field { return &field{w, h, make([]float32, w*h)} }

// bins part the densities from 0 to 1; paper's noise below 0 counts as 0.
const bins = 512

func bin(v float32) int { return min(max(int(v*bins), 0), bins-1) }

func histogram(f *field) (counts [bins]int) {
	for _, v := range f.v {
		counts[bin(v)]++
	}
	return counts
}

// otsu is the density that parts a histogram into two classes with the greatest
// variance between them (N. Otsu, A Threshold Selection Method from Gray-Level
// Histograms, IEEE Trans. SMC 9, 1979). Where several are as good it is the
// middle one. It is 0 when there is but one class.
func otsu(counts [bins]int) float64 {
	total, moment := 0.0, 0.0
	for i, n := range counts {
		total += float64(n)
		moment += float64(n) * float64(i)
	}
	best, first, last := 0.0, 0, 0
	below, sum := 0.0, 0.0
	for i, n := range counts {
		below += float64(n)
		sum += float64(n) * float64(i)
		if below == 0 || below == total {
			continue
		}
		apart := sum/below - (moment-sum)/(total-below)
		switch between := below * (total - below) * apart * apart; {
		case between > best:
			best, first, last = between, i+1, i+1
		case between == best:
			last = i + 1
		}
	}
	return float64(first+last) / 2 / bins
}

// meanAbove is the mean of what is denser than least.
func meanAbove(f *field, least float64) float64 {
	sum, n := 0.0, 0
	for _, v := range f.v {
		if float64(v) > least {
			sum += float64(v)
			n++
		}
	}
	if n == 0 {
		return 0
	}
	return sum / float64(n)
}

// noiseBelow is the standard deviation of what is less dense than most, from
// the differences of neighbours, so that what is left of a gradient or a soft
// edge counts little.
func noiseBelow(f *field, most float64) float64 {
	var counts [bins]int
	n := 0
	for at := 1; at < len(f.v); at++ {
		a, b := f.v[at-1], f.v[at]
		if float64(a) < most && float64(b) < most && at%f.w != 0 {
			counts[bin(float32(math.Abs(float64(a-b))))]++
			n++
		}
	}
	seen := 0
	for i, c := range counts { // half of them are below 0.6745 deviations of a difference
		seen += c
		if 2*seen >= n {
			return (float64(i) + 0.5) / bins / 0.6745 / math.Sqrt2
		}
	}
	return 0
}

// smooth weighs each pixel with its eight neighbours, 1 2 1 across and down.
func smooth(f *field) *field {
	out := newField(f.w, f.h)
	across := newField(f.w, f.h)
	for y := range f.h {
		row, to := f.v[y*f.w:(y+1)*f.w], across.v[y*f.w:(y+1)*f.w]
		for x, v := range row {
			to[x] = (row[max(x-1, 0)] + 2*v + row[min(x+1, f.w-1)]) / 4
		}
	}
	for y := range f.h {
		up, down := across.v[max(y-1, 0)*f.w:], across.v[min(y+1, f.h-1)*f.w:]
		mid, to := across.v[y*f.w:], out.v[y*f.w:(y+1)*f.w]
		for x := range to {
			to[x] = (up[x] + 2*mid[x] + down[x]) / 4
		}
	}
	return out
}
