package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// polygon is the closed path through corners.
func polygon(corners []draw.Point) draw.Path {
	var p draw.Path
	p.Move(corners[0].X, corners[0].Y)
	for _, c := range corners[1:] {
		p.Line(c.X, c.Y)
	}
	p.Close()
	return p
}

// regular gives n corners on a circle about the origin, the first straight up.
// The left half repeats the right one's numbers, so that it mirrors it exactly.
func regular(n int, radius float64) []draw.Point {
	corners := make([]draw.Point, n)
	for i := range n/2 + 1 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		if 2*i == n || i == 0 {
			sin = 0
		}
		corners[i] = draw.Point{X: radius * sin, Y: -radius * cos}
		corners[(n-i)%n] = draw.Point{X: -radius * sin, Y: -radius * cos}
	}
	return corners
}

// framed is the polygon with all but a line along its edge taken out; 0 leaves
// it whole. Every side must be inradius away from the origin.
func framed(corners []draw.Point, inradius, line float64) draw.Path {
	p := polygon(corners)
	if line == 0 || line >= inradius {
		return p
	}
	hole := make([]draw.Point, len(corners))
	for i, c := range corners { // the other way round, or it would be filled again
		hole[len(corners)-1-i] = scaled(c, 1-line/inradius)
	}
	p.Append(polygon(hole))
	return p
}
