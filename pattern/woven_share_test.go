package pattern

import (
	"math"
	"testing"
)

// Closed forms of the families of lines, bands and woven cloth.
func TestInkedShareOfLinesAndClothIsTheClosedForm(t *testing.T) {
	brick := pitch / math.Sqrt2
	upright := math.Sqrt(3) / 2 // of lines that lean by 30 degrees: cos 30
	shares(t, 0, []shareCase{
		{"double pinstripes", &Pinstripes{Width: 21 * dot, Spacing: 80 * dot, Lines: 2, Gap: 10 * dot, Inks: []int{1}}, pitch, pitch, 42.0 / 80},
		// each set leaves 1 - w/s of the plane, whatever the angle, and both the product
		{"crosshatch", &Crosshatch{Pinstripes{Width: 1, Spacing: pitch * upright, Lines: 1, Inks: []int{1}}, 60}, pitch, 2 * pitch * upright,
			1 - math.Pow(1-1/(pitch*upright), 2)},
		// the slants show half of the weft and half of the warp: their step along x divides every band
		{"plaid in a twill", &Plaid{Warp: []Band{{100 * dot, 1}, {140 * dot, 0}}, Weft: []Band{{60 * dot, 1}, {180 * dot, 0}}, Twill: 20 * dot / math.Sqrt2}, pitch, pitch,
			(100.0/240 + 60.0/240) / 2},
		{"checks", &Checks{Size: pitch / 2, Height: pitch / 4, Inks: []int{1}}, pitch, pitch, 1.0 / 2},
		{"checks in every other row", &Checks{Size: pitch / 2, Height: pitch / 4, Inks: []int{1, 0}}, pitch, pitch, 1.0 / 4},
		// three strands, a gap shorter and narrower each than its place
		{"basketweave", &Basketweave{Width: 40 * dot, Strands: 3, Gap: 10 * dot, Inks: []int{1}}, pitch, pitch, 110.0 * 30 * 3 / (120 * 120)},
		{"basketweave without a gap", &Basketweave{Width: 40 * dot, Strands: 3, Inks: []int{1, 0}}, pitch, pitch, 1.0 / 2},
		// edges above one another are the same line (Cavalieri), so bands share as their widths do
		{"chevron", &Chevron{Ribbons{pitch, pitch / 3, []Band{{100 * dot, 1}, {60 * dot, 0}, {30 * dot, 1}, {50 * dot, 0}}}}, pitch, pitch, 130.0 / 240},
		{"waves", &Waves{Ribbons{pitch, pitch / 3, []Band{{100 * dot, 1}, {60 * dot, 0}, {30 * dot, 1}, {50 * dot, 0}}}}, pitch, pitch, 130.0 / 240},
		// a brick is a joint shorter and narrower than its place
		{"herringbone", &Herringbone{Length: brick, Width: brick / 4, Gap: 0.3, Inks: []int{1}}, pitch, pitch / 4,
			(brick - 0.3) * (brick/4 - 0.3) / (brick * brick / 4)},
		{"herringbone without joints", &Herringbone{Length: brick, Width: brick / 4, Inks: []int{1, 0}}, pitch, pitch / 4, 1.0 / 2},
		{"herringbone of every third row", &Herringbone{Length: brick, Width: brick / 4, Inks: []int{1, 0, 0}}, 3 * pitch / 2, pitch / 4, 1.0 / 3},
		// as much ink as ground: the square of four quarters, slants of 3 and ends of 1 are 8 of 16
		{"houndstooth", &Houndstooth{Size: pitch, Ink: 1}, pitch, pitch, 1.0 / 2},
	})
}

// Where half of a page is a mixed grey, MuPDF's share is half a level off: it
// rounds greys down.
func TestInkedShareOfMixedColoursIsTheClosedForm(t *testing.T) {
	const half = 127.0 / 255 // the darkness of a half and half mix of black and white in eight bits
	shares(t, half/255, []shareCase{
		// checks, half tones and ground are 1/4, 1/2 and 1/4
		{"gingham", &Gingham{Size: pitch / 2, Tone: 50, Inks: []int{1}}, pitch, pitch, 1.0/4 + half/2},
		{"gingham of ink and ground", &Gingham{Size: pitch / 2, Tone: 50, Inks: []int{1, 0}}, pitch, pitch, half / 2},
		// where both are ink, and where one is: warp 100 of 240, weft 60
		{"plaid", &Plaid{Warp: []Band{{100 * dot, 1}, {140 * dot, 0}}, Weft: []Band{{60 * dot, 1}, {180 * dot, 0}}}, pitch, pitch,
			(100*60 + half*(100*180+140*60)) / (240 * 240)},
		// a sett that is read back: 80, 40 twice, 80
		{"plaid read back", &Plaid{Warp: back([]Band{{80 * dot, 1}, {40 * dot, 0}, {80 * dot, 0}}), Weft: []Band{{pitch, 0}}}, pitch, pitch, half / 3},
	})
}
