package desk

import (
	"fmt"
	"strings"

	"underflap/liner"
	"underflap/liner/geom"
)

// Drawing is a small line drawing of an envelope: paths and the box around them.
type Drawing struct{ Box, Pocket, Flap string }

// sizeDrawing is a closed envelope seen from the back, in proportion to the others:
// the largest of the usual ones fills its place.
func sizeDrawing(width, height float64) Drawing {
	const place, tall = 246.0, 182.0
	x, y := (place-width)/2, (tall-height)/2
	return Drawing{Box: fmt.Sprintf("0 0 %g %g", place, tall),
		Pocket: fmt.Sprintf("M%.1f %.1fh%.1fv%.1fh%.1fz", x, y, width, height, -width),
		Flap:   fmt.Sprintf("M%.1f %.1fL%.1f %.1fL%.1f %.1f", x, y, place/2, y+0.55*min(height, width), x+width, y)}
}

// flapDrawing is an open envelope with a flap as is usual for the shape.
func flapDrawing(shape liner.Shape) Drawing {
	const width, depth, below, edge = 160.0, 64.0, 56.0, 4.0
	profile, err := liner.UsualFlap(shape, depth, width).Profile(width)
	if err != nil {
		panic(err) // usual proportions make a flap
	}
	var flap strings.Builder
	for i, p := range geom.Contour(profile).Flatten(0.3) {
		fmt.Fprintf(&flap, "%c%.1f %.1f", "ML"[min(i, 1)], p.X+edge, depth-p.Y+edge)
	}
	return Drawing{Box: fmt.Sprintf("0 0 %g %g", width+2*edge, depth+below+2*edge),
		Pocket: fmt.Sprintf("M%g %gh%gv%gh%gz", edge, depth+edge, width, below, -width), Flap: flap.String()}
}
