package ruler

import (
	"math"

	"underflap/liner"
	"underflap/pattern/draw/setting"
	"underflap/pattern/words"
)

// heading names the page and what it was made for.
func heading(paper liner.Paper, margin float64, corrected string) (title, under string) {
	under = "For " + paper.Short + ", with a printer margin of " + words.MM(margin)
	if corrected != "" {
		under += ", drawn " + corrected
	}
	return "Is your printer true to size?", under + "."
}

// steps tell what to do with the page; on a corrected one it is whether the
// correction is right.
func steps(margin float64, corrected string) []setting.Note {
	wider := words.Tenth(math.Ceil(margin) + 3)
	notes := []setting.Note{
		{Number: "1", Text: "Print this page at actual size: 100%, with every “fit to page” off."},
		{Number: "2", Text: "Measure the 100 mm rule across and the one down, from end to end, to half a millimetre."},
		{Under: true, Text: "across ________ mm, down ________ mm"},
		{Number: "3", Text: "Both are 100 mm: there is nothing to do."},
		{Number: "4", Text: "If not, say what you measured: on the page of underflap desk under “More about paper and printer”, or with every command, for example"},
		{Under: true, Bold: true, Text: "--correct-x 98.7 --correct-y 99.2"},
		{Under: true, Text: "The ratio 100/98.7 does as well, or the measured length of the 4 in rule: 3.95in. Add --printer NAME, and it is remembered."},
		{Number: "5", Text: "Look for the thin border on all four sides, with a square angle of 10 mm in each corner. Where a side is missing, the printer’s margin is wider than " + words.MM(margin) + ". Make this page again with, say,"},
		{Under: true, Bold: true, Text: "--printer-margin " + wider},
	}
	if corrected != "" {
		again := setting.Note{Number: "4", Text: "If not, print this page once more without --printer and without corrections, and measure that page: corrections do not add up."}
		notes = append(notes[:4:4], append([]setting.Note{again}, notes[7:]...)...)
	}
	return notes
}
