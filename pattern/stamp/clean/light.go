package clean

import (
	"context"
	"image"
	"math"
)

// paperLevel is what paper is levelled to; the room above it holds its noise.
const paperLevel = 240

// levelled divides a picture by the light that falls on its paper, channel by
// channel. The paper is found as in Gatos, Pratikakis and Perantonis, Adaptive
// degraded document image binarization, Pattern Recognition 39, 2006: a rough
// parting of ink and paper, then a surface through the paper alone, carried on
// under the ink. Light falls off slowly, so the rough surface is one of second
// degree; the fine one follows the paper from cell to cell. When ctx ends it stops.
func levelled(ctx context.Context, img *image.NRGBA) *image.NRGBA {
	b := img.Rect
	w, h := b.Dx(), b.Dy()
	rough := roughLight(ctx, img)
	parting := paperParting(ctx, img, rough)

	var paper [3]*grid
	for c := range paper {
		paper[c] = newGrid(w, h)
		copy(paper[c].v, rough.v)
	}
	sums := [3][]float64{}
	weight := make([]float64, len(rough.v))
	for c := range sums {
		sums[c] = make([]float64, len(rough.v))
	}
	lit := make([]float64, w)
	var whole [3]float64 // the paper's tint, for the cells with no paper near
	seen := 0.0
	for y := range h {
		if ctx.Err() != nil {
			break
		}
		rough.row(y, lit)
		for x := range w {
			p := img.Pix[img.PixOffset(x+b.Min.X, y+b.Min.Y):]
			if luminance(p) < parting*lit[x] {
				continue
			}
			at := rough.of(x, y)
			weight[at]++
			seen += lit[x]
			for c := range sums {
				sums[c][at] += float64(p[c])
				whole[c] += float64(p[c])
			}
		}
	}
	for c := range paper {
		for at := range paper[c].v {
			paper[c].v[at] *= whole[c] / max(seen, 1)
		}
		paper[c].spread(sums[c], weight)
	}
	return divided(ctx, img, paper)
}

func divided(ctx context.Context, img *image.NRGBA, paper [3]*grid) *image.NRGBA {
	b := img.Rect
	out := image.NewNRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	lit := make([]float64, b.Dx())
	for y := range b.Dy() {
		if ctx.Err() != nil {
			break
		}
		for c := range paper {
			paper[c].row(y, lit)
			for x := range lit {
				v := float64(img.Pix[img.PixOffset(x+b.Min.X, y+b.Min.Y)+c]) / max(lit[x], 1) * paperLevel
				out.Pix[y*out.Stride+4*x+c] = uint8(math.Round(min(v, 255)))
			}
		}
		for x := range lit {
			out.Pix[y*out.Stride+4*x+3] = 255
		}
	}
	return out
}

// luminance is Rec. 601 luma of a pixel, 0 to 255.
func luminance(p []uint8) float64 {
	return (299*float64(p[0]) + 587*float64(p[1]) + 114*float64(p[2])) / 1000
}

// roughLight fits a surface of second degree to the lighter part of each cell,
// again and again without the cells that are darker than it: those hold ink.
func roughLight(ctx context.Context, img *image.NRGBA) *grid {
	b := img.Rect
	g := newGrid(b.Dx(), b.Dy())
	for cy := range g.h {
		if ctx.Err() != nil {
			break
		}
		for cx := range g.w {
			g.v[cy*g.w+cx] = lighter(img, image.Rect(cx*g.cell, cy*g.cell, (cx+1)*g.cell, (cy+1)*g.cell).Add(b.Min).Intersect(b))
		}
	}
	keep := make([]bool, len(g.v))
	for i := range keep {
		keep[i] = true
	}
	var surface []float64
	for range 12 {
		next := fitted(g, keep)
		if next == nil {
			break
		}
		surface = next
		for i, v := range g.v {
			keep[i] = v > 0.93*surface[i]
		}
	}
	lightest := 0.0
	for _, v := range g.v {
		lightest = max(lightest, v)
	}
	shadowed := g.closed(cells / 6)
	for i := range g.v {
		g.v[i] = min(max(surface[i], lightest/5, 1), 255)
		if least := darkestShadow * g.v[i]; shadowed[i] < g.v[i] && shadowed[i] > least {
			g.v[i] = shadowed[i]
		}
	}
	return g
}

// darkestShadow is the share of the light that a shadow leaves; what is darker
// is ink. A shadow is wider than a third of the picture, or it is ink too.
const darkestShadow = 0.5

// lighter is the luminance that a quarter of a cell's pixels exceed.
func lighter(img *image.NRGBA, cell image.Rectangle) float64 {
	var counts [256]int
	for y := cell.Min.Y; y < cell.Max.Y; y++ {
		for x := cell.Min.X; x < cell.Max.X; x++ {
			counts[int(luminance(img.Pix[img.PixOffset(x, y):]))]++
		}
	}
	above := 0
	for v := 255; v > 0; v-- {
		if above += counts[v]; 4*above >= cell.Dx()*cell.Dy() {
			return float64(v)
		}
	}
	return 0
}

// fitted is the surface of second degree nearest to the kept cells, by least
// squares; nil when they do not settle one.
func fitted(g *grid, keep []bool) []float64 {
	const n = 6
	terms := func(at int) [n]float64 {
		x, y := float64(2*(at%g.w))/float64(g.w)-1, float64(2*(at/g.w))/float64(g.h)-1
		return [n]float64{1, x, y, x * x, x * y, y * y}
	}
	var m [n][n + 1]float64
	for at, v := range g.v {
		if !keep[at] {
			continue
		}
		t := terms(at)
		for i := range n {
			for j := range n {
				m[i][j] += t[i] * t[j]
			}
			m[i][n] += t[i] * v
		}
	}
	for i := range n { // a little towards flat: few cells must not bend it wildly
		if i > 0 {
			m[i][i] += 1e-3 * m[0][0]
		}
	}
	for i := range n { // Gauss and Jordan; the matrix is positive definite
		if m[i][i] < 1e-9 {
			return nil
		}
		for j := range n {
			if j == i {
				continue
			}
			f := m[j][i] / m[i][i]
			for k := i; k <= n; k++ {
				m[j][k] -= f * m[i][k]
			}
		}
	}
	out := make([]float64, len(g.v))
	for at := range out {
		for i, t := range terms(at) {
			out[at] += t * m[i][n] / m[i][i]
		}
	}
	return out
}

// paperParting is the share of the rough light above which a pixel is paper:
// half way from Otsu's threshold to the paper.
func paperParting(ctx context.Context, img *image.NRGBA, rough *grid) float64 {
	b := img.Rect
	dark := newField(b.Dx(), b.Dy())
	lit := make([]float64, b.Dx())
	for y := range b.Dy() {
		if ctx.Err() != nil {
			break
		}
		rough.row(y, lit)
		for x := range lit {
			dark.v[y*dark.w+x] = float32(1 - luminance(img.Pix[img.PixOffset(x+b.Min.X, y+b.Min.Y):])/max(lit[x], 1))
		}
	}
	return 1 - otsu(histogram(dark))/2
}

// inkAmounts turns densities into amounts of ink: 1 is ink as dense as it is
// nearby, so that a pale or patchy print keeps its edges half way up.
func inkAmounts(ctx context.Context, f *field, full float64) {
	g := newGrid(f.w, f.h)
	for i := range g.v {
		g.v[i] = full
	}
	sum, weight := make([]float64, len(g.v)), make([]float64, len(g.v))
	least := float32(full / 2)
	for y := 1; y < f.h-1 && ctx.Err() == nil; y++ {
		for x := 1; x < f.w-1; x++ {
			at := y*f.w + x
			v := f.v[at]
			if v < least || f.v[at-1] < least || f.v[at+1] < least || f.v[at-f.w] < least || f.v[at+f.w] < least {
				continue // an edge, where ink and paper mix
			}
			sum[g.of(x, y)] += float64(v)
			weight[g.of(x, y)]++
		}
	}
	g.spread(sum, weight)
	near := make([]float64, f.w)
	for y := range f.h {
		g.row(y, near)
		for x := range near {
			f.v[y*f.w+x] /= float32(near[x])
		}
	}
}
