package request

import (
	"fmt"
	"strings"

	"underflap/liner"
	"underflap/liner/handmade"
	"underflap/liner/sheet"
	"underflap/palettes"
	"underflap/palettes/derived"
	"underflap/pattern"
	"underflap/pattern/stamp"
	"underflap/pattern/words"
)

// Group is the heading that a field stands under, in help and on the page.
type Group string

// The groups, in the order people meet them.
const (
	EnvelopeGroup Group = "Envelope"
	HandmadeGroup Group = "Envelope folded by hand"
	PictureGroup  Group = "Picture"
	PatternGroup  Group = "Pattern and colours"
	PaperGroup    Group = "Paper and output"
	FinerGroup    Group = "Finer points of the flap and the liner"
)

// Field is a word under the name that it has as a flag, on the page and in a job
// file. One of Text, List and Mark is where it is kept.
type Field struct {
	Name  string
	Kind  string // what to type: length, WxH, number, name, ...
	Help  string
	Group Group

	Text *string
	List *[]string // may be given often
	Mark *bool     // needs no value

	Offers []string // words it takes, where they are few and fixed
	Sized  bool     // it takes a name, or a size in millimetres: width x height
}

// Said are the words in a field, as many as there are; a mark that is set says
// "true".
func (f Field) Said() []string {
	switch {
	case f.Mark != nil && *f.Mark:
		return []string{"true"}
	case f.List != nil:
		return *f.List
	case f.Text != nil && *f.Text != "":
		return []string{*f.Text}
	}
	return nil
}

// Clear leaves nothing in a field.
func (f Field) Clear() {
	switch {
	case f.Mark != nil:
		*f.Mark = false
	case f.List != nil:
		*f.List = nil
	default:
		*f.Text = ""
	}
}

// Kinds of field whose numbers are millimetres when no unit is written.
const (
	LengthKind = "length" // also two, with x between
	DepthKind  = "depth"
	SizeKind   = "WxH"
)

// Fields are all words of a request, except where things are kept.
func (w *Words) Fields() []Field {
	var all []Field
	for _, part := range [][]Field{w.envelopeFields(), w.linerFields(), w.designFields(), w.sheetFields()} {
		all = append(all, part...)
	}
	return all
}

// Fields are all words of a picture: those of a request and its own.
func (l *Look) Fields() []Field {
	return append(l.Words.Fields(),
		Field{Name: "view", Kind: "names", Group: PictureGroup, Text: &l.View, Offers: ViewNames, Help: "open, half, closed or front, or several with commas between (default open)"},
		Field{Name: "envelope-colour", Kind: "colour", Group: PictureGroup, Text: &l.EnvelopeColour, Offers: coloursOffered, Help: "of the envelope's paper, such as kraft, navy or #d2b48c (default that of --palette envelope:, else a warm white)"},
		Field{Name: "table", Kind: "colour", Group: PictureGroup, Text: &l.Table, Help: "of the table it lies on (default a warm grey)"},
		Field{Name: "show-card", Kind: "colour", Group: PictureGroup, Text: &l.ShowCard, Offers: coloursOffered, Help: "a card of this colour looks out of the pocket"},
		Field{Name: "palettes", Kind: "names", Group: PictureGroup, Text: &l.Palettes, Offers: palettesOffered, Help: "compare these, with commas between, or all"},
		Field{Name: "patterns", Kind: "names", Group: PictureGroup, Text: &l.Patterns, Offers: patternsOffered, Help: "compare these, with commas between, or all"})
}

func (w *Words) envelopeFields() []Field {
	return []Field{
		{Name: "envelope", Kind: "name", Group: EnvelopeGroup, Text: &w.Envelope, Help: "envelope by name; see underflap sizes (default " + DefaultEnvelope + ")"},
		{Name: "card", Kind: "name", Sized: true, Group: EnvelopeGroup, Text: &w.Card, Offers: cardsOffered, Help: "picks the envelope for a card: a6, or width x height"},
		{Name: "room", Kind: LengthKind, Group: EnvelopeGroup, Text: &w.Room, Help: "to spare beside the card: 5, or long x short side (default 3; folded by hand 12x10)"},
		{Name: "pocket", Kind: SizeKind, Group: EnvelopeGroup, Text: &w.Pocket, Help: "measured pocket instead of a name, width along the fold: 162x114"},
		{Name: "flap-depth", Kind: LengthKind, Group: EnvelopeGroup, Text: &w.FlapDepth, Help: "from the fold to the flap's farthest point"},
		{Name: "flap", Kind: "shape", Group: EnvelopeGroup, Text: &w.Flap, Offers: shapes, Help: "pointed, square, rounded or contour (default the envelope's usual one)"},
		{Name: "gum", Kind: LengthKind, Group: EnvelopeGroup, Text: &w.Gum, Help: "width of the gum strip; 0 when there is none"},
		{Name: "profile", Kind: "file", Group: EnvelopeGroup, Text: &w.Profile, Help: "a flap traced point by point: lines of x, height"},
		{Name: "flap-side", Kind: "side", Group: EnvelopeGroup, Text: &w.FlapSide, Offers: flapSides, Help: "flap on the long or the short side (default as usual)"},

		{Name: "handmade", Kind: "construction", Group: HandmadeGroup, Text: &w.Handmade, Offers: handmade.Names(), Help: "two-panel, from an upright sheet, or four-corner, from a square turned 45 degrees"},
		{Name: "from", Kind: "sheet", Sized: true, Group: HandmadeGroup, Text: &w.From, Offers: papersOffered, Help: "sheet it is folded from: a4, 12x12in, 210x210 (default the smallest common one that is large enough)"},
		{Name: "overlap", Kind: LengthKind, Group: HandmadeGroup, Text: &w.Overlap, Help: "least width that glued panels overlap by (default 10)"},
		{Name: "straight-bottom", Group: HandmadeGroup, Mark: &w.StraightBottom, Help: "trim the bottom flap of a four-corner envelope straight"},

		{Name: "shoulder", Kind: LengthKind, Group: FinerGroup, Text: &w.Shoulder, Help: "how far the flap's sides rise before they slant"},
		{Name: "taper", Kind: LengthKind, Group: FinerGroup, Text: &w.Taper, Help: "how far the flap's straight sides lean in"},
		{Name: "base-gap", Kind: LengthKind, Group: FinerGroup, Text: &w.BaseGap, Help: "how much narrower than the pocket the flap is at the fold, each side"},
		{Name: "tip-radius", Kind: LengthKind, Group: FinerGroup, Text: &w.TipRadius, Help: "rounding of the tip, or of a square flap's corners"},
		{Name: "flap-corner-radius", Kind: LengthKind, Group: FinerGroup, Text: &w.FlapCornerRadius, Help: "rounding of the corners where the shoulders end"},
	}
}

func (w *Words) linerFields() []Field {
	return []Field{
		{Name: "gum-clearance", Kind: LengthKind, Group: FinerGroup, Text: &w.GumClearance, Help: "from liner to gum (default 1.5)"},
		{Name: "border", Kind: LengthKind, Group: FinerGroup, Text: &w.Border, Help: "from liner to the flap's edge where there is no gum (default 5)"},
		{Name: "side-gap", Kind: LengthKind, Group: FinerGroup, Text: &w.SideGap, Help: "from liner to pocket side (default 3)"},
		{Name: "pocket-depth", Kind: LengthKind, Group: FinerGroup, Text: &w.PocketDepth, Help: "how far below the fold the liner reaches (default 5 short of the bottom)"},
		{Name: "corner-radius", Kind: LengthKind, Group: FinerGroup, Text: &w.CornerRadius, Help: "rounding of the liner's bottom corners (default 4)"},
	}
}

func (w *Words) designFields() []Field {
	return []Field{
		{Name: "pattern", Kind: "name", Group: PatternGroup, Text: &w.Pattern, Help: "see underflap patterns, or a file of your own such as ./holly.toml (default " + pattern.Default + ")"},
		{Name: "palette", Kind: "name", Group: PatternGroup, Text: &w.Palette, Help: "colours: see underflap palettes; a file such as ./hedge.gpl; or derived, as complement:#c0572f, envelope:kraft, photo:card.jpg (default " + palettes.Default + ")"},
		{Name: "inks", Kind: "colours", Group: PatternGroup, Text: &w.Inks, Help: "inks of your own in place of the palette's: \"#b4472e, goldenrod\""},
		{Name: "ground", Kind: "colour", Group: PatternGroup, Text: &w.Ground, Help: "ground of your own in place of the palette's: #f6ecd9 or a CSS name"},
		{Name: "set", Kind: "name=value", Group: PatternGroup, List: &w.Set, Help: "a `name=value` setting of the pattern, such as size=4mm; may be given often"},
		{Name: "stamp", Kind: "file", Group: PatternGroup, Text: &w.Stamp, Help: "your own art: photo or scan of a stamp, picture, or SVG drawing, for the pattern " + pattern.Stamps},
		{Name: "stamp-colour", Kind: "ink", Group: PatternGroup, Text: &w.StampColour, Offers: stamp.ColourWords, Help: "print the art in an ink of the palette: ink or its number; or keep its own colours (default as suits the art)"},
		{Name: "stamp-trace", Group: PatternGroup, Mark: &w.StampTrace, Help: "trace the art to paths, in one ink, so that it prints sharp at any size"},
		{Name: "repeat", Kind: "name", Group: PatternGroup, Text: &w.Repeat, Offers: repeats, Help: "how motifs recur: " + strings.Join(repeats, ", ")},
		{Name: "symmetry", Kind: "group", Group: PatternGroup, Text: &w.Symmetry, Offers: symmetries, Help: "in place of a repeat, a plane group such as p4mm or p31m"},
		{Name: "fade", Kind: "what", Group: PatternGroup, Text: &w.Fade, Offers: []string{string(pattern.FadeInk), string(pattern.FadeSize)}, Help: "fade from the fold to the foot: ink or size; ink:30% leaves 30 % at the foot"},
		{Name: "scale", Kind: "number", Group: PatternGroup, Text: &w.Scale, Help: "enlarges the pattern (default 1)"},
		{Name: "turn", Kind: "degrees", Group: PatternGroup, Text: &w.Turn, Help: "turns the pattern clockwise (default 0)"},
		{Name: "seed", Kind: "number", Group: PatternGroup, Text: &w.Seed, Help: "another arrangement, where the pattern has more than one (default 0)"},
		{Name: "paper-colour", Kind: "colour", Group: PatternGroup, Text: &w.PaperColour, Offers: coloursOffered, Help: "of the paper you print on, such as kraft, tan or #c9a77c: says which colours are lost on it, and pictures show it (default white)"},
		{Name: "grey", Group: PatternGroup, Mark: &w.Grey, Help: "one black ink: colours become greys, kept apart in lightness"},
		{Name: "ink-saver", Kind: DepthKind, Group: PatternGroup, Text: &w.InkSaver, Offers: []string{SaverWord}, Help: fmt.Sprintf("print only what shows: so far below the fold, such as 25, or %s; then it fades out over %g mm", SaverWord, pattern.SaverRun)},
	}
}

func (w *Words) sheetFields() []Field {
	return []Field{
		{Name: "paper", Kind: "name", Sized: true, Group: PaperGroup, Text: &w.Paper, Offers: papersOffered, Help: "a4, a3, letter, legal or another, or width x height (default " + DefaultPaper + ")"},
		{Name: "printer-margin", Kind: LengthKind, Group: PaperGroup, Text: &w.PrinterMargin, Help: "border the printer cannot print (default 5)"},
		{Name: "count", Kind: "number", Group: PaperGroup, Text: &w.Count, Help: "liners wanted in all (default one sheet of them)"},
		{Name: "per-sheet", Kind: "number", Group: PaperGroup, Text: &w.PerSheet, Help: "liners on one sheet, or most (default 2 where they fit)"},
		{Name: "bleed", Kind: LengthKind, Group: PaperGroup, Text: &w.Bleed, Help: "how far the pattern passes the cut line (default 2)"},
		{Name: "gap", Kind: LengthKind, Group: PaperGroup, Text: &w.Gap, Help: "least distance of two cut lines (default twice the bleed)"},
		{Name: "layout", Kind: "name", Group: PaperGroup, Text: &w.Layout, Offers: sheet.Layouts, Help: "how liners lie on the sheet: " + strings.Join(sheet.Layouts, ", ") + " (default the one that covers more)"},
		{Name: "hidden-foot", Kind: LengthKind, Group: PaperGroup, Text: &w.HiddenFoot, Help: "how much of the end in the pocket may run into the printer margin, unseen (default 0)"},
		{Name: "notes", Kind: "amount", Group: PaperGroup, Text: &w.Notes, Offers: NotesWanted, Help: "working steps on the sheet: none, short or full (default full)"},
		{Name: "blank", Group: PaperGroup, Mark: &w.Blank, Help: "outlines alone, to trace on patterned paper"},
		{Name: "registration", Kind: "names", Group: PaperGroup, Text: &w.Registration, Offers: cornersOffered, Help: "L marks in these corners, for a cutting machine: all, three, or names with commas between (default none)"},
		{Name: "registration-inset", Kind: LengthKind, Group: PaperGroup, Text: &w.RegistrationInset, Help: "from the paper's edge to the middle of a mark's line (default 10)"},
		{Name: "registration-arm", Kind: LengthKind, Group: PaperGroup, Text: &w.RegistrationArm, Help: "length of a mark's arms (default 20)"},
		{Name: "registration-line", Kind: LengthKind, Group: PaperGroup, Text: &w.RegistrationLine, Help: "thickness of a mark's line (default 0.5)"},
		{Name: "correct-x", Kind: "length", Group: PaperGroup, Text: &w.CorrectX, Help: "what a printed 100 mm rule measures across, or a ratio: 98.7, 100/98.7; see underflap ruler"},
		{Name: "correct-y", Kind: "length", Group: PaperGroup, Text: &w.CorrectY, Help: "the same down the page"},
		{Name: "printer", Kind: "name", Group: PaperGroup, Text: &w.Printer, Help: "use the corrections kept for a printer; with --correct-x or -y, keep them"},
	}
}

// What fields offer is gathered once: every command asks for the tables again.
var (
	cardsOffered        = AsTyped(liner.CardNames())
	papersOffered       = AsTyped(liner.PaperNames())
	coloursOffered      = derived.Papers()
	palettesOffered     = append([]string{everything}, palettes.Names()...)
	patternsOffered     = append([]string{everything}, pattern.Names()...)
	repeats, symmetries = pattern.RepeatNames(), pattern.SymmetryNames()
	shapes              = shapeNames()
	cornersOffered      = append([]string{allCorners, threeCorners, noCorners}, sheet.CornerNames[:]...)
)

func shapeNames() (names []string) {
	for _, s := range liner.Shapes {
		names = append(names, string(s))
	}
	return names
}

// AsTyped are names in the spelling that is quickest to type.
func AsTyped(names []string) []string {
	out := make([]string, len(names))
	for i, name := range names {
		out[i] = words.AsTyped(name)
	}
	return out
}
