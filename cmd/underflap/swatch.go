package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"underflap/liner/request"
)

func newSwatch() *cobra.Command {
	var w request.Words
	var output, dpi string
	cmd := &cobra.Command{
		Use:   "swatch",
		Short: "Write a page of all patterns, or of one in all palettes",
		Long: `Write a page with a sample of every pattern in one palette, each with its name.
With --pattern or --stamp it shows that one in every palette.`,
		Example: `  underflap swatch
  underflap swatch --palette rowan-jelly -o wall.pdf
  underflap swatch --pattern scallops --set size=12 -o scallops.png --dpi 150`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			w.Shelf = request.UsualShelf()
			to, err := request.ResolveOutput(output, dpi)
			if err != nil {
				return work(err)
			}
			pages, remarks, err := request.Swatch(w)
			if err != nil {
				return work(err)
			}
			if err := reads(to.Path, map[string]string{"stamp": w.Stamp, "pattern": request.PatternFile(w.Pattern), "palette": request.PaletteFile(w.Palette)}); err != nil {
				return err
			}
			if err := to.Write(cmd.Context(), pages); err != nil {
				return work(err)
			}
			remark(cmd, remarks)
			_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s: %s\n", to.Path, pages[0].Title)
			return work(err)
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	designFlags(f, &w)
	pageFlags(f, &w)
	outputFlags(f, &output, &dpi, "swatch.pdf", request.DefaultDPI)
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}
