package request

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"underflap/liner/geom"
	"underflap/liner/sheet"
	"underflap/pattern/words"
)

// flattening is how far chords of an outline in Fit may lie from its arcs.
const flattening = 0.01

// Fit is the answer for programs: lengths in millimetres, the profile and
// outline in liner space, placements in page space.
type Fit struct {
	Envelope struct {
		Name   string  `json:"name"`
		Width  float64 `json:"width"`
		Height float64 `json:"height"`
	} `json:"envelope"`
	Flap struct {
		Shape   string       `json:"shape"`
		Depth   float64      `json:"depth"`
		Profile [][2]float64 `json:"profile"`
	} `json:"flap"`
	Outline         [][2]float64 `json:"outline"`
	PocketDepth     float64      `json:"pocketDepth"`
	FullPocketDepth float64      `json:"fullPocketDepth"`
	Paper           struct {
		Name   string  `json:"name"`
		Width  float64 `json:"width"`
		Height float64 `json:"height"`
	} `json:"paper"`
	PrinterMargin float64     `json:"printerMargin"`
	Gap           float64     `json:"gap"`
	Layout        string      `json:"layout"`
	PerSheet      int         `json:"perSheet"`
	Sheets        int         `json:"sheets"`
	Placements    []Placement `json:"placements"`
	Rule          *Rule       `json:"rule,omitempty"`
	Registration  []Mark      `json:"registration,omitempty"`
	Weight        Weight      `json:"weight"` // in grams
	Ink           *Ink        `json:"ink,omitempty"`
	Alternatives  []Chance    `json:"alternatives"`
	Advice        string      `json:"advice"`
}

// Chance is how the same liners do on another paper or in another layout;
// PerSheet is 0 when not even one fits. Share is of the full pocket depth, used
// of the paper's area, both at most 1.
type Chance struct {
	Paper       string  `json:"paper"`
	Layout      string  `json:"layout"`
	PerSheet    int     `json:"perSheet"`
	PocketDepth float64 `json:"pocketDepth"`
	Share       float64 `json:"share"`
	Sheets      int     `json:"sheets"`
	Used        float64 `json:"used"`
}

// Placement is a piece on the page. The left end of its fold lies at dx, dy,
// and the piece is turned clockwise about it.
type Placement struct {
	Turn    int          `json:"turn"`
	DX      float64      `json:"dx"`
	DY      float64      `json:"dy"`
	Outline [][2]float64 `json:"outline"`
}

// Rule is the bar of the printed rule: the corners of its rectangle.
type Rule struct {
	Length  float64      `json:"length"`
	Outline [][2]float64 `json:"outline"`
}

// Mark is a registration mark: where its arms meet, how long and thick they are.
type Mark struct {
	Corner string  `json:"corner"`
	X      float64 `json:"x"`
	Y      float64 `json:"y"`
	Arm    float64 `json:"arm"`
	Line   float64 `json:"line"`
}

// Report gathers a plan and its marks for programs.
func Report(p sheet.Plan, m sheet.Marks) Fit {
	var f Fit
	e := p.Liner.Envelope
	f.Envelope.Name, f.Envelope.Width, f.Envelope.Height = e.Name, nanometre(e.Width), nanometre(e.Height)
	f.Flap.Shape, f.Flap.Depth = string(e.Flap.Shape), nanometre(e.Flap.Depth)
	f.Flap.Profile = points(geom.Contour(p.Liner.FlapProfile()))
	f.Outline = points(p.Pieces[0].Outline.Contour)
	f.PocketDepth, f.FullPocketDepth = nanometre(p.Depth), nanometre(p.FullDepth)
	f.Paper.Name, f.Paper.Width, f.Paper.Height = p.Paper.Name, nanometre(p.Paper.Width), nanometre(p.Paper.Height)
	f.PrinterMargin, f.Gap, f.Layout = nanometre(p.PrinterMargin), nanometre(p.Gap), p.Layout
	f.PerSheet, f.Sheets = p.PerSheet(), p.Sheets
	for _, pl := range p.Placements {
		f.Placements = append(f.Placements, Placement{Turn: pl.Turn, DX: nanometre(pl.DX), DY: nanometre(pl.DY), Outline: points(p.CutLine(pl))})
	}
	if m.HasRule {
		b := m.Rule.Bar()
		f.Rule = &Rule{Length: sheet.RuleLength, Outline: [][2]float64{
			{nanometre(b.MinX), nanometre(b.MinY)}, {nanometre(b.MaxX), nanometre(b.MinY)}, {nanometre(b.MaxX), nanometre(b.MaxY)}, {nanometre(b.MinX), nanometre(b.MaxY)}}}
	}
	for _, c := range p.CornerMarks() {
		f.Registration = append(f.Registration, Mark{Corner: sheet.CornerNames[c.Corner], X: nanometre(c.At.X), Y: nanometre(c.At.Y), Arm: nanometre(p.Registration.Arm), Line: nanometre(p.Registration.Line)})
	}
	all := p.Compare()
	for _, c := range all {
		f.Alternatives = append(f.Alternatives, Chance{Paper: c.Paper.Name, Layout: c.Layout, PerSheet: c.PerSheet,
			PocketDepth: nanometre(c.Depth), Share: nanometre(c.Share), Sheets: c.Sheets, Used: nanometre(c.Used)})
	}
	f.Advice = p.Counsel(all)
	return f
}

// JSON is the report as one object on a line.
func (f Fit) JSON() ([]byte, error) { return jsonLine(f) }

func jsonLine(v any) ([]byte, error) {
	data, err := json.Marshal(v)
	return append(data, '\n'), err
}

func points(c geom.Contour) [][2]float64 { return pairs(c.Flatten(flattening)) }

// nanometre rounds to a millionth of a millimetre, which hides rounding noise
// and no geometry.
func nanometre(v float64) float64 {
	r := math.Round(v*1e6) / 1e6
	if r == 0 {
		return 0 // not -0
	}
	return r
}

// Text is the answer for people.
func Text(p sheet.Plan) string {
	e := p.Liner.Envelope
	box := p.Pieces[0].Outline.Bounds()
	var b strings.Builder
	row := func(name, format string, args ...any) {
		fmt.Fprintf(&b, "%-14s"+format+"\n", append([]any{name}, args...)...)
	}
	gum := "no gum"
	if e.Gum > 0 {
		gum = "gum " + words.MM(e.Gum)
	}
	row("envelope", "%s, pocket %s, %s flap %s deep, %s", e.Short, words.MMSize(e.Width, e.Height), e.Flap.Shape, words.MM(e.Flap.Depth), gum)
	row("liner", "%s: %s on the flap, %s in the pocket", words.MMSize(box.Width(), box.Height()), words.MM(box.MaxY), words.MM(p.Depth))
	row("pocket depth", "%s of %s, %s of full", words.MM(p.Depth), words.MM(p.FullDepth), percent(p.Depth/p.FullDepth))
	row("paper", "%s, %s, printer margin %s", p.Paper.Short, words.MMSize(p.Paper.Width, p.Paper.Height), words.MM(p.PrinterMargin))
	row("on a sheet", "%d, %s layout", p.PerSheet(), p.Layout)
	row("sheets", "%d for %d", p.Sheets, p.Count)
	return b.String()
}
