package gang

import (
	"cmp"
	"context"
	"slices"

	"underflap/liner/geom"
	"underflap/liner/nest"
	"underflap/liner/sheet"
)

// make lays out what slips say.
func (g *group) make(ctx context.Context, ways []way, slips []slip) ([]Sheet, error) {
	var all []Sheet
	for _, s := range slips {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		switch {
		case s.way < 0 && len(s.parts) == 1:
			all = append(all, g.all[s.parts[0].line].own(s.parts[0].line, s.parts[0].n, s.copies))
		case s.way < 0:
			all = append(all, g.among(g.kinds[s.kind].plan, s))
		case ways[s.way].dense != nil:
			all = append(all, g.among(*ways[s.way].dense, s))
		default:
			all = append(all, g.mixed(ways[s.way], s))
		}
	}
	return all, nil
}

// pieces are the pieces of a slip, each with its line's name, and of each liner
// the piece.
func (g *group) pieces(s slip) (pieces []sheet.Piece, lines, of []int) {
	for i, p := range s.parts {
		piece := g.all[p.line].Plan.Pieces[0]
		piece.Name = g.all[p.line].Name
		pieces, lines = append(pieces, piece), append(lines, p.line)
		of = append(of, slices.Repeat([]int{i}, p.n)...)
	}
	return pieces, lines, of
}

// among is a sheet of a plan that lays one kind.
func (g *group) among(p sheet.Plan, s slip) Sheet {
	pieces, lines, of := g.pieces(s)
	plan, marks := p.Among(pieces, of)
	return Sheet{Plan: plan, Marks: marks, Lines: lines, Copies: s.copies}
}

// mixed is a sheet of different kinds.
func (g *group) mixed(w way, s slip) Sheet {
	pieces, lines, of := g.pieces(s)
	t := g.task
	t.Liner = pieces[0].Liner
	var ways [][]sheet.Placement
	if len(of) == 2 { // all ways that two lie
		room, cut := t.Room(), func(i int) geom.Contour { return pieces[of[i]].Outline.Contour }
		mix := nest.NewMix(t.Gap, cut(0), cut(1))
		for _, at := range room.Two(mix, 0, 1) {
			ways = append(ways, t.Place(at[:], of))
		}
	} else {
		// the liners of each line take the first places of their kind
		var at []nest.Placed
		used := make([]bool, len(w.of))
		for _, piece := range of {
			kind := g.kindOf(s.parts[piece].line)
			for i, k := range w.of {
				if k == kind && !used[i] {
					used[i] = true
					at = append(at, w.at[i])
					break
				}
			}
		}
		ways = append(ways, t.Place(at, of))
	}
	plan, marks := sheet.Mixed(t, pieces, ways...)
	return Sheet{Plan: plan, Marks: marks, Lines: lines, Copies: s.copies}
}

// inOrder sorts sheets by the lines on them: first a line's own, the fullest
// first, then those that it shares.
func inOrder(all []Sheet) {
	slices.SortStableFunc(all, func(a, b Sheet) int {
		return cmp.Or(cmp.Compare(a.Lines[0], b.Lines[0]), cmp.Compare(len(a.Lines), len(b.Lines)), slices.Compare(a.Lines, b.Lines), cmp.Compare(b.Plan.Count, a.Plan.Count))
	})
}
