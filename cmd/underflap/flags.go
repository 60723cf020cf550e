package main

import (
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"underflap/liner"
	"underflap/liner/request"
	"underflap/liner/sheet"
	"underflap/palettes"
	"underflap/pattern"
)

// envelopeFlags are the words that shape the liner.
func envelopeFlags(f *pflag.FlagSet, w *request.Words) {
	f.StringVar(&w.Envelope, "envelope", "", "`name` of the envelope; see underflap sizes (default "+request.DefaultEnvelope+")")
	f.StringVar(&w.Pocket, "pocket", "", "measured pocket instead of a name, `width x height`, width along the fold: 162x114")
	f.StringVar(&w.Flap, "flap", "", "`shape` of the flap: pointed or square (default "+request.DefaultFlap+")")
	f.StringVar(&w.FlapDepth, "flap-depth", "", "`length` from the fold to the flap's farthest point")
	f.StringVar(&w.Shoulder, "shoulder", "", "pointed flap: `length` sides rise before they slant")
	f.StringVar(&w.Taper, "taper", "", "`length` the flap's straight sides lean in")
	f.StringVar(&w.BaseGap, "base-gap", "", "`length` by which the flap is narrower than the pocket at the fold, each side")
	f.StringVar(&w.TipRadius, "tip-radius", "", "`radius` of the tip, or of a square flap's corners")
	f.StringVar(&w.Gum, "gum", "", "`width` of the gum strip; 0 when there is none")
	f.StringVar(&w.GumClearance, "gum-clearance", "", "`length` from liner to gum (default 1.5)")
	f.StringVar(&w.SideGap, "side-gap", "", "`length` from liner to pocket side (default 3)")
	f.StringVar(&w.PocketDepth, "pocket-depth", "", "`length` the liner reaches below the fold (default 5 short of the bottom)")
	f.StringVar(&w.CornerRadius, "corner-radius", "", "`radius` of the liner's bottom corners (default 4)")
}

// sheetFlags are the words that place liners on paper.
func sheetFlags(f *pflag.FlagSet, w *request.Words) {
	f.StringVar(&w.Paper, "paper", "", "`paper` to print on: a4, a3, letter, legal or width x height (default "+request.DefaultPaper+")")
	f.StringVar(&w.PrinterMargin, "printer-margin", "", "`width` of the border the printer cannot print (default 5)")
	f.StringVar(&w.Bleed, "bleed", "", "`length` the pattern passes the cut line (default 2)")
	f.StringVar(&w.Gap, "gap", "", "least `length` between two cut lines (default twice the bleed)")
	f.StringVar(&w.Layout, "layout", "", "`layout` of liners on the sheet: "+strings.Join(sheet.Layouts, ", ")+" (default "+request.DefaultLayout+")")
	f.StringVar(&w.PerSheet, "per-sheet", "", "`number` of liners on one sheet, 1 or 2 (default 2 where they fit)")
	f.StringVar(&w.Count, "count", "", "`number` of liners wanted in all (default one sheet of them)")
}

// designFlags are the words that choose pattern and colours.
func designFlags(f *pflag.FlagSet, w *request.Words) {
	f.StringVar(&w.Pattern, "pattern", "", "`family` of pattern; see underflap patterns (default "+pattern.Default+")")
	f.StringVar(&w.Palette, "palette", "", "`name` of the colours; see underflap palettes (default "+palettes.Default+")")
	f.StringArrayVar(&w.Set, "set", nil, "a `parameter=value` of the pattern, such as size=4mm; may be given often")
	f.StringVar(&w.Repeat, "repeat", "", "`how` motifs recur: straight, brick or half-drop")
	f.StringVar(&w.Stamp, "stamp", "", "PNG or JPEG `file` of your own art, for the pattern "+pattern.Stamps)
	f.StringVar(&w.Scale, "scale", "", "`times` to enlarge the pattern (default 1)")
	f.StringVar(&w.Turn, "turn", "", "`degrees` to turn the pattern clockwise (default 0)")
	f.StringVar(&w.Seed, "seed", "", "whole `number`; each is another arrangement of the design (default 0)")
}

// complete offers the words a flag takes, where the command has that flag.
func complete(cmd *cobra.Command) {
	var shapes []string
	for _, s := range liner.Shapes {
		shapes = append(shapes, string(s))
	}
	offers := map[string][]string{
		"envelope": lower(liner.EnvelopeNames()),
		"flap":     shapes,
		"paper":    lower(liner.PaperNames()),
		"layout":   sheet.Layouts,
		"pattern":  pattern.Names(),
		"palette":  palettes.Names(),
		"repeat":   {string(pattern.Straight), string(pattern.Brick), string(pattern.HalfDrop)},
	}
	for flag, offered := range offers {
		if cmd.Flags().Lookup(flag) != nil {
			// fails only for a flag that does not exist
			_ = cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(offered, cobra.ShellCompDirectiveNoFileComp))
		}
	}
}

func lower(list []string) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = strings.ReplaceAll(strings.ToLower(s), " ", "")
	}
	return out
}
