package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"underflap/liner/request"
)

func newRuler() *cobra.Command {
	var w request.Words
	var output, dpi string
	cmd := &cobra.Command{
		Use:   "ruler",
		Short: "Write a page to check the printer's scale",
		Long: `Write a page with rules of 100 mm and 4 in, across and down, a square in each
corner and a border at the printer margin. Print it at actual size and measure.

A printer that rescales is corrected with --correct-x and --correct-y: what the
100 mm rule measured, or a ratio. With --printer and a name they are kept, and
--printer alone uses them, here and with sheet and fold.`,
		Example: `  underflap ruler
  underflap ruler --paper letter --printer-margin 1/4in
  underflap ruler --printer kitchen --correct-x 98.7 --correct-y 99.2
  underflap sheet --printer kitchen`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			w.Shelf = request.UsualShelf()
			to, err := request.ResolveOutput(output, dpi)
			if err != nil {
				return work(err)
			}
			r, err := request.ResolveRuler(w)
			if err != nil {
				return work(err)
			}
			pages, err := r.Page()
			if err != nil {
				return err
			}
			if err := to.Write(cmd.Context(), pages); err != nil {
				return work(err)
			}
			if err := keep(cmd, w, request.Found{}, "", r.Correction); err != nil {
				return err
			}
			remark(cmd, r.Remarks)
			return wrote(cmd, to.Path, fmt.Sprintf("rules and border on %s; print at actual size, then measure both 100 mm rules", r.Paper.Short))
		},
	}
	f, fields := cmd.Flags(), w.Fields()
	f.SortFlags = false
	pageFlags(f, fields)
	printerFlags(f, fields)
	outputFlags(f, &output, &dpi, "ruler.pdf", request.DefaultDPI)
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}
