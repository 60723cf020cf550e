package nest_test

import (
	"math"
	"sort"

	"pgregory.net/rapid"

	"underflap/liner/geom"
)

// grown is a random piece: like a liner it only grows with the depth, downwards.
type grown struct {
	outline func(depth float64) geom.Contour
	// everyWay: lines across it, upright and level, meet it once. Of any other
	// piece the solver fills what it cannot see from above and below where only
	// one of two is turned by 90 degrees: it is sound, but may lose depth, and
	// promises the optimum for pieces along one axis.
	everyWay bool
}

func (g grown) piece(depth float64) (cut, inside geom.Contour) {
	c := g.outline(depth)
	return c, c
}

func (g grown) mirrored() grown {
	return grown{everyWay: g.everyWay, outline: func(depth float64) geom.Contour {
		flipped := g.outline(depth).Map(func(p geom.Point) geom.Point { return geom.Point{X: -p.X, Y: p.Y} }, true)
		return flipped.Reversed()
	}}
}

// hull is the convex hull of points, anticlockwise (Andrew's monotone chain).
func hull(points []geom.Point) []geom.Point {
	sort.Slice(points, func(i, j int) bool {
		return points[i].X < points[j].X || points[i].X == points[j].X && points[i].Y < points[j].Y
	})
	half := func(points []geom.Point) []geom.Point {
		var h []geom.Point
		for _, p := range points {
			for len(h) > 1 && (h[len(h)-1].X-h[len(h)-2].X)*(p.Y-h[len(h)-2].Y)-(h[len(h)-1].Y-h[len(h)-2].Y)*(p.X-h[len(h)-2].X) <= 1e-6 {
				h = h[:len(h)-1]
			}
			h = append(h, p)
		}
		return h[:len(h)-1]
	}
	lower := half(points)
	var back []geom.Point
	for i := range points {
		back = append(back, points[len(points)-1-i])
	}
	return append(lower, half(back)...)
}

// rounded is a convex polygon grown by a disc: its edges, and arcs about its
// corners.
func rounded(corners []geom.Point, r float64) geom.Contour {
	var c geom.Contour
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		out := geom.Point{X: r * (q.Y - p.Y) / p.Distance(q), Y: -r * (q.X - p.X) / p.Distance(q)}
		edge := geom.Line(geom.Point{X: p.X + out.X, Y: p.Y + out.Y}, geom.Point{X: q.X + out.X, Y: q.Y + out.Y})
		if i > 0 && r > 0 {
			c = append(c, geom.Arc(c[len(c)-1].B, edge.A, p, false))
		}
		c = append(c, edge)
	}
	if r > 0 {
		c = append(c, geom.Arc(c[len(c)-1].B, c[0].A, corners[0], false))
	}
	return c
}

func drawConvex(t *rapid.T) grown {
	points := []geom.Point{{X: 0, Y: 0}, {X: rapid.Float64Range(10, 70).Draw(t, "foot"), Y: 0}} // so that it is no line
	for range rapid.IntRange(1, 6).Draw(t, "points") {
		points = append(points, geom.Point{X: rapid.Float64Range(0, 70).Draw(t, "x"), Y: rapid.Float64Range(0, 50).Draw(t, "y")})
	}
	r := rapid.SampledFrom([]float64{0, 0.5, 4, 12}).Draw(t, "round")
	return grown{everyWay: true, outline: func(depth float64) geom.Contour {
		all := append([]geom.Point{}, points...)
		for _, p := range points {
			all = append(all, geom.Point{X: p.X, Y: p.Y - depth})
		}
		return rounded(hull(all), r)
	}}
}

// drawOver is the region over a flat foot and under a random edge of lines,
// caps, hollows and jumps. With one summit it is seen whole from every side.
func drawOver(t *rapid.T, summit bool) grown {
	n := rapid.IntRange(1, 6).Draw(t, "pieces")
	at := geom.Point{X: rapid.Float64Range(-20, 20).Draw(t, "x"), Y: rapid.Float64Range(0, 20).Draw(t, "y")}
	top := rapid.IntRange(0, n).Draw(t, "summit")
	var edge geom.Contour
	for i := range n {
		to := geom.Point{X: at.X + rapid.Float64Range(1, 30).Draw(t, "dx"), Y: rapid.Float64Range(0, 45).Draw(t, "y")}
		if summit {
			to.Y = at.Y + rapid.Float64Range(0, 20).Draw(t, "up")
			if i >= top {
				to.Y = at.Y * rapid.Float64Range(0, 1).Draw(t, "down")
			}
		}
		edge = append(edge, drawEdge(t, at, to, summit))
		at = to
	}
	return grown{everyWay: summit, outline: func(depth float64) geom.Contour {
		left, right := edge[0].A, edge[len(edge)-1].B
		a, b := geom.Point{X: left.X, Y: -depth}, geom.Point{X: right.X, Y: -depth}
		c := append(geom.Contour{geom.Line(a, b), geom.Line(b, right)}, edge.Reversed()...)
		return append(c, geom.Line(left, a))
	}}
}

// drawEdge is a line, a cap or a hollow; with steady one that rises or falls
// all along.
func drawEdge(t *rapid.T, a, b geom.Point, steady bool) geom.Segment {
	d := a.Distance(b)
	r := d * rapid.Float64Range(0.55, 3).Draw(t, "r")
	h := math.Sqrt(r*r - d*d/4)
	over := geom.Point{X: (a.X+b.X)/2 - h*(b.Y-a.Y)/d, Y: (a.Y+b.Y)/2 + h*(b.X-a.X)/d} // of two centres the upper one
	under := geom.Point{X: a.X + b.X - over.X, Y: a.Y + b.Y - over.Y}
	low, high := a, b
	if a.Y > b.Y {
		low, high = b, a
	}
	between := func(x, p, q float64) bool { return (x-p)*(x-q) < 0 }
	switch rapid.SampledFrom([]string{"line", "cap", "hollow"}).Draw(t, "kind") {
	case "cap": // of the upper half of its circle
		if under.Y <= low.Y && !(steady && between(under.X, a.X, b.X)) {
			return geom.Arc(a, b, under, true)
		}
	case "hollow":
		if over.Y >= high.Y && !(steady && between(over.X, a.X, b.X)) {
			return geom.Arc(a, b, over, false)
		}
	}
	return geom.Line(a, b)
}

func drawGrown(t *rapid.T) grown {
	switch rapid.SampledFrom([]string{"convex", "one summit", "many summits"}).Draw(t, "piece") {
	case "convex":
		return drawConvex(t)
	case "one summit":
		return drawOver(t, true)
	}
	return drawOver(t, false)
}
