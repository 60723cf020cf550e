package derived

import (
	"math"
	"slices"

	"underflap/palettes"
	"underflap/pattern/draw"
)

// cluster is a colour of a photo: the mean of the samples near it.
type cluster struct {
	colour draw.Colour
	size   int64 // samples
	inner  int64 // of them, those in the midst of their like
}

// centres is how many clusters are sought at first. Those that look alike are
// merged afterwards.
const centres = 24

// bin is the samples in one cell of the cube of sRGB.
type bin struct {
	at         lab   // of their mean
	n, r, g, b int64 // how many, and their sums
	centre     int   // the nearest
}

// clusters finds the colours of a photo by k-means in CIE L*a*b*.
func clusters(s samples) []cluster {
	bins, of := binned(s)
	if len(bins) == 0 {
		return nil
	}
	settleCentres(bins, firstCentres(bins))

	var sums [centres][4]int64
	for _, b := range bins {
		t := &sums[b.centre]
		t[0], t[1], t[2], t[3] = t[0]+b.r, t[1]+b.g, t[2]+b.b, t[3]+b.n
	}
	var found []cluster
	var number [centres]int
	for k, t := range sums {
		if t[3] > 0 {
			number[k] = len(found)
			found = append(found, cluster{colour: mean(t[0], t[1], t[2], t[3]), size: t[3]})
		}
	}
	merged, to := merge(found)
	countInner(s, merged, func(c draw.Colour) int { return to[number[bins[of[cell(c)]].centre]] })
	return merged
}

// binned puts the samples into cells; of tells which bin a cell is.
func binned(s samples) (bins []bin, of []int) {
	whole := make([]bin, cells)
	for i, c := range s.colours {
		if s.show[i] {
			b := &whole[cell(c)]
			b.n, b.r, b.g, b.b = b.n+1, b.r+int64(c.R), b.g+int64(c.G), b.b+int64(c.B)
		}
	}
	of = make([]int, cells)
	for i, b := range whole {
		if b.n > 0 {
			b.at = labOf(mean(b.r, b.g, b.b, b.n))
			of[i] = len(bins)
			bins = append(bins, b)
		}
	}
	return bins, of
}

// firstCentres begins with the commonest colour and takes on, one by one, the
// colour farthest from all so far, where common ones count for more; so nothing
// is drawn by lot, and a small spot of a colour that is nowhere else has its own
// centre.
func firstCentres(bins []bin) []lab {
	first := 0
	for i, b := range bins {
		if b.n > bins[first].n {
			first = i
		}
	}
	at := []lab{bins[first].at}
	near := make([]int64, len(bins)) // squared distance to the nearest centre
	for i := range near {
		near[i] = math.MaxInt64
	}
	for len(at) < centres {
		best, most := -1, int64(0)
		for i, b := range bins {
			near[i] = min(near[i], b.at.square(at[len(at)-1]))
			if worth := root(100*b.n) * near[i]; worth > most {
				best, most = i, worth
			}
		}
		if best < 0 {
			break
		}
		at = append(at, bins[best].at)
	}
	return at
}

// settleCentres moves centres to the means of the bins nearest to them until they
// rest, and leaves each bin with its nearest.
func settleCentres(bins []bin, at []lab) {
	const mostRounds = 40
	for range mostRounds {
		moved := false
		var sums [centres][4]int64
		for i := range bins {
			b := &bins[i]
			best, least := 0, int64(math.MaxInt64)
			for k, c := range at {
				if d := b.at.square(c); d < least {
					best, least = k, d
				}
			}
			b.centre = best
			for j := range 3 {
				sums[best][j] += b.n * b.at[j]
			}
			sums[best][3] += b.n
		}
		for k := range at {
			if n := sums[k][3]; n > 0 {
				c := lab{floor(sums[k][0], n), floor(sums[k][1], n), floor(sums[k][2], n)}
				moved = moved || c != at[k]
				at[k] = c
			}
		}
		if !moved {
			return
		}
	}
}

// countInner counts the samples whose four neighbours are of their own cluster.
func countInner(s samples, list []cluster, of func(draw.Colour) int) {
	for y := 1; y < s.height-1; y++ {
		for x := 1; x < s.width-1; x++ {
			i := y*s.width + x
			if !s.show[i] {
				continue
			}
			own, inner := of(s.colours[i]), true
			for _, j := range []int{i - 1, i + 1, i - s.width, i + s.width} {
				inner = inner && s.show[j] && of(s.colours[j]) == own
			}
			if inner {
				list[own].inner++
			}
		}
	}
}

// alike is the CIEDE2000 difference under which two clusters are one colour: a
// little above what a palette asks of an ink and its ground.
const alike = palettes.LeastToGround + 1

// merge joins clusters that look alike, the most alike first. to says for each
// cluster which one it became part of.
func merge(list []cluster) (merged []cluster, to []int) {
	type sum struct {
		cluster
		r, g, b int64
		parts   []int
	}
	var sums []sum
	for i, c := range list {
		sums = append(sums, sum{c, int64(c.colour.R) * c.size, int64(c.colour.G) * c.size, int64(c.colour.B) * c.size, []int{i}})
	}
	for {
		a, b, least := -1, -1, alike
		for i := range sums {
			for j := range i {
				if d := palettes.Difference(sums[i].colour, sums[j].colour); d < least {
					a, b, least = j, i, d
				}
			}
		}
		if a < 0 {
			break
		}
		p, q := &sums[a], sums[b]
		p.r, p.g, p.b, p.size = p.r+q.r, p.g+q.g, p.b+q.b, p.size+q.size
		p.parts = append(p.parts, q.parts...)
		p.colour = mean(p.r, p.g, p.b, p.size)
		sums = slices.Delete(sums, b, b+1)
	}
	to = make([]int, len(list))
	for i, s := range sums {
		merged = append(merged, s.cluster)
		for _, k := range s.parts {
			to[k] = i
		}
	}
	return merged, to
}

// root is the whole part of a square root.
func root(n int64) int64 {
	r := int64(math.Sqrt(float64(n)))
	for r*r > n {
		r--
	}
	for (r+1)*(r+1) <= n {
		r++
	}
	return r
}

// floor divides, rounding down.
func floor(a, n int64) int64 {
	q := a / n
	if a%n < 0 {
		q--
	}
	return q
}
