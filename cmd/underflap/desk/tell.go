package desk

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"underflap/liner/request"
	"underflap/pattern/words"
)

// tell fills an answer with what is to be said of what was drawn.
func (p *preview) tell(f form, seen request.Seen, asked request.Request, made request.Made, saving string) {
	plan := made.Plan
	e := plan.Liner.Envelope
	box := plan.Pieces[0].Outline.Bounds()
	p.Envelope = &envelopeSaid{Name: f.line(e.Short), Width: tenth(e.Width), Height: tenth(e.Height), FlapDepth: tenth(e.Flap.Depth), Flap: string(e.Flap.Shape)}
	p.Liner = &linerSaid{Width: tenth(box.Width()), Height: tenth(box.Height()), OnFlap: tenth(box.MaxY), InPocket: tenth(plan.Depth)}
	p.Says = f.line(fmt.Sprintf("liner %s: %s above the fold, %s below it", words.MMSize(box.Width(), box.Height()), words.MM(box.MaxY), words.MM(plan.Depth)))
	colours := seen.Scene.Design.Colours
	if !f.Blank {
		colours = asked.Palette.Colours
	}
	p.Colours = &coloursSaid{Name: colours.Name, Ground: colours.Ground.Hex(), Inks: []string{}}
	for _, ink := range colours.Inks {
		p.Colours.Inks = append(p.Colours.Inks, ink.Hex())
	}
	p.Copies = &copiesSaid{Count: plan.Count, PerSheet: plan.PerSheet(), Sheets: plan.Sheets, Paper: plan.Paper.Short, Says: copies(plan.Count, plan.PerSheet(), plan.Sheets, plan.Paper.Short)}
	advice := strings.Split(plan.Advice, "\n")
	p.Remarks = f.lines(slices.Concat(asked.Found.Remarks, seen.Found.Remarks, seen.Remarks, advice, made.Marks.Remarks(), plan.Liner.Doubts(), []string{saving}))
}

// copies says how many sheets so many liners are.
func copies(count, perSheet, sheets int, paper string) string {
	say := fmt.Sprintf("%s: %s of %s", several(count, "liner"), several(sheets, "sheet"), paper)
	if perSheet > 1 && sheets > 1 {
		each := "%d on each"
		if count%perSheet != 0 {
			each = "up to " + each
		}
		say += fmt.Sprintf(", "+each, perSheet)
	}
	return say
}

func several(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// sheetAbout says what is to be seen on the sheet, for those who cannot see it.
func sheetAbout(made request.Made) string {
	plan := made.Plan
	what := "liner"
	if plan.Blank {
		what = "outline"
	}
	return fmt.Sprintf("A sheet of %s with %s for %s, with cut lines and fold marks.", plan.Paper.Short, several(plan.OnSheet(0), what), plan.Liner.Envelope.Short)
}

func tenth(mm float64) float64 { return math.Round(mm*10) / 10 }
