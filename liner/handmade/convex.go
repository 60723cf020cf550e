package handmade

import "underflap/liner/geom"

// convex is a convex polygon in sheet space that runs clockwise as seen.
type convex []geom.Point

// side is how far p lies to the right of the line from a to b, as seen, in
// millimetres: inside of a clockwise polygon's edge it is positive.
func side(a, b, p geom.Point) float64 {
	return ((b.X-a.X)*(p.Y-a.Y) - (b.Y-a.Y)*(p.X-a.X)) / a.Distance(b)
}

// beyond is the part of c at least d to the right of the line from a to b.
func (c convex) beyond(a, b geom.Point, d float64) convex {
	var out convex
	for i, p := range c {
		q := c[(i+1)%len(c)]
		sp, sq := side(a, b, p)-d, side(a, b, q)-d
		if sp >= 0 {
			out = append(out, p)
		}
		if sp*sq < 0 {
			k := sp / (sp - sq)
			out = append(out, geom.Point{X: p.X + (q.X-p.X)*k, Y: p.Y + (q.Y-p.Y)*k})
		}
	}
	return out
}

// inside is the part of c at least d inside every edge of o.
func (c convex) inside(o convex, d float64) convex {
	for i, p := range o {
		if q := o[(i+1)%len(o)]; p != q {
			c = c.beyond(p, q, d)
		}
	}
	return c
}

// over turns points over about the fold. They come out in the other order, so
// that what ran clockwise does so again.
func (f Fold) over(points []geom.Point) []geom.Point {
	out := make([]geom.Point, len(points))
	for i, p := range points {
		out[len(points)-1-i] = f.mirrored(p)
	}
	return out
}

// mirrored is p on the other side of the fold.
func (f Fold) mirrored(p geom.Point) geom.Point {
	length := f.A.Distance(f.B)
	nx, ny := -(f.B.Y-f.A.Y)/length, (f.B.X-f.A.X)/length
	d := 2 * side(f.A, f.B, p)
	return geom.Point{X: p.X - d*nx, Y: p.Y - d*ny}
}
