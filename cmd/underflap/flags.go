package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"underflap/liner"
	"underflap/liner/handmade"
	"underflap/liner/request"
	"underflap/liner/sheet"
	"underflap/palettes"
	"underflap/palettes/derived"
	"underflap/pattern"
	"underflap/pattern/stamp"
)

// word is a flag that keeps what was typed; kind says in the help what to type.
type word struct {
	into *string
	kind string
}

func (w word) String() string { return "" }
func (w word) Type() string   { return w.kind }

// Set refuses an empty word, which is a script's unset variable more often than
// a wish for the default.
func (w word) Set(s string) error {
	if strings.TrimSpace(s) == "" {
		return errors.New("nothing given; leave the flag out for its default")
	}
	*w.into = s
	return nil
}

// given is a flag of words that defines itself on a set.
type given struct {
	into             *string
	name, kind, help string
}

// groups are the headings of the help, in order.
var groups = []string{"Envelope", "Envelope folded by hand", "Picture", "Pattern and colours", "Paper and output", "Finer points of the flap and the liner", "Weight of a letter"}

const (
	envelopeGroup = iota
	handmadeGroup
	pictureGroup
	patternGroup
	paperGroup
	finerGroup
	weightGroup
)

func define(f *pflag.FlagSet, group int, flags []given) {
	for _, g := range flags {
		f.Var(word{g.into, g.kind}, g.name, g.help)
		inGroup(f, g.name, group)
	}
}

const groupKey = "underflap_group"

func inGroup(f *pflag.FlagSet, name string, group int) {
	// fails only for a flag that does not exist
	_ = f.SetAnnotation(name, groupKey, []string{groups[group]})
}

// groupedUsage prints a command's flags under the headings they belong to.
func groupedUsage(cmd *cobra.Command) error {
	out := cmd.OutOrStderr()
	fmt.Fprintf(out, "Usage:\n  %s\n\nExamples:\n%s\n", cmd.UseLine(), cmd.Example)
	for _, heading := range append(slices.Clone(groups), "") {
		part := pflag.NewFlagSet(heading, pflag.ContinueOnError)
		part.SortFlags = false
		cmd.LocalFlags().VisitAll(func(f *pflag.Flag) {
			if own := f.Annotations[groupKey]; len(own) == 1 && own[0] == heading || len(own) == 0 && heading == "" {
				part.AddFlag(f)
			}
		})
		if part.HasFlags() {
			if heading == "" {
				heading = "Help"
			}
			fmt.Fprintf(out, "\n%s:\n%s", heading, part.FlagUsages())
		}
	}
	return nil
}

// envelopeFlags are the words that shape the liner.
func envelopeFlags(f *pflag.FlagSet, w *request.Words) {
	define(f, envelopeGroup, []given{
		{&w.Envelope, "envelope", "name", "envelope by name; see underflap sizes (default " + request.DefaultEnvelope + ")"},
		{&w.Card, "card", "name", "picks the envelope for a card: a6, or width x height"},
		{&w.Room, "room", "length", "to spare beside the card: 5, or long x short side (default 3; folded by hand 12x10)"},
		{&w.Pocket, "pocket", "WxH", "measured pocket instead of a name, width along the fold: 162x114"},
		{&w.FlapDepth, "flap-depth", "length", "from the fold to the flap's farthest point"},
		{&w.Flap, "flap", "shape", "pointed, square, rounded or contour (default the envelope's usual one)"},
		{&w.Gum, "gum", "length", "width of the gum strip; 0 when there is none"},
		{&w.Profile, "profile", "file", "a flap traced point by point: lines of x, height"},
		{&w.FlapSide, "flap-side", "side", "flap on the long or the short side (default as usual)"},
	})
	handmadeFlags(f, w)
	define(f, finerGroup, []given{
		{&w.Shoulder, "shoulder", "length", "how far the flap's sides rise before they slant"},
		{&w.Taper, "taper", "length", "how far the flap's straight sides lean in"},
		{&w.BaseGap, "base-gap", "length", "how much narrower than the pocket the flap is at the fold, each side"},
		{&w.TipRadius, "tip-radius", "length", "rounding of the tip, or of a square flap's corners"},
		{&w.FlapCornerRadius, "flap-corner-radius", "length", "rounding of the corners where the shoulders end"},
	})
}

// handmadeFlags are the words about an envelope folded from a sheet.
func handmadeFlags(f *pflag.FlagSet, w *request.Words) {
	define(f, handmadeGroup, []given{
		{&w.Handmade, "handmade", "construction", "two-panel, from an upright sheet, or four-corner, from a square turned 45 degrees"},
		{&w.From, "from", "sheet", "sheet it is folded from: a4, 12x12in, 210x210 (default the smallest common one that is large enough)"},
		{&w.Overlap, "overlap", "length", "least width that glued panels overlap by (default 10)"},
	})
	f.BoolVar(&w.StraightBottom, "straight-bottom", false, "trim the bottom flap of a four-corner envelope straight")
	inGroup(f, "straight-bottom", handmadeGroup)
}

// linerFlags are the words that say how far the liner keeps from the envelope.
func linerFlags(f *pflag.FlagSet, w *request.Words) {
	define(f, finerGroup, []given{
		{&w.GumClearance, "gum-clearance", "length", "from liner to gum (default 1.5)"},
		{&w.Border, "border", "length", "from liner to the flap's edge where there is no gum (default 5)"},
		{&w.SideGap, "side-gap", "length", "from liner to pocket side (default 3)"},
		{&w.PocketDepth, "pocket-depth", "length", "how far below the fold the liner reaches (default 5 short of the bottom)"},
		{&w.CornerRadius, "corner-radius", "length", "rounding of the liner's bottom corners (default 4)"},
	})
}

// saveFlag keeps the envelope under a name.
func saveFlag(f *pflag.FlagSet, name *string) {
	define(f, envelopeGroup, []given{{name, "save-envelope", "name", "keep this envelope under a name, to use it with --envelope"}})
}

// printerFlags are the words about a printer that rescales.
func printerFlags(f *pflag.FlagSet, w *request.Words) {
	define(f, paperGroup, []given{
		{&w.CorrectX, "correct-x", "length", "what a printed 100 mm rule measures across, or a ratio: 98.7, 100/98.7; see underflap ruler"},
		{&w.CorrectY, "correct-y", "length", "the same down the page"},
		{&w.Printer, "printer", "name", "use the corrections kept for a printer; with --correct-x or -y, keep them"},
	})
}

// outputFlags say which file to write; usual is its name when none is given.
func outputFlags(f *pflag.FlagSet, output, dpi *string, usual, usualDPI string) {
	define(f, paperGroup, []given{{dpi, "dpi", "number", "density of a PNG in dots per inch, 72 to 1200 (default " + usualDPI + ")"}})
	f.StringVarP(output, "output", "o", usual, "`file` to write: .pdf, .png or .svg")
	inGroup(f, "output", paperGroup)
}

// pageFlags say what a page is printed on.
func pageFlags(f *pflag.FlagSet, w *request.Words) {
	define(f, paperGroup, []given{
		{&w.Paper, "paper", "name", paperHelp},
		{&w.PrinterMargin, "printer-margin", "length", "border the printer cannot print (default 5)"},
	})
}

var paperHelp = "a4, a3, letter, legal or another, or width x height (default " + request.DefaultPaper + ")"

// sheetFlags are the words that place liners on paper.
func sheetFlags(f *pflag.FlagSet, w *request.Words) {
	pageFlags(f, w)
	define(f, paperGroup, []given{
		{&w.Count, "count", "number", "liners wanted in all (default one sheet of them)"},
		{&w.PerSheet, "per-sheet", "number", "liners on one sheet, or most (default 2 where they fit)"},
		{&w.Bleed, "bleed", "length", "how far the pattern passes the cut line (default 2)"},
		{&w.Gap, "gap", "length", "least distance of two cut lines (default twice the bleed)"},
		{&w.Layout, "layout", "name", "how liners lie on the sheet: " + strings.Join(sheet.Layouts, ", ") + " (default the one that covers more)"},
		{&w.HiddenFoot, "hidden-foot", "length", "how much of the end in the pocket may run into the printer margin, unseen (default 0)"},
	})
}

// designFlags are the words that choose pattern and colours.
func designFlags(f *pflag.FlagSet, w *request.Words) {
	define(f, patternGroup, []given{
		{&w.Pattern, "pattern", "name", "see underflap patterns, or a file of your own such as ./holly.toml (default " + pattern.Default + ")"},
		{&w.Palette, "palette", "name", "colours: see underflap palettes; a file such as ./hedge.gpl; or derived, as complement:#c0572f, envelope:kraft, photo:card.jpg (default " + palettes.Default + ")"},
	})
	ownColourFlags(f, w)
	f.StringArrayVar(&w.Set, "set", nil, "a `name=value` setting of the pattern, such as size=4mm; may be given often")
	inGroup(f, "set", patternGroup)
	define(f, patternGroup, []given{
		{&w.Stamp, "stamp", "file", "your own art: photo or scan of a stamp, picture, or SVG drawing, for the pattern " + pattern.Stamps},
		{&w.StampColour, "stamp-colour", "ink", "print the art in an ink of the palette: ink or its number; or keep its own colours (default as suits the art)"},
	})
	f.BoolVar(&w.StampTrace, "stamp-trace", false, "trace the art to paths, in one ink, so that it prints sharp at any size")
	inGroup(f, "stamp-trace", patternGroup)
	define(f, patternGroup, []given{
		{&w.Repeat, "repeat", "name", "how motifs recur: " + strings.Join(pattern.RepeatNames(), ", ")},
		{&w.Symmetry, "symmetry", "group", "in place of a repeat, a plane group such as p4mm or p31m"},
		{&w.Fade, "fade", "what", "fade from the fold to the foot: ink or size; ink:30% leaves 30 % at the foot"},
		{&w.Scale, "scale", "number", "enlarges the pattern (default 1)"},
		{&w.Turn, "turn", "degrees", "turns the pattern clockwise (default 0)"},
		{&w.Seed, "seed", "number", "another arrangement, where the pattern has more than one (default 0)"},
		{&w.PaperColour, "paper-colour", "colour", "of the paper you print on, such as kraft, tan or #c9a77c: says which colours are lost on it, and pictures show it (default white)"},
	})
	f.BoolVar(&w.Grey, "grey", false, "one black ink: colours become greys, kept apart in lightness")
	inGroup(f, "grey", patternGroup)
}

// inkFlags are the words about how much ink a sheet takes.
func inkFlags(f *pflag.FlagSet, w *request.Words, ink *bool) {
	saverFlag(f, w)
	f.BoolVar(ink, "ink", false, "say how much of a liner and a sheet each colour covers")
	inGroup(f, "ink", paperGroup)
}

// saverFlag leaves out what nobody sees.
func saverFlag(f *pflag.FlagSet, w *request.Words) {
	define(f, patternGroup, []given{
		{&w.InkSaver, "ink-saver", "depth", fmt.Sprintf("print only what shows: so far below the fold, such as 25, or %s; then it fades out over %g mm", request.SaverWord, pattern.SaverRun)},
	})
}

// lookFlags are the words about the picture of a lined envelope.
func lookFlags(f *pflag.FlagSet, l *request.Look) {
	define(f, pictureGroup, []given{
		{&l.View, "view", "names", "open, half, closed or front, or several with commas between (default open)"},
		{&l.EnvelopeColour, "envelope-colour", "colour", "of the envelope's paper, such as kraft, navy or #d2b48c (default that of --palette envelope:, else a warm white)"},
		{&l.Table, "table", "colour", "of the table it lies on (default a warm grey)"},
		{&l.ShowCard, "show-card", "colour", "a card of this colour looks out of the pocket"},
		{&l.Palettes, "palettes", "names", "compare these, with commas between, or all"},
		{&l.Patterns, "patterns", "names", "compare these, with commas between, or all"},
	})
}

// ownColourFlags are the words that name colours one by one.
func ownColourFlags(f *pflag.FlagSet, w *request.Words) {
	define(f, patternGroup, []given{
		{&w.Inks, "inks", "colours", "inks of your own in place of the palette's: \"#b4472e, goldenrod\""},
		{&w.Ground, "ground", "colour", "ground of your own in place of the palette's: #f6ecd9 or a CSS name"},
	})
}

// savePaletteFlag keeps the colours under a name.
func savePaletteFlag(f *pflag.FlagSet, name *string) {
	define(f, patternGroup, []given{{name, "save-palette", "name", "keep these colours under a name, to use them with --palette"}})
}

// complete offers the words a flag takes, where the command has that flag.
func complete(cmd *cobra.Command) {
	var shapes []string
	for _, s := range liner.Shapes {
		shapes = append(shapes, string(s))
	}
	offers := map[string][]string{
		"card":            lower(liner.CardNames()),
		"flap":            shapes,
		"flap-side":       {"long", "short"},
		"handmade":        handmade.Names(),
		"from":            lower(liner.PaperNames()),
		"notes":           request.NotesWanted,
		"paper":           lower(liner.PaperNames()),
		"layout":          sheet.Layouts,
		"palettes":        append([]string{"all"}, palettes.Names()...),
		"patterns":        append([]string{"all"}, pattern.Names()...),
		"view":            request.ViewNames,
		"stamp-colour":    stamp.ColourWords,
		"repeat":          pattern.RepeatNames(),
		"symmetry":        pattern.SymmetryNames(),
		"ink-saver":       {request.SaverWord},
		"paper-colour":    derived.Papers(),
		"envelope-colour": derived.Papers(),
		"show-card":       derived.Papers(),
		"fade":            {string(pattern.FadeInk), string(pattern.FadeSize)},
	}
	if cmd.Flags().Lookup("envelope") != nil { // looked for only when it is asked for
		_ = cmd.RegisterFlagCompletionFunc("envelope", func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
			return lower(envelopeNames()), cobra.ShellCompDirectiveNoFileComp
		})
	}
	if cmd.Flags().Lookup("pattern") != nil {
		_ = cmd.RegisterFlagCompletionFunc("pattern", func(_ *cobra.Command, _ []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
			if request.PatternFile(begun) != "" {
				return []string{"toml"}, cobra.ShellCompDirectiveFilterFileExt
			}
			return patternNames(), cobra.ShellCompDirectiveNoFileComp
		})
	}
	if cmd.Flags().Lookup("palette") != nil {
		_ = cmd.RegisterFlagCompletionFunc("palette", func(_ *cobra.Command, _ []string, begun string) ([]cobra.Completion, cobra.ShellCompDirective) {
			return offerPalettes(begun)
		})
	}
	for flag, offered := range offers {
		if cmd.Flags().Lookup(flag) != nil {
			// fails only for a flag that does not exist
			_ = cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(offered, cobra.ShellCompDirectiveNoFileComp))
		}
	}
}

// envelopeNames are those of the table and the shelf.
func envelopeNames() []string {
	names := liner.EnvelopeNames()
	saved, _ := request.UsualShelf().Envelopes()
	for _, e := range saved {
		names = append(names, e.Name)
	}
	return names
}

// patternNames are those of the families and the shelf.
func patternNames() []string {
	names := pattern.Names()
	own, _ := request.UsualShelf().Patterns()
	for _, p := range own {
		names = append(names, p.Name)
	}
	return names
}

func lower(list []string) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = strings.ReplaceAll(strings.ToLower(s), " ", "")
	}
	return out
}
