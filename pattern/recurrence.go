package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Recurrence says where the motifs of a family go and how each is turned. It is
// the part that all families of single motifs share: a family gives the motif.
type Recurrence struct {
	Repeat    Repeat
	DX, DY    float64 // from column to column and from row to row
	Step      float64 // brick, half-drop: the part of a pitch that each next row or column is moved
	Alternate float64 // degrees that every other motif is turned, clockwise
	Density   float64 // toss: 1 is as close as scattering goes
	Spacing   float64 // toss and symmetry: least free space between motifs
	Symmetry  string  // a plane group, in place of a repeat
	Cell      Cell    // the group's cell where it is free

	// what a design asks of single motifs: which toss, which to draw, how large
	seed  uint64
	drawn func(x, y float64) bool
	grown func(x, y float64) float64
}

// Place is where one motif goes.
type Place struct {
	Column, Row int
	At          draw.Matrix // from the motif's own space, whose origin is its middle
}

// each calls f for every place whose motif, reaching at most reach from its
// middle, can touch area: rows from the bottom up, each from left to right.
// Column 0 of row 0 is at the origin.
func (r *Recurrence) each(area draw.Rect, reach float64, f func(Place)) {
	area = area.Grow(reach)
	keep := func(p Place) {
		x, y := p.At.E, p.At.F
		if x < area.MinX || x > area.MaxX || y < area.MinY || y > area.MaxY || r.drawn != nil && !r.drawn(x, y) {
			return
		}
		if r.grown != nil {
			p.At = p.At.After(draw.Scale(r.grown(x, y)))
		}
		f(p)
	}
	switch {
	case r.Symmetry != "":
		r.orbits(area, reach, keep)
	case r.Repeat == Toss:
		r.scatter(area, reach, keep)
	default:
		r.grid(area, keep)
	}
}

// grid gives the places of the repeats in rows and columns.
func (r *Recurrence) grid(area draw.Rect, f func(Place)) {
	firstRow, lastRow := int(math.Floor(area.MinY/r.DY))-1, int(math.Ceil(area.MaxY/r.DY))+1
	firstColumn, lastColumn := int(math.Floor(area.MinX/r.DX))-1, int(math.Ceil(area.MaxX/r.DX))+1
	part := func(i int) float64 { // how far row or column i is moved, in pitches
		moved := float64(i) * r.Step
		return moved - math.Floor(moved+1e-9) // 100 times 0.29 is a hair under 29, and no motif further on
	}
	for row := lastRow; row >= firstRow; row-- {
		for column := firstColumn; column <= lastColumn; column++ {
			x, y := float64(column)*r.DX, float64(row)*r.DY
			switch r.Repeat {
			case Brick:
				x += part(row) * r.DX
			case HalfDrop:
				y += part(column) * r.DY
			}
			p := Place{Column: column, Row: row, At: draw.Translate(x, y)}
			if r.Repeat == Mirror {
				p.At = p.At.After(draw.Matrix{A: sign(column), D: sign(row)})
			}
			if r.Alternate != 0 && (column+row)%2 != 0 {
				p.At = p.At.After(draw.Turn(r.Alternate))
			}
			f(p)
		}
	}
}

// sign is -1 for odd numbers.
func sign(i int) float64 {
	if i%2 != 0 {
		return -1
	}
	return 1
}

// place draws a symbol at every place, its ink from the list in turn, row by row.
// The symbols must not depend on anything that their keys do not name.
func (r *Recurrence) place(s *draw.Surface, area draw.Rect, reach float64, inks []int, symbol func(ink int) *draw.Symbol) {
	at := map[int][]draw.Matrix{}
	r.each(area, reach, func(p Place) {
		ink := cycle(inks, p.Row)
		at[ink] = append(at[ink], p.At)
	})
	placeInks(s, at, symbol)
}

// placeInks draws the symbol of each ink at its places, ink by ink.
func placeInks(s *draw.Surface, at map[int][]draw.Matrix, symbol func(ink int) *draw.Symbol) {
	for ink := range MostInks + 1 {
		if len(at[ink]) > 0 {
			s.Place(symbol(ink), at[ink]...)
		}
	}
}

// count is about how many motifs an area takes.
func (r *Recurrence) count(area draw.Rect, reach float64) float64 {
	switch {
	case r.Symmetry != "":
		o := r.orbitOf(reach)
		return area.Width() * area.Height() / o.area * float64(len(o.motifs))
	case r.Repeat == Toss:
		d := r.apart(reach)
		return tossed * area.Width() * area.Height() / (d * d)
	}
	return cells(area, r.DX, r.DY)
}

// recurring is a family whose motifs are single ones.
type recurring interface{ recurrence() *Recurrence }

func (r *Recurrence) recurrence() *Recurrence { return r }
