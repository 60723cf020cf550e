package request

import (
	"context"
	"fmt"

	"underflap/liner/swatch"
	"underflap/pattern/draw"
)

// Of a sample that is a picture of its own, in millimetres: as much of a pattern
// as lets its repeat be seen.
const sampleWide, sampleHigh = 64.0, 48.0

// Sample draws a piece of the design that the words describe, 64 mm wide and
// 48 mm high, as a picture shows it printed.
func Sample(ctx context.Context, w Words) (*draw.Page, error) {
	d, _, _, err := pictured(ctx, w)
	if err != nil {
		return nil, err
	}
	page, err := swatch.Single(ctx, swatch.Sample{Name: d.Name, Design: d}, sampleWide, sampleHigh)
	if err != nil {
		return nil, err
	}
	page.About = fmt.Sprintf("The pattern %s in %s.", d.Name, spoken(d.Colours.Name))
	return page, nil
}
