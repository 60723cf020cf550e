package liner

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"underflap/liner/geom"
	"underflap/pattern/words"
)

// Shape names a form of flap.
type Shape string

// The shapes of flap. Each has a file of its own.
const (
	Pointed Shape = "pointed" // short shoulders, then slants to a rounded tip on the centre line
	Square  Shape = "square"  // sides that lean in by a taper, two rounded corners
	Rounded Shape = "rounded" // one arc or half ellipse over the full width
	Contour Shape = "contour" // shoulders, then a concave curve into a narrower rounded end
	Traced  Shape = "traced"  // measured point by point
)

// Shapes lists the shapes that are chosen by name; a traced flap comes with
// its points.
var Shapes = []Shape{Pointed, Square, Rounded, Contour}

// Flap is the part that closes the envelope, measured from the fold.
type Flap struct {
	Shape        Shape
	Depth        float64      // from fold to the farthest point
	Shoulder     float64      // the short side that rises from the fold
	Taper        float64      // how far the straight sides lean in: shoulders or, on a square flap, whole sides
	BaseGap      float64      // how much narrower than the pocket the flap is at the fold, each side
	TipRadius    float64      // rounding of the tip, or of a square flap's two corners
	CornerRadius float64      // rounding of the corners where the shoulders end; on a square flap, its two corners
	Trace        []geom.Point // traced: the free edge from left to right, x from the pocket's left side
}

// form is what a shape is made of.
type form struct {
	about string
	takes []string // fields, by flag, that mean something on it
	// half is the free edge from the fold to the centre line; left is the flap's
	// end at the fold and mid the centre line
	half func(f Flap, left, mid float64) (geom.Profile, error)
	// usual fills in what people do not measure
	usual func(f Flap, width float64) Flap
	// long and short are usual depths as a share of the pocket's lesser side,
	// by the side the flap is on
	long, short float64
}

// forms holds every shape with a name; their proportions are common practice,
// no source.
var forms = map[Shape]form{Pointed: pointed, Square: square, Rounded: rounded, Contour: contour}

// About says in words what a shape looks like.
func (s Shape) About() string { return forms[s].about }

// Takes lists the measurements, by flag, that mean something on the shape
// beside its depth.
func (s Shape) Takes() []string { return forms[s].takes }

// Taking lists the shapes on which a measurement means something.
func Taking(field string) []string {
	var out []string
	for _, s := range Shapes {
		if slices.Contains(s.Takes(), field) {
			out = append(out, string(s))
		}
	}
	return out
}

// UsualFlap fills in what people do not measure on a flap of a depth, in
// millimetres, over a pocket of a width.
func UsualFlap(shape Shape, depth, width float64) Flap {
	f := Flap{Shape: shape, Depth: depth}
	if known, ok := forms[shape]; ok {
		return known.usual(f, width)
	}
	return f
}

// small shrinks usual measurements on a shallow flap or a narrow pocket.
func small(depth, width float64) float64 { return min(1, depth/30, width/90) }

// proportional is a depth, in whole millimetres, that suits a shape on a pocket.
func proportional(shape Shape, width, height float64) float64 {
	share := forms[shape].long
	if width < height {
		share = forms[shape].short
	}
	return math.Round(share * min(width, height))
}

// Profile is the flap's free edge over a pocket of the given width, from the
// left end of the flap at the fold to the right one. It refuses measurements
// that make no flap.
func (f Flap) Profile(width float64) (geom.Profile, error) {
	if f.Shape == Traced {
		return traced(f.Trace, width)
	}
	left, mid := f.BaseGap, width/2
	if f.BaseGap+f.Taper >= mid-1 {
		field := "taper"
		if f.BaseGap >= f.Taper {
			field = "base-gap"
		}
		return nil, &words.Refused{Field: field, Given: words.MM(max(f.Taper, f.BaseGap)),
			Why: "leaves no flap", Accepts: fmt.Sprintf("base gap and taper together less than %s", words.MMDown(mid-1))}
	}
	known, ok := forms[f.Shape]
	if !ok {
		_, err := words.Choose("flap", string(f.Shape), shapeNames())
		return nil, err
	}
	half, err := known.half(f, left, mid)
	if err != nil {
		return nil, err
	}
	return append(half, mirror(half, width)...), nil
}

// shoulders rises from the fold to the end of the shoulder.
func (f Flap) shoulders(left float64) (p geom.Profile, top geom.Point, err error) {
	foot := geom.Point{X: left, Y: 0}
	top = geom.Point{X: left + f.Taper, Y: f.Shoulder}
	if f.Shoulder >= f.Depth {
		return nil, top, &words.Refused{Field: "shoulder", Given: words.MM(f.Shoulder),
			Why: fmt.Sprintf("as high as the flap, which is %s deep", words.MM(f.Depth)), Accepts: "less than the flap's depth"}
	}
	if top != foot {
		p = append(p, geom.Line(foot, top))
	}
	return p, top, nil
}

// eased rounds the corner where the shoulder ends, between the first two
// segments of a half.
func (f Flap) eased(half geom.Profile) (geom.Profile, error) {
	if f.CornerRadius == 0 {
		return half, nil
	}
	none := func(why, accepts string) error {
		return &words.Refused{Field: "flap-corner-radius", Given: words.MM(f.CornerRadius), Why: why, Accepts: accepts}
	}
	if f.Shoulder == 0 || len(half) < 2 || half[0].R != 0 {
		return nil, none("without a shoulder the flap has no corner", "with a --shoulder")
	}
	first, arc, second, ok := geom.Fillet(half[0], half[1], f.CornerRadius)
	if !ok {
		most := geom.MostFillet(half[0], half[1])
		if most < 0.1 {
			return nil, none("the edge runs smoothly on where the shoulder ends", "without it, or with another --shoulder or --taper")
		}
		return nil, f.tooRound("flap-corner-radius", f.CornerRadius, most)
	}
	return append(geom.Profile{first, arc, second}, half[2:]...), nil
}

func (f Flap) tooRound(field string, given, roundest float64) error {
	return &words.Refused{Field: field, Given: words.MM(given),
		Why:     fmt.Sprintf("too round for a flap %s deep", words.MM(f.Depth)),
		Accepts: "less than " + words.MMDown(roundest)}
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
	name, err := words.Choose(field, strings.TrimSpace(given), shapeNames())
	return Shape(name), err
}
