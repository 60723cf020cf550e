package geom_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner/geom"
)

// heightAt reads a profile by bisecting nothing: the greatest y over x.
func heightAt(p geom.Profile, x float64) float64 {
	best := math.Inf(-1)
	for _, s := range p {
		if x < s.A.X || x > s.B.X {
			continue
		}
		if s.R == 0 {
			y := math.Max(s.A.Y, s.B.Y)
			if s.B.X-s.A.X > 1e-9 {
				y = s.A.Y + (s.B.Y-s.A.Y)*(x-s.A.X)/(s.B.X-s.A.X)
			}
			best = math.Max(best, y)
			continue
		}
		h := math.Sqrt(math.Max(0, s.R*s.R-(x-s.C.X)*(x-s.C.X)))
		if s.CW {
			best = math.Max(best, s.C.Y+h)
		} else {
			best = math.Max(best, s.C.Y-h)
		}
	}
	return best
}

func drawProfile(t *rapid.T, name string) geom.Profile {
	n := rapid.IntRange(1, 5).Draw(t, name+" n")
	at := geom.Point{X: rapid.Float64Range(-20, 20).Draw(t, name+" x"), Y: rapid.Float64Range(0, 20).Draw(t, name+" y")}
	var p geom.Profile
	for range n {
		to := geom.Point{X: at.X + rapid.Float64Range(1, 30).Draw(t, name+" dx"), Y: rapid.Float64Range(0, 40).Draw(t, name+" y")}
		kind := rapid.IntRange(0, 2).Draw(t, name+" kind")
		d := at.Distance(to)
		r := d * rapid.Float64Range(0.6, 4).Draw(t, name+" r")
		h := math.Sqrt(r*r - d*d/4)
		ux, uy := (to.X-at.X)/d, (to.Y-at.Y)/d
		mid := geom.Point{X: (at.X + to.X) / 2, Y: (at.Y + to.Y) / 2}
		s := geom.Line(at, to)
		switch kind {
		case 1:
			s = geom.Arc(at, to, geom.Point{X: mid.X + h*uy, Y: mid.Y - h*ux}, true)
			if s.C.Y > math.Min(at.Y, to.Y) { // part of the lower half
				s = geom.Line(at, to)
			}
		case 2:
			s = geom.Arc(at, to, geom.Point{X: mid.X - h*uy, Y: mid.Y + h*ux}, false)
			if s.C.Y < math.Max(at.Y, to.Y) {
				s = geom.Line(at, to)
			}
		}
		p = append(p, s)
		at = to
	}
	return p
}

// The definition of the sum, by dense sampling: the greatest p(x) + q(dx-x).
func TestTheSumIsTheGreatestOfAllSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, q := drawProfile(t, "p"), drawProfile(t, "q")
		sum := p.Sum(q)
		from, to := p[0].A.X+q[0].A.X, p[len(p)-1].B.X+q[len(q)-1].B.X
		near(t, "from", sum[0].A.X, from, 1e-6)
		near(t, "to", sum[len(sum)-1].B.X, to, 1e-6)
		for k := range 40 {
			dx := from + (to-from)*(float64(k)+0.5)/40
			best := math.Inf(-1)
			const n = 4000
			for i := range n + 1 {
				x := p[0].A.X + (p[len(p)-1].B.X-p[0].A.X)*float64(i)/n
				best = math.Max(best, heightAt(p, x)+heightAt(q, dx-x))
			}
			for _, s := range p {
				best = math.Max(best, heightAt(p, s.A.X)+heightAt(q, dx-s.A.X))
				best = math.Max(best, heightAt(p, s.B.X)+heightAt(q, dx-s.B.X))
			}
			for _, s := range q {
				best = math.Max(best, heightAt(q, s.A.X)+heightAt(p, dx-s.A.X))
				best = math.Max(best, heightAt(q, s.B.X)+heightAt(p, dx-s.B.X))
			}
			got := heightAt(sum, dx)
			if got < best-1e-7 || got > best+0.02 {
				t.Fatalf("at %v: %v, sampled %v\n%v\n%v", dx, got, best, p, q)
			}
		}
	})
}
