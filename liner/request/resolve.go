package request

import (
	"context"
	"slices"
	"strings"

	"underflap/liner"
	"underflap/liner/sheet"
	"underflap/palettes"
	"underflap/pattern"
	"underflap/pattern/stamp"
	"underflap/pattern/words"
)

// Request is a job with nothing left open.
type Request struct {
	Found      Found
	Task       sheet.Task
	Design     pattern.Design
	Palette    palettes.Palette // of the design, as it was chosen: with --grey the design's colours are others
	Correction Correction
	memory     *Memory
	press      press
}

// Resolve settles liner, sheet and design. Every refusal is a *words.Refused.
// When ctx ends it stops and gives the context's error.
func Resolve(ctx context.Context, w Words) (Request, error) {
	r, err := ResolveFit(ctx, w)
	if err != nil {
		return Request{}, err
	}
	if w.Blank {
		return r, designless(w)
	}
	d, p, remarks, err := resolveDesign(ctx, w)
	if err != nil {
		return r, err
	}
	on, err := resolvePress(w)
	if err != nil {
		return r, err
	}
	d, said := on.print(ctx, d)
	r.Design, r.Palette, r.press = d, p, on
	r.Found.Remarks = slices.Concat(r.Found.Remarks, remarks, said)
	return r, ctx.Err()
}

// designless refuses words about a pattern where none is drawn.
func designless(w Words) error {
	for _, f := range w.designFields() {
		said := f.Said()
		if len(said) == 0 {
			continue
		}
		word := strings.Join(said, " ")
		if f.Mark != nil { // which is all there is to say
			word = ""
		}
		return typed{f.Name, word}.refused("a blank sheet has no pattern", "without --blank")
	}
	return nil
}

// ResolveFit settles the liner and the sheet alone; see Resolve.
func ResolveFit(ctx context.Context, w Words) (Request, error) {
	if err := ctx.Err(); err != nil {
		return Request{}, err
	}
	found, err := ResolveEnvelope(w)
	if err != nil {
		return Request{}, err
	}
	correction, err := resolveCorrection(w)
	if err != nil {
		return Request{}, err
	}
	task, err := resolveTask(w, found.Envelope)
	if err == nil {
		var said []string
		task.PrinterMargin, said = correction.margin(task.Paper, task.PrinterMargin)
		found.Remarks = append(found.Remarks, said...)
		task.Registration, err = resolveRegistration(w, task)
	}
	return Request{Found: found, Task: task, Correction: correction, memory: w.Memory}, err
}

// ResolveLiner settles the liner alone.
func ResolveLiner(w Words) (Found, liner.Liner, error) {
	found, err := ResolveEnvelope(w)
	if err != nil {
		return found, liner.Liner{}, err
	}
	l, err := resolveLiner(w, found.Envelope)
	return found, l, err
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

func (r *reader) count(field, word string, def, least, most int, orElse ...string) int {
	if r.err != nil || word == "" {
		return def
	}
	v, err := words.Count(field, word, least, most, orElse...)
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

func resolveLiner(w Words, e liner.Envelope) (liner.Liner, error) {
	var r reader
	if e.Gum == 0 && w.GumClearance != "" {
		return liner.Liner{}, &words.Refused{Field: "gum-clearance", Given: w.GumClearance, Why: "the flap has no gum", Accepts: "--border, from the liner to the flap's edge"}
	}
	if e.Gum > 0 && w.Border != "" {
		return liner.Liner{}, &words.Refused{Field: "border", Given: w.Border, Why: "the flap has gum", Accepts: "--gum-clearance, from the liner to the gum, or --gum 0"}
	}
	clear := liner.Clearances{
		Border:       r.length("border", w.Border, liner.UngummedBorder, 0.5, 50),
		SideGap:      r.length("side-gap", w.SideGap, liner.DefaultSideGap, 0, 50),
		GumClearance: r.length("gum-clearance", w.GumClearance, liner.DefaultGumClearance, 0, 50),
		PocketDepth:  r.length("pocket-depth", w.PocketDepth, 0, 10, mostPocket),
		CornerRadius: r.length("corner-radius", w.CornerRadius, liner.UsualCornerRadius(e), 0, 100),
	}
	if r.err != nil {
		return liner.Liner{}, r.err
	}
	return liner.New(e, clear)
}

// NotesWanted are the ways to ask for working steps.
var NotesWanted = []string{"none", "short", "full"}

func resolveTask(w Words, e liner.Envelope) (t sheet.Task, err error) {
	t = sheet.Task{Layout: w.Layout, Blank: w.Blank}
	if t.Liner, err = resolveLiner(w, e); err != nil {
		return t, err
	}
	if t.Paper, err = liner.ParsePaper("paper", or(w.Paper, DefaultPaper)); err != nil {
		return t, err
	}
	notes, err := words.Choose("notes", or(w.Notes, "full"), NotesWanted)
	if err != nil {
		return t, err
	}
	t.Notes = sheet.NotesFull
	switch notes {
	case "none":
		t.Notes = sheet.NotesNone
	case "short":
		t.Notes = sheet.NotesShort
	}
	var r reader
	t.PrinterMargin = r.length("printer-margin", w.PrinterMargin, sheet.UsualPrinterMargin, 0, 100)
	bleed := DefaultBleed
	if w.Blank {
		bleed = 0
		if w.Bleed != "" {
			return t, &words.Refused{Field: "bleed", Given: w.Bleed, Why: "a blank sheet has no pattern", Accepts: "without --blank"}
		}
	}
	t.Bleed = r.length("bleed", w.Bleed, bleed, 0, 20)
	t.Gap = r.length("gap", w.Gap, 2*t.Bleed, 0, 100)
	perSheet := 0
	if w.Blank && w.Count == "" {
		perSheet = 1 // one template is enough, as deep as it should be
	}
	if strings.EqualFold(strings.TrimSpace(w.PerSheet), "most") {
		t.PerSheet = sheet.Most
	} else {
		t.PerSheet = r.count("per-sheet", w.PerSheet, perSheet, 1, sheet.MostPerSheet, "most")
	}
	t.HiddenFoot = r.length("hidden-foot", w.HiddenFoot, 0, 0, 30)
	t.Count = r.count("count", w.Count, 0, 1, sheet.MostCount)
	return t, r.err
}

// resolveDesign settles the pattern in the colours of its palette, with remarks on
// both.
func resolveDesign(ctx context.Context, w Words) (d pattern.Design, p palettes.Palette, remarks []string, err error) {
	d, remarks, err = resolveMotif(ctx, w)
	if err != nil {
		return d, p, nil, err
	}
	p, said, err := ResolvePalette(ctx, w)
	d.Colours = p.Colours
	return d, p, append(remarks, said...), err
}

// resolveMotif settles the pattern without its colours, with remarks on the art.
func resolveMotif(ctx context.Context, w Words) (d pattern.Design, remarks []string, err error) {
	var r reader
	d = pattern.Design{
		Scale: r.number("scale", w.Scale, 1, 0.05, 50),
		Turn:  r.number("turn", w.Turn, 0, -360, 360),
		Seed:  uint64(r.count("seed", w.Seed, 0, 0, 1<<31-1)),
	}
	if r.err != nil {
		return d, nil, r.err
	}
	name, art, err := resolveArt(ctx, w)
	if err != nil {
		return d, nil, err
	}
	remarks = slices.Clip(art.remarks) // which may be kept
	given, err := settings(w)
	if err != nil {
		return d, nil, err
	}
	if d.Fade, err = pattern.ParseFade("fade", w.Fade); err != nil {
		return d, nil, err
	}
	d.Name, d.Motif, err = resolvePattern(w, name, given, art.art)
	if tiles, ok := d.Motif.(*pattern.StampTiles); ok {
		var remark string
		if tiles.Art, remark, err = w.Memory.fit(ctx, art, tiles.Size*d.Scale); err != nil {
			return d, nil, err
		}
		if remark != "" {
			remarks = append(remarks, remark)
		}
	}
	return d, remarks, err
}

// resolveArt reads the person's own art, if they name some, and gives the
// pattern they want it for.
func resolveArt(ctx context.Context, w Words) (name string, art prepared, err error) {
	name = w.patternName()
	if w.Stamp == "" {
		if w.StampColour != "" {
			return name, art, typed{"stamp-colour", w.StampColour}.refused("there is no art", "with --stamp")
		}
		if w.StampTrace {
			return name, art, typed{"stamp-trace", ""}.refused("there is no art", "with --stamp")
		}
		return name, art, nil
	}
	if !strings.EqualFold(strings.TrimSpace(name), pattern.Stamps) {
		return name, art, typed{"stamp", w.Stamp}.refused("the pattern is "+name, "with --pattern "+pattern.Stamps)
	}
	art, err = w.Memory.read(ctx, w.files(), w.Stamp, stamp.Wish{Colour: w.StampColour, Trace: w.StampTrace})
	return name, art, err
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
	if w.Symmetry != "" {
		given["symmetry"] = pattern.Setting{Field: "symmetry", Value: w.Symmetry}
	}
	return given, nil
}
