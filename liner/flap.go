package liner

import (
	"fmt"
	"math"

	"underflap/liner/geom"
	"underflap/pattern/words"
)

// Shape names a form of flap.
type Shape string

// The shapes of flap known so far.
const (
	Pointed Shape = "pointed" // short shoulders, then slants to a rounded tip on the centre line
	Square  Shape = "square"  // sides that lean in by a taper, two rounded corners
)

// Shapes lists the shapes by name.
var Shapes = []Shape{Pointed, Square}

// Flap is the part that closes the envelope, measured from the fold.
type Flap struct {
	Shape     Shape
	Depth     float64 // from fold to the farthest point
	Shoulder  float64 // pointed: the short side that rises from the fold
	Taper     float64 // how far the straight sides lean in: shoulders or, on a square flap, whole sides
	BaseGap   float64 // how much narrower than the pocket the flap is at the fold, each side
	TipRadius float64 // rounding of the tip, or of a square flap's two corners
}

// Profile is the flap's free edge over a pocket of the given width, from the
// left end of the flap at the fold to the right one. It refuses measurements
// that make no flap.
func (f Flap) Profile(width float64) (geom.Profile, error) {
	left, mid := f.BaseGap, width/2
	if f.BaseGap+f.Taper >= mid-1 {
		field := "taper"
		if f.BaseGap >= f.Taper {
			field = "base-gap"
		}
		return nil, &words.Refused{Field: field, Given: words.MM(max(f.Taper, f.BaseGap)),
			Why: "leaves no flap", Accepts: fmt.Sprintf("base gap and taper together less than %s", words.MM(mid-1))}
	}
	var half geom.Profile // up to the centre line
	var err error
	switch f.Shape {
	case Pointed:
		half, err = f.pointedHalf(left, mid)
	case Square:
		half, err = f.squareHalf(left, mid)
	default:
		_, err = words.Choose("flap", string(f.Shape), shapeNames())
	}
	if err != nil {
		return nil, err
	}
	return append(half, mirror(half, width)...), nil
}

// pointedHalf rises along the shoulder, slants to where it touches the tip's
// circle, and follows that circle to the centre line.
func (f Flap) pointedHalf(left, mid float64) (geom.Profile, error) {
	foot := geom.Point{X: left, Y: 0}
	shoulder := geom.Point{X: left + f.Taper, Y: f.Shoulder}
	if f.Shoulder >= f.Depth {
		return nil, &words.Refused{Field: "shoulder", Given: words.MM(f.Shoulder),
			Why: fmt.Sprintf("as high as the flap, which is %s deep", words.MM(f.Depth)), Accepts: "less than the flap's depth"}
	}
	var p geom.Profile
	if shoulder != foot {
		p = append(p, geom.Line(foot, shoulder))
	}
	tip := geom.Point{X: mid, Y: f.Depth}
	if f.TipRadius == 0 {
		return append(p, geom.Line(shoulder, tip)), nil
	}
	// the tangent from the shoulder to the tip's circle, on its left side
	c := geom.Point{X: mid, Y: f.Depth - f.TipRadius}
	across, rise := mid-shoulder.X, f.Depth-f.Shoulder
	roundest := across // where the slant stands upright
	if across > rise {
		roundest = (across*across + rise*rise) / (2 * rise) // where nothing is left of it
	}
	if f.TipRadius >= roundest {
		return nil, f.tooRound(roundest)
	}
	d := shoulder.Distance(c)
	lean := math.Atan2(c.Y-shoulder.Y, c.X-shoulder.X)
	run := math.Sqrt(d*d - f.TipRadius*f.TipRadius)
	sin, cos := math.Sincos(lean + math.Asin(f.TipRadius/d))
	touch := geom.Point{X: shoulder.X + run*cos, Y: shoulder.Y + run*sin}
	return append(p, geom.Line(shoulder, touch), geom.Arc(touch, tip, c, true)), nil
}

func (f Flap) tooRound(roundest float64) error {
	return &words.Refused{Field: "tip-radius", Given: words.MM(f.TipRadius),
		Why:     fmt.Sprintf("too round for a flap %s deep", words.MM(f.Depth)),
		Accepts: "less than " + words.MM(roundest)}
}

// squareHalf rises along the leaning side, rounds the corner and runs level to
// the centre line.
func (f Flap) squareHalf(left, mid float64) (geom.Profile, error) {
	foot := geom.Point{X: left, Y: 0}
	corner := geom.Point{X: left + f.Taper, Y: f.Depth}
	top := geom.Point{X: mid, Y: f.Depth}
	if f.TipRadius == 0 {
		return geom.Profile{geom.Line(foot, corner), geom.Line(corner, top)}, nil
	}
	arc, ok := geom.Round(foot, corner, top, f.TipRadius)
	if !ok {
		return nil, f.tooRound(geom.Roundest(foot, corner, top))
	}
	return geom.Profile{geom.Line(foot, arc.A), arc, geom.Line(arc.B, top)}, nil
}

// mirror continues a left half over the centre line.
func mirror(half geom.Profile, width float64) geom.Profile {
	flipped := geom.Contour(half).Map(func(p geom.Point) geom.Point { return geom.Point{X: width - p.X, Y: p.Y} }, true)
	return geom.Profile(flipped.Reversed())
}

func shapeNames() []string {
	names := make([]string, len(Shapes))
	for i, s := range Shapes {
		names[i] = string(s)
	}
	return names
}

// ParseShape reads the name of a flap shape.
func ParseShape(field, given string) (Shape, error) {
	name, err := words.Choose(field, given, shapeNames())
	return Shape(name), err
}
