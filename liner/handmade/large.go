package handmade

import (
	"math"

	"underflap/liner"
	"underflap/pattern/words"
)

// size is the least sheet that is large enough, in millimetres as it lies.
type size struct{ width, height float64 }

// fits tells whether a sheet is large enough as it lies.
func (s size) fits(p liner.Paper) bool {
	return p.Width >= s.width-hair && p.Height >= s.height-hair && !math.IsInf(p.Width*p.Height, 0)
}

// words writes a size so that a sheet cut to what is written is large enough.
func (s size) words() string { return words.MMSize(up(s.width), up(s.height)) }

// smallestFor is the smallest standard sheet by area that is large enough,
// upright; of equal ones the first. Without one it has no width.
func smallestFor(least size) liner.Paper {
	var smallest liner.Paper
	for _, p := range liner.Papers() {
		if least.fits(p) && (smallest.Width == 0 || p.Width*p.Height < smallest.Width*smallest.Height) {
			smallest = p
		}
	}
	return smallest
}

// tooSmall refuses the job's sheet, or the flap depth when that alone is what
// the sheet has no room for.
func tooSmall(j Job, way maker, least size, smallest liner.Paper) error {
	accepts := "a sheet of at least " + least.words()
	if smallest.Width > 0 {
		accepts += ", such as " + smallest.Short
	}
	fits := func(change func(*Job)) bool {
		k := j
		change(&k)
		other, err := way.least(k)
		return err == nil && other.fits(k.Sheet)
	}
	if j.FlapDepth > 0 && fits(func(k *Job) { k.FlapDepth = 0 }) {
		return &words.Refused{Field: "flap-depth", Given: words.MM(j.FlapDepth), Why: "more than " + given(j.Sheet) + " leaves",
			Accepts: words.MM(LeastFlap) + " to " + words.MMDown(j.Sheet.Height-twoPanels(j.Height)) + ", or " + accepts}
	}
	why := "too small" + forPocket(j)
	switch narrow := down(way.seam(j)); {
	case fits(func(k *Job) { k.Sheet.Width, k.Sheet.Height = j.Sheet.Height, j.Sheet.Width }):
		why += " as it lies"
		accepts += ", or this one turned: " + words.MMSize(j.Sheet.Height, j.Sheet.Width)
	case narrow >= LeastOverlap && fits(func(k *Job) { k.Overlap = narrow }):
		why += " whose panels overlap by " + words.MM(j.Overlap)
		accepts += ", or an overlap of up to " + words.MM(narrow)
	}
	return &words.Refused{Field: "from", Given: given(j.Sheet), Why: why, Accepts: accepts}
}

// up and down round to the tenth of a millimetre that words writes, so that
// what is said to be accepted is.
func up(mm float64) float64   { return math.Ceil(mm*10-hair) / 10 }
func down(mm float64) float64 { return math.Floor(mm*10+hair) / 10 }
