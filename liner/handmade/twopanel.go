package handmade

import (
	"math"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/words"
)

// How far the parts of a two-panel envelope stay back, in millimetres, so that
// a fold a little off or a little skew lets nothing stick out. Common practice,
// no source.
const (
	foldGap     = 0.5 // flap and bottom panel to the panel's corners, along their folds
	flapLean    = 3.0 // sides of the flap, over its depth
	bottomLean  = 1.0 // sides of the bottom panel, over its height
	bottomShort = 1.0 // bottom panel, folded, to the throat
	endLean     = 2.0 // ends of the side flaps, over their width
	sidesApart  = 4.0 // between the side flaps, folded
)

// usualFlap is a straight flap's depth as a share of the pocket's height when
// nobody asks for another and the sheet has room. Common practice, no source.
const usualFlap = 0.6

// twoPanels is how much of a sheet's height lies below the flap, in
// millimetres, for a pocket of a height.
func twoPanels(height float64) float64 { return 2*height - bottomShort }

// seamNarrower is how much less than a side flap's width the seam is at its
// narrowest, at the throat, in millimetres.
const seamNarrower = foldGap + bottomLean

// seamTwoPanel is the widest overlap that the pocket and the sheet have room
// for, in millimetres.
func seamTwoPanel(j Job) float64 {
	return min((j.Sheet.Width-j.Width)/2, (j.Width-sidesApart)/2) - seamNarrower
}

func leastTwoPanel(j Job) (size, error) {
	flap := j.FlapDepth
	if flap == 0 {
		flap = LeastFlap
	} else if !(flap >= LeastFlap && flap <= j.Height) {
		why, most := "too shallow to close", j.Height
		if flap > j.Height {
			why = "deeper than the pocket, which is " + words.MM(j.Height) + " high"
		}
		if left := j.Sheet.Height - twoPanels(j.Height); left >= LeastFlap-hair {
			most = min(most, left)
		}
		return size{}, &words.Refused{Field: "flap-depth", Given: words.MM(flap), Why: why,
			Accepts: words.MM(LeastFlap) + " to " + words.MMDown(most)}
	}
	return size{j.Width + 2*(j.Overlap+seamNarrower), flap + twoPanels(j.Height)}, nil
}

// straightFlap is the depth of the flap when nobody asks for one: what the
// sheet leaves, but not much more than the usual share of the pocket.
func straightFlap(j Job) float64 {
	left := math.Round((j.Sheet.Height-twoPanels(j.Height))*1e9) / 1e9 // 50.4 and not a hair less
	usual := max(LeastFlap, math.Round(usualFlap*j.Height))
	if left < usual+1 { // a strip narrower than that is not worth a cut
		return min(left, j.Height)
	}
	return usual
}

// layTwoPanel lays the flap along the sheet's upper edge and the rest below it,
// in the middle of the sheet's width.
func layTwoPanel(j Job) Blank {
	j.StraightBottom = false
	if j.FlapDepth == 0 {
		j.FlapDepth = straightFlap(j)
	}
	w, h, f := j.Width, j.Height, j.FlapDepth
	wing := min((j.Sheet.Width-w)/2, (w-sidesApart)/2)
	// across: the sheet's middle is 0; down: the sheet's upper edge is 0
	at := func(across, down float64) geom.Point { return geom.Point{X: j.Sheet.Width/2 + across, Y: down} }
	fold, turn, end := f, f+h, f+twoPanels(h) // the flap's fold, the bottom's, the blank's end

	b := Blank{Job: j}
	b.Envelope.Flap = liner.Flap{Shape: liner.Square, Depth: f, Taper: flapLean, BaseGap: foldGap}

	// the side flaps' ends begin to lean foldGap outside their folds, so that no
	// pinhole opens where the bottom panel stays foldGap inside
	sideOf := func(s float64) []geom.Point { // down the left (-1) or right (1) of the middle
		return []geom.Point{at(s*w/2, fold), at(s*(w/2+foldGap), fold), at(s*(w/2+wing), fold+endLean),
			at(s*(w/2+wing), turn-endLean), at(s*(w/2+foldGap), turn), at(s*w/2, turn)}
	}
	flap := []geom.Point{at(-w/2+foldGap, fold), at(-w/2+foldGap+flapLean, 0), at(w/2-foldGap-flapLean, 0), at(w/2-foldGap, fold)}
	bottom := []geom.Point{at(w/2-foldGap, turn), at(w/2-foldGap-bottomLean, end), at(-w/2+foldGap+bottomLean, end), at(-w/2+foldGap, turn)}
	right, left := sideOf(1), reversed(sideOf(-1))
	b.Outline = join(flap, right, bottom, left)
	b.Panels = []Panel{
		{Name: "panel", Shape: []geom.Point{at(-w/2, fold), at(w/2, fold), at(w/2, turn), at(-w/2, turn)}},
		{"left side flap", left, &Fold{"left side fold", at(-w/2, turn), at(-w/2, fold)}},
		{"right side flap", right, &Fold{"right side fold", at(w/2, fold), at(w/2, turn)}},
		{"bottom panel", bottom, &Fold{"bottom fold", at(w/2-foldGap, turn), at(-w/2+foldGap, turn)}},
		{"flap", flap, &Fold{"flap fold", at(-w/2+foldGap, fold), at(w/2-foldGap, fold)}},
	}
	b.Glue = []Piece{
		{"glue for the left side flap", seam(b.Panels[3], b.Panels[1])},
		{"glue for the right side flap", seam(b.Panels[3], b.Panels[2])},
	}

	strip, rest := (j.Sheet.Width-w)/2-wing, j.Sheet.Height-end
	outer := j.Sheet.Width / 2
	for _, s := range []struct {
		name string
		sign float64
		way  func([]geom.Point) []geom.Point
	}{{"left", -1, reversed}, {"right", 1, asIs}} {
		cut := func(name string, shape ...geom.Point) {
			b.CutAway = append(b.CutAway, Piece{name, s.way(shape)})
		}
		if strip > hair {
			cut("strip along the "+s.name+" edge", at(s.sign*(w/2+wing), 0), at(s.sign*outer, 0), at(s.sign*outer, j.Sheet.Height), at(s.sign*(w/2+wing), j.Sheet.Height))
		}
		cut("corner "+s.name+" of the flap", at(s.sign*(w/2-foldGap-flapLean), 0), at(s.sign*(w/2+wing), 0), at(s.sign*(w/2+wing), fold+endLean),
			at(s.sign*(w/2+foldGap), fold), at(s.sign*(w/2-foldGap), fold))
		cut("corner "+s.name+" of the bottom panel", at(s.sign*(w/2-foldGap), turn), at(s.sign*(w/2+foldGap), turn), at(s.sign*(w/2+wing), turn-endLean),
			at(s.sign*(w/2+wing), end), at(s.sign*(w/2-foldGap-bottomLean), end))
	}
	if rest > hair {
		b.CutAway = append(b.CutAway, Piece{"strip along the bottom edge", []geom.Point{at(-w/2-wing, end), at(w/2+wing, end), at(w/2+wing, j.Sheet.Height), at(-w/2-wing, j.Sheet.Height)}})
	}
	b.Measures = measureTwoPanel(j, wing, strip, rest)
	return b
}

// measureTwoPanel lists the distances of a two-panel envelope: first the folds,
// then the cuts, then what to check on the folded one.
func measureTwoPanel(j Job, wing, strip, rest float64) []Measure {
	w, h, f := j.Width, j.Height, j.FlapDepth
	edge := (j.Sheet.Width - w) / 2
	all := []Measure{
		{"sheet, width", j.Sheet.Width},
		{"sheet, height", j.Sheet.Height},
		{"flap fold, from the top edge", f},
		{"flap fold, from the bottom edge", j.Sheet.Height - f},
		{"flap fold, from the sheet's middle", math.Abs(j.Sheet.Height/2 - f)},
		{"bottom fold, from the top edge", f + h},
		{"bottom fold, from the bottom edge", j.Sheet.Height - f - h},
		{"bottom fold, from the sheet's middle", math.Abs(j.Sheet.Height/2 - f - h)},
		{"end of the bottom panel, from the top edge", f + twoPanels(h)},
		{"left side fold, from the left edge", edge},
		{"left side fold, from the right edge", edge + w},
		{"right side fold, from the left edge", edge + w},
		{"right side fold, from the right edge", edge},
		{"side folds, from the sheet's middle", w / 2},
	}
	if strip > hair {
		all = append(all, Measure{"strips cut away along the left and right edges", strip})
	}
	if rest > hair {
		all = append(all, Measure{"strip cut away along the bottom edge", rest})
	}
	return append(all,
		Measure{"flap, depth", f},
		Measure{"side flaps, width", wing},
		Measure{"bottom panel, height", h - bottomShort},
		Measure{"flap and bottom panel, kept back from the side folds at their own folds", foldGap},
		Measure{"flap, each side leans in", flapLean},
		Measure{"bottom panel, each side leans in", bottomLean},
		Measure{"side flaps, each end leans in", endLean},
		Measure{"glue overlap, at its narrowest", wing - seamNarrower},
		Measure{"glue, kept back from the edges of both papers", glueInset},
		Measure{"folded bottom panel, below the flap fold", bottomShort},
	)
}

// join strings chains together, dropping a point that repeats the one before.
func join(chains ...[]geom.Point) []geom.Point {
	var out []geom.Point
	for _, chain := range chains {
		for _, p := range chain {
			if len(out) == 0 || out[len(out)-1] != p {
				out = append(out, p)
			}
		}
	}
	if out[0] == out[len(out)-1] {
		out = out[1:]
	}
	return out
}

func asIs(points []geom.Point) []geom.Point { return points }

func reversed(points []geom.Point) []geom.Point {
	out := make([]geom.Point, len(points))
	for i, p := range points {
		out[len(points)-1-i] = p
	}
	return out
}
