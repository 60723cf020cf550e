package nest_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner/geom"
	"underflap/liner/nest"
)

// unsoundMix says what is wrong with a placement of different pieces, as chords
// see it: the school formulas of brute_test.go, which know no profiles.
func unsoundMix(room nest.Room, cuts []geom.Contour, of []int, at []nest.Placed, gap float64) error {
	const within = 0.0005 // chords of arcs; two outlines together are off by twice that
	var chains [][]geom.Point
	for i, p := range at {
		c := turned(cuts[of[i]].Flatten(within), p.Turn, p.X, p.Y)
		if b := bounds(c); b.MinX < -1e-6 || b.MinY < -1e-6 || b.MaxX > room.Width+1e-6 || b.MaxY > room.Height+1e-6 {
			return fmt.Errorf("piece %d of %v in %v leaves the room %v", i, at, b, room)
		}
		for j, other := range chains {
			if !parted(c, other, gap-2*within-1e-6) {
				return fmt.Errorf("pieces %d and %d of %v are %v apart, want %v", j, i, at, apart(c, other), gap)
			}
		}
		chains = append(chains, c)
	}
	return nil
}

// searchMix looks for any placement of two different outlines at all turns, as
// bruteFits does of two equal ones: one in the lower left corner, as a half turn,
// and exchanging them, bring it there or to the lower right, the other slid along
// the upper and the right edge.
func searchMix(room nest.Room, a, b geom.Contour, gap, step float64, sideways bool) bool {
	for _, pair := range [][2]geom.Contour{{a, b}, {b, a}} {
		for _, first := range nest.Turns {
			p := turned(pair[0].Flatten(0.05), first, 0, 0)
			pb := bounds(p)
			if pb.Width() > room.Width || pb.Height() > room.Height {
				continue
			}
			for _, second := range nest.Turns {
				if !sideways && first%180 != second%180 {
					continue
				}
				q := turned(pair[1].Flatten(0.05), second, 0, 0)
				qb := bounds(q)
				spareX, spareY := room.Width-qb.Width(), room.Height-qb.Height()
				if spareX < 0 || spareY < 0 {
					continue
				}
				for _, x := range []float64{0, room.Width - pb.Width()} {
					corner := turned(p, 0, x-pb.MinX, -pb.MinY)
					for s := 0.0; s <= spareX; s += step {
						if apart(corner, turned(q, 0, s-qb.MinX, spareY-qb.MinY)) >= gap {
							return true
						}
					}
					for s := 0.0; s <= spareY; s += step {
						for _, side := range []float64{0, spareX} {
							if apart(corner, turned(q, 0, side-qb.MinX, s-qb.MinY)) >= gap {
								return true
							}
						}
					}
				}
			}
		}
	}
	return false
}

// Two different pieces of any shape: every way is sound, and where a dense search
// finds a place the solver does.
func TestTwoDifferentPiecesOfAnyShapeFitWhereASearchFitsThem(t *testing.T) {
	fit, not := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		g, h := drawGrown(t), drawGrown(t)
		cuts := []geom.Contour{g.outline(rapid.Float64Range(5, 60).Draw(t, "depth")), h.outline(rapid.Float64Range(5, 60).Draw(t, "depth"))}
		room := nest.Room{Width: rapid.Float64Range(40, 150).Draw(t, "width"), Height: rapid.Float64Range(40, 150).Draw(t, "height")}
		gap := rapid.SampledFrom([]float64{0, 0.5, 3, 8}).Draw(t, "gap")
		m := nest.NewMix(gap, cuts...)
		for _, of := range [][]int{{0, 1}, {1, 0}} {
			ways := room.Two(m, of[0], of[1])
			if (len(ways) > 0) != room.TwoFit(m, of[0], of[1]) {
				t.Fatalf("%d ways, and fit says %v", len(ways), len(ways) == 0)
			}
			for _, at := range ways {
				if err := unsoundMix(room, cuts, of, at[:], gap); err != nil {
					t.Fatal(err)
				}
			}
		}
		a, b := len(room.Two(m, 0, 1)) > 0, len(room.Two(m, 1, 0)) > 0
		if a != b {
			t.Fatalf("a and b fit: %v, b and a: %v", a, b)
		}
		if a {
			fit++
			return
		}
		not++
		if searchMix(room, cuts[0], cuts[1], gap+0.11, 0.7, g.everyWay && h.everyWay) { // chords lie 0.05 from arcs
			t.Fatal("a search fits two, the solver does not")
		}
	})
	t.Logf("%d fit, %d do not", fit, not)
	if fit < 15 || not < 15 {
		t.Errorf("%d fit, %d do not: the property was hardly tried", fit, not)
	}
}

// Two equal pieces as a mix fit just where the solver of equal pairs has them,
// over the size table.
func TestAMixOfTwoEqualPiecesIsThePair(t *testing.T) {
	room := nest.Room{Width: 200, Height: 287}
	for _, name := range []string{"c6", "dl", "c7", "a7", "130 mm square"} {
		l := lining(t, name, "")
		depth, _, ok := room.Deepest(pieceOf(l), 4, l.LeastPocketDepth(), l.FullPocketDepth())
		if !ok {
			continue
		}
		if !room.TwoFit(nest.NewMix(4, l.Outline(depth).Contour), 0, 0) {
			t.Errorf("%s: two of depth %v fit as a pair, not as a mix", name, depth)
		}
		if depth < l.FullPocketDepth()-0.1 && room.TwoFit(nest.NewMix(4, l.Outline(depth+0.02).Contour), 0, 0) {
			t.Errorf("%s: two of depth %v fit as a mix", name, depth+0.02)
		}
	}
}

func box(w, h float64) geom.Contour {
	return polygon([2]float64{0, 0}, [2]float64{w, 0}, [2]float64{w, h}, [2]float64{0, h})
}

// Two rectangles a by b and c by d, g apart, lie beside each other: the room
// takes them when for some quarter turns the widths and the gap go into its one
// side and the greater height into the other (closed form: two boxes that do not
// overlap are parted by a level or an upright line).
func TestTwoRectanglesFitByTheirSides(t *testing.T) {
	closed := func(r nest.Room, a, b, c, d, g float64) bool {
		for _, p := range [][2]float64{{a, b}, {b, a}} {
			for _, q := range [][2]float64{{c, d}, {d, c}} {
				wide := p[0]+g+q[0] <= r.Width && max(p[1], q[1]) <= r.Height
				high := p[1]+g+q[1] <= r.Height && max(p[0], q[0]) <= r.Width
				if wide || high {
					return true
				}
			}
		}
		return false
	}
	said := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string) float64 { return float64(rapid.IntRange(10, 100).Draw(t, name)) }
		r, g := nest.Room{Width: side("W"), Height: side("H")}, float64(rapid.IntRange(0, 6).Draw(t, "gap"))
		a, b, c, d := side("a"), side("b"), side("c"), side("d")
		want := closed(r, a, b, c, d, g)
		said[want]++
		if got := r.TwoFit(nest.NewMix(g, box(a, b), box(c, d)), 0, 1); got != want {
			t.Fatalf("%v x %v and %v x %v, %v apart, in %v: %v, want %v", a, b, c, d, g, r, got, want)
		}
	})
	if said[true] < 8 || said[false] < 8 {
		t.Errorf("%v: the closed form was hardly tried", said)
	}
}

// guillotine parts a room into boxes by cuts from edge to edge, each as wide as
// the gap.
func guillotine(t *rapid.T, w, h, gap float64, n int) []geom.Contour {
	if n == 1 {
		return []geom.Contour{box(w, h)}
	}
	k := rapid.IntRange(1, n-1).Draw(t, "of")
	share := rapid.Float64Range(0.3, 0.7).Draw(t, "share")
	if w > h {
		a := (w - gap) * share
		return append(guillotine(t, a, h, gap, k), guillotine(t, w-gap-a, h, gap, n-k)...)
	}
	a := (h - gap) * share
	return append(guillotine(t, w, a, gap, k), guillotine(t, w, h-gap-a, gap, n-k)...)
}

// Three boxes that a room was cut into by a guillotine go back into it: nothing is
// to spare.
func TestThreeRectanglesOfAGuillotineFillTheirRoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := nest.Room{Width: rapid.Float64Range(80, 300).Draw(t, "width"), Height: rapid.Float64Range(80, 300).Draw(t, "height")}
		gap := rapid.SampledFrom([]float64{0, 4}).Draw(t, "gap")
		cuts := guillotine(t, r.Width, r.Height, gap, 3)
		m, of, tries := nest.NewMix(gap, cuts...), []int{0, 1, 2}, 4000
		at, ok := r.Lay(context.Background(), m, of, &tries)
		if !ok {
			t.Fatalf("three boxes do not go back into %v", r)
		}
		if err := unsoundMix(r, cuts, of, at, gap); err != nil {
			t.Fatal(err)
		}
	})
}

// Of four to six such boxes with a little room to spare most go back.
func TestMoreRectanglesMostlyGoBack(t *testing.T) {
	back, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := nest.Room{Width: rapid.Float64Range(180, 300).Draw(t, "width"), Height: rapid.Float64Range(180, 300).Draw(t, "height")}
		n := rapid.IntRange(4, 6).Draw(t, "n")
		cuts := guillotine(t, r.Width*0.97, r.Height*0.97, 4, n)
		var of []int
		for i := range cuts {
			of = append(of, i)
		}
		tries := 2000
		at, ok := r.Lay(context.Background(), nest.NewMix(4, cuts...), of, &tries)
		all++
		if !ok {
			return
		}
		back++
		if err := unsoundMix(r, cuts, of, at, 4); err != nil {
			t.Fatal(err)
		}
	})
	t.Logf("%d of %d", back, all)
	if back < all*6/10 {
		t.Errorf("only %d of %d went back", back, all)
	}
}

// What fills a room of any shapes is sound, and more is never laid where the sum of the
// areas is past the room's.
func TestFillingsOfAnyShapesAreSound(t *testing.T) {
	laid := 0
	rapid.Check(t, func(t *rapid.T) {
		var cuts []geom.Contour
		for range rapid.IntRange(1, 3).Draw(t, "kinds") {
			cuts = append(cuts, drawGrown(t).outline(rapid.Float64Range(5, 40).Draw(t, "depth")))
		}
		var of []int
		area := 0.0
		for range rapid.IntRange(3, 8).Draw(t, "pieces") {
			of = append(of, rapid.IntRange(0, len(cuts)-1).Draw(t, "kind"))
			area += cuts[of[len(of)-1]].Area()
		}
		room := nest.Room{Width: rapid.Float64Range(60, 250).Draw(t, "width"), Height: rapid.Float64Range(60, 250).Draw(t, "height")}
		gap := rapid.SampledFrom([]float64{0, 0.5, 3, 8}).Draw(t, "gap")
		if rapid.Bool().Draw(t, "just as high") { // as two over each other, but for rounding
			room.Height = cuts[of[0]].Bounds().Height() + gap + cuts[of[1]].Bounds().Height()
		}
		tries := 300
		at, ok := room.Lay(context.Background(), nest.NewMix(gap, cuts...), of, &tries)
		if !ok {
			return
		}
		laid++
		if err := unsoundMix(room, cuts, of, at, gap); err != nil {
			t.Fatal(err)
		}
		if area > room.Width*room.Height {
			t.Fatalf("%v of area in %v", area, room)
		}
		again := 300
		other, _ := room.Lay(context.Background(), nest.NewMix(gap, cuts...), of, &again)
		if fmt.Sprint(at) != fmt.Sprint(other) || again != tries {
			t.Fatalf("asked again, %v is %v", at, other)
		}
	})
	if laid < 15 {
		t.Errorf("only %d fillings", laid)
	}
}

// Discs: a small one goes into the corner that a large one leaves, where their
// middles are R + r + g apart: the square has the side (R+r)(1+1/√2) + g/√2
// (school geometry, as of two equal discs in closed_form_test.go).
func TestTwoDifferentDiscsLieOnTheDiagonal(t *testing.T) {
	disc := func(r float64) (c geom.Contour) {
		for k := range 4 {
			at := func(q int) geom.Point {
				sin, cos := math.Sincos(float64(q) * math.Pi / 2)
				return geom.Point{X: r * cos, Y: r * sin}
			}
			c = append(c, geom.Arc(at(k), at(k+1), geom.Point{}, false))
		}
		return c
	}
	const large, small, g = 30.0, 11.0, 4.0
	side := (large+small)*(1+1/math.Sqrt2) + g/math.Sqrt2
	m := nest.NewMix(g, disc(large), disc(small))
	if !(nest.Room{Width: side + 1e-6, Height: side + 1e-6}).TwoFit(m, 0, 1) {
		t.Errorf("two discs do not fit a square of %v", side)
	}
	if (nest.Room{Width: side - 1e-3, Height: side - 1e-3}).TwoFit(m, 0, 1) {
		t.Errorf("two discs fit a square of less than %v", side)
	}
}

func TestAFillingStopsWhenItIsCalledOff(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	tries := 1000
	m := nest.NewMix(0, box(10, 10), box(10, 20), box(20, 10))
	if _, ok := (nest.Room{Width: 100, Height: 100}).Lay(ctx, m, []int{0, 1, 2}, &tries); ok || tries < 990 {
		t.Errorf("called off, it found a way (%v) or tried on, to %d", ok, tries)
	}
}

// BenchmarkLay is the time of a search, whether there is a way ([0 2 2]) or none.
func BenchmarkLay(b *testing.B) {
	cut := func(name string) geom.Contour {
		l := lining(&testing.T{}, name, "")
		return l.Outline(l.FullPocketDepth()).Contour
	}
	cuts := []geom.Contour{cut("c6"), cut("dl"), cut("c7")}
	for _, of := range [][]int{{0, 1}, {0, 2, 2}, {0, 1, 2}, {1, 2, 2, 2}} {
		b.Run(fmt.Sprint(of), func(b *testing.B) {
			used := 0.0
			for b.Loop() {
				tries := 2000
				(nest.Room{Width: 200, Height: 287}).Lay(context.Background(), nest.NewMix(4, cuts...), of, &tries)
				used = float64(2000 - tries)
			}
			b.ReportMetric(used, "tries")
		})
	}
}
