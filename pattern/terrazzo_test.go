package pattern

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"underflap/pattern/draw"
)

// The chips against their definition: a point belongs to the chip whose middle is
// nearest, when every other middle is farther by the joint. Middles are looked
// for much farther away than the chips look.
func TestChipsAreTheNearestPoints(t *testing.T) {
	for _, gap := range []string{"gap=0.2", "gap=1.6", "gap=4"} {
		for s := range uint64(3) {
			z := settled("terrazzo", "size=10", gap).(*Terrazzo)
			z.setSeed(s)
			points := rand.New(rand.NewPCG(s, 7))
			inside, expected, unclear := 0, 0, 0
			const tried = 4000
			for range tried {
				p := draw.Point{X: 300 * (points.Float64() - 0.5), Y: 300 * (points.Float64() - 0.5)}
				column, row, least := ownerOf(z, p)
				_, _, less := z.stone(column, row)
				spare := least - (z.Gap+less)/2
				in := within(z.chip(column, row), p)
				if math.Abs(spare) < 1e-6 {
					unclear++
					continue
				}
				if in != (spare > 0) {
					t.Fatalf("%s, seed %d: %v lies %g within its chip's edge and is drawn inside: %v", gap, s, p, spare, in)
				}
				if in {
					inside++
				}
				if spare > 0 {
					expected++
				}
			}
			if inside != expected || inside < tried/10 || unclear > 5 {
				t.Errorf("%s, seed %d: %d points in chips, expected %d", gap, s, inside, expected)
			}
		}
	}
}

// No middle that the chips do not look at would cut a corner off them.
func TestFartherMiddlesCutNothing(t *testing.T) {
	z := settled("terrazzo", "size=10").(*Terrazzo)
	for s := range uint64(4) {
		z.setSeed(s)
		for row := range 30 {
			for column := range 30 {
				own := z.middle(column, row)
				_, _, z.Gap = z.stone(column, row)
				z.Gap *= -1 // no joint at all: the hardest case
				for _, p := range z.chip(column, row) {
					for y := row - 6; y <= row+6; y++ {
						for x := column - 6; x <= column+6; x++ {
							m := z.middle(x, y)
							far := math.Hypot(m.X-own.X, m.Y-own.Y)
							spare := (math.Pow(math.Hypot(p.X-m.X, p.Y-m.Y), 2) - math.Pow(math.Hypot(p.X-own.X, p.Y-own.Y), 2)) / 2 / far
							if far > 0 && spare < -1e-9 {
								t.Fatalf("seed %d: cell %d, %d cuts %g mm off a corner of %d, %d", s, x, y, -spare, column, row)
							}
						}
					}
				}
			}
		}
	}
}

// ownerOf is the cell whose middle is nearest, and how far the point is from the
// nearest line half way to another middle.
func ownerOf(z *Terrazzo, p draw.Point) (column, row int, least float64) {
	const far = 6
	cx, cy := int(math.Round(p.X/z.Size)), int(math.Floor(p.Y/z.Size))
	each := func(f func(x, y int, m draw.Point, d float64)) {
		for y := cy - far; y <= cy+far; y++ {
			for x := cx - far; x <= cx+far; x++ {
				m := z.middle(x, y)
				f(x, y, m, math.Hypot(p.X-m.X, p.Y-m.Y))
			}
		}
	}
	best := math.Inf(1)
	each(func(x, y int, _ draw.Point, d float64) {
		if d < best {
			best, column, row = d, x, y
		}
	})
	own := z.middle(column, row)
	least = math.Inf(1)
	each(func(x, y int, m draw.Point, d float64) {
		if x != column || y != row {
			least = math.Min(least, (d*d-best*best)/2/math.Hypot(m.X-own.X, m.Y-own.Y))
		}
	})
	return column, row, least
}

// within tells whether a convex polygon, clockwise on the page, holds a point.
func within(corners []draw.Point, p draw.Point) bool {
	for i, a := range corners {
		b := cycle(corners, i+1)
		if (b.X-a.X)*(p.Y-a.Y)-(b.Y-a.Y)*(p.X-a.X) < 0 {
			return false
		}
	}
	return len(corners) > 2
}

// No two chips come nearer to each other than the joint, rounded or not: what is
// drawn, control points and all, is compared corner against side.
func TestChipsKeepTheJoint(t *testing.T) {
	for _, c := range []struct{ gap, round string }{{"gap=0.5", "round=0"}, {"gap=1.6", "round=0.9"}, {"gap=3", "round=20"}} {
		z := settled("terrazzo", "size=9", "laid=1", c.gap, c.round).(*Terrazzo)
		s := draw.NewSurface()
		z.Draw(s, draw.Rect{MinX: -60, MinY: -60, MaxX: 60, MaxY: 60}, blackOnWhite)
		var chips [][]draw.Point
		for _, n := range s.Nodes() {
			chips = append(chips, n.(*draw.Fill).Path.Points)
		}
		nearest := math.Inf(1)
		for i, a := range chips {
			for _, b := range chips[:i] {
				nearest = math.Min(nearest, apart(a, b))
			}
		}
		if len(chips) < 150 || nearest < z.Gap-1e-9 || nearest > z.Gap+1 {
			t.Errorf("%s, %s: the nearest two of %d chips are %g mm apart", c.gap, c.round, len(chips), nearest)
		}
	}
}

// apart is a width that surely lies free between two convex polygons: the widest
// strip along a side of one or across the line of two corners.
func apart(a, b []draw.Point) float64 {
	widest := math.Inf(-1)
	strip := func(nx, ny float64) {
		long := math.Hypot(nx, ny)
		if long < 1e-9 {
			return
		}
		reach := func(list []draw.Point) (lo, hi float64) {
			var all []float64
			for _, p := range list {
				all = append(all, (p.X*nx+p.Y*ny)/long)
			}
			return slices.Min(all), slices.Max(all)
		}
		alo, ahi := reach(a)
		blo, bhi := reach(b)
		widest = math.Max(widest, math.Max(blo-ahi, alo-bhi))
	}
	if math.Hypot(a[0].X-b[0].X, a[0].Y-b[0].Y) > 50 { // no chip is half as wide
		return math.Inf(1)
	}
	for _, list := range [][]draw.Point{a, b} {
		for i, p := range list {
			q := cycle(list, i+1)
			strip(q.Y-p.Y, p.X-q.X)
		}
	}
	if widest < 10 {
		for _, p := range a {
			for _, q := range b {
				strip(q.X-p.X, q.Y-p.Y)
			}
		}
	}
	return widest
}
