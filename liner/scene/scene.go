// Package scene draws the lined envelope as it lies on a table, good enough to
// choose by: paper, gum, liner, throat and soft shadows, at true size and seen
// straight from above. Lengths are millimetres. Scene space has its origin at
// the left end of the fold, x to the right and y down, so that it is liner space
// upside down and pattern space moved by half the pocket's width.
package scene

import (
	"context"
	"fmt"
	"math"
	"strings"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern"
	"underflap/pattern/draw"
)

// View is a way to look at an envelope.
type View string

// The views. The fold lies level in all of them.
const (
	Open   View = "open"   // the back, flap turned up and flat on the table
	Half   View = "half"   // the back, flap raised by Raised degrees from the table
	Closed View = "closed" // the back, flap down
	Front  View = "front"  // the side for the address, flap closed behind it
)

// Views lists the views by name.
var Views = []View{Open, Half, Closed, Front}

// Raised is how far the flap of Half stands up from the table, in degrees; seen
// from above it is as deep as its cosine.
const Raised = 60.0

// lift is what a view leaves of a length up the flap, seen from above; it is
// negative where the flap lies on the pocket.
func (v View) lift() float64 {
	switch v {
	case Half:
		return math.Cos(Raised * math.Pi / 180)
	case Closed, Front:
		return -1
	}
	return 1
}

// raise maps a length up the flap to what a view leaves of it.
func (v View) raise() draw.Matrix { return draw.Matrix{A: 1, D: v.lift()} }

// Scene is an envelope with its liner, every colour known.
type Scene struct {
	Liner    liner.Liner
	Depth    float64 // of the liner's pocket part, as it is cut
	Design   pattern.Design
	Panels   []geom.Contour // of the back, in liner space, lowest first; none: the usual ones
	Envelope draw.Colour    // of its paper
	Paper    draw.Colour    // of the liner's paper, where nothing is printed on it
	Table    draw.Colour
	Card     *Card    // peeps out of the pocket; nil: none
	Shadows  *Shadows // keeps them for other scenes; nil: nobody
	Flat     bool     // without shadows, light and paper edges, to measure and to compare
}

// Card is a card that stands in the pocket.
type Card struct {
	Width, Height float64 // along the fold, and from there down
	Colour        draw.Colour
}

// bleed is the artwork's past the cut line; motifs at the edge are those of a
// sheet with the usual bleed.
const bleed = 2.0

// Check refuses a design that a sheet would refuse too.
func (sc Scene) Check() error {
	d := sc.Design
	d.Depth = sc.Depth
	return d.Check(sc.area())
}

// area is the box of the artwork in pattern space.
func (sc Scene) area() draw.Rect {
	b := sc.Liner.Outline(sc.Depth).Bleed(bleed).Bounds()
	half := sc.Liner.Envelope.Width / 2
	return draw.Rect{MinX: b.MinX - half, MinY: -b.MaxY, MaxX: b.MaxX - half, MaxY: -b.MinY}
}

// bounds is the box of the envelope in scene space.
func (sc Scene) bounds(v View) draw.Rect {
	e := sc.Liner.Envelope
	r := draw.Rect{MaxX: e.Width, MaxY: e.Height}
	if up := sc.Liner.FlapProfile().Height() * v.lift(); up > 0 {
		r.MinY = -up
	}
	if sc.Card != nil && v.lift() > 0 {
		r.MinY = min(r.MinY, -sc.cardRise(v))
	}
	return r
}

// border is the table left around an envelope.
func (sc Scene) border() float64 {
	e := sc.Liner.Envelope
	return min(34, max(12, 0.16*max(e.Width, e.Height)))
}

// Placed is a picture with the places of what it shows.
type Placed struct {
	*draw.Page
	Folds []draw.Point // the left end of each envelope's fold on the page
	Scale float64      // page millimetres to a millimetre of the envelope
}

// Picture draws the envelope in one or more views, side by side with their folds
// in line, at true size. When ctx ends it stops and gives the context's error.
func (sc Scene) Picture(ctx context.Context, views []View) (Placed, error) {
	border := sc.border()
	width, top, foot := border, 0.0, 0.0
	for _, v := range views {
		b := sc.bounds(v)
		width += b.Width() + border
		top, foot = min(top, b.MinY), max(foot, b.MaxY)
	}
	p := Placed{Page: draw.NewPage(width, foot-top+2*border), Scale: 1}
	p.Until(ctx)
	x := border
	for range views {
		p.Folds = append(p.Folds, draw.Point{X: x, Y: border - top})
		x += sc.Liner.Envelope.Width + border
	}
	p.Trim = draw.Rect{MaxX: p.Width, MaxY: p.Height}
	p.Layer(draw.Artwork, func(s *draw.Surface) {
		s.Fill(p.Whole(), sc.Table)
		for i, v := range views {
			s.Within(draw.Translate(p.Folds[i].X, p.Folds[i].Y), func(s *draw.Surface) { sc.draw(s, v) })
		}
	})
	p.Title = fmt.Sprintf("%s envelope lined with %s in %s", sc.Liner.Envelope.Short, sc.Design.Name, strings.ReplaceAll(sc.Design.Colours.Name, "-", " "))
	return p, ctx.Err()
}
