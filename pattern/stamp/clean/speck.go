package clean

import (
	"context"
	"image"
	"math"
	"slices"
)

// mask tells which pixels are ink.
type mask struct {
	w, h   int
	ink    []bool
	filled []bool // ink that was a hole no larger than a speck
}

func newMask(f *field, least float32) *mask {
	m := &mask{w: f.w, h: f.h, ink: make([]bool, len(f.v)), filled: make([]bool, len(f.v))}
	for i, v := range f.v {
		m.ink[i] = v >= least
	}
	return m
}

// Shares of the art's extent: the side of the largest speck of dust, a third of
// a millimetre on a stamp of 40 mm; and how far strays lie from the art.
const speckShare, strayShare = 1.0 / 120, 1.0 / 12

// despeckle removes islands of ink smaller than a speck and strays far from the
// art, and fills holes half as large as a speck: dust that lay in the ink. skirt
// is how much larger specks are for their soft edges. When ctx ends it stops.
func (m *mask) despeckle(ctx context.Context, skirt float64) {
	extent := m.extent()
	speck := max(4, int(skirt*extent*speckShare*extent*speckShare))
	m.drop(ctx, true, speck)
	m.drop(ctx, false, speck/2)
	m.dropStrays(ctx, max(4, int(extent*strayShare)))
}

// leastGroup is the least share of the largest group's ink that another group
// holds.
const leastGroup = 0.005

// dropStrays removes little groups of ink that lie apart: a hair, a crumb. Ink
// in neighbouring cells of a side belongs to one group.
func (m *mask) dropStrays(ctx context.Context, side int) {
	wide, high := (m.w+side-1)/side, (m.h+side-1)/side
	held := make([]int, wide*high)
	for at, ink := range m.ink {
		if ink {
			held[at/m.w/side*wide+at%m.w/side]++
		}
	}
	cells := &mask{w: wide, h: high, ink: make([]bool, len(held))}
	for i, n := range held {
		cells.ink[i] = n > 0
	}
	var groups [][]int
	var sizes []int
	cells.parts(ctx, true, func(part []int) {
		size := 0
		for _, i := range part {
			size += held[i]
		}
		groups, sizes = append(groups, slices.Clone(part)), append(sizes, size)
	})
	for i, group := range groups {
		if float64(sizes[i]) < leastGroup*float64(slices.Max(sizes)) {
			for _, cell := range group {
				cells.ink[cell] = false
			}
		}
	}
	for at := range m.ink {
		m.ink[at] = m.ink[at] && cells.ink[at/m.w/side*wide+at%m.w/side]
	}
}

// extent is the length of a bar whose ink would scatter as far about its middle
// as the art's does. Dust, being little, hardly counts.
func (m *mask) extent() float64 {
	var n, sx, sy, sxx, syy float64
	for at, ink := range m.ink {
		if ink {
			x, y := float64(at%m.w), float64(at/m.w)
			n++
			sx += x
			sy += y
			sxx += x * x
			syy += y * y
		}
	}
	if n == 0 {
		return 0
	}
	return math.Sqrt(12 * max(0, (sxx-sx*sx/n+syy-sy*sy/n)/n))
}

// drop turns components of ink, or of paper, of fewer than least pixels into
// the other.
func (m *mask) drop(ctx context.Context, ink bool, least int) {
	m.parts(ctx, ink, func(part []int) {
		if len(part) < least {
			for _, at := range part {
				m.ink[at] = !ink
				m.filled[at] = !ink
			}
		}
	})
}

// parts calls f with the pixels of each component of ink, or of paper. Ink
// joins at corners too, paper at sides alone. f may change the component. When ctx
// ends it stops, in the midst of a component too.
func (m *mask) parts(ctx context.Context, ink bool, f func(part []int)) {
	seen := make([]bool, len(m.ink))
	var part []int
	for start := range m.ink {
		if seen[start] || m.ink[start] != ink {
			continue
		}
		part = append(part[:0], start)
		seen[start] = true
		for i := 0; i < len(part); i++ {
			if i%4096 == 0 && ctx.Err() != nil {
				return
			}
			x, y := part[i]%m.w, part[i]/m.w
			for dy := -1; dy <= 1; dy++ {
				for dx := -1; dx <= 1; dx++ {
					nx, ny := x+dx, y+dy
					if nx < 0 || ny < 0 || nx >= m.w || ny >= m.h || !ink && dx != 0 && dy != 0 {
						continue
					}
					if next := ny*m.w + nx; !seen[next] && m.ink[next] == ink {
						seen[next] = true
						part = append(part, next)
					}
				}
			}
		}
		f(part)
	}
}

// box is the rectangle around the ink, and a pixel more where there is one. It
// fails with ErrNoInk.
func (m *mask) box() (image.Rectangle, error) {
	var r image.Rectangle
	for y := range m.h {
		for x := range m.w {
			if m.ink[y*m.w+x] {
				r = r.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	if r.Empty() {
		return r, ErrNoInk
	}
	return r.Inset(-1).Intersect(image.Rect(0, 0, m.w, m.h)), nil
}

// grown is the ink and what lies within two pixels of it: its soft edge.
func (m *mask) grown() []bool {
	out := m.ink
	for range 2 {
		from := out
		out = make([]bool, len(from))
		for at := range from {
			x := at % m.w
			out[at] = from[at] || x > 0 && from[at-1] || x < m.w-1 && from[at+1] ||
				at >= m.w && from[at-m.w] || at+m.w < len(from) && from[at+m.w]
		}
	}
	return out
}
