package handmade_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner/geom"
	"underflap/liner/handmade"
	"underflap/pattern/draw/referee"
)

// polygon is a closed chain without a repeated last point.
type polygon []geom.Point

// area is by the shoelace formula, never negative.
func (p polygon) area() float64 {
	sum := 0.0
	for i, a := range p {
		b := p[(i+1)%len(p)]
		sum += a.X*b.Y - b.X*a.Y
	}
	return math.Abs(sum) / 2
}

// distance is from q to the nearest place on the polygon's edge.
func (p polygon) distance(q geom.Point) float64 {
	least := math.Inf(1)
	for i, a := range p {
		least = min(least, toSegment(q, a, p[(i+1)%len(p)]))
	}
	return least
}

// crossing finds two sides, not neighbours, that touch.
func (p polygon) crossing() (a, b geom.Point, found bool) {
	n := len(p)
	for i := range n {
		for j := i + 2; j < n; j++ {
			if (j+1)%n == i {
				continue
			}
			if touch(p[i], p[i+1], p[j], p[(j+1)%n]) {
				return p[i], p[j], true
			}
		}
	}
	return a, b, false
}

func toSegment(p, a, b geom.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	along := max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/(dx*dx+dy*dy)))
	return p.Distance(geom.Point{X: a.X + along*dx, Y: a.Y + along*dy})
}

func touch(a, b, c, d geom.Point) bool {
	side := func(p, q, r geom.Point) float64 { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
		return true
	}
	return min(toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b)) < 1e-9
}

// chord is how much of the line from a to b lies in all of the shapes, by
// even-odd crossings: the length common to them.
func chord(a, b geom.Point, shapes ...polygon) float64 {
	at := []float64{0, 1}
	cross := make([][]float64, len(shapes))
	for k, s := range shapes {
		for i, p := range s {
			q := s[(i+1)%len(s)]
			sp := (b.X-a.X)*(p.Y-a.Y) - (b.Y-a.Y)*(p.X-a.X)
			sq := (b.X-a.X)*(q.Y-a.Y) - (b.Y-a.Y)*(q.X-a.X)
			if (sp > 0) == (sq > 0) {
				continue
			}
			c := geom.Point{X: p.X + (q.X-p.X)*sp/(sp-sq), Y: p.Y + (q.Y-p.Y)*sp/(sp-sq)}
			cross[k] = append(cross[k], ((c.X-a.X)*(b.X-a.X)+(c.Y-a.Y)*(b.Y-a.Y))/(a.Distance(b)*a.Distance(b)))
		}
		at = append(at, cross[k]...)
	}
	sum := 0.0
	slices.Sort(at)
	for i := 1; i < len(at); i++ {
		mid, in := (at[i-1]+at[i])/2, at[i-1] >= 0 && at[i] <= 1
		for _, c := range cross {
			before := 0
			for _, x := range c {
				if x < mid {
					before++
				}
			}
			in = in && before%2 == 1
		}
		if in {
			sum += at[i] - at[i-1]
		}
	}
	return sum * a.Distance(b)
}

// mirrored reflects points about the line through a and b with complex numbers:
// in the frame where the line is the real axis a reflection is a conjugation.
func mirrored(points []geom.Point, a, b geom.Point) polygon {
	base, along := complex(a.X, a.Y), complex(b.X-a.X, b.Y-a.Y)
	out := make(polygon, len(points))
	for i, p := range points {
		q := (complex(p.X, p.Y) - base) / along
		q = base + along*complex(real(q), -imag(q))
		out[i] = geom.Point{X: real(q), Y: imag(q)}
	}
	return out
}

// folded is a panel turned over about its fold.
func folded(p handmade.Panel) polygon {
	if p.Fold == nil {
		return p.Shape
	}
	return mirrored(p.Shape, p.Fold.A, p.Fold.B)
}

// panel finds one by name.
func panel(t rapid.TB, b handmade.Blank, names ...string) handmade.Panel {
	for _, p := range b.Panels {
		for _, name := range names {
			if p.Name == name {
				return p
			}
		}
	}
	t.Fatalf("no panel %q", names)
	return handmade.Panel{}
}

func wkt(p polygon) string {
	var b strings.Builder
	b.WriteString("POLYGON((")
	for _, q := range p {
		fmt.Fprintf(&b, "%.17g %.17g, ", q.X, q.Y)
	}
	fmt.Fprintf(&b, "%.17g %.17g))", p[0].X, p[0].Y)
	return b.String()
}

// region is a polygon with the holes in it, as GEOS answers.
type region struct {
	shell polygon
	holes []polygon
}

// united asks GEOS for the union of each group of shapes, all in one call.
func united(t testing.TB, groups ...[]polygon) [][]region {
	t.Helper()
	var lines strings.Builder
	for _, g := range groups {
		var all []string
		for _, p := range g {
			all = append(all, wkt(p))
		}
		lines.WriteString("GEOMETRYCOLLECTION(" + strings.Join(all, ", ") + ")\n")
	}
	answer := referee.RunInput(t, []byte(lines.String()), "geosop", "-a", "stdin", "-f", "wkt", "-p", "12", "unaryUnion")
	answers := strings.Split(strings.TrimSpace(string(answer)), "\n")
	if len(answers) != len(groups) {
		t.Fatalf("geosop answered %d shapes for %d", len(answers), len(groups))
	}
	out := make([][]region, len(groups))
	for i, line := range answers {
		out[i] = regions(t, line)
	}
	return out
}

var ringForm = regexp.MustCompile(`\(*\([^()]*\)`)

// regions reads WKT polygons. A ring after two brackets begins a polygon.
// Specks below a millionth of a square millimetre are rounding.
func regions(t testing.TB, answer string) []region {
	t.Helper()
	const speck = 1e-6
	var all []region
	keep := false
	for _, found := range ringForm.FindAllString(answer, -1) {
		var ring polygon
		for _, pair := range strings.Split(strings.Trim(found, "()"), ",") {
			xy := strings.Fields(pair)
			if len(xy) != 2 {
				t.Fatalf("geosop answered %q", answer)
			}
			x, errX := strconv.ParseFloat(xy[0], 64)
			y, errY := strconv.ParseFloat(xy[1], 64)
			if errX != nil || errY != nil {
				t.Fatalf("geosop answered %q", answer)
			}
			ring = append(ring, geom.Point{X: x, Y: y})
		}
		ring = ring[1:]
		switch outer := strings.HasPrefix(found, "(("); {
		case outer:
			if keep = ring.area() > speck; keep {
				all = append(all, region{shell: ring})
			}
		case keep && ring.area() > speck:
			all[len(all)-1].holes = append(all[len(all)-1].holes, ring)
		}
	}
	return all
}

// area is of all regions together.
func area(all []region) float64 {
	sum := 0.0
	for _, r := range all {
		sum += r.shell.area()
		for _, h := range r.holes {
			sum -= h.area()
		}
	}
	return sum
}

func near(t rapid.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.9g, want %.9g", what, got, want)
	}
}
