package liner

import (
	"math"

	"underflap/liner/geom"
)

// Outline is the liner's cut line at one pocket depth: closed, anticlockwise,
// in liner space.
type Outline struct {
	geom.Contour
	Depth       float64 // of the pocket part
	Left, Right float64 // the ends of the fold on the cut line
	bleedUpper  func(d float64) geom.Profile
	bleedLower  func(d float64) geom.Profile
}

// Outline is the liner cut to a pocket depth.
func (l Liner) Outline(depth float64) Outline {
	left, right := l.SideGap, l.Envelope.Width-l.SideGap
	lower := l.bottom(depth, left, right)

	c := geom.Contour(lower)
	at := func() geom.Point { return c[len(c)-1].B }
	to := func(p geom.Point) {
		if at() != p {
			c = append(c, geom.Line(at(), p))
		}
	}
	top := geom.Contour(l.upper).Reversed()
	to(top[0].A)
	c = append(c, top...)
	to(c[0].A)
	return Outline{Contour: c, Depth: depth, Left: left, Right: right,
		bleedUpper: l.upper.Dilate,
		bleedLower: func(d float64) geom.Profile { return lower.Flip().Dilate(d).Flip() },
	}
}

// bottom is the lower edge of the pocket part from left to right, its corners
// eased.
func (l Liner) bottom(depth, left, right float64) geom.Profile {
	r := l.CornerRadius
	if r == 0 {
		return geom.Profile{geom.Line(geom.Point{X: left, Y: -depth}, geom.Point{X: right, Y: -depth})}
	}
	a, b := geom.Point{X: left + r, Y: -depth}, geom.Point{X: right - r, Y: -depth}
	return geom.Profile{
		geom.Arc(geom.Point{X: left, Y: r - depth}, a, geom.Point{X: left + r, Y: r - depth}, false),
		geom.Line(a, b),
		geom.Arc(b, geom.Point{X: right, Y: r - depth}, geom.Point{X: right - r, Y: r - depth}, false),
	}
}

// Bleed is the outline grown by d on every side: where the artwork ends.
func (o Outline) Bleed(d float64) geom.Contour {
	if d == 0 {
		return o.Contour
	}
	c := geom.Contour(o.bleedLower(d))
	upper := geom.Contour(o.bleedUpper(d)).Reversed()
	c = append(c, geom.Line(c[len(c)-1].B, upper[0].A))
	c = append(c, upper...)
	return append(c, geom.Line(c[len(c)-1].B, c[0].A))
}

// Creases are where the liner is folded: what of the fold lies inside the cut
// line, left to right. Where the flap is narrower than the pocket, or a traced one
// comes down to the fold, the cut line itself runs along the fold.
func (o Outline) Creases() []geom.Segment {
	const along = 1e-9
	creases := []geom.Segment{geom.Line(geom.Point{X: o.Left}, geom.Point{X: o.Right})}
	for _, s := range o.Contour {
		if s.R != 0 || math.Abs(s.A.Y) > along || math.Abs(s.B.Y) > along {
			continue
		}
		from, to := min(s.A.X, s.B.X), max(s.A.X, s.B.X)
		var left []geom.Segment
		for _, c := range creases {
			if end := min(c.B.X, from); end > c.A.X+along {
				left = append(left, geom.Line(c.A, geom.Point{X: end}))
			}
			if start := max(c.A.X, to); start < c.B.X-along {
				left = append(left, geom.Line(geom.Point{X: start}, c.B))
			}
		}
		creases = left
	}
	return creases
}
