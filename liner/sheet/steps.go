package sheet

import (
	"fmt"
	"slices"
)

// versions of the steps, the fullest first.
type versions struct{ full, shorter, shortest []note }

// said is every version for a plan with so many numbered cuts; check tells what
// to measure on the print.
func (p Plan) said(check string, cuts int) versions {
	v := versions{steps(p, check, cuts), shorter(p, check, cuts), shortest(p)}
	if p.Blank {
		v = versions{p.blankSteps(check), p.blankShorter(check), p.blankShortest()}
	}
	if p.Notes == NotesShort {
		v.full = v.shorter
	}
	return v
}

// steps are the working steps, in full. Nothing in them asks for glue below the
// fold: the part in the pocket has to slide as the flap opens (common practice,
// no source). check tells what to measure on the print.
func steps(p Plan, check string, cuts int) []note {
	return slices.Concat([]note{p.heading()}, p.sizes(), []note{
		{number: "1", text: "Print at actual size, 100%, with scaling off. " + check + " Let the ink dry."},
		{number: "2", text: "Before you cut, lay a ruler from one dashed fold mark to the other and score along it with a blunt point."},
		{number: "3", text: p.cutting(cuts) + " Blades are sharp: use a mat and a metal ruler, keep fingers behind the edge and cut away from yourself."},
		{number: "4", text: "Fold on the score, pattern inside, and open it again. Slide the liner into the open envelope, pattern up, crease on fold, with the same gap left and right."},
		{number: "5", text: "Lift the flap part, put a thin line of glue or tape along the back of its edge, and press it to the flap. Glue the flap part only: the part in the pocket stays loose, so that it can slide. If the glue smells of solvent, open a window."},
		{number: "6", text: "Close the flap before the glue sets, so that the liner finds its place. Open it again and let it dry."},
	})
}

// cutting says how the liners come out of the sheet.
func (p Plan) cutting(cuts int) string {
	switch {
	case cuts > 1:
		return fmt.Sprintf("Cut straight through the paper at the numbered marks, 1 to %d in turn, then the rest along the thin line.", cuts)
	case len(p.Placements) == 1:
		return "Cut along the thin line."
	case p.Layout == Straight:
		return "Part the liners with straight cuts between them, then cut along the thin line."
	}
	return "Cut the liners apart between them, then cut each along its thin line."
}

func cuttingShort(cuts int) string {
	if cuts > 1 {
		return fmt.Sprintf("Cut straight through at marks 1 to %d in turn, then on the thin line.", cuts)
	}
	return "Cut on the thin line."
}

// shorter are the same steps where there is less room.
func shorter(p Plan, check string, cuts int) []note {
	return slices.Concat([]note{p.heading()}, p.which(), []note{
		{number: "1", text: "Print at 100%. " + check + " Let the ink dry."},
		{number: "2", text: "Before you cut, score from one dashed fold mark to the other."},
		{number: "3", text: cuttingShort(cuts) + " Mind the blade: mat, metal ruler, fingers behind the edge."},
		{number: "4", text: "Fold, pattern inside; slide in, pattern up, crease on fold."},
		{number: "5", text: "Glue the flap part only; the part in the pocket must slide. Open a window if the glue smells."},
		{number: "6", text: "Close the flap before the glue sets."},
	})
}

// shortest is what is left of the steps in a small corner.
func shortest(p Plan) []note {
	return slices.Concat([]note{p.heading()}, p.which(), []note{{text: "Print at 100%. Score from fold mark to fold mark, cut on the thin line (mind the blade), glue the flap part only."}})
}

func (p Plan) heading() note {
	text := p.kinds()
	if name := p.Pieces[0].Name; !p.mixed() && name != "" {
		text = name + ": " + text
	}
	return note{text: text, bold: true}
}

// The steps for outlines to trace on patterned paper.

func (p Plan) blankSteps(check string) []note {
	sizes := p.sizes()
	sizes[0].text = "A template: " + sizes[0].text
	return slices.Concat([]note{p.heading()}, sizes, []note{
		{number: "1", text: "Print at actual size, 100%, with scaling off. " + check},
		{number: "2", text: "Cut the template out along the solid line, best from card. Blades are sharp: use a mat and a metal ruler, keep fingers behind the edge and cut away from yourself."},
		{number: "3", text: "Lay it face down on the back of the patterned paper, the flap part towards the top of the pattern, and trace around it with a pencil. Mark both ends of the dashed fold."},
		{number: "4", text: "Score the fold with a ruler and a blunt point, then cut just inside the pencil line."},
		{number: "5", text: "Fold on the score, pattern inside, and open it again. Slide the liner into the open envelope, pattern up, crease on fold, with the same gap left and right."},
		{number: "6", text: "Glue the flap part only, along the back of its edge: the part in the pocket stays loose, so that it can slide. If the glue smells of solvent, open a window."},
		{number: "7", text: "Close the flap before the glue sets, so that the liner finds its place. Open it again and let it dry."},
	})
}

func (p Plan) blankShorter(check string) []note {
	return []note{
		p.heading(),
		{number: "1", text: "Print at 100%. " + check},
		{number: "2", text: "Cut on the solid line. Mind the blade: mat, metal ruler, fingers behind the edge."},
		{number: "3", text: "Trace around it on patterned paper; mark the ends of the dashed fold."},
		{number: "4", text: "Score the fold, cut inside the pencil line, fold with the pattern inside."},
		{number: "5", text: "Glue the flap part only; the part in the pocket must slide. Open a window if the glue smells."},
		{number: "6", text: "Close the flap before the glue sets."},
	}
}

func (p Plan) blankShortest() []note {
	return []note{p.heading(), {text: "Print at 100%. Cut out (mind the blade), trace on patterned paper, score the dashed fold, glue the flap part only."}}
}
