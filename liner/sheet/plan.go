// Package sheet places liners on sheets of paper and draws the page: artwork
// inside the cut lines and their bleed, fold ticks, the 100 mm rule and the
// working steps. It is the one place where liner space becomes page space:
// origin at the sheet's top left, x right, y down, millimetres.
package sheet

import (
	"fmt"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/words"
)

// Task is everything a plan needs, each length known.
type Task struct {
	Liner         liner.Liner
	Paper         liner.Paper
	PrinterMargin float64 // border the printer cannot print
	Bleed         float64 // artwork past the cut line
	Gap           float64 // least distance of two cut lines
	HiddenFoot    float64 // how much of the pocket part's end may run into the margin or off the sheet
	Layout        string  // a name of Layouts; "": the deeper one
	PerSheet      int     // liners on one sheet; 0: two where they fit, else one; Most: as many as fit
	Count         int     // liners wanted; 0: one sheet of them
	Notes         Notes   // how much is said on the sheet
	Blank         bool    // outlines alone, to trace on patterned paper
	Registration  Registration
}

// Piece is one kind of liner to be placed: its cut line at a pocket depth.
type Piece struct {
	Name    string // that tells it from others on the sheet; "" when it is alone
	Liner   liner.Liner
	Depth   float64 // of its pocket part
	Outline liner.Outline

	bleed []geom.Point // the edge of its artwork in chords, which is asked for again and again
	reach geom.Box     // around it
}

// NewPiece is a liner at a pocket depth, with artwork so far past its cut line.
func NewPiece(l liner.Liner, depth, bleed float64) Piece {
	o := l.Outline(depth)
	edge := o.Bleed(bleed)
	return Piece{Liner: l, Depth: depth, Outline: o, bleed: edge.Flatten(0.05), reach: edge.Bounds()}
}

// Placement puts a piece on the page: turned clockwise by Turn degrees, then
// slid so that the left end of its fold (liner space's origin) lies at DX, DY.
type Placement struct {
	Piece  int // index into Plan.Pieces
	Turn   int // 0, 90, 180 or 270
	DX, DY float64
}

// Plan is the answer: pieces and where they lie on each sheet. Arrange's has one
// kind of piece; that of a sheet which different liners share has several, and in
// Task and Depth what is true of the first.
type Plan struct {
	Task
	Pieces     []Piece
	Placements []Placement // until Settle the likeliest
	Depth      float64     // the pocket depth of the pieces
	FullDepth  float64
	Sheets     int
	Asked      string // the layout asked for; "" when any would do
	Advice     string // what was given up and what would help, a line each; "" when nothing was

	ways [][]Placement // those that lie as deep, for Settle to choose from
}

// PerSheet is how many liners one full sheet carries.
func (p Plan) PerSheet() int { return len(p.Placements) }

// OnSheet is how many liners sheet i of the plan carries: the last may carry
// fewer.
func (p Plan) OnSheet(i int) int { return min(p.PerSheet(), p.Count-i*p.PerSheet()) }

// advise adds a line to the plan's advice.
func (p *Plan) advise(what string) {
	if p.Advice != "" {
		p.Advice += "\n"
	}
	p.Advice += what
}

// page carries a liner-space point to the page.
func (pl Placement) page(q geom.Point) geom.Point {
	u, v := q.X, -q.Y
	switch pl.Turn {
	case 90:
		u, v = -v, u
	case 180:
		u, v = -u, -v
	case 270:
		u, v = v, -u
	}
	return geom.Point{X: pl.DX + u, Y: pl.DY + v}
}

// pageBox carries an upright box of liner space to the page.
func (pl Placement) pageBox(b geom.Box) geom.Box {
	p, q := pl.page(geom.Point{X: b.MinX, Y: b.MinY}), pl.page(geom.Point{X: b.MaxX, Y: b.MaxY})
	return geom.Box{MinX: min(p.X, q.X), MinY: min(p.Y, q.Y), MaxX: max(p.X, q.X), MaxY: max(p.Y, q.Y)}
}

// OnPage carries a contour of liner space to the page.
func (pl Placement) OnPage(c geom.Contour) geom.Contour { return c.Map(pl.page, true) }

// CutLine is the placed outline on the page.
func (p Plan) CutLine(pl Placement) geom.Contour {
	return pl.OnPage(p.Pieces[pl.Piece].Outline.Contour)
}

// Part is what one sheet of a plan carries: its first n placements.
func (p Plan) Part(n int) Plan {
	p.Placements = p.Placements[:n]
	p.Count, p.Sheets, p.ways = n, 1, nil
	return p
}

// UsualPrinterMargin is a border that most home printers keep to. Common
// practice, no source: they print to 3 to 5 mm from the edge.
const UsualPrinterMargin = 5.0

// Most asks for as many liners on a sheet as fit at the pocket depth wanted.
const Most = -1

// MostCount bounds the liners of one task.
const MostCount = 1000

// liners counts them in words.
func liners(n int) string {
	switch n {
	case 1:
		return "one liner"
	case 2:
		return "two liners"
	}
	return fmt.Sprintf("%d liners", n)
}

// mostAtAll is how many fit at the least depth.
func mostAtAll(t Task, w way) int {
	t.Liner.PocketDepth = t.Liner.LeastPocketDepth()
	return max(1, w.most(t))
}

func upTo(n int) string {
	if n == 1 {
		return "1"
	}
	return fmt.Sprintf("up to %d", n)
}

// Arrange settles depth and placements. When two were not asked for by number
// but do not fit, one is placed and the plan's advice says what would help.
func Arrange(t Task) (Plan, error) {
	way, err := layout(t.Layout)
	if err != nil {
		return Plan{}, err
	}
	arrange := way.place
	if room := min(t.Paper.Width, t.Paper.Height) - 2*t.PrinterMargin; room < 20 {
		return Plan{}, &words.Refused{Field: "printer-margin", Given: words.MM(t.PrinterMargin),
			Why: "leaves nothing of " + t.Paper.Short, Accepts: "up to " + words.MM(max(0, min(t.Paper.Width, t.Paper.Height)/2-10))}
	}
	if room := min(t.Paper.Width, t.Paper.Height) - 2*t.edge(); room < 20 {
		return Plan{}, &words.Refused{Field: "registration-inset", Given: words.MM(t.Registration.Inset),
			Why: "the marks leave nothing of " + t.Paper.Short, Accepts: "a smaller one, or a larger paper"}
	}
	wanted := way.wanted(t)
	placed, ok := arrange(t, wanted)
	if !ok && t.PerSheet > 1 && wanted > 1 {
		return Plan{}, &words.Refused{Field: "per-sheet", Given: fmt.Sprint(t.PerSheet),
			Why: noRoom(t, wanted), Accepts: upTo(mostAtAll(t, way)) + ", or " + remedies(t, wanted, arrange)}
	}
	p := Plan{Task: t, FullDepth: t.Liner.FullPocketDepth()}
	if !ok && wanted > 1 {
		p.advise(fmt.Sprintf("one liner a sheet: %s; two would fit with %s", noRoom(t, wanted), remedies(t, wanted, arrange)))
		wanted = 1
		placed, ok = arrange(t, 1)
	}
	if !ok {
		if narrower := t; t.PrinterMargin > UsualPrinterMargin {
			narrower.PrinterMargin = UsualPrinterMargin
			if _, fits := arrange(narrower, 1); fits {
				return Plan{}, &words.Refused{Field: "printer-margin", Given: words.MM(t.PrinterMargin), Why: noRoom(t, 1),
					Accepts: "a narrower one; " + words.MM(UsualPrinterMargin) + " fits"}
			}
		}
		return Plan{}, &words.Refused{Field: "paper", Given: t.Paper.Short, Why: noRoom(t, 1), Accepts: remedies(t, 1, arrange)}
	}
	p.Asked, p.Depth, p.Layout = t.Layout, placed.depth, placed.layout
	p.Pieces = []Piece{NewPiece(t.Liner, placed.depth, t.Bleed)}
	p.ways = placed.ways()
	p.Placements = p.ways[0]
	if short := t.Liner.WantedPocketDepth() - p.Depth; short > 0.005 {
		fits := "the liner fits"
		if wanted > 1 {
			fits = liners(wanted) + " fit"
		}
		line := fmt.Sprintf("pocket depth reduced by %s to %s so that %s on %s", words.MM(short), words.MM(p.Depth), fits, t.Paper.Short)
		if one, ok := arrange(t, 1); wanted > 1 && ok && one.depth > p.Depth+1 {
			line += fmt.Sprintf("; with --per-sheet 1 it is %s", words.MM(one.depth))
		}
		p.advise(line)
	}
	if half := t.Liner.Envelope.Height / 2; p.Depth < half-0.005 {
		p.advise(fmt.Sprintf("a pocket depth of %s is less than half the pocket, %s: the liner's end may show", words.MM(p.Depth), words.MM(half)))
	}
	for _, doubt := range t.Liner.Doubts() {
		p.advise(doubt)
	}
	if t.Blank {
		p.adviseCraft()
	}
	if p.Count == 0 {
		p.Count = len(p.Placements)
	}
	p.Sheets = (p.Count + len(p.Placements) - 1) / len(p.Placements)
	return p, nil
}
