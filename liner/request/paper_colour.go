package request

import (
	"strings"

	"underflap/liner/ink"
	"underflap/palettes"
	"underflap/palettes/derived"
	"underflap/pattern"
	"underflap/pattern/draw"
)

// paperColour is the paper's colour that the words ask for, or white.
func (w Words) paperColour() (draw.Colour, error) {
	if w.PaperColour == "" {
		return draw.White, nil
	}
	return derived.PaperColour("paper-colour", w.PaperColour)
}

// shown is a design of these words as a picture shows it: printed on paper of
// the colour they say.
func (w Words) shown(d pattern.Design) (pattern.Design, error) {
	paper, err := w.paperColour()
	if err != nil || paper == draw.White {
		return d, err
	}
	return d.OnPaper(paper), nil
}

// pictured is the design of these words as a picture shows it.
func pictured(w Words) (pattern.Design, []string, error) {
	d, _, remarks, err := resolveDesign(w)
	if err != nil {
		return d, nil, err
	}
	d, said, err := w.picture(d)
	return d, append(remarks, said...), err
}

// picture is a design in the colours of its palette as a picture shows it. What is
// lost on the paper is there to be seen, and nothing is said of it.
func (w Words) picture(d pattern.Design) (pattern.Design, []string, error) {
	onWhite := w
	onWhite.PaperColour = ""
	d, remarks, err := printed(onWhite, d)
	if err == nil {
		d, err = w.shown(d)
	}
	return d, remarks, err
}

// inPrint are the colours of a palette as a picture shows them printed.
func (w Words) inPrint(c pattern.Colours) (pattern.Colours, error) {
	paper, err := w.paperColour()
	if err != nil {
		return c, err
	}
	if w.Grey {
		c, _ = palettes.Grey(c)
	}
	return palettes.OnPaper(c, paper), nil
}

// pressed says in a title how colours are printed.
func (w Words) pressed() string {
	say := ""
	if w.Grey {
		say += ", one black ink"
	}
	if paper, err := w.paperColour(); err == nil && paper != draw.White {
		if word := strings.ToLower(strings.TrimSpace(w.PaperColour)); strings.HasPrefix(word, "#") {
			say += ", on paper " + paper.Hex()
		} else {
			say += ", on " + spoken(word) + " paper"
		}
	}
	return say
}

// printed settles how colours come out: in one black ink where that is wanted,
// with remarks on what is lost.
func printed(w Words, d pattern.Design) (_ pattern.Design, remarks []string, err error) {
	paper, err := w.paperColour()
	if err != nil {
		return d, nil, err
	}
	if d.Saver, err = resolveSaver(w); err != nil {
		return d, nil, err
	}
	if w.Grey {
		var remark string
		if d.Colours, remark = palettes.Grey(d.Colours); remark != "" {
			remarks = append(remarks, remark)
		}
		d = d.RecolourArt(draw.Grey)
	}
	if paper != draw.White {
		if area := samplePart; d.Check(area) == nil {
			remarks = append(remarks, palettes.PaperDoubts(d.Colours, paper, shows(d, area))...)
		}
	}
	return d, remarks, nil
}

// samplePart of a liner, in the space patterns draw in, is enough to tell which
// colours a design shows.
var samplePart = draw.Rect{MinX: -70, MinY: -60, MaxX: 70, MaxY: 60}

// leastShown is the share of a liner that an ink covers at least to be seen.
const leastShown = 0.0002

// shows tells which colours of a design show on a part of it.
func shows(d pattern.Design, area draw.Rect) func(n int) bool {
	d.Fade, d.Saver = pattern.Fade{}, pattern.Saver{}
	use := ink.Measure(d, area.Width()*area.Height(), func(d pattern.Design, bare draw.Colour) *draw.Page {
		page := draw.NewPage(area.Width(), area.Height())
		page.Fill(page.Whole(), bare)
		page.Within(draw.Translate(-area.MinX, -area.MinY), func(s *draw.Surface) { d.Draw(s, area) })
		return page
	})
	return func(n int) bool { return use.Rows[n].Share > leastShown }
}
