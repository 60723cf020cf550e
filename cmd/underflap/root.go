package main

import (
	"errors"
	"fmt"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"underflap/pattern/words"
)

func newRoot() *cobra.Command {
	root := &cobra.Command{
		Use:   "underflap",
		Short: "Make liner paper for the inside of envelopes",
		Long: `Underflap makes liner paper for the inside of envelopes: name or measure the
envelope, choose a pattern and colours, print at actual size, cut, fold, glue
to the flap.

Lengths are millimetres unless a unit is written: 114, 11.4cm, 4 3/8in.`,
		Example: `  underflap sheet
  underflap sheet --envelope a7 --paper letter --pattern scallops --palette barn-lantern
  underflap fit --envelope c5 --paper a4
  underflap run invitations.toml`,
		Version:       version(),
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          knownCommand,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetFlagErrorFunc(flagError)
	root.SetVersionTemplate("underflap {{.Version}}\n")
	root.AddCommand(newSheet(), newFit(), newLook(), newFold(), newRun(), newRuler(), newSwatch(), newDesk(), newSizes(), newPatterns(), newPalettes(), newManual())
	addQuiet(root)
	root.SetHelpCommand(newHelp(root))
	root.InitDefaultCompletionCmd()
	if c, _, err := root.Find([]string{"completion"}); err == nil {
		c.Args = cobra.NoArgs
		c.RunE = func(cmd *cobra.Command, _ []string) error { return cmd.Help() }
	}
	return root
}

// knownCommand refuses what is no command, and offers the nearest.
func knownCommand(root *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if near := root.SuggestionsFor(args[0]); len(near) > 0 {
		return fmt.Errorf("no command %q; did you mean %s?", args[0], strings.Join(near, " or "))
	}
	return fmt.Errorf("no command %q; underflap help lists them", args[0])
}

// noWords refuses words without a flag.
func noWords(cmd *cobra.Command, args []string) error {
	if len(args) > 0 {
		given := words.Shorten(args[0])
		if ink := cmd.Flags().Lookup("ink"); ink != nil && ink.Changed { // the two are easily mixed up
			return fmt.Errorf("%s takes no word %q; --ink says how much ink is needed, colours go with --inks", cmd.Name(), given)
		}
		return fmt.Errorf("%s takes no word %q; a length or name of several words needs quotes", cmd.Name(), given)
	}
	return nil
}

// flagError words the mistakes of flags as the rest of the project does.
func flagError(cmd *cobra.Command, err error) error {
	var unknown *pflag.NotExistError
	var empty *pflag.ValueRequiredError
	var invalid *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		dashes := "--"
		if unknown.GetSpecifiedShortnames() != "" {
			dashes = "-"
		}
		return fmt.Errorf("unknown flag %s%s; see %s --help", dashes, unknown.GetSpecifiedName(), cmd.CommandPath())
	case errors.As(err, &empty):
		return fmt.Errorf("%w; a value that begins with # needs quotes", err)
	case errors.As(err, &invalid):
		return fmt.Errorf("--%s: %w", invalid.GetFlag().Name, invalid.Unwrap())
	}
	return err
}

// newHelp is the usual help command, except that an unknown topic is an error.
func newHelp(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [command]",
		Short: "Help about any command",
		RunE: func(cmd *cobra.Command, args []string) error {
			about, rest, err := root.Find(args)
			if err != nil || len(rest) > 0 {
				return fmt.Errorf("no help for %q; accepted: a command that underflap help lists", words.Shorten(strings.Join(args, " ")))
			}
			about.InitDefaultHelpFlag()
			about.InitDefaultVersionFlag()
			return about.Help()
		},
	}
}

// stamped is the version that the linker writes into a packed program, with
// -X main.stamped=0.1.0; see make dist.
var stamped string

// version is the one stamped on the program, or the module's as the Go tool
// recorded it.
func version() string {
	if stamped != "" {
		return stamped
	}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "(devel)"
}
