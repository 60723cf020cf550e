package liner

import (
	"math"

	"underflap/liner/geom"
)

// pointed flaps usually rise about 6 mm before they slant, and end in a tip of
// 8 mm radius (common practice, no source).
var pointed = form{
	about: "short shoulders, then slants to a rounded tip",
	takes: []string{"shoulder", "taper", "base-gap", "tip-radius", "flap-corner-radius"},
	long:  0.55, short: 0.5,
	usual: func(f Flap, width float64) Flap {
		k := small(f.Depth, width)
		f.Shoulder, f.Taper, f.BaseGap, f.TipRadius = 6*k, 1*k, min(1, width/90), 8*k
		return f
	},
	half: Flap.pointedHalf,
}

// pointedHalf rises along the shoulder, slants to where it touches the tip's
// circle, and follows that circle to the centre line.
func (f Flap) pointedHalf(left, mid float64) (geom.Profile, error) {
	p, shoulder, err := f.shoulders(left)
	if err != nil {
		return nil, err
	}
	tip := geom.Point{X: mid, Y: f.Depth}
	if f.TipRadius == 0 {
		return f.eased(append(p, geom.Line(shoulder, tip)))
	}
	// the tangent from the shoulder to the tip's circle, on its left side
	c := geom.Point{X: mid, Y: f.Depth - f.TipRadius}
	across, rise := mid-shoulder.X, f.Depth-f.Shoulder
	roundest := across // where the slant stands upright
	if across > rise {
		roundest = arcOver(across, rise) // where nothing is left of it
	}
	if f.TipRadius >= roundest {
		return nil, f.tooRound("tip-radius", f.TipRadius, roundest)
	}
	d := shoulder.Distance(c)
	lean := math.Atan2(c.Y-shoulder.Y, c.X-shoulder.X)
	run := math.Sqrt(d*d - f.TipRadius*f.TipRadius)
	sin, cos := math.Sincos(lean + math.Asin(f.TipRadius/d))
	touch := geom.Point{X: shoulder.X + run*cos, Y: shoulder.Y + run*sin}
	return f.eased(append(p, geom.Line(shoulder, touch), geom.Arc(touch, tip, c, true)))
}

// arcOver is the radius of the arc that rises by rise over twice across
// (sagitta and chord, school geometry).
func arcOver(across, rise float64) float64 { return (across*across + rise*rise) / (2 * rise) }
