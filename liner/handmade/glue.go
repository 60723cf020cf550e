package handmade

import "underflap/liner/geom"

// glueInset is how far glue keeps from the edges of both papers that it joins,
// in millimetres, so that none oozes out. Common practice, no source.
const glueInset = 2.0

// seam is where glue goes on the bottom panel, in sheet space, so that it
// sticks to a side flap once both are folded and touches neither the panel
// under them nor any of the others that come between.
func seam(bottom, under Panel, between ...Panel) []geom.Point {
	face := convex(bottom.Folded())
	glue := face.inside(face, glueInset).inside(under.Folded(), glueInset)
	for _, o := range between {
		glue = glue.outside(o.Folded(), glueInset)
	}
	return bottom.Fold.over(glue) // to where it is spread
}

// outside is the largest part of c that one straight edge of o parts from o,
// at least d away from it.
func (c convex) outside(o convex, d float64) convex {
	var best convex
	for i, p := range o {
		if q := o[(i+1)%len(o)]; p != q {
			if part := c.beyond(q, p, d); part.area() > best.area() {
				best = part
			}
		}
	}
	return best
}

// area is in square millimetres (shoelace formula), positive clockwise as seen.
func (c convex) area() float64 {
	sum := 0.0
	for i, p := range c {
		q := c[(i+1)%len(c)]
		sum += p.X*q.Y - p.Y*q.X
	}
	return sum / 2
}
