package png

import (
	"cmp"
	"math"
	"slices"

	"github.com/golang/freetype/raster"
	"golang.org/x/image/math/fixed"

	"underflap/pattern/draw"
)

// outlines keeps the paths of nodes as they are mapped but for the shift, which
// is all that tells most placed symbols apart.
type outlines struct {
	made   map[outlineKey]*outline
	points int // in all of them
}

type outlineKey struct {
	node       draw.Node
	a, b, c, d float64
}

// mostPoints bounds what is kept: 16 bytes each.
const mostPoints = 1 << 16

func (o *outlines) of(n draw.Node, m draw.Matrix, path func() draw.Path) *outline {
	key := outlineKey{n, m.A, m.B, m.C, m.D}
	made, ok := o.made[key]
	if !ok {
		made = flatten(path(), m)
		for _, rings := range made.parts {
			for _, r := range rings {
				o.points += len(r.points)
			}
		}
		if o.points > mostPoints {
			clear(o.made)
			o.points = 0
		}
		o.made[key] = made
	}
	return made
}

// outline is a path in pixels, its curves made straight, from wherever its
// origin comes to lie, in parts that lie beside each other: a line of text has one
// for every letter. The rasteriser looks through all edges left of one in a row,
// and so is quicker with each part alone.
type outline struct{ parts [][]ring }

type ring struct {
	points []draw.Point
	box    draw.Rect
}

// flatness is how far a straight step may leave its curve, in pixels: what the
// rasteriser rounds to. (gg takes a step a pixel, which is many times slower.)
const flatness = 1.0 / 64

// flatten maps a path by m without its shift.
func flatten(p draw.Path, m draw.Matrix) *outline {
	m.E, m.F = 0, 0
	var rings []ring
	var open []draw.Point
	end := func() {
		if len(open) > 1 {
			rings = append(rings, ring{open, draw.Path{Points: open}.Bounds()})
		}
		open = nil
	}
	p.Steps(func(v draw.Verb, points []draw.Point) {
		var q [3]draw.Point
		for i, pt := range points {
			q[i] = m.Apply(pt)
		}
		switch v {
		case draw.Move:
			end()
			open = append(open, q[0])
		case draw.Line:
			open = append(open, q[0])
		case draw.Cubic:
			open = curve(open, q[0], q[1], q[2])
		case draw.Close:
			open = append(open, open[0])
		}
	})
	end()
	slices.SortStableFunc(rings, func(a, b ring) int { return cmp.Compare(a.box.MinX, b.box.MinX) })
	o, right := &outline{}, math.Inf(-1)
	for _, r := range rings {
		if r.box.MinX > right {
			o.parts = append(o.parts, nil)
		}
		last := &o.parts[len(o.parts)-1]
		*last = append(*last, r)
		right = max(right, r.box.MaxX)
	}
	return o
}

// curve appends equal steps along a cubic, as many as flatness asks for: a chord
// leaves its curve by an eighth of the second derivative times the step squared
// at most, and that derivative is greatest at an end.
func curve(to []draw.Point, b, c, d draw.Point) []draw.Point {
	a := to[len(to)-1]
	bend := 6 * max(math.Hypot(a.X-2*b.X+c.X, a.Y-2*b.Y+c.Y), math.Hypot(b.X-2*c.X+d.X, b.Y-2*c.Y+d.Y))
	n := int(math.Ceil(math.Sqrt(bend / 8 / flatness)))
	to = slices.Grow(to, n+1)
	for i := 1; i < n; i++ {
		t := float64(i) / float64(n)
		u := 1 - t
		w0, w1, w2, w3 := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		to = append(to, draw.Point{X: w0*a.X + w1*b.X + w2*c.X + w3*d.X, Y: w0*a.Y + w1*b.Y + w2*c.Y + w3*d.Y})
	}
	return append(to, d)
}

// cover hands rings shifted by (dx, dy) to the rasteriser that gg uses, and
// reports whether there were any in the rows [0, rows). Of lines that leave those
// only what lies inside is followed, so that a tall shape costs a band no more than
// its own part.
func cover(r *raster.Rasterizer, rings []ring, dx, dy float64, rows int) (any bool) {
	low, high := -1-dy, float64(rows)+1-dy
	for _, ring := range rings {
		if ring.box.MaxY < low || ring.box.MinY > high {
			continue
		}
		any = true
		last := ring.points[len(ring.points)-1]
		pen, down := fixed.Point26_6{}, false
		for _, next := range ring.points {
			from, to := last, next
			last = next
			if max(from.Y, to.Y) < low || min(from.Y, to.Y) > high {
				down = false
				continue
			}
			a, b := fix(within(from, to, low, high), dx, dy), fix(within(to, from, low, high), dx, dy)
			if !down || a != pen {
				r.Start(a)
			}
			r.Add1(b)
			pen, down = b, true
		}
	}
	return any
}

// within is p, an end of a line that goes to q, moved along it to where y is in
// [low, high].
func within(p, q draw.Point, low, high float64) draw.Point {
	if y := min(max(p.Y, low), high); y != p.Y {
		p = draw.Point{X: p.X + (q.X-p.X)*(y-p.Y)/(q.Y-p.Y), Y: y}
	}
	return p
}

// fix rounds down to the 64ths of a pixel that the rasteriser counts in.
func fix(p draw.Point, dx, dy float64) fixed.Point26_6 {
	return fixed.Point26_6{X: fixed.Int26_6(math.Floor((p.X + dx) * 64)), Y: fixed.Int26_6(math.Floor((p.Y + dy) * 64))}
}
