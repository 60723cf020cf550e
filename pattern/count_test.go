package pattern

import (
	"math"
	"testing"

	"underflap/pattern/draw"
)

// What a design is refused for grows as it shrinks, and is about what is drawn.
func TestCountIsAboutWhatIsDrawn(t *testing.T) {
	area := draw.Rect{MinX: -150, MinY: -150, MaxX: 150, MaxY: 150}
	half := draw.Rect{MinX: -300, MinY: -300, MaxX: 300, MaxY: 300} // what a scale of a half asks for
	for _, name := range []string{"rings", "hexagons", "diamonds", "triangles", "stars", "petals", "confetti", "terrazzo", "truchet", "leaves", "guilloche"} {
		motif := settled(name)
		s := draw.NewSurface()
		motif.Draw(s, area, threeGreys)
		var shapes func(nodes []draw.Node) int
		shapes = func(nodes []draw.Node) int {
			n := 0
			for _, node := range nodes {
				switch node := node.(type) {
				case *draw.Use:
					n += len(node.At) * shapes(node.Symbol.Nodes)
				default:
					n++
				}
			}
			return n
		}
		drawn := shapes(s.Nodes())
		count := motif.Count(area)
		most := 16.0
		if name == "guilloche" { // a line is one shape, of 14 waves here, and each counts as three dots
			most = 48
		}
		if ratio := count / float64(drawn); ratio < 0.4 || ratio > most {
			t.Errorf("%s: counts %.0f and draws %d", name, count, drawn)
		}
		if four := motif.Count(half) / count; math.Abs(four-4) > 0.01 {
			t.Errorf("%s: counts %.2f times as much at half the scale", name, four)
		}
	}
}
