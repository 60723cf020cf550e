package palettes

import (
	"fmt"

	"underflap/pattern"
	"underflap/pattern/draw"
)

// OnPaper is what ground and inks show once they are printed on paper of a
// colour: each multiplied with it. White paper changes nothing.
func OnPaper(c pattern.Colours, paper draw.Colour) pattern.Colours {
	out := c
	out.Ground = draw.Multiply(paper, c.Ground)
	out.Inks = make([]draw.Colour, len(c.Inks))
	for i, ink := range c.Inks {
		out.Inks[i] = draw.Multiply(paper, ink)
	}
	return out
}

// Vanishes is the CIEDE2000 difference below which a colour is lost: 2.3 was
// found to be just noticeable of two patches that touch (Mahy, Van Eycken and
// Oosterlinck, Color Research and Application 19, 1994, for CIE 1976; from
// memory), and small motifs, apart and by lamp light, need twice that.
const Vanishes = 5.0

// PaperDoubts says, a line each, what of some colours will not come out on paper
// of a colour. shown tells which of them the design shows, 0 being the ground.
func PaperDoubts(c pattern.Colours, paper draw.Colour, shown func(n int) bool) []string {
	if paper == draw.White {
		return nil // all is as the palette has it
	}
	on := OnPaper(c, paper)
	name := func(n int) string { return named(c, n) }
	light := ToLab(paper).L
	var out []string
	var seen []int // those that still show as themselves
	for n := range len(c.Inks) + 1 {
		if !shown(n) {
			continue
		}
		given := c.Ink(n)
		bare := Difference(on.Ink(n), paper) < Vanishes
		switch {
		case given == draw.White:
			out = append(out, fmt.Sprintf("%s prints nothing: the paper stays bare there and shows %s", name(n), paper.Hex()))
		case bare && ToLab(given).L > light:
			out = append(out, fmt.Sprintf("%s is lighter than the paper and cannot come out: it prints as bare paper, %s", name(n), on.Ink(n).Hex()))
		case bare:
			out = append(out, fmt.Sprintf("%s vanishes on this paper: it shows as %s, the bare paper is %s", name(n), on.Ink(n).Hex(), paper.Hex()))
		case ToLab(given).L > light:
			out = append(out, fmt.Sprintf("%s is lighter than the paper and cannot come out: it prints darker than the paper, as %s", name(n), on.Ink(n).Hex()))
		}
		apart := func(m int) bool { return Difference(given, c.Ink(m)) >= Vanishes } // on white paper
		if n > 0 && shown(0) && apart(0) && Difference(on.Ink(n), on.Ground) < Vanishes {
			out = append(out, fmt.Sprintf("%s vanishes on the ground %s: on this paper they show as %s and %s", name(n), c.Ground.Hex(), on.Ink(n).Hex(), on.Ground.Hex()))
			continue
		}
		if n > 0 {
			for _, m := range seen {
				if apart(m) && Difference(on.Ink(n), on.Ink(m)) < Vanishes {
					out = append(out, fmt.Sprintf("%s and %s look alike on this paper: they show as %s and %s", name(m), name(n), on.Ink(m).Hex(), on.Ink(n).Hex()))
					break
				}
			}
			seen = append(seen, n)
		}
	}
	return out
}
