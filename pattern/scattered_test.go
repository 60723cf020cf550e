package pattern

import (
	"fmt"
	"math"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// Every piece of confetti keeps within its circle, and circles keep the spacing:
// none can touch another, whatever the seed.
func TestConfettiNeverTouches(t *testing.T) {
	const size, spacing = 5.0, 1.5
	c := settled("confetti", "size=5", "spacing=1.5", "shapes=dots,rings,triangles,squares,dashes,crosses,stars").(*Confetti)
	for _, shape := range confettiShapes {
		s := draw.NewSurface()
		piece(s, shape, size/2, draw.Colour{})
		for _, n := range s.Nodes() {
			var path draw.Path
			half := 0.0
			switch n := n.(type) {
			case *draw.Fill:
				path = n.Path
			case *draw.Stroke:
				path, half = n.Path, n.Width/2
			}
			path.Steps(func(v draw.Verb, points []draw.Point) {
				if v == draw.Close {
					return
				}
				if end := points[len(points)-1]; math.Hypot(end.X, end.Y)+half > size/2+1e-9 {
					t.Errorf("%s: %v, and half a line of %g, leaves the circle", shape, end, 2*half)
				}
			})
		}
	}
	for s := range uint64(4) {
		c.recurrence().seed = s
		surface := draw.NewSurface()
		c.Draw(surface, draw.Rect{MinX: -80, MinY: -80, MaxX: 80, MaxY: 80}, blackOnWhite)
		var middles []draw.Point
		kinds := map[*draw.Symbol]bool{}
		for _, n := range surface.Nodes() {
			use := n.(*draw.Use)
			kinds[use.Symbol] = true
			for _, m := range use.At {
				middles = append(middles, draw.Point{X: m.E, Y: m.F})
			}
		}
		for i, a := range middles {
			for _, b := range middles[:i] {
				if d := math.Hypot(a.X-b.X, a.Y-b.Y); d < size+spacing-1e-9 {
					t.Fatalf("seed %d: two middles %g mm apart", s, d)
				}
			}
		}
		if len(middles) < 300 || len(kinds) != len(confettiShapes) { // one ink, so as many symbols as shapes
			t.Errorf("seed %d: %d pieces of %d kinds", s, len(middles), len(kinds))
		}
	}
}

// A part of the paper is drawn as the whole would be: four quarters, each asked
// for by itself, are the same page. So symbols' keys name all that shapes them,
// and nothing left to chance hangs on the area.
func TestQuartersMakeTheSamePage(t *testing.T) {
	const side = 25.4 * 3
	for _, name := range Names() {
		if name == Stamps {
			continue
		}
		for _, repeat := range []string{"", "toss"} {
			motif := settled(name)
			single, ok := motif.(recurring)
			if repeat != "" {
				if !ok {
					continue
				}
				single.recurrence().Repeat = Repeat(repeat)
			}
			for _, turn := range []float64{0, 33} {
				d := Design{Name: name, Motif: motif, Colours: threeGreys, Scale: 0.8, Turn: turn, Seed: 5}
				whole := pageOf(d, side)
				parts := draw.NewPage(side, side)
				parts.Layer(draw.Artwork, func(s *draw.Surface) {
					s.Within(draw.Translate(side/2, side/2), func(s *draw.Surface) {
						for _, at := range [][2]float64{{-1, -1}, {0, -1}, {-1, 0}, {0, 0}} {
							x, y := at[0]*side/2, at[1]*side/2
							part := draw.Rect{MinX: x, MinY: y, MaxX: x + side/2, MaxY: y + side/2}
							s.Clipped(draw.Rectangle(part), func(s *draw.Surface) { d.Draw(s, part) })
						}
					})
				})
				a, b := referee.PNG(t, written(t, whole, "png", 100), 100), referee.PNG(t, written(t, parts, "png", 100), 100)
				differ := 0
				for i := range a.Grey {
					if max(a.Grey[i], b.Grey[i])-min(a.Grey[i], b.Grey[i]) > 16 {
						differ++
					}
				}
				if differ > 4 { // a line that ends elsewhere is rounded elsewhere
					t.Errorf("%s %s turned %g: %d pixels of %d differ", name, repeat, turn, differ, len(a.Grey))
				}
			}
		}
	}
}

// one grey each, so that swapped inks show
var threeGreys = Colours{Name: "greys", Ground: draw.White, Inks: []draw.Colour{{R: 20, G: 20, B: 20}, {R: 100, G: 100, B: 100}, {R: 180, G: 180, B: 180}}}

// What chance arranges is the same again for the same seed and another for
// another seed, apart from the slide that every seed gives.
func TestSeedsLayAnotherArrangement(t *testing.T) {
	area := draw.Rect{MinX: -70, MinY: -70, MaxX: 70, MaxY: 70}
	for _, name := range []string{"terrazzo", "truchet", "confetti"} {
		arrangement := func(s uint64) string {
			motif := settled(name)
			if chancy, ok := motif.(seeded); ok {
				chancy.setSeed(s)
			} else {
				motif.(recurring).recurrence().seed = s
			}
			surface := draw.NewSurface()
			motif.Draw(surface, area, threeGreys)
			drawn := ""
			for _, n := range surface.Nodes() {
				switch n := n.(type) {
				case *draw.Fill:
					drawn += fmt.Sprint(n.Path.Points)
				case *draw.Use:
					drawn += fmt.Sprint(n.At)
				}
			}
			return drawn
		}
		seen := map[string]bool{}
		for s := range uint64(6) {
			a := arrangement(s)
			if seen[a] || a != arrangement(s) {
				t.Errorf("%s: seed %d is no arrangement of its own", name, s)
			}
			seen[a] = true
		}
	}
}
