// Package request turns a person's words into an explicit request, every
// length known and every default filled in, and carries it out. The command
// line and the local page are two doors to it; nothing below it sees a flag.
package request

import "underflap/pattern/words/filed"

// Words are what a person chose, as typed. An empty word takes its default.
type Words struct {
	Envelope string // name of the size table or the shelf; default c6, or what suits the card
	Card     string // name or width x height
	Room     string // beside the card, one length or long x short side; default 3 mm, by hand 12x10
	Pocket   string // width x height of a measured pocket, instead of a name

	Handmade       string // construction of an envelope folded by hand
	From           string // sheet it is folded from; default the smallest that is large enough
	Overlap        string // least width that glued panels overlap by
	StraightBottom bool

	Flap             string // shape; default the envelope's usual one, or pointed
	FlapSide         string // long or short; default the envelope's usual one
	FlapDepth        string
	Profile          string // file of a flap traced point by point
	Shoulder         string
	Taper            string
	BaseGap          string
	TipRadius        string
	FlapCornerRadius string
	Gum              string
	GumClearance     string
	Border           string // liner to flap edge when there is no gum
	SideGap          string
	PocketDepth      string
	CornerRadius     string // of the liner's bottom corners

	Paper         string // name or width x height; default a4
	PrinterMargin string // default 5 mm
	Bleed         string // default 2 mm
	Gap           string // default twice the bleed
	Layout        string // default the one that covers more
	PerSheet      string // a number, or most; default two where they fit
	HiddenFoot    string // how much of the pocket part's end may run into the margin; default 0
	Count         string // default one sheet
	Notes         string // none, short or full; default full
	Blank         bool   // outlines alone, to trace on patterned paper

	Registration      string // corners with marks, parted by commas, or all or three; default none
	RegistrationInset string // from the paper's edge; default 10 mm
	RegistrationArm   string // length; default 20 mm
	RegistrationLine  string // thickness; default 0.5 mm

	CorrectX string // of a printer that rescales
	CorrectY string
	Printer  string // name under which corrections are kept

	Pattern  string   // default dots, or stamps when there is a stamp
	Palette  string   // default orchard-table
	Inks     string   // colours parted by commas, in place of the palette's
	Ground   string   // a colour in place of the palette's
	Set      []string // parameter=value of the pattern
	Repeat   string
	Symmetry string // a plane group in place of a repeat
	Fade     string // ink or size, and how much is left at the foot; default none
	Stamp    string // a picture or SVG file
	Scale    string // default 1
	Turn     string // default 0
	Seed     string // default 0

	PaperColour string // of the paper printed on; default white
	Grey        bool   // one black ink
	InkSaver    string // depth below the fold down to which artwork is printed; default all

	StampColour string // ink, the number of one, or keep; default what suits the art
	StampTrace  bool   // art in one ink becomes paths

	Shelf Shelf        // where saved envelopes and printers are kept
	Files filed.Source // where the files are that words name; default the disk

	Memory *Memory // of what answers have in common; nil keeps nothing

	trace [][]float64 // points of a saved flap
	kept  bool        // the words are those of a file of the shelf
}

// Defaults, in the words a person would use.
const (
	DefaultEnvelope = "c6"
	DefaultFlap     = "pointed"
	DefaultPaper    = "a4"
	DefaultDPI      = "600"
	DefaultBleed    = 2.0
)
