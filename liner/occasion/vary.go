package occasion

import (
	"math"

	"underflap/liner/gang"
	"underflap/liner/sheet"
	"underflap/pattern"
)

// GoldenAngle is the smaller arc of a circle parted in the golden section, in
// degrees: 360 (2 - φ) with φ = (1 + √5)/2, about 137.508 (H. Vogel, A better way to
// construct the sunflower head, Mathematical Biosciences 44, 1979). However many
// turns by it there are, no two point the same way, also not where a pattern looks
// the same after a half, a third, a quarter or a sixth of a turn: it is no fraction
// of the circle. Of n turns the closest two are about 360/(n √5) degrees apart.
const GoldenAngle = 360 * (2 - math.Phi)

// vary is the design of the k-th liner of a line: of another seed and turn than any
// other liner of the occasion. The first of the first line is as designed.
func (l Line) vary(k int) pattern.Design {
	d := l.design()
	if !l.Vary {
		return d
	}
	n := l.number*mostOfALine + k
	d.Seed += uint64(n)
	d.Turn = math.Mod(d.Turn+math.Mod(float64(n)*GoldenAngle, 360), 360)
	return d
}

// mostOfALine parts the numbers of lines, so that another count of one changes
// nothing of the next.
const mostOfALine = sheet.MostCount

// number gives every placement its design, line by line in the order of the
// sheets. Copies of a sheet with varied liners are sheets of their own.
func (o *Occasion) number(shared []gang.Sheet) {
	next := make([]int, len(o.Lines))
	for run, s := range shared {
		if len(s.Plan.Pieces) == 1 {
			s.Plan, s.Marks = s.Plan.Named(o.Lines[s.Lines[0]].Name, s.Marks)
		}
		copies, each := 1, s.Copies
		for _, line := range s.Lines {
			if o.Lines[line].Vary {
				copies, each = s.Copies, 1
			}
		}
		for range copies {
			one := Sheet{Sheet: s, run: run}
			one.Copies = each
			for _, pl := range s.Plan.Placements {
				line := s.Lines[pl.Piece]
				one.Designs = append(one.Designs, o.Lines[line].vary(next[line]))
				next[line]++
			}
			one.name(o)
			o.Sheets = append(o.Sheets, one)
		}
	}
}
