package liner

import "underflap/liner/geom"

// square flaps usually have sides that lean in by 5 mm and corners of 6 mm
// radius (common practice, no source).
var square = form{
	about: "sides that lean in a little, two rounded corners",
	takes: []string{"taper", "base-gap", "tip-radius", "flap-corner-radius"},
	long:  0.38, short: 0.22,
	usual: func(f Flap, width float64) Flap {
		k := small(f.Depth, width)
		f.Taper, f.BaseGap, f.TipRadius = 5*k, min(1, width/90), 6*k
		return f
	},
	half: Flap.squareHalf,
}

// squareHalf rises along the leaning side, rounds the corner and runs level to
// the centre line.
func (f Flap) squareHalf(left, mid float64) (geom.Profile, error) {
	foot := geom.Point{X: left, Y: 0}
	corner := geom.Point{X: left + f.Taper, Y: f.Depth}
	top := geom.Point{X: mid, Y: f.Depth}
	field, radius := "tip-radius", f.TipRadius
	if f.CornerRadius > 0 { // its corners are its tip
		field, radius = "flap-corner-radius", f.CornerRadius
	}
	if radius == 0 {
		return geom.Profile{geom.Line(foot, corner), geom.Line(corner, top)}, nil
	}
	arc, ok := geom.Round(foot, corner, top, radius)
	if !ok {
		return nil, f.tooRound(field, radius, geom.Roundest(foot, corner, top))
	}
	return geom.Profile{geom.Line(foot, arc.A), arc, geom.Line(arc.B, top)}, nil
}
