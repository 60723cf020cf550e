package liner

import (
	"fmt"

	"underflap/liner/geom"
	"underflap/pattern/words"
)

// TracedFlap is a flap measured point by point: x from the pocket's left side
// along the fold, y its height there, from left to right.
func TracedFlap(points []geom.Point) Flap {
	f := Flap{Shape: Traced, Trace: points}
	for _, p := range points {
		f.Depth = max(f.Depth, p.Y)
	}
	return f
}

// traced is the profile through the points, brought down to the fold at both
// ends.
func traced(points []geom.Point, width float64) (geom.Profile, error) {
	if len(points) < 3 {
		return nil, &words.Refused{Field: "profile", Given: fmt.Sprint(len(points), " points"), Accepts: "three points or more"}
	}
	for _, p := range points {
		if !(p.X >= 0 && p.Y >= 0 && p.X <= words.Longest && p.Y <= words.Longest) { // nor not a number
			return nil, &words.Refused{Field: "profile", Given: fmt.Sprintf("%g, %g", p.X, p.Y), Accepts: "x and height of zero or more"}
		}
	}
	for i := 1; i < len(points); i++ {
		if points[i].X < points[i-1].X {
			return nil, &words.Refused{Field: "profile", Given: "x of " + words.MM(points[i].X),
				Why: "left of the point before, at " + words.MM(points[i-1].X), Accepts: "points from left to right"}
		}
	}
	if last := points[len(points)-1]; last.X > width+0.05 {
		return nil, &words.Refused{Field: "profile", Given: "x of " + words.MM(last.X),
			Why: fmt.Sprintf("past the pocket, which is %s wide", words.MM(width)), Accepts: "x measured from the pocket's left side along the fold"}
	}
	first, last := points[0], points[len(points)-1]
	chain := make([]geom.Point, 0, len(points)+2)
	chain = append(chain, geom.Point{X: first.X})
	chain = append(chain, points...)
	chain = append(chain, geom.Point{X: last.X})
	var p geom.Profile
	for i := 1; i < len(chain); i++ {
		if chain[i] != chain[i-1] {
			p = append(p, geom.Line(chain[i-1], chain[i]))
		}
	}
	return p, nil
}
