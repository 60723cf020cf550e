package trace

import (
	"context"
	"image"
	"math"

	"underflap/pattern/draw"
)

// Outline is the edge of the ink as smooth curves and sharp corners, to be
// filled by the non-zero rule; its origin is the corner of the coverage. When ctx ends it
// stops and gives the context's error.
func Outline(ctx context.Context, cover *image.Alpha) (draw.Path, error) {
	var path draw.Path
	for _, line := range contours(ctx, cover) {
		if ctx.Err() != nil {
			break
		}
		smooth(&path, line)
	}
	return path, ctx.Err()
}

// arm is how far from a point the directions are taken that make a corner of
// it; sharp is the least turn of a corner.
const (
	arm   = 3.5
	sharp = 50 * math.Pi / 180
)

// smooth adds a closed line to the path.
func smooth(path *draw.Path, line []draw.Point) {
	n := len(line)
	if n < 3 {
		return
	}
	at := func(i int) draw.Point { return line[((i%n)+n)%n] }
	ends := corners(line)
	rounded := len(ends) == 0
	if rounded { // in two halves, with one direction where they meet
		ends = []int{0, n / 2}
	}
	points := sharpened(line, ends, rounded)
	add := func(c curve) { path.Cubic(c[1], c[2], c[3]) }
	path.Move(points[0].X, points[0].Y)
	for k, from := range ends {
		to := ends[(k+1)%len(ends)]
		if to <= from {
			to += n
		}
		last := points[(k+1)%len(points)]
		piece := []draw.Point{points[k]}
		for i := from + 1; i < to; i++ {
			if p := at(i); rounded || distance(p, at(from)) > cut && distance(p, at(to)) > cut {
				piece = append(piece, p)
			}
		}
		piece = append(piece, last)
		start, end := leaving(piece, 1), leaving(piece, -1)
		if rounded {
			start = unit(minus(at(from+2), at(from-2)))
			end = unit(minus(at(to-2), at(to+2)))
		}
		if straight(piece) {
			path.Line(last.X, last.Y)
			continue
		}
		fit(piece, start, end, add)
	}
	path.Close()
}

// cut is how far from a corner its sharpness is lost in the coverage, whose
// pixels cut it short.
const cut = 1.25

// sharpened are the ends of the pieces: a corner goes where the straight ways
// into and out of it meet, if that is near.
func sharpened(line []draw.Point, ends []int, rounded bool) []draw.Point {
	n := len(line)
	var out []draw.Point
	for _, i := range ends {
		corner := line[i]
		way := func(step int) (near, far draw.Point) {
			near, far = corner, corner
			for k := 1; k < n && distance(far, corner) < arm; k++ {
				far = line[((i+step*k)%n+n)%n]
				if distance(near, corner) < cut {
					near = far
				}
			}
			return near, far
		}
		a0, a1 := way(-1)
		b0, b1 := way(1)
		da, db := minus(a0, a1), minus(b0, b1)
		if cross := da.X*db.Y - da.Y*db.X; !rounded && math.Abs(cross) > 1e-9 {
			gap := minus(b1, a1)
			met := plus(a1, times(da, (gap.X*db.Y-gap.Y*db.X)/cross))
			if distance(met, corner) < cut {
				corner = met
			}
		}
		out = append(out, corner)
	}
	return out
}

// straight tells whether a piece keeps to its chord.
func straight(piece []draw.Point) bool {
	first, last := piece[0], piece[len(piece)-1]
	along := unit(minus(last, first))
	for _, p := range piece {
		d := minus(p, first)
		if math.Abs(d.X*along.Y-d.Y*along.X) > tolerance {
			return false
		}
	}
	return true
}

// leaving is the direction away from a piece's first point (step 1) or its last
// (step -1), taken some way in, past the corner's own roundness.
func leaving(piece []draw.Point, step int) draw.Point {
	i := 0
	if step < 0 {
		i = len(piece) - 1
	}
	from := piece[i]
	for i += step; i > 0 && i < len(piece)-1 && distance(from, piece[i]) < arm; {
		i += step
	}
	return unit(minus(piece[i], from))
}

// corners are the points where the line turns sharply, each the sharpest within
// an arm's length.
func corners(line []draw.Point) []int {
	n := len(line)
	turns := make([]float64, n)
	for i := range line {
		turns[i] = turn(line, i)
	}
	var found []int
	for i, t := range turns {
		if t < sharp {
			continue
		}
		sharpest := true
		for _, step := range []int{1, -1} {
			for k := 1; k < n && distance(line[((i+step*k)%n+n)%n], line[i]) < arm; k++ {
				other := turns[((i+step*k)%n+n)%n]
				if other > t || other == t && step < 0 {
					sharpest = false
				}
			}
		}
		if sharpest {
			found = append(found, i)
		}
	}
	return found
}

// turn is the angle between the directions into point i and out of it.
func turn(line []draw.Point, i int) float64 {
	n := len(line)
	reach := func(step int) draw.Point {
		for k := 1; k < n; k++ {
			if p := line[((i+step*k)%n+n)%n]; distance(p, line[i]) >= arm {
				return unit(minus(p, line[i]))
			}
		}
		return draw.Point{}
	}
	back, ahead := reach(-1), reach(1)
	return math.Pi - math.Acos(min(max(dot(back, ahead), -1), 1))
}
