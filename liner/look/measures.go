package look

import (
	"slices"

	"underflap/liner"
	"underflap/pattern/words"
)

// measure is a measurement as the legend lists it.
type measure struct {
	name, flag string
	value      float64 // in millimetres
	how        string  // where the ruler lies, for the three that a maker takes
}

// The measurements' names. The liner's clearances come last.
const (
	widthOf      = "width"
	heightOf     = "height"
	depthOf      = "flap depth"
	shoulder     = "shoulder"
	taper        = "taper"
	baseGap      = "base gap"
	tipRadius    = "tip radius"
	flapCorner   = "flap corner radius"
	gum          = "gum"
	gumClearance = "gum clearance"
	sideGap      = "side gap"
	pocketDepth  = "pocket depth"
	cornerRadius = "liner corner radius"
)

// three are the measurements a maker takes with a ruler.
func (f *figure) three() []measure {
	e := f.Envelope
	pocket, flap := "--pocket", "--flap-depth"
	if e.Flap.Shape == liner.Traced {
		flap = "--profile"
	}
	return []measure{
		{widthOf, pocket, e.Width, "of the pocket, along the fold"},
		{heightOf, pocket, e.Height, "from the fold to the bottom"},
		{depthOf, flap, f.depth, "from the fold to the flap's end"},
	}
}

// further are the measurements beside those that mean something on this
// envelope.
func (f *figure) further() []measure {
	e := f.Envelope
	var out []measure
	for _, m := range []measure{
		{shoulder, "--shoulder", e.Flap.Shoulder, ""},
		{taper, "--taper", e.Flap.Taper, ""},
		{baseGap, "--base-gap", e.Flap.BaseGap, ""},
		{tipRadius, "--tip-radius", e.Flap.TipRadius, ""},
		{flapCorner, "--flap-corner-radius", e.Flap.CornerRadius, ""},
	} {
		if m.name == flapCorner && e.Flap.Shape == liner.Square {
			continue // there it is the tip radius
		}
		if slices.Contains(e.Flap.Shape.Takes(), m.flag[2:]) {
			out = append(out, m)
		}
	}
	out = append(out, measure{gum, "--gum", e.Gum, ""})
	if e.Gum > 0 {
		out = append(out, measure{gumClearance, "--gum-clearance", f.GumClearance, ""})
	}
	return append(out,
		measure{sideGap, "--side-gap", f.SideGap, ""},
		measure{pocketDepth, "--pocket-depth", f.WantedPocketDepth(), ""},
		measure{cornerRadius, "--corner-radius", f.CornerRadius, ""})
}

// means tells whether a measurement means something on this envelope.
func (f *figure) means(name string) bool {
	return slices.ContainsFunc(f.further(), func(m measure) bool { return m.name == name })
}

// both writes a length in millimetres and in inches.
func both(mm float64) string { return words.MM(mm) + " (" + words.Inches(mm) + ")" }
