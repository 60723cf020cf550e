package pattern

import (
	"context"
	"math"
	"math/rand/v2"

	"underflap/pattern/draw"
	"underflap/pattern/draw/recall"
)

// Toss scatters motifs by Poisson discs: no two middles nearer than a distance,
// and hardly room for another. Bridson, "Fast Poisson Disk Sampling in Arbitrary
// Dimensions", SIGGRAPH 2007; here on a square whose sides meet, so that it
// tiles the plane with no seam.

// tossSide is the tile's side in least distances: too far apart for the eye to
// find the repeat.
const tossSide = 48

// tossed is how many motifs a square of a least distance holds, about: what
// the scattering below comes to.
const tossed = 0.62

// The products below are rounded by themselves, so that no machine fuses them
// with the sum and comes to another toss.

// tossTries is after how many misses a motif is left: Bridson's figure.
const tossTries = 30

// scattered is one motif in a tile of side tossSide.
type scattered struct{ x, y, turn float64 }

// tosses are the latest by their seeds: the same tile serves every size.
var tosses = recall.New[uint64, []scattered](64)

// apart is the least distance of two middles.
func (r *Recurrence) apart(reach float64) float64 {
	return (2*reach + r.Spacing) / math.Sqrt(r.Density)
}

// scatter gives the places of a toss. A place's row counts the motifs, so that
// inks follow one another at random.
func (r *Recurrence) scatter(area draw.Rect, reach float64, f func(Place)) {
	d := r.apart(reach)
	motifs := toss(r.seed)
	side := d * tossSide
	for row := int(math.Floor(area.MinY / side)); row <= int(math.Floor(area.MaxY/side)); row++ {
		for column := int(math.Floor(area.MinX / side)); column <= int(math.Floor(area.MaxX/side)); column++ {
			for i, m := range motifs {
				x, y := m.x*d+float64(column)*side, m.y*d+float64(row)*side
				f(Place{Row: i, At: draw.Translate(x, y).After(draw.Turn(m.turn))})
			}
		}
	}
}

func toss(seed uint64) []scattered {
	made, _ := tosses.Of(context.Background(), seed, func() ([]scattered, int64, error) { return newToss(seed), 1, nil }) // milliseconds, and cannot fail
	return made
}

// newToss fills a tile.
func newToss(seed uint64) []scattered {
	const fine = 2 // grid cells a least distance, so that each holds one motif at most: 1/2 < 1/sqrt 2
	const cells = tossSide * fine
	chance := rand.New(rand.NewPCG(seed, 0x746f7373))
	grid := make([]int, cells*cells) // 1 + index of the motif in a cell
	var all []scattered
	cell := func(v float64) int { return int(v*fine) % cells }
	wrap := func(v float64) float64 { return v - tossSide*math.Floor(v/tossSide) }
	free := func(x, y float64) bool {
		cx, cy := cell(x), cell(y)
		for dy := -fine; dy <= fine; dy++ {
			for dx := -fine; dx <= fine; dx++ {
				i := grid[(cy+dy+cells)%cells*cells+(cx+dx+cells)%cells]
				if i == 0 {
					continue
				}
				ox, oy := math.Abs(all[i-1].x-x), math.Abs(all[i-1].y-y)
				ox, oy = math.Min(ox, tossSide-ox), math.Min(oy, tossSide-oy)
				if float64(ox*ox)+float64(oy*oy) < 1 {
					return false
				}
			}
		}
		return true
	}
	add := func(x, y float64) {
		all = append(all, scattered{x, y, math.Floor(360 * chance.Float64())})
		grid[cell(y)*cells+cell(x)] = len(all)
	}
	add(tossSide*chance.Float64(), tossSide*chance.Float64())
	active := []int{0}
	for len(active) > 0 {
		k := chance.IntN(len(active))
		from, placed := all[active[k]], false
		for range tossTries {
			angle, far := 2*math.Pi*chance.Float64(), math.Sqrt(1+3*chance.Float64()) // even over the ring from 1 to 2
			sin, cos := math.Sincos(angle)
			x, y := wrap(from.x+float64(far*cos)), wrap(from.y+float64(far*sin))
			if free(x, y) {
				add(x, y)
				active = append(active, len(all)-1)
				placed = true
				break
			}
		}
		if !placed {
			active[k] = active[len(active)-1]
			active = active[:len(active)-1]
		}
	}
	return all
}
