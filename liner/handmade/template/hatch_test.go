package template_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"underflap/liner/geom"
	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// Hatching tells where glue goes: it must lie on the glue areas alone, at 45
// degrees, over all of them. GEOS (geosop) checks the areas.
func TestHatchingCoversTheGlueAreasAndNothingElse(t *testing.T) {
	for name, c := range sketches(t) {
		l := c.layout
		if len(l.Tiles) > 1 {
			continue
		}
		pages := c.pages
		var areas []string
		size := 0.0
		for _, g := range c.blank.Glue {
			var ring []string
			for k := range len(g.Shape) + 1 {
				q, r := l.OnPage(l.Tiles[0], g.Shape[k%len(g.Shape)]), l.OnPage(l.Tiles[0], g.Shape[(k+1)%len(g.Shape)])
				ring = append(ring, fmt.Sprintf("%.6f %.6f", q.X, q.Y))
				if k < len(g.Shape) {
					size += (q.X*r.Y - r.X*q.Y) / 2
				}
			}
			areas = append(areas, "(("+strings.Join(ring, ",")+"))")
		}
		var lines []string
		long := 0.0
		collect(pages[0].Nodes(), draw.Identity, func(n draw.Node, at draw.Matrix) {
			s, ok := n.(*draw.Stroke)
			if !ok {
				return
			}
			points := s.Path.Transform(at).Points
			for k := 0; k+1 < len(points); k += 2 {
				a, b := geom.Point(points[k]), geom.Point(points[k+1])
				if math.Abs(math.Abs(a.X-b.X)-math.Abs(a.Y-b.Y)) > 1e-6 || s.Width != 0.15 || (a.X < b.X) == (a.Y < b.Y) {
					continue // no hatching
				}
				lines = append(lines, fmt.Sprintf("(%.6f %.6f,%.6f %.6f)", a.X, a.Y, b.X, b.Y))
				long += a.Distance(b)
			}
		})
		if len(lines) == 0 {
			t.Errorf("%s: no hatching", name)
			continue
		}
		if out := strings.TrimSpace(string(referee.Run(t, "geosop", "-a", "MULTIPOLYGON("+strings.Join(areas, ",")+")",
			"-b", "MULTILINESTRING("+strings.Join(lines, ",")+")", "-f", "wkt", "covers"))); out != "true" && out != "1" {
			t.Errorf("%s: hatching leaves the glue areas (%s)", name, out)
		}
		// lines 2.6 mm apart: their length times that is the area, less what words and edges take
		if share := long * 2.6 / math.Abs(size); share < 0.7 || share > 1.02 {
			t.Errorf("%s: hatching covers %.2f of the glue areas", name, share)
		}
	}
}
