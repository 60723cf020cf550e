// Package handmade works out envelopes folded from a sheet around a card: every
// fold, what is cut away, where the glue goes, and whether the sheet is large
// enough. Lengths are millimetres. Sheet space has its origin at the sheet's
// top left, x to the right and y down.
package handmade

import (
	"underflap/liner"
	"underflap/liner/geom"
)

// Construction names a way to fold an envelope from a sheet.
type Construction string

// The two constructions.
const (
	TwoPanel   Construction = "two-panel"   // an upright sheet: flap, panel and bottom panel, one above the other
	FourCorner Construction = "four-corner" // a square turned 45 degrees: its four corners fold to the middle
)

// Constructions lists the constructions by name.
var Constructions = []Construction{TwoPanel, FourCorner}

// Job is an envelope to fold.
type Job struct {
	Construction   Construction
	Width, Height  float64     // pocket, along the flap's fold and from there to the bottom
	Sheet          liner.Paper // folded from; without a width: the smallest standard sheet that is large enough
	Side           float64     // four-corner: side of the square cut from the sheet; 0: as large as sheet and pocket allow
	FlapDepth      float64     // two-panel: depth of the straight flap; 0: what suits the pocket and the sheet leaves
	StraightBottom bool        // four-corner: the bottom flap's corner is trimmed straight
	Overlap        float64     // least width that glued panels overlap by
}

// Blank is the flat envelope on its sheet, and the envelope that it becomes.
type Blank struct {
	Job                     // with the sheet filled in
	Envelope liner.Envelope // for the liner: flap as folded, no gum
	Outline  []geom.Point   // the cut line, in order; the last point joins the first
	Panels   []Panel        // in the order they fold; the first is the one that lies still
	CutAway  []Piece        // what is cut off the sheet
	Glue     []Piece        // where glue goes, on the sheet's inside
	Smallest liner.Paper    // the smallest standard sheet that is large enough
	Measures []Measure      // every distance a person marks or checks, in working order
}

// Panel is a part of the blank between folds.
type Panel struct {
	Name  string
	Shape []geom.Point
	Fold  *Fold // that turns it over onto the first panel; nil for the first
}

// Fold is a straight fold between two points of the cut line.
type Fold struct {
	Name string
	A, B geom.Point
}

// Piece is a named area of the sheet.
type Piece struct {
	Name  string
	Shape []geom.Point
}

// Measure is a named distance.
type Measure struct {
	Name string
	MM   float64
}
