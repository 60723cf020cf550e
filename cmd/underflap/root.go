package main

import (
	"runtime/debug"

	"github.com/spf13/cobra"
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
  underflap fit --envelope c5 --paper a4`,
		Version:       version(),
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          cobra.NoArgs,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetVersionTemplate("underflap {{.Version}}\n")
	root.AddCommand(newSheet(), newFit(), newSizes(), newPatterns(), newPalettes())
	return root
}

// version is the module's version as the Go tool recorded it.
func version() string {
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "(devel)"
}
