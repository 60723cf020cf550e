package liner

import (
	"fmt"

	"underflap/liner/geom"
	"underflap/pattern/words"
)

// contour flaps usually rise 6 mm and then swing in, the hollow and the rounded
// end alike in radius (common practice, no source).
var contour = form{
	about: "shoulders, then a hollow curve into a narrower rounded end",
	takes: []string{"shoulder", "taper", "base-gap", "tip-radius", "flap-corner-radius"},
	long:  0.45, short: 0.38,
	usual: func(f Flap, width float64) Flap {
		k := small(f.Depth, width)
		f.Shoulder, f.Taper, f.BaseGap = 6*k, 1*k, min(1, width/90)
		f.TipRadius = arcOver(width/2-f.BaseGap-f.Taper, f.Depth-f.Shoulder) / 2
		return f
	},
	half: Flap.contourHalf,
}

// contourHalf rises along the shoulder, leaves it level along a hollow and
// passes into the rounded end, which it follows to the centre line. The two
// radii add up to that of the one arc over the same width and rise, so a
// greater tip radius makes the end broader.
func (f Flap) contourHalf(left, mid float64) (geom.Profile, error) {
	p, shoulder, err := f.shoulders(left)
	if err != nil {
		return nil, err
	}
	across, rise := mid-shoulder.X, f.Depth-f.Shoulder
	if rise > across {
		return nil, &words.Refused{Field: "flap-depth", Given: words.MM(f.Depth),
			Why:     fmt.Sprintf("a contour flap this deep would be steeper than upright over half its width, %s", words.MM(across)),
			Accepts: fmt.Sprintf("up to %s, or --flap pointed or rounded, or --profile with its points", words.MMDown(across+f.Shoulder))}
	}
	both := arcOver(across, rise)
	if f.TipRadius >= both {
		return nil, f.tooRound("tip-radius", f.TipRadius, both)
	}
	tip := geom.Point{X: mid, Y: f.Depth}
	hollow := geom.Point{X: shoulder.X, Y: shoulder.Y + both - f.TipRadius}
	if f.TipRadius == 0 {
		return f.eased(append(p, geom.Arc(shoulder, tip, hollow, false)))
	}
	end := geom.Point{X: mid, Y: f.Depth - f.TipRadius}
	k := (both - f.TipRadius) / both // of the way between the centres
	touch := geom.Point{X: hollow.X + k*(end.X-hollow.X), Y: hollow.Y + k*(end.Y-hollow.Y)}
	return f.eased(append(p, geom.Arc(shoulder, touch, hollow, false), geom.Arc(touch, tip, end, true)))
}
