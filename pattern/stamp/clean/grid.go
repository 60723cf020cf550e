package clean

import "math"

// grid is something that changes slowly over a picture, known at the middles of
// square cells.
type grid struct {
	cell, w, h int // pixels of a cell's side; cells
	v          []float64
}

// cells is about how many cells lie along a picture's longer side.
const cells = 96

func newGrid(w, h int) *grid {
	cell := max(4, (max(w, h)+cells-1)/cells)
	g := &grid{cell: cell, w: (w + cell - 1) / cell, h: (h + cell - 1) / cell}
	g.v = make([]float64, g.w*g.h)
	return g
}

// of is the cell of a pixel.
func (g *grid) of(x, y int) int { return y/g.cell*g.w + x/g.cell }

// row gives the values along a row of pixels, straight between cell middles.
func (g *grid) row(y int, into []float64) {
	y0, y1, ty := g.between(y, g.h)
	for x := range into {
		x0, x1, tx := g.between(x, g.w)
		top := g.v[y0*g.w+x0]*(1-tx) + g.v[y0*g.w+x1]*tx
		bottom := g.v[y1*g.w+x0]*(1-tx) + g.v[y1*g.w+x1]*tx
		into[x] = top*(1-ty) + bottom*ty
	}
}

func (g *grid) between(at, n int) (i, j int, t float64) {
	p := (float64(at)+0.5)/float64(g.cell) - 0.5
	p = min(max(p, 0), float64(n-1))
	i = int(p)
	return i, min(i+1, n-1), p - float64(i)
}

// spread fills a grid from sums and weights of what was seen in each cell: each
// cell takes the mean around it, weighed by a bell three cells wide, and where
// little was seen the value it has so far (normalised convolution: Knutsson and
// Westin, CVPR 1993).
func (g *grid) spread(sum, weight []float64) {
	const deviation, reach = 1.5, 5
	prior := 0.02 * float64(g.cell*g.cell)
	var bell [reach + 1]float64
	for i := range bell {
		bell[i] = math.Exp(-float64(i*i) / 2 / deviation / deviation)
	}
	blur := func(from []float64) []float64 {
		across, out := make([]float64, len(from)), make([]float64, len(from))
		for at := range from {
			x, y := at%g.w, at/g.w
			for d := max(-reach, -x); d <= min(reach, g.w-1-x); d++ {
				across[y*g.w+x] += bell[max(d, -d)] * from[at+d]
			}
		}
		for at := range from {
			y := at / g.w
			for d := max(-reach, -y); d <= min(reach, g.h-1-y); d++ {
				out[at] += bell[max(d, -d)] * across[at+d*g.w]
			}
		}
		return out
	}
	sum, weight = blur(sum), blur(weight)
	for at := range g.v {
		g.v[at] = (sum[at] + prior*g.v[at]) / (weight[at] + prior)
	}
}

// closed is the grid without dark spots narrower than 2 reach + 1 cells, edges
// kept where they are: the greatest value around each cell, then the least of
// those (closing, of mathematical morphology).
func (g *grid) closed(reach int) []float64 {
	pass := func(v []float64, pick func(a, b float64) float64) []float64 {
		across, out := make([]float64, len(v)), make([]float64, len(v))
		for at := range v {
			x, y := at%g.w, at/g.w
			across[at] = v[at]
			for nx := max(0, x-reach); nx <= min(g.w-1, x+reach); nx++ {
				across[at] = pick(across[at], v[y*g.w+nx])
			}
		}
		for at := range v {
			x, y := at%g.w, at/g.w
			out[at] = across[at]
			for ny := max(0, y-reach); ny <= min(g.h-1, y+reach); ny++ {
				out[at] = pick(out[at], across[ny*g.w+x])
			}
		}
		return out
	}
	most := pass(g.v, func(a, b float64) float64 { return max(a, b) })
	return pass(most, func(a, b float64) float64 { return min(a, b) })
}
