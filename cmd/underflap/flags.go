package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"underflap/liner"
	"underflap/liner/request"
	"underflap/pattern"
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

// weightGroup is about letters, which no request knows of.
const weightGroup request.Group = "Weight of a letter"

// pageGroup is about the page's server.
const pageGroup request.Group = "Page"

// groups are the headings of the help, in order.
var groups = []request.Group{occasionGroup, request.EnvelopeGroup, request.HandmadeGroup, request.PictureGroup, request.PatternGroup, request.PaperGroup, request.FinerGroup, weightGroup, pageGroup}

// define adds a command's own flags.
func define(f *pflag.FlagSet, group request.Group, flags []given) {
	for _, g := range flags {
		f.Var(word{g.into, g.kind}, g.name, g.help)
		inGroup(f, g.name, group)
	}
}

// offer adds flags for fields of a request by name, in the order given.
func offer(f *pflag.FlagSet, fields []request.Field, names ...string) {
	for _, name := range names {
		i := slices.IndexFunc(fields, func(field request.Field) bool { return field.Name == name })
		field := fields[i]
		switch {
		case field.Mark != nil:
			f.BoolVar(field.Mark, name, false, field.Help)
		case field.List != nil:
			f.StringArrayVar(field.List, name, nil, field.Help)
		default:
			f.Var(word{field.Text, field.Kind}, name, field.Help)
		}
		inGroup(f, name, field.Group)
	}
}

const groupKey = "underflap_group"

func inGroup(f *pflag.FlagSet, name string, group request.Group) {
	// fails only for a flag that does not exist
	_ = f.SetAnnotation(name, groupKey, []string{string(group)})
}

// helpHeading is that of flags without a group.
const helpHeading = "Every command"

// headingOf is the group that a flag was put in; "" for none.
func headingOf(f *pflag.Flag) request.Group {
	if own := f.Annotations[groupKey]; len(own) == 1 {
		return request.Group(own[0])
	}
	return ""
}

// groupedUsage prints a command's flags under the headings they belong to.
func groupedUsage(cmd *cobra.Command) error {
	out := cmd.OutOrStderr()
	fmt.Fprintf(out, "Usage:\n  %s\n\nExamples:\n%s\n", cmd.UseLine(), cmd.Example)
	for _, group := range append(slices.Clone(groups), "") {
		heading := string(group)
		part := pflag.NewFlagSet(heading, pflag.ContinueOnError)
		part.SortFlags = false
		add := func(f *pflag.Flag) {
			if string(headingOf(f)) == heading {
				part.AddFlag(f)
			}
		}
		cmd.LocalFlags().VisitAll(add)
		cmd.InheritedFlags().VisitAll(add)
		if part.HasFlags() {
			if heading == "" {
				heading = helpHeading
			}
			fmt.Fprintf(out, "\n%s:\n%s", heading, part.FlagUsages())
		}
	}
	return nil
}

// envelopeFlags are the words that shape the liner.
func envelopeFlags(f *pflag.FlagSet, fields []request.Field) {
	offer(f, fields, "envelope", "card", "room", "pocket", "flap-depth", "flap", "gum", "profile", "flap-side")
	handmadeFlags(f, fields)
	offer(f, fields, "shoulder", "taper", "base-gap", "tip-radius", "flap-corner-radius")
}

// handmadeFlags are the words about an envelope folded from a sheet.
func handmadeFlags(f *pflag.FlagSet, fields []request.Field) {
	offer(f, fields, "handmade", "from", "overlap", "straight-bottom")
}

// linerFlags are the words that say how far the liner keeps from the envelope.
func linerFlags(f *pflag.FlagSet, fields []request.Field) {
	offer(f, fields, "gum-clearance", "border", "side-gap", "pocket-depth", "corner-radius")
}

// saveFlag keeps the envelope under a name.
func saveFlag(f *pflag.FlagSet, name *string) {
	define(f, request.EnvelopeGroup, []given{{name, "save-envelope", "name", "keep this envelope under a name, to use it with --envelope"}})
}

// printerFlags are the words about a printer that rescales.
func printerFlags(f *pflag.FlagSet, fields []request.Field) {
	offer(f, fields, "correct-x", "correct-y", "printer")
}

// outputFlags say which file to write; usual is its name when none is given.
func outputFlags(f *pflag.FlagSet, output, dpi *string, usual, usualDPI string) {
	define(f, request.PaperGroup, []given{{dpi, "dpi", "number", "density of a PNG in dots per inch, 72 to 1200 (default " + usualDPI + ")"}})
	f.StringVarP(output, "output", "o", usual, "`file` to write: .pdf, .png or .svg")
	inGroup(f, "output", request.PaperGroup)
}

// pageFlags say what a page is printed on.
func pageFlags(f *pflag.FlagSet, fields []request.Field) {
	offer(f, fields, "paper", "printer-margin")
}

// sheetFlags are the words that place liners on paper.
func sheetFlags(f *pflag.FlagSet, fields []request.Field) {
	pageFlags(f, fields)
	offer(f, fields, "count", "per-sheet", "bleed", "gap", "layout", "hidden-foot", "registration", "registration-inset", "registration-arm", "registration-line")
}

// designFlags are the words that choose pattern and colours.
func designFlags(f *pflag.FlagSet, fields []request.Field) {
	offer(f, fields, "pattern", "palette", "inks", "ground", "set", "stamp", "stamp-colour", "stamp-trace",
		"repeat", "symmetry", "fade", "scale", "turn", "seed", "paper-colour", "grey")
}

// inkFlags are the words about how much ink a sheet takes.
func inkFlags(f *pflag.FlagSet, fields []request.Field, ink *bool) {
	saverFlag(f, fields)
	f.BoolVar(ink, "ink", false, "say how much of a liner and a sheet each colour covers")
	inGroup(f, "ink", request.PaperGroup)
}

// saverFlag leaves out what nobody sees.
func saverFlag(f *pflag.FlagSet, fields []request.Field) { offer(f, fields, "ink-saver") }

// lookFlags are the words about the picture of a lined envelope.
func lookFlags(f *pflag.FlagSet, fields []request.Field) {
	offer(f, fields, "view", "envelope-colour", "table", "show-card", "palettes", "patterns")
}

// ownColourFlags are the words that name colours one by one.
func ownColourFlags(f *pflag.FlagSet, fields []request.Field) { offer(f, fields, "inks", "ground") }

// savePaletteFlag keeps the colours under a name.
func savePaletteFlag(f *pflag.FlagSet, name *string) {
	define(f, request.PatternGroup, []given{{name, "save-palette", "name", "keep these colours under a name, to use them with --palette"}})
}

// saveJobFlag keeps the whole design in a file.
func saveJobFlag(f *pflag.FlagSet, path *string) {
	define(f, request.PaperGroup, []given{{path, "save-job", "file.toml", "write the design to a job file as well, for underflap run and the page"}})
}

// complete offers the words a flag takes, where the command has that flag.
func complete(cmd *cobra.Command) {
	if cmd.Flags().Lookup("envelope") != nil { // looked for only when it is asked for
		_ = cmd.RegisterFlagCompletionFunc("envelope", func(*cobra.Command, []string, string) ([]cobra.Completion, cobra.ShellCompDirective) {
			return request.AsTyped(envelopeNames()), cobra.ShellCompDirectiveNoFileComp
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
	if cmd.Flags().Lookup("cut-file") != nil {
		_ = cmd.MarkFlagFilename("cut-file", "dxf", "svg")
	}
	if cmd.Flags().Lookup("save-job") != nil {
		_ = cmd.MarkFlagFilename("save-job", "toml")
	}
	for _, field := range new(request.Look).Fields() {
		if len(field.Offers) > 0 && cmd.Flags().Lookup(field.Name) != nil {
			// fails only for a flag that does not exist
			_ = cmd.RegisterFlagCompletionFunc(field.Name, cobra.FixedCompletions(field.Offers, cobra.ShellCompDirectiveNoFileComp))
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
