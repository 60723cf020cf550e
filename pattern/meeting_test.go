package pattern

import (
	"fmt"
	"math"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// Truchet's arcs run on from tile to tile: where two meet, the middle of the line
// is as black as elsewhere, in every renderer, at any turn and scale.
func TestArcsRunOnFromTileToTile(t *testing.T) {
	const side = 40.0
	motif := settled("truchet", "size=11.3", "lines=2", "line=1.9", "gap=0.7").(*Truchet)
	for _, turn := range []float64{0, 17, 45} {
		for _, scale := range []float64{0.37, 1, 2.9} {
			t.Run(fmt.Sprintf("turned %g, scaled %g", turn, scale), func(t *testing.T) {
				d := Design{Name: "truchet", Motif: motif, Colours: blackOnWhite, Scale: scale, Turn: turn}
				page := pageOf(d, side)
				var joints []draw.Point // on the page
				for i := range 40 {
					for j := range 40 {
						for _, off := range []float64{-1.3, 1.3} {
							x, y := float64(i-20)*11.3, float64(j-20)*11.3
							for _, p := range []draw.Point{{X: x, Y: y + 11.3/2 + off}, {X: x + 11.3/2 + off, Y: y}} {
								p = d.space().Apply(p)
								if math.Max(math.Abs(p.X), math.Abs(p.Y)) < side/2-1 {
									joints = append(joints, draw.Point{X: p.X + side/2, Y: p.Y + side/2})
								}
							}
						}
					}
				}
				if len(joints) < 4 {
					t.Fatalf("%d joints", len(joints))
				}
				const dpi = 200.0 // the finest line is 5 pixels wide
				rasters := map[string]*referee.Raster{
					"png":     referee.PNG(t, written(t, page, "png", dpi), dpi),
					"librsvg": referee.SVG(t, written(t, page, "svg", dpi), dpi, ""),
				}
				for name, render := range referee.Renderers {
					rasters[name] = render(t, written(t, page, "pdf", dpi), dpi)
				}
				for name, r := range rasters {
					for _, p := range joints {
						x, y := int(p.X*dpi/25.4), int(p.Y*dpi/25.4)
						for _, near := range [][2]int{{0, 0}, {1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
							if grey := r.Grey[(y+near[1])*r.Width+x+near[0]]; grey > 1 {
								t.Errorf("%s: grey %d beside the joint at %.2f, %.2f mm", name, grey, p.X, p.Y)
								return
							}
						}
					}
				}
			})
		}
	}
}
