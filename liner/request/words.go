// Package request turns a person's words into an explicit request, every
// length known and every default filled in, and carries it out. The command
// line and the local page are two doors to it; nothing below it sees a flag.
package request

// Words are what a person chose, as typed. An empty word takes its default.
type Words struct {
	Envelope     string // name of the size table; default c6
	Pocket       string // width x height of a measured pocket, instead of a name
	Flap         string // shape; default pointed
	FlapDepth    string
	Shoulder     string
	Taper        string
	BaseGap      string
	TipRadius    string
	Gum          string
	GumClearance string
	SideGap      string
	PocketDepth  string
	CornerRadius string

	Paper         string // name or width x height; default a4
	PrinterMargin string // default 5 mm
	Bleed         string // default 2 mm
	Gap           string // default twice the bleed
	Layout        string // default straight
	PerSheet      string // 1 or 2; default two where they fit
	Count         string // default one sheet

	Pattern string   // default dots, or stamps when there is a stamp
	Palette string   // default orchard-table
	Set     []string // parameter=value of the pattern
	Repeat  string
	Stamp   string // a picture file
	Scale   string // default 1
	Turn    string // default 0
	Seed    string // default 0
}

// Defaults, in the words a person would use.
const (
	DefaultEnvelope = "c6"
	DefaultFlap     = "pointed"
	DefaultPaper    = "a4"
	DefaultLayout   = "straight"
	DefaultDPI      = "600"
	DefaultBleed    = 2.0
)
