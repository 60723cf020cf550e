package liner

import (
	"math"

	"underflap/liner/geom"
)

// rounded flaps usually have no shoulders: the curve begins at the fold (common
// practice, no source; where there are some, leaving them out keeps the liner
// on the safe side).
var rounded = form{
	about: "one curve over the full width",
	takes: []string{"shoulder", "taper", "base-gap", "flap-corner-radius"},
	long:  0.45, short: 0.38,
	usual: func(f Flap, width float64) Flap {
		f.BaseGap = min(1, width/90)
		return f
	},
	half: Flap.roundedHalf,
}

// roundedHalf rises along the shoulder and follows one arc to the centre line
// or, where the flap is deeper than half its width, half an ellipse.
func (f Flap) roundedHalf(left, mid float64) (geom.Profile, error) {
	p, shoulder, err := f.shoulders(left)
	if err != nil {
		return nil, err
	}
	across, rise := mid-shoulder.X, f.Depth-f.Shoulder
	if rise > across {
		return f.eased(append(p, quarterEllipse(shoulder, across, rise)...))
	}
	c := geom.Point{X: mid, Y: f.Depth - arcOver(across, rise)}
	return f.eased(append(p, geom.Arc(shoulder, geom.Point{X: mid, Y: f.Depth}, c, true)))
}

// ellipseArcs are the arcs that stand for a quarter of an ellipse: 24 keep
// within 0.002 mm of one 200 by 100 mm.
const ellipseArcs = 24

// quarterEllipse climbs from the end of the level half axis, across long, to
// that of the upright one, rise long. Every arc runs through three points of
// the ellipse, but the first leaves upright and the last arrives level.
func quarterEllipse(from geom.Point, across, rise float64) geom.Profile {
	at := func(i float64) geom.Point {
		sin, cos := math.Sincos(i / ellipseArcs * math.Pi / 2)
		return geom.Point{X: from.X + across*(1-cos), Y: from.Y + rise*sin}
	}
	var p geom.Profile
	last := from
	for i := range ellipseArcs {
		end := at(float64(i + 1))
		var c geom.Point
		switch dx, dy := end.X-last.X, end.Y-last.Y; i {
		case 0:
			c = geom.Point{X: last.X + (dx*dx+dy*dy)/(2*dx), Y: last.Y}
		case ellipseArcs - 1:
			if dy > dx { // so deep that the curve is still steep
				c = geom.Through(last, at(float64(i)+0.5), end)
				break
			}
			end = geom.Point{X: from.X + across, Y: from.Y + rise}
			dx, dy = end.X-last.X, end.Y-last.Y
			c = geom.Point{X: end.X, Y: end.Y - (dx*dx+dy*dy)/(2*dy)}
		default:
			c = geom.Through(last, at(float64(i)+0.5), end)
		}
		p = append(p, geom.Arc(last, end, c, true))
		last = end
	}
	return p
}
