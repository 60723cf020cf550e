package geom_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"pgregory.net/rapid"

	"underflap/liner/geom"
)

// compareEroded compares an eroded profile at places spread over its width and
// beyond its ends with the plain way, and tells how many were compared.
func compareEroded(t *testing.T, kind string, eroded geom.Profile, chain []geom.Point, d, tolerance float64) int {
	t.Helper()
	wholeProfile(t, kind, eroded)
	const places = 150
	from, to := chain[0].X-1.1*d, chain[len(chain)-1].X+1.1*d
	got, compared := reader{eroded}, 0
	plain := func(x float64) float64 { return lowestDisc(chain, x, d) }
	var xs []float64
	for i := range places {
		xs = append(xs, from+(to-from)*(float64(i)+0.37)/places)
	}
	for i := 0; i < len(eroded); i += 1 + len(eroded)/places { // and amid its own pieces, however short
		xs = append(xs, (eroded[i].A.X+eroded[i].B.X)/2)
	}
	for _, x := range xs {
		if off := mismatch(got.at(x), plain, x, hairOf(kind)); !(off <= tolerance) {
			t.Errorf("%s, %d points, by %v: at x = %v the edge is %v high, the plain way %v", kind, len(chain), d, x, got.at(x), plain(x))
			return compared
		}
		compared++
	}
	return compared
}

// wholeProfile holds the result to the definition of a profile.
func wholeProfile(t *testing.T, name string, p geom.Profile) {
	t.Helper()
	for i, s := range p {
		if i > 0 && p[i-1].B != s.A {
			if gap := p[i-1].B.Distance(s.A); !(gap <= 1e-7) {
				t.Errorf("%s: piece %d begins %g from the end of the one before", name, i, gap)
				return
			}
		}
		if s.B.X < s.A.X {
			t.Errorf("%s: piece %d runs leftwards from %v to %v", name, i, s.A, s.B)
			return
		}
		if wide := s.B.X - s.A.X; wide > 0 && wide < 1e-6 && i > 0 && i < len(p)-1 {
			from, to := p[i-1].B.Y-p[i-1].A.Y, p[i+1].B.Y-p[i+1].A.Y
			if p[i-1].A.X == p[i-1].B.X && p[i+1].A.X == p[i+1].B.X && from*to < 0 && min(math.Abs(from), math.Abs(to)) > 1e-3 {
				t.Errorf("%s: a hair %g wide and %g long at %v", name, wide, min(math.Abs(from), math.Abs(to)), s.A)
				return
			}
		}
		if s.R == 0 {
			continue
		}
		if up := 1e-7; s.CW && min(s.A.Y, s.B.Y) < s.C.Y-up || !s.CW && max(s.A.Y, s.B.Y) > s.C.Y+up {
			t.Errorf("%s: arc %d from %v to %v is on both halves of its circle about %v", name, i, s.A, s.B, s.C)
			return
		}
	}
}

func TestErodedPolylinesAreAsHighAsTheLowestDiscUnderThem(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	compared, profiles := 0, 0
	for _, n := range []int{5, 12, 60, 300, 2000} {
		for _, kind := range chainKinds {
			for _, d := range []float64{0.3, 2, 13.5, 45} {
				for range max(1, 24/n) {
					chain := chainOf(r, kind, n)
					compared += compareEroded(t, kind, profileThrough(chain).Erode(d), chain, d, 1e-6)
					profiles++
				}
			}
		}
	}
	t.Logf("%d profiles compared at %d places", profiles, compared)
	if compared < 40000 {
		t.Errorf("only %d places were compared", compared)
	}
}

// Dilation is erosion of what lies over the edge.
func TestDilatedPolylinesAreAsHighAsTheHighestDiscOnThem(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for _, n := range []int{5, 60, 600} {
		for _, kind := range chainKinds {
			for _, d := range []float64{0.5, 3, 20} {
				chain := chainOf(r, kind, n)
				compareEroded(t, kind, profileThrough(chain).Dilate(d).Flip(), flipped(chain), d, 1e-6)
			}
		}
	}
}

func flipped(chain []geom.Point) []geom.Point {
	out := make([]geom.Point, len(chain))
	for i, p := range chain {
		out[i] = geom.Point{X: p.X, Y: -p.Y}
	}
	return out
}

// curvy draws a profile of lines, jumps, caps and hollows.
func curvy(r *rand.Rand, pieces int) geom.Profile {
	var p geom.Profile
	at := geom.Point{Y: 40 * r.Float64()}
	for range pieces {
		to := at
		switch r.IntN(4) {
		case 0: // an arc through at, within its own half
			radius := 0.5 + 60*r.Float64()
			from, turn := math.Pi*r.Float64(), 0.0
			turn = from * r.Float64() // clockwise from there, the right end at angle 0
			cap := r.IntN(2) == 0
			side := 1.0
			if !cap {
				side = -1
			}
			c := geom.Point{X: at.X - radius*math.Cos(from), Y: at.Y - side*radius*math.Sin(from)}
			to = geom.Point{X: c.X + radius*math.Cos(from-turn), Y: c.Y + side*radius*math.Sin(from-turn)}
			p = append(p, geom.Arc(at, to, c, cap))
		case 1:
			to.Y = 60 * r.Float64()
			p = append(p, geom.Line(at, to))
		default:
			to = geom.Point{X: at.X + 30*r.Float64(), Y: 60 * r.Float64()}
			p = append(p, geom.Line(at, to))
		}
		at = to
	}
	return p
}

// Arcs are compared through chords within a millionth of a millimetre of them.
func TestErodedCurvesAreAsHighAsTheLowestDiscUnderThem(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	compared, arcs := 0, 0
	for range 60 {
		p := curvy(r, 2+r.IntN(12))
		for _, s := range p {
			if s.R > 0 {
				arcs++
			}
		}
		chain := geom.Contour(p).Flatten(1e-6)
		for i := 1; i < len(chain); i++ { // rounding may put a chord's end left of its start
			chain[i].X = max(chain[i].X, chain[i-1].X)
		}
		for _, d := range []float64{0.4, 4, 25} {
			compared += compareEroded(t, "curvy", p.Erode(d), chain, d, 1e-4)
		}
	}
	if compared < 8000 || arcs < 60 {
		t.Errorf("%d places on %d arcs were compared", compared, arcs)
	}
}

// Pieces that meet end to end, such as a corner's arc and the discs about its
// ends, meet but for rounding. No higher piece may show through between them.
func TestNoHigherPieceShowsThroughWhereTwoMeet(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for range 12000 {
		width, depth, lean, round := 20+100*r.Float64(), 20+200*r.Float64(), 5*r.Float64(), 1+5*r.Float64()
		foot, corner, top := pt(r.Float64(), 0), pt(1+lean, depth), pt(width/2, depth)
		arc, ok := geom.Round(foot, corner, top, round)
		if !ok {
			continue
		}
		half := geom.Contour{geom.Line(foot, arc.A), arc, geom.Line(arc.B, top)}
		other := half.Map(func(q geom.Point) geom.Point { return pt(width-q.X, q.Y) }, true).Reversed()
		p := geom.Profile(append(half, other...))
		d := 0.5 + 6*r.Float64()
		inner := p.Erode(d)
		wholeProfile(t, "eroded", inner)
		over := inner.Over(0, 1, width-1)
		wholeProfile(t, "over", over)
		wholeProfile(t, "bleed", over.Dilate(0.5+3*r.Float64()))
	}
	for range 3000 {
		p := curvy(r, 2+r.IntN(12))
		d := 0.3 + 8*r.Float64()
		wholeProfile(t, "curvy", p.Erode(d).Dilate(d/2))
	}
}

// Over is the greater of two heights, piece by piece.
func TestOverIsTheGreaterOfTheProfileAndTheFloorOnEveryProfile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		p := curvy(r, 2+r.IntN(12))
		box := geom.Contour(p).Bounds()
		floor := rapid.Float64Range(box.MinY-5, box.MaxY+5).Draw(t, "floor")
		left := rapid.Float64Range(box.MinX-10, box.MaxX-1).Draw(t, "left")
		right := rapid.Float64Range(left+0.5, box.MaxX+10).Draw(t, "right")
		over := reader{p.Over(floor, left, right)}
		want := func(x float64) float64 {
			if y := (reader{p}).at(x); !math.IsInf(y, 1) {
				return max(floor, y)
			}
			return floor
		}
		if n := len(over.Profile); math.Abs(over.Profile[0].A.X-left) > 1e-8 || math.Abs(over.Profile[n-1].B.X-right) > 1e-8 {
			t.Fatalf("it runs from %v to %v, want %v to %v", over.Profile[0].A.X, over.Profile[n-1].B.X, left, right)
		}
		for i := range 100 {
			x := left + (right-left)*(float64(i)+0.5)/100
			if off := mismatch(over.at(x), want, x, 1e-7); !(off <= 1e-4) {
				t.Fatalf("at x = %v: %v, want %v", x, over.at(x), want(x))
			}
		}
	})
}

// The result has few pieces: of n points come n discs and n edges moved, and a
// lower envelope of m arcs that hardly cross each other has hardly more than m
// pieces (Davenport and Schinzel). Jumps may stand between them.
func TestAnErodedTraceHasNoMorePiecesThanItNeeds(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for _, kind := range chainKinds {
		for _, d := range []float64{0.05, 3} {
			const n = 1000
			if got := len(profileThrough(chainOf(r, kind, n)).Erode(d)); got > 2*(n+n) || got < 10 {
				t.Errorf("%s, by %v: %d pieces of %d points", kind, d, got, n)
			}
		}
	}
}

// How the time to erode a trace grows from 100 points to 1000: 10 means with
// the points, 100 with their square. Each time is the least of many, so that
// other work on the machine counts little.
func BenchmarkErodeTrace(b *testing.B) {
	r := rand.New(rand.NewPCG(11, 12))
	few, many := profileThrough(chainOf(r, "shaky", 100)), profileThrough(chainOf(r, "shaky", 1000))
	least := func(p geom.Profile, times int) float64 {
		best := time.Duration(math.MaxInt64)
		for range times {
			start := time.Now()
			p.Erode(13.5)
			best = min(best, time.Since(start))
		}
		return best.Seconds()
	}
	for range b.N {
		many.Erode(13.5)
	}
	b.StopTimer()
	b.ReportMetric(least(many, 30)/least(few, 300), "x-100-points")
}
