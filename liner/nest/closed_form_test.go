package nest_test

import (
	"math"
	"testing"

	"underflap/liner/geom"
	"underflap/liner/nest"
)

func polygon(points ...[2]float64) geom.Contour {
	var c geom.Contour
	for i, p := range points {
		q := points[(i+1)%len(points)]
		c = append(c, geom.Line(geom.Point{X: p[0], Y: p[1]}, geom.Point{X: q[0], Y: q[1]}))
	}
	return c
}

// fixed is a piece that has one shape at every depth.
func fixed(c geom.Contour) nest.Piece {
	return func(float64) (geom.Contour, geom.Contour) { return c, c }
}

// Two equal right triangles fill the rectangle of their legs, and nothing
// smaller takes them (school geometry: the diagonal halves a rectangle).
func TestTwoRightTrianglesFillTheirRectangle(t *testing.T) {
	for _, legs := range [][2]float64{{60, 40}, {30, 90}, {50, 50}} {
		a, b := legs[0], legs[1]
		triangle := fixed(polygon([2]float64{0, 0}, [2]float64{a, 0}, [2]float64{0, b}))
		if _, _, ok := (nest.Room{Width: a, Height: b}).Deepest(triangle, 0, 1, 1); !ok {
			t.Errorf("two triangles of %v do not fit %v x %v", legs, a, b)
		}
		for _, room := range []nest.Room{{Width: a - 0.001, Height: b}, {Width: a, Height: b - 0.001}} {
			if _, at, ok := room.Deepest(triangle, 0, 1, 1); ok {
				t.Errorf("two triangles of %v fit %v: %v", legs, room, at)
			}
		}
	}
}

// Two equal trapezoids head to tail fill a parallelogram of (a+b) by h; in an
// upright rectangle the slants of both ends stand out, so with a foot of a, a
// head of b and slants of s = (a-b)/2 each the width is a + b + s.
func TestTwoTrapezoidsLieHeadToTail(t *testing.T) {
	const a, b, h = 80.0, 40.0, 50.0
	s := (a - b) / 2
	trapezoid := fixed(polygon([2]float64{0, 0}, [2]float64{a, 0}, [2]float64{a - s, h}, [2]float64{s, h}))
	if _, _, ok := (nest.Room{Width: a + b + s, Height: h}).Deepest(trapezoid, 0, 1, 1); !ok {
		t.Errorf("two trapezoids do not fit %v x %v", a+b+s, h)
	}
	if _, at, ok := (nest.Room{Width: a + b + s - 0.001, Height: h}).Deepest(trapezoid, 0, 1, 1); ok {
		t.Errorf("two trapezoids fit less than %v: %v", a+b+s, at)
	}
	// with a gap g the slants part by g square to them: along the row that is
	// g·√(h²+s²)/h
	const g = 3.0
	wide := a + b + s + g*math.Hypot(h, s)/h
	if _, _, ok := (nest.Room{Width: wide + 1e-6, Height: h}).Deepest(trapezoid, g, 1, 1); !ok {
		t.Errorf("two trapezoids %v apart do not fit %v x %v", g, wide, h)
	}
	if _, at, ok := (nest.Room{Width: wide - 0.001, Height: h}).Deepest(trapezoid, g, 1, 1); ok {
		t.Errorf("two trapezoids %v apart fit less than %v: %v", g, wide, at)
	}
}

// Two discs of radius r in a square of side w lie on its diagonal, their middles
// √2 (w-2r) apart: they fit when that is 2r + g (circle packing, n = 2).
func TestTwoDiscsLieOnTheDiagonal(t *testing.T) {
	const r, g = 20.0, 5.0
	var disc geom.Contour
	for k := range 4 {
		at := func(q int) geom.Point {
			sin, cos := math.Sincos(float64(q) * math.Pi / 2)
			return geom.Point{X: r * cos, Y: r * sin}
		}
		disc = append(disc, geom.Arc(at(k), at(k+1), geom.Point{}, false))
	}
	side := 2*r + (2*r+g)/math.Sqrt2
	if _, _, ok := (nest.Room{Width: side + 1e-6, Height: side + 1e-6}).Deepest(fixed(disc), g, 1, 1); !ok {
		t.Errorf("two discs do not fit a square of %v", side)
	}
	if _, at, ok := (nest.Room{Width: side - 1e-3, Height: side - 1e-3}).Deepest(fixed(disc), g, 1, 1); ok {
		t.Errorf("two discs fit less than a square of %v: %v", side, at)
	}
}
