package handmade

import (
	"math"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/words"
)

const (
	// shoulderLean is how far each shoulder cut of a four-corner envelope leans
	// in by where it meets the square's edge, in millimetres. Common practice, no
	// source.
	shoulderLean = 1.5
	// tipClear is how far every tip, folded, stays inside the pocket's far edge,
	// in millimetres.
	tipClear = 2.0
	// leastEdge is the shortest straight edge, in millimetres, that a bottom flap
	// is trimmed for.
	leastEdge = 2.0
)

// square is the sheet of a four-corner envelope by its reach H, the distance
// from its middle to a corner: side/√2. Its corners fold over lines w/2 and h/2
// from the middle, so the side flaps are H - w/2 deep, flap and bottom H - h/2;
// the shoulder H - w/2 - h/2 is how far the square's edge passes outside the
// pocket's corner, along the width as along the height. Lengths are millimetres.
type square struct{ w, h, reach float64 }

func (q square) shoulder() float64 { return q.reach - q.w/2 - q.h/2 }

// overlap is the seam's width: the bottom flap's slants, folded, lie parallel to
// the side flaps' slants and that far inside them.
func (q square) overlap() float64 { return math.Sqrt2 * q.shoulder() }

// leastReach is the reach H when slants overlap by overlap and, over a pocket
// taller than wide, flap and bottom flap still do so in the middle: their tips
// stand 2(H-h) past each other. Over other pockets that follows.
func (j Job) leastReach(overlap float64) float64 {
	return max((j.Width+j.Height)/2+overlap/math.Sqrt2, j.Height+overlap/2)
}

// mostReach is the reach H when the nearest tip, folded, comes to tipClear from
// the pocket's far edge: a flap H - h/2 deep over a pocket h high.
func (j Job) mostReach() float64 { return 1.5*min(j.Width, j.Height) - tipClear }

// seamFourCorner is the widest overlap that the pocket and the sheet have room
// for, in millimetres: leastReach solved for it.
func seamFourCorner(j Job) float64 {
	reach := min(j.mostReach(), min(j.Sheet.Width, j.Sheet.Height)/math.Sqrt2)
	return min(math.Sqrt2*(reach-(j.Width+j.Height)/2), 2*(reach-j.Height))
}

func leastFourCorner(j Job) (size, error) {
	w, h, most := j.Width, j.Height, j.mostReach()
	if j.leastReach(LeastOverlap) > most {
		// leastReach(LeastOverlap) <= mostReach, solved for the longer side
		accepts := "up to " + words.MMDown(2*h-2*tipClear-math.Sqrt2*LeastOverlap) + " wide at that height"
		if w < h {
			accepts = "up to " + words.MMDown(min(2*w-2*tipClear-math.Sqrt2*LeastOverlap, 1.5*w-tipClear-LeastOverlap/2)) + " high at that width"
		}
		return size{}, &words.Refused{Field: "pocket", Given: words.MMSize(w, h),
			Why:     "too long for a square's corners: some would stick out on the far side",
			Accepts: accepts + ", or the construction " + string(TwoPanel)}
	}
	if j.FlapDepth != 0 {
		return size{}, &words.Refused{Field: "flap-depth", Given: words.MM(j.FlapDepth), Why: "the square alone decides how deep a pointed flap is",
			Accepts: "another sheet instead, or the construction " + string(TwoPanel)}
	}
	side := math.Sqrt2 * j.leastReach(j.Overlap)
	return size{side, side}, nil
}

// usualShoulder makes short shoulders, and slants that overlap by 21 mm. Common
// practice, no source.
const usualShoulder = 15.0

// UsualSide is the side, in whole millimetres, of a square that suits a
// four-corner envelope when the sheet has more to give.
func UsualSide(width, height float64) float64 {
	return math.Ceil(math.Sqrt2 * ((width+height)/2 + usualShoulder))
}

// squareOf is the largest square, up to the side asked for, that the sheet gives and the pocket takes; when
// the pocket limits it, its side is whole millimetres if it can be.
func squareOf(j Job) (square, float64) {
	side := min(j.Sheet.Width, j.Sheet.Height)
	if j.Side > 0 {
		side = min(side, max(j.Side, math.Sqrt2*j.leastReach(j.Overlap)))
	}
	if most := math.Sqrt2 * j.mostReach(); side > most {
		if side = math.Floor(most); side < math.Sqrt2*j.leastReach(j.Overlap) {
			side = most
		}
	}
	return square{j.Width, j.Height, side / math.Sqrt2}, side
}

// layFourCorner cuts the square from the sheet's top left. The pocket lies in
// the square's middle, turned an eighth anticlockwise: the flap's tip is the
// square's top left corner, the bottom flap's the lower right one, the left side
// flap's the lower left and the right side flap's the upper right.
func layFourCorner(j Job) Blank {
	q, edge := squareOf(j)
	w, h, shoulder, t := q.w/2, q.h/2, q.shoulder(), shoulderLean
	if q.w-q.h < leastEdge {
		j.StraightBottom = false
	}
	// x right along the folds of flap and bottom, y down from flap to bottom, from
	// the pocket's middle
	at := func(x, y float64) geom.Point {
		return geom.Point{X: edge/2 + (y+x)/math.Sqrt2, Y: edge/2 + (y-x)/math.Sqrt2}
	}
	corner := [4]geom.Point{at(-w, -h), at(w, -h), at(w, h), at(-w, h)} // of the pocket, clockwise from the flap's left
	tip := [4]geom.Point{{X: 0, Y: 0}, {X: edge, Y: 0}, {X: edge, Y: edge}, {X: 0, Y: edge}}
	// where shoulder cuts meet the square's edge, clockwise from the flap's left;
	// a lean moves them along the slant, so the shoulder grows by as much
	high, wide := h+shoulder+t, w+shoulder+t
	cut := [8]geom.Point{at(-w+t, -high), at(w-t, -high), at(wide, -h+t), at(wide, h-t),
		at(w-t, high), at(-w+t, high), at(-wide, h-t), at(-wide, -h+t)}

	b := Blank{Job: j}
	b.Envelope.Flap = liner.Flap{Shape: liner.Pointed, Depth: q.reach - h, Shoulder: shoulder + t, Taper: t}
	flap := []geom.Point{corner[0], cut[0], tip[0], cut[1], corner[1]}
	right := []geom.Point{corner[1], cut[2], tip[1], cut[3], corner[2]}
	bottom := []geom.Point{corner[2], cut[4], tip[2], cut[5], corner[3]}
	left := []geom.Point{corner[3], cut[6], tip[3], cut[7], corner[0]}
	if j.StraightBottom {
		// the slants' crossing, folded, is the shoulder above the middle and half the
		// difference of the sides off it (two lines of slope 1 and -1)
		deep, half := 2*h+shoulder, w-h
		a, c := at(half, deep), at(-half, deep)
		bottom = []geom.Point{corner[2], cut[4], a, c, cut[5], corner[3]}
		b.CutAway = append(b.CutAway, Piece{"tip of the bottom flap", []geom.Point{a, tip[2], c}})
	}
	b.Outline = join(flap, right, bottom, left)
	b.Panels = []Panel{
		{Name: "panel", Shape: corner[:]},
		{"left side flap", left, &Fold{"left side fold", corner[3], corner[0]}},
		{"right side flap", right, &Fold{"right side fold", corner[1], corner[2]}},
		{"bottom flap", bottom, &Fold{"bottom fold", corner[2], corner[3]}},
		{"flap", flap, &Fold{"flap fold", corner[0], corner[1]}},
	}
	b.Glue = []Piece{
		{"glue for the left side flap", seam(b.Panels[3], b.Panels[1], b.Panels[2])},
		{"glue for the right side flap", seam(b.Panels[3], b.Panels[2], b.Panels[1])},
	}
	b.CutAway = append(b.CutAway,
		Piece{"corner between flap and left side flap", []geom.Point{corner[0], cut[7], cut[0]}},
		Piece{"corner between flap and right side flap", []geom.Point{corner[1], cut[1], cut[2]}},
		Piece{"corner between bottom flap and right side flap", []geom.Point{corner[2], cut[3], cut[4]}},
		Piece{"corner between bottom flap and left side flap", []geom.Point{corner[3], cut[5], cut[6]}})
	b.CutAway = append(besideSquare(j.Sheet, edge), b.CutAway...)
	b.Measures = measureFourCorner(j, q, edge)
	return b
}

// besideSquare is what the sheet has right of and below the square.
func besideSquare(p liner.Paper, edge float64) []Piece {
	var rest []Piece
	rect := func(name string, x, y, right, bottom float64) {
		if right-x > hair && bottom-y > hair {
			rest = append(rest, Piece{name, []geom.Point{{X: x, Y: y}, {X: right, Y: y}, {X: right, Y: bottom}, {X: x, Y: bottom}}})
		}
	}
	rect("strip right of the square", edge, 0, p.Width, p.Height)
	rect("strip below the square", 0, edge, edge, p.Height)
	return rest
}

// measureFourCorner lists the distances of a four-corner envelope: the square,
// where the folds meet its edges and how far they lie from its middle, the
// cuts, then what to check on the folded one.
func measureFourCorner(j Job, q square, edge float64) []Measure {
	side, end := q.reach-q.w/2, q.reach-q.h/2
	all := []Measure{
		{"sheet, width", j.Sheet.Width},
		{"sheet, height", j.Sheet.Height},
		{"square, side", edge},
	}
	if rest := j.Sheet.Width - edge; rest > hair {
		all = append(all, Measure{"strip cut away right of the square", rest})
	}
	if rest := j.Sheet.Height - edge; rest > hair {
		all = append(all, Measure{"strip cut away below the square", rest})
	}
	all = append(all,
		Measure{"side folds, from their corner along both edges of the square", side * math.Sqrt2},
		Measure{"flap fold, from the flap's corner along both edges of the square", end * math.Sqrt2},
		Measure{"bottom fold, from the bottom corner along both edges of the square", end * math.Sqrt2},
		Measure{"side folds, from the middle of the square", q.w / 2},
		Measure{"flap fold, from the middle of the square", q.h / 2},
		Measure{"bottom fold, from the middle of the square", q.h / 2},
		Measure{"shoulder, from where two folds cross straight out to the square's edge", q.shoulder()},
		Measure{"shoulder cuts, past the two fold marks on each edge, away from each other", shoulderLean * math.Sqrt2},
		Measure{"shoulder cuts, how far they lean in", shoulderLean},
		Measure{"side flaps, depth", side},
	)
	if j.StraightBottom {
		all = append(all,
			Measure{"bottom flap, depth to its straight edge", q.h/2 + q.shoulder()},
			Measure{"bottom flap, length of its straight edge", q.w - q.h},
			Measure{"tip cut off the bottom flap, from the corner along both edges of the square", (q.w - q.h) / math.Sqrt2})
	}
	bottom := "bottom flap, depth"
	if j.StraightBottom {
		bottom = "bottom flap, depth before its tip is cut off"
	}
	return append(all,
		Measure{bottom, end},
		Measure{"flap, depth", end},
		Measure{"glue overlap, straight across the slants", q.overlap()},
		Measure{"glue, kept back from the edges of both papers", glueInset},
	)
}
