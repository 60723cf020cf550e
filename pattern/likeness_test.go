package pattern

import (
	"math"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// likeness is a drawn picture that can be asked whether a map leaves it as it is.
type likeness struct {
	raster *referee.Raster
	side   float64
}

const likenessSide = 76.2

func likenessOf(t *testing.T, d Design) likeness {
	const dpi = 150
	return likeness{referee.PNG(t, written(t, pageOf(d, likenessSide), "png", dpi), dpi), likenessSide}
}

// at is the grey at a place, the origin in the middle.
func (l likeness) at(p draw.Point) float64 { return l.raster.At(p.X+l.side/2, p.Y+l.side/2) }

// changes is how much of the ink within a circle about the middle a map moves:
// nothing to about 2, sampled so many millimetres apart. It is NaN when the map
// takes most of it off the page.
func (l likeness) changes(m draw.Matrix, radius, step float64) float64 {
	sum, ink, on, all := 0.0, 0.0, 0, 0
	for x := -radius; x <= radius; x += step {
		for y := -radius; y <= radius; y += step {
			p := draw.Point{X: x, Y: y}
			q := m.Apply(p)
			if math.Hypot(x, y) > radius {
				continue
			}
			all++
			if math.Abs(q.X) > l.side/2-1 || math.Abs(q.Y) > l.side/2-1 {
				continue
			}
			on++
			before, after := l.at(p), l.at(q)
			sum += math.Abs(before - after)
			ink += 255 - before
		}
	}
	if on < all/2 || ink == 0 {
		return math.NaN()
	}
	return sum / ink
}

// The share of the ink that a symmetry may move: what soft edges come to when
// they are sampled between pixels. What is no symmetry moves several times that.
const (
	unchanged = 0.15
	changed   = 0.4
)

// turning turns by degrees, clockwise on the page, about c.
func turning(degrees float64, c draw.Point) draw.Matrix {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	m := draw.Matrix{A: cos, B: sin, C: -sin, D: cos}
	at := m.Apply(c)
	m.E, m.F = c.X-at.X, c.Y-at.Y
	return m
}

// mirroring mirrors in the line through c along u, then slides along it.
func mirroring(c, u draw.Point, slide float64) draw.Matrix {
	far := math.Hypot(u.X, u.Y)
	x, y := u.X/far, u.Y/far
	m := draw.Matrix{A: x*x - y*y, B: 2 * x * y, C: 2 * x * y, D: y*y - x*x}
	at := m.Apply(c)
	m.E, m.F = c.X-at.X+slide*x, c.Y-at.Y+slide*y
	return m
}

// blots are the middles of the picture's separate spots of ink that do not
// reach the page's edge.
func (l likeness) blots() []draw.Point {
	r := l.raster
	seen := make([]bool, len(r.Grey))
	var middles []draw.Point
	const paper = 250
	for start := range r.Grey {
		if seen[start] || r.Grey[start] >= paper {
			continue
		}
		seen[start] = true
		stack, edge := []int{start}, false
		var x, y, ink float64
		for len(stack) > 0 {
			i := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			px, py := i%r.Width, i/r.Width
			dark := float64(255 - r.Grey[i]) // weighs a pixel, so that middles are good to a part of one
			x, y, ink = x+dark*(float64(px)+0.5), y+dark*(float64(py)+0.5), ink+dark
			for k := range 9 { // corner to corner too, or a flag's sharp tip falls off
				qx, qy := px+k%3-1, py+k/3-1
				switch j := qy*r.Width + qx; {
				case qx < 0 || qy < 0 || qx >= r.Width || qy >= r.Height:
					edge = true
				case !seen[j] && r.Grey[j] < paper:
					seen[j] = true
					stack = append(stack, j)
				}
			}
		}
		if !edge {
			mm := 25.4 / r.DPI
			middles = append(middles, draw.Point{X: x/ink*mm - l.side/2, Y: y/ink*mm - l.side/2})
		}
	}
	return middles
}
