package request

import (
	"strings"

	"underflap/liner/sheet"
	"underflap/pattern/words"
)

// Words for corners beside their names.
const (
	allCorners   = "all"
	threeCorners = "three" // but the one at the bottom right: it tells which way up the sheet lies
	noCorners    = "none"
)

// resolveRegistration settles the registration marks of a task whose paper and
// printer margin are settled.
func resolveRegistration(w Words, t sheet.Task) (g sheet.Registration, err error) {
	if g.Corners, err = corners(w.Registration); err != nil {
		return g, err
	}
	if !g.Any() {
		if m, given := firstGiven([]typed{{"registration-inset", w.RegistrationInset}, {"registration-arm", w.RegistrationArm}, {"registration-line", w.RegistrationLine}}); given {
			return g, m.refused("no registration marks are wanted", "with --registration all")
		}
		return sheet.Registration{}, nil
	}
	if t.HiddenFoot > 0 {
		return g, typed{"hidden-foot", w.HiddenFoot}.refused("a liner's end would lie on the registration marks", "without --registration")
	}
	var r reader
	g.Line = r.length("registration-line", w.RegistrationLine, sheet.UsualLine, 0.1, 3)
	g.Arm = r.length("registration-arm", w.RegistrationArm, sheet.UsualArm, 5, 50)
	least := t.PrinterMargin + g.Line/2 // what is printed of a mark
	g.Inset = r.length("registration-inset", w.RegistrationInset, max(sheet.UsualInset, least), 0, 100)
	if r.err != nil {
		return g, r.err
	}
	side := min(t.Paper.Width, t.Paper.Height)
	switch most := side/2 - g.Inset; {
	case g.Inset < least-1e-9:
		return g, typed{"registration-inset", w.RegistrationInset}.refused("the printer leaves "+words.MM(t.PrinterMargin)+" white", words.MM(least)+" or more")
	case most < 5:
		return g, typed{"registration-inset", w.RegistrationInset}.refused("on "+t.Paper.Short+" the marks would meet", "up to "+words.MM(max(0, side/2-5)))
	case g.Arm > most+1e-9:
		return g, typed{"registration-arm", or(w.RegistrationArm, words.MM(g.Arm))}.refused("on "+t.Paper.Short+" the marks would meet", "up to "+words.MM(most))
	}
	return g, nil
}

// corners reads which corners are wanted.
func corners(list string) (wanted [len(sheet.CornerNames)]bool, err error) {
	if list == "" {
		return wanted, nil
	}
	for _, part := range strings.Split(list, ",") {
		name, err := words.Choose("registration", part, cornersOffered)
		if err != nil {
			return wanted, err
		}
		for i, corner := range sheet.CornerNames {
			if name == corner || name == allCorners || name == threeCorners && sheet.Corner(i) != sheet.BottomRight {
				wanted[i] = true
			}
		}
	}
	return wanted, nil
}
