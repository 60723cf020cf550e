package request

import (
	"strings"

	"underflap/liner"
	"underflap/liner/sheet"
	"underflap/palettes"
	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/stamp"
	"underflap/pattern/words"
)

// Request is a job with nothing left open.
type Request struct {
	Task   sheet.Task
	Design pattern.Design
}

// Resolve settles liner, sheet and design. Every refusal is a *words.Refused.
func Resolve(w Words) (Request, error) {
	task, err := ResolveTask(w)
	if err != nil {
		return Request{}, err
	}
	design, err := resolveDesign(w)
	return Request{Task: task, Design: design}, err
}

// reader reads words one after another and keeps the first refusal.
type reader struct{ err error }

// length reads a word in [least, most] millimetres, or takes def when it is empty.
func (r *reader) length(field, word string, def, least, most float64) float64 {
	if r.err != nil || word == "" {
		return def
	}
	v, err := words.Within(field, word, least, most)
	r.err = err
	return v
}

func (r *reader) count(field, word string, def, least, most int) int {
	if r.err != nil || word == "" {
		return def
	}
	v, err := words.Count(field, word, least, most)
	r.err = err
	return v
}

func (r *reader) number(field, word string, def, least, most float64) float64 {
	if r.err != nil || word == "" {
		return def
	}
	v, err := words.Number(field, word, least, most)
	r.err = err
	return v
}

func or(word, def string) string {
	if word == "" {
		return def
	}
	return word
}

// Ranges of what a person can measure on an envelope, in millimetres.
const leastPocket, mostPocket = 30.0, 700.0

// ResolveTask settles the liner and the sheet alone.
func ResolveTask(w Words) (sheet.Task, error) {
	envelope, err := resolveEnvelope(w)
	if err != nil {
		return sheet.Task{}, err
	}
	var r reader
	clear := liner.Clearances{
		SideGap:      r.length("side-gap", w.SideGap, liner.DefaultSideGap, 0, 50),
		GumClearance: r.length("gum-clearance", w.GumClearance, liner.DefaultGumClearance, 0, 50),
		PocketDepth:  r.length("pocket-depth", w.PocketDepth, 0, 10, mostPocket),
		CornerRadius: r.length("corner-radius", w.CornerRadius, liner.DefaultCornerRadius, 0, 100),
	}
	if r.err != nil {
		return sheet.Task{}, r.err
	}
	l, err := liner.New(envelope, clear)
	if err != nil {
		return sheet.Task{}, err
	}
	t := sheet.Task{Liner: l, Layout: or(w.Layout, DefaultLayout)}
	if t.Paper, err = liner.ParsePaper("paper", or(w.Paper, DefaultPaper)); err != nil {
		return sheet.Task{}, err
	}
	t.PrinterMargin = r.length("printer-margin", w.PrinterMargin, sheet.UsualPrinterMargin, 0, 100)
	t.Bleed = r.length("bleed", w.Bleed, DefaultBleed, 0, 20)
	t.Gap = r.length("gap", w.Gap, 2*t.Bleed, 0, 100)
	t.PerSheet = r.count("per-sheet", w.PerSheet, 0, 1, 2)
	t.Count = r.count("count", w.Count, 0, 1, sheet.MostCount)
	return t, r.err
}

func resolveEnvelope(w Words) (liner.Envelope, error) {
	shape, err := liner.ParseShape("flap", or(w.Flap, DefaultFlap))
	if err != nil {
		return liner.Envelope{}, err
	}
	var e liner.Envelope
	if w.Pocket != "" {
		e, err = measured(w, shape)
	} else {
		var row liner.Entry
		if row, err = liner.LookUp(or(w.Envelope, DefaultEnvelope)); err == nil {
			e = row.Envelope(shape)
		}
	}
	if err != nil {
		return liner.Envelope{}, err
	}
	var r reader
	if w.FlapDepth != "" {
		e.Flap = liner.UsualFlap(shape, r.length("flap-depth", w.FlapDepth, 0, 5, mostPocket))
	}
	if shape == liner.Square && w.Shoulder != "" {
		return e, &words.Refused{Field: "shoulder", Given: w.Shoulder, Why: "a square flap has no shoulder", Accepts: "with --flap pointed; --taper leans a square flap's sides"}
	}
	e.Flap.Shoulder = r.length("shoulder", w.Shoulder, e.Flap.Shoulder, 0, mostPocket)
	e.Flap.Taper = r.length("taper", w.Taper, e.Flap.Taper, 0, mostPocket)
	e.Flap.BaseGap = r.length("base-gap", w.BaseGap, e.Flap.BaseGap, 0, mostPocket)
	e.Flap.TipRadius = r.length("tip-radius", w.TipRadius, e.Flap.TipRadius, 0, mostPocket)
	e.Gum = r.length("gum", w.Gum, e.Gum, 0, 100)
	return e, r.err
}

// measuredGum is the gum of an envelope that the table does not know. Common
// practice, no source.
const measuredGum = 12

func measured(w Words, shape liner.Shape) (liner.Envelope, error) {
	if w.Envelope != "" {
		return liner.Envelope{}, &words.Refused{Field: "pocket", Given: w.Pocket, Why: "an envelope is named as well", Accepts: "either --pocket or --envelope"}
	}
	width, height, err := words.Size("pocket", w.Pocket)
	if err != nil {
		return liner.Envelope{}, err
	}
	if min(width, height) < leastPocket || max(width, height) > mostPocket {
		return liner.Envelope{}, words.OutOf("pocket", w.Pocket, leastPocket, mostPocket)
	}
	if w.FlapDepth == "" {
		return liner.Envelope{}, &words.Refused{Field: "flap-depth", Why: "a measured pocket needs the distance from its fold to the flap's farthest point", Accepts: "a length such as 70"}
	}
	return liner.Envelope{Name: liner.Measured, Short: words.MMSize(width, height), Width: width, Height: height, Flap: liner.Flap{Shape: shape}, Gum: measuredGum}, nil
}

func resolveDesign(w Words) (pattern.Design, error) {
	var r reader
	d := pattern.Design{
		Scale: r.number("scale", w.Scale, 1, 0.05, 50),
		Turn:  r.number("turn", w.Turn, 0, -360, 360),
		Seed:  uint64(r.count("seed", w.Seed, 0, 0, 1<<31-1)),
	}
	if r.err != nil {
		return d, r.err
	}
	name := or(w.Pattern, pattern.Default)
	var art *draw.Image
	if w.Stamp != "" {
		name = or(w.Pattern, pattern.Stamps)
		if !strings.EqualFold(strings.TrimSpace(name), pattern.Stamps) {
			return d, &words.Refused{Field: "stamp", Given: w.Stamp, Why: "the pattern is " + name, Accepts: "with --pattern " + pattern.Stamps}
		}
		var err error
		if art, err = stamp.Read("stamp", w.Stamp); err != nil {
			return d, err
		}
	}
	given, err := settings(w)
	if err != nil {
		return d, err
	}
	d.Name = strings.ToLower(strings.TrimSpace(name))
	palette, err := palettes.Named("palette", or(w.Palette, palettes.Default))
	if err != nil {
		return d, err
	}
	d.Colours = palette.Colours
	d.Motif, err = pattern.New(name, given, art)
	if tiles, ok := d.Motif.(*pattern.StampTiles); ok {
		tiles.Art = stamp.Reduce(tiles.Art, tiles.Size*d.Scale)
	}
	return d, err
}

// settings parts "size=3mm" into a map; the repeat is a setting with a flag of
// its own.
func settings(w Words) (map[string]pattern.Setting, error) {
	given := map[string]pattern.Setting{}
	for _, s := range w.Set {
		name, value, ok := strings.Cut(s, "=")
		name = strings.ToLower(strings.TrimSpace(name))
		if !ok || name == "" {
			return nil, &words.Refused{Field: "set", Given: s, Accepts: "parameter=value, such as size=4mm; underflap patterns lists them"}
		}
		given[name] = pattern.Setting{Field: "set " + name, Value: strings.TrimSpace(value)}
	}
	if w.Repeat != "" {
		given["repeat"] = pattern.Setting{Field: "repeat", Value: w.Repeat}
	}
	return given, nil
}
