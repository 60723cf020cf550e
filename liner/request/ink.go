package request

import (
	"context"
	"fmt"
	"math"
	"strings"

	"underflap/liner/ink"
	"underflap/liner/sheet"
	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// usualSaver is the share of the pocket's height that shows in a throat at most:
// common practice, no source.
const usualSaver = 0.35

// SaverWord asks for the usual depth.
const SaverWord = "usual"

func resolveSaver(w Words) (s pattern.Saver, err error) {
	s.Bare = draw.White
	switch {
	case w.InkSaver == "":
	case strings.EqualFold(strings.TrimSpace(w.InkSaver), SaverWord):
		found, err := ResolveEnvelope(w)
		if err != nil {
			return s, err
		}
		s.Depth = usualSaver * found.Envelope.Height
	default:
		s.Depth, err = words.Within("ink-saver", w.InkSaver, 1, mostPocket)
	}
	return s, err
}

// InkUse is an estimate of the ink: on one liner inside its cut line, and on what
// is printed, bleed and all.
type InkUse struct {
	Liner, Sheet, All ink.Use
	plan              sheet.Plan
}

// Ink estimates the ink of a plan. When ctx ends it stops and gives the context's
// error.
func (r Request) Ink(ctx context.Context, p sheet.Plan) (InkUse, error) {
	u := InkUse{plan: p}
	kept := func(d pattern.Design, bare draw.Colour) *draw.Page { return p.Kept(ctx, d, bare) }
	u.Liner = ink.Measure(ctx, r.Design, p.Pieces[0].Outline.Area(), kept)
	u.Sheet = onSheet(ctx, r.Design, p, p.OnSheet(0))
	last := p.OnSheet(p.Sheets - 1)
	if last == p.OnSheet(0) {
		u.All = u.Sheet.Times(p.Sheets)
	} else {
		u.All = u.Sheet.Times(p.Sheets - 1).Plus(onSheet(ctx, r.Design, p, last))
	}
	return u, ctx.Err()
}

// onSheet is the ink printed on a sheet of n liners.
func onSheet(ctx context.Context, d pattern.Design, p sheet.Plan, n int) ink.Use {
	return ink.Measure(ctx, d, 0, func(d pattern.Design, bare draw.Colour) *draw.Page { return p.Printed(ctx, d, n, bare) })
}

// Saving is what the saver saves of a full sheet's ink: a line, "" without a
// saver. When ctx ends it stops and gives the context's error.
func (r Request) Saving(ctx context.Context, p sheet.Plan) (string, error) {
	if r.Design.Saver.Depth == 0 {
		return "", nil
	}
	if r.Design.Saver.Depth >= p.Depth+p.Bleed {
		return fmt.Sprintf("--ink-saver saves nothing: the liner reaches %s below the fold, and artwork is kept for %s", words.MM(p.Depth), words.MM(r.Design.Saver.Depth)), nil
	}
	inked := func(d pattern.Design) float64 { return onSheet(ctx, d, p, p.OnSheet(0)).Inked() }
	whole := r.Design
	whole.Saver.Depth = 0
	all, kept := inked(whole), inked(r.Design)
	if err := ctx.Err(); err != nil {
		return "", err
	}
	if all < 0.005 {
		return "--ink-saver saves nothing: no ink is printed", nil
	}
	share := percent(1 - kept/all)
	if 1-kept/all < 0.01 {
		share = "less than 1 %"
	}
	return fmt.Sprintf("--ink-saver saves %s of %s a sheet, %s of the ink; artwork fades out from %s to %s below the fold", centimetres(all-kept), centimetres(all), share,
		words.MM(r.Design.Saver.Depth), words.MM(r.Design.Saver.Depth+pattern.SaverRun)), nil
}

func centimetres(cm2 float64) string {
	if cm2 < 10 {
		return fmt.Sprintf("%.1f cm²", cm2)
	}
	return fmt.Sprintf("%.0f cm²", cm2)
}

// name of a row, for people.
func inkName(r ink.Row) string {
	switch r.Ink {
	case ink.Own:
		return "own colours"
	case 0:
		return "ground " + r.Colour.Hex()
	}
	return fmt.Sprintf("ink %d %s", r.Ink, r.Colour.Hex())
}

// inkLeast is the share that a table shows: a colour that covers less is left out.
const inkLeast = 0.0005

// Text is the estimate for people.
func (u InkUse) Text() string {
	var b strings.Builder
	all := fmt.Sprintf("all %d sheets", u.plan.Sheets)
	if u.plan.Sheets == 1 {
		all = ""
	}
	line := func(name, share, liner, sheet, total string) {
		row := fmt.Sprintf("%-18s%-12s%-10s%-12s%s", name, liner, share, sheet, total)
		b.WriteString(strings.TrimRight(row, " ") + "\n")
	}
	total := func(v float64) string {
		if all == "" {
			return ""
		}
		return centimetres(v)
	}
	line("ink", "", "a liner", "a sheet", all)
	for i, r := range u.Liner.Rows {
		if r.Share < inkLeast || r.Bare {
			continue
		}
		line(inkName(r), percentTenth(r.Share), centimetres(r.Area), centimetres(u.Sheet.Rows[i].Area), total(u.All.Rows[i].Area))
	}
	line("together", percentTenth(u.Liner.Inked()/u.Liner.Region), centimetres(u.Liner.Inked()), centimetres(u.Sheet.Inked()), total(u.All.Inked()))
	if bare := u.Liner.Region - u.Liner.Inked(); bare > inkLeast*u.Liner.Region {
		line("bare paper", percentTenth(bare/u.Liner.Region), centimetres(bare), "", "")
	}
	return b.String()
}

func percentTenth(share float64) string { return fmt.Sprintf("%.1f %%", 100*share) }

// Ink is the estimate for programs: areas in cm2, rounded to a hundredth.
type Ink struct {
	Liner InkPart `json:"liner"` // inside the cut line
	Sheet InkPart `json:"sheet"` // a full sheet as printed, with bleed and without marks
	All   InkPart `json:"all"`   // every sheet
}

// InkPart is the ink of one region. Area is the region's; of what is printed, all
// that artwork covers. Inked is what takes ink.
type InkPart struct {
	Area    float64     `json:"area"`
	Inked   float64     `json:"inked"`
	Colours []InkColour `json:"colours"`
}

// InkColour is one colour's part. Ink is 0 for the ground, and -1 for the colours
// of a person's own art, which have no single colour.
type InkColour struct {
	Ink    int     `json:"ink"`
	Colour string  `json:"colour,omitempty"`
	Area   float64 `json:"area"`
	Share  float64 `json:"share"`
	Bare   bool    `json:"bare,omitempty"` // white, which takes no ink
}

// Report gathers the estimate for programs.
func (u InkUse) Report() *Ink { return &Ink{inkPart(u.Liner), inkPart(u.Sheet), inkPart(u.All)} }

func inkPart(u ink.Use) InkPart {
	p := InkPart{Area: hundredth(u.Region), Inked: hundredth(u.Inked())}
	for _, r := range u.Rows {
		c := InkColour{Ink: r.Ink, Area: hundredth(r.Area), Share: math.Round(r.Share*1e4) / 1e4, Bare: r.Bare}
		if r.Ink != ink.Own {
			c.Colour = r.Colour.Hex()
		}
		p.Colours = append(p.Colours, c)
	}
	return p
}

func hundredth(v float64) float64 { return math.Round(v*100) / 100 }
