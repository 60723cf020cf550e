package main

import (
	"github.com/spf13/cobra"

	"underflap/liner/request"
)

func newSwatch() *cobra.Command {
	var w request.Words
	var output, dpi string
	var all bool
	cmd := &cobra.Command{
		Use:   "swatch",
		Short: "Write a page of all patterns, of one in all palettes, or of all palettes",
		Long: `Write a page with a sample of every pattern in one palette, each with its name.
With --pattern or --stamp it shows that one in every palette; with --palettes
every palette, its colours side by side and as a small sample of a pattern.`,
		Example: `  underflap swatch
  underflap swatch --palette rowan-jelly -o wall.pdf
  underflap swatch --palettes -o palettes.pdf
  underflap swatch --pattern scallops --set size=12 -o scallops.png --dpi 150`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			w.Shelf = request.UsualShelf()
			to, err := request.ResolveOutput(output, dpi)
			if err != nil {
				return work(err)
			}
			pages, remarks, err := request.Swatch(cmd.Context(), w, all)
			if err != nil {
				return work(err)
			}
			if err := reads(to.Path, w.Reads()); err != nil {
				return err
			}
			if err := to.Write(cmd.Context(), pages); err != nil {
				return work(err)
			}
			remark(cmd, remarks)
			return wrote(cmd, to.Path, pages[0].Title)
		},
	}
	f, fields := cmd.Flags(), w.Fields()
	f.SortFlags = false
	f.BoolVar(&all, "palettes", false, "a page of all palettes, each with its colours")
	inGroup(f, "palettes", request.PatternGroup)
	designFlags(f, fields)
	pageFlags(f, fields)
	outputFlags(f, &output, &dpi, "swatch.pdf", request.DefaultDPI)
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}
