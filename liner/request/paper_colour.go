package request

import (
	"context"
	"fmt"
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

// press is how a design is printed: on which paper, in which inks, how far down.
type press struct {
	paper draw.Colour
	saver pattern.Saver
	grey  bool
}

// Press says how the sheets of a request are printed: liners of another press go
// through the printer by themselves.
func (r Request) Press() string {
	return fmt.Sprintf("on %s, grey %t", r.press.paper.Hex(), r.press.grey)
}

// PaperColour is that of the paper printed on, white where nothing is printed.
func (r Request) PaperColour() draw.Colour {
	if r.Task.Blank {
		return draw.White
	}
	return r.press.paper
}

func resolvePress(w Words) (p press, err error) {
	p.grey = w.Grey
	if p.paper, err = w.paperColour(); err == nil {
		p.saver, err = resolveSaver(w)
	}
	return p, err
}

// print is a design as it is printed: in one black ink where that is wanted, with
// remarks on what is lost.
func (p press) print(ctx context.Context, d pattern.Design) (_ pattern.Design, remarks []string) {
	d.Saver = p.saver
	if p.grey {
		var remark string
		if d.Colours, remark = palettes.Grey(d.Colours); remark != "" {
			remarks = append(remarks, remark)
		}
		d = d.RecolourArt(ctx, draw.Grey)
	}
	if p.paper != draw.White {
		if area := samplePart; d.Check(area) == nil {
			remarks = append(remarks, palettes.PaperDoubts(d.Colours, p.paper, shows(ctx, d, area))...)
		}
	}
	return d, remarks
}

// shown is a printed design as a picture shows it, on its paper.
func (p press) shown(ctx context.Context, d pattern.Design) pattern.Design {
	if p.paper == draw.White {
		return d
	}
	return d.OnPaper(ctx, p.paper)
}

// picture is a design as a picture shows it printed. What is lost on the paper is
// there to be seen, and nothing is said of it.
func (p press) picture(ctx context.Context, d pattern.Design) (pattern.Design, []string) {
	onWhite := p
	onWhite.paper = draw.White
	d, remarks := onWhite.print(ctx, d)
	return p.shown(ctx, d), remarks
}

// colours are those of a palette as a picture shows them printed.
func (p press) colours(c pattern.Colours) pattern.Colours {
	if p.grey {
		c, _ = palettes.Grey(c)
	}
	return palettes.OnPaper(c, p.paper)
}

// pictured is the design of these words as a picture shows it, and how it is
// printed.
func pictured(ctx context.Context, w Words) (d pattern.Design, on press, remarks []string, err error) {
	d, _, remarks, err = resolveDesign(ctx, w)
	if err != nil {
		return d, on, nil, err
	}
	if on, err = resolvePress(w); err != nil {
		return d, on, nil, err
	}
	d, said := on.picture(ctx, d)
	return d, on, append(remarks, said...), ctx.Err()
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

// samplePart of a liner, in the space patterns draw in, is enough to tell which
// colours a design shows.
var samplePart = draw.Rect{MinX: -70, MinY: -60, MaxX: 70, MaxY: 60}

// leastShown is the share of a liner that an ink covers at least to be seen.
const leastShown = 0.0002

// shows tells which colours of a design show on a part of it.
func shows(ctx context.Context, d pattern.Design, area draw.Rect) func(n int) bool {
	d.Fade, d.Saver = pattern.Fade{}, pattern.Saver{}
	use := ink.Measure(ctx, d, area.Width()*area.Height(), func(d pattern.Design, bare draw.Colour) *draw.Page {
		page := draw.NewPage(area.Width(), area.Height())
		page.Until(ctx)
		page.Fill(page.Whole(), bare)
		page.Within(draw.Translate(-area.MinX, -area.MinY), func(s *draw.Surface) { d.Draw(s, area) })
		return page
	})
	return func(n int) bool { return use.Rows[n].Share > leastShown }
}
