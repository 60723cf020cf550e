package handmade

import (
	"fmt"
	"math"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/words"
)

// Lengths that are accepted, in millimetres. Common practice, no source: a seam
// of 10 mm takes a glue stick, and less than 6 mm leaves no line of glue once
// it keeps off both edges; a flap of 25 mm still holds a sticker.
const (
	DefaultOverlap = 10.0 // least width that glued panels overlap by, when nobody asks for another
	LeastOverlap   = 6.0
	LeastFlap      = 25.0 // depth of a straight flap
	LeastPocket    = 40.0 // either side of a pocket
)

// mostPocket is past every paper, in millimetres.
const mostPocket = 1300.0

// hair is a length in millimetres that nobody can cut: what rounding leaves.
const hair = 1e-6

// maker is how one construction is worked out.
type maker struct {
	// least refuses what no sheet can make, and gives the least sheet for the rest
	least func(Job) (size, error)
	// seam is the widest overlap that pocket and sheet have room for
	seam func(Job) float64
	// blank lays the envelope out on a sheet that is large enough
	blank func(Job) Blank
}

var makers = map[Construction]maker{
	TwoPanel:   {leastTwoPanel, seamTwoPanel, layTwoPanel},
	FourCorner: {leastFourCorner, seamFourCorner, layFourCorner},
}

// New works out an envelope. Zero stands for what suits: without a sheet the
// smallest standard one that is large enough is taken, without an overlap
// DefaultOverlap, without a flap depth what the construction says. What was
// filled in stands in the Blank's Job, and New lays out the same envelope for
// that Job. A straight bottom that would leave no straight edge, or is asked of
// two panels, where it is straight anyway, is dropped from it. When no standard
// sheet is large enough, the Blank's Smallest has no width.
//
// It returns a *words.Refused that names the measurement to look at: handmade
// (the construction), pocket, from (the sheet), flap-depth or overlap.
func New(j Job) (Blank, error) {
	var err error
	if j.Construction, err = ParseConstruction("handmade", string(j.Construction)); err != nil {
		return Blank{}, err
	}
	if !(min(j.Width, j.Height) >= LeastPocket && max(j.Width, j.Height) <= mostPocket) {
		return Blank{}, &words.Refused{Field: "pocket", Given: words.MMSize(j.Width, j.Height),
			Accepts: fmt.Sprintf("each side from %s to %s", words.MM(LeastPocket), words.MM(mostPocket))}
	}
	if j.Overlap == 0 {
		j.Overlap = DefaultOverlap
	}
	way := makers[j.Construction]
	least, err := way.least(j)
	if err != nil {
		return Blank{}, err
	}
	if most := j.onAnySheet(way.seam); !(j.Overlap >= LeastOverlap && j.Overlap <= most+hair) {
		return Blank{}, refusedOverlap(j, most)
	}
	smallest := smallestFor(least)
	if j.Sheet.Width == 0 {
		if j.Sheet = smallest; smallest.Width == 0 {
			return Blank{}, &words.Refused{Field: "from", Why: "no standard sheet is large enough" + forPocket(j),
				Accepts: "a sheet of at least " + least.words()}
		}
	}
	if !least.fits(j.Sheet) {
		return Blank{}, tooSmall(j, way, least, smallest)
	}
	b := way.blank(j)
	b.Smallest = smallest
	b.Envelope.Name, b.Envelope.Short = "handmade", words.MMSize(j.Width, j.Height)
	b.Envelope.Width, b.Envelope.Height = j.Width, j.Height
	return b, nil
}

// Folded is the panel's shape turned over about its fold, in sheet space, in
// millimetres: where it lies on the first panel. A panel without a fold lies
// where it is.
func (p Panel) Folded() []geom.Point {
	if p.Fold == nil {
		return p.Shape
	}
	return p.Fold.over(p.Shape)
}

// onAnySheet is the widest overlap that the pocket alone has room for.
func (j Job) onAnySheet(seam func(Job) float64) float64 {
	j.Sheet = liner.Paper{Width: math.Inf(1), Height: math.Inf(1)}
	return seam(j)
}

// forPocket ends a sentence.
func forPocket(j Job) string { return " for a pocket of " + words.MMSize(j.Width, j.Height) }

// ParseConstruction reads the name of a construction.
func ParseConstruction(field, given string) (Construction, error) {
	name, err := words.Choose(field, given, Names())
	return Construction(name), err
}

// Names lists the constructions by name.
func Names() []string {
	out := make([]string, len(Constructions))
	for i, c := range Constructions {
		out[i] = string(c)
	}
	return out
}

// given is how a person knows the sheet.
func given(p liner.Paper) string {
	if p.Short != "" {
		return p.Short
	}
	return words.MMSize(p.Width, p.Height)
}

// refusedOverlap tells how wide an overlap may be, up to most millimetres.
func refusedOverlap(j Job, most float64) error {
	why := "too wide" + forPocket(j)
	if !(j.Overlap >= LeastOverlap) {
		why = "too narrow for a line of glue"
	}
	return &words.Refused{Field: "overlap", Given: words.MM(j.Overlap), Why: why,
		Accepts: words.MM(LeastOverlap) + " to " + words.MMDown(most)}
}
