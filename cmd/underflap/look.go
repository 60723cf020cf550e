package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"underflap/liner/request"
	"underflap/pattern/words"
)

func newLook() *cobra.Command {
	var w request.Words
	var output, dpi, save string
	var explain, three bool
	cmd := &cobra.Command{
		Use:   "look",
		Short: "Draw the opened envelope with its measurements",
		Long: `Draw the opened envelope and its liner with the three measurements to take, and
the finer ones under the names of their flags.`,
		Example: `  underflap look --explain
  underflap look --explain --envelope a7 --flap contour -o a7.svg`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			w.Shelf = request.UsualShelf()
			if !explain {
				return &words.Refused{Field: "explain", Why: "the labelled drawing is the one picture there is", Accepts: "look --explain"}
			}
			if dpi == "" {
				dpi = "200" // for a screen
			}
			to, err := request.ResolveOutput(output, dpi)
			if err != nil {
				return work(err)
			}
			found, l, err := request.ResolveLiner(w)
			if err != nil {
				return work(err)
			}
			if err := reads(to.Path, map[string]string{"profile": w.Profile}); err != nil {
				return err
			}
			if err := mayKeep(w, save); err != nil {
				return err
			}
			if err := to.Write(cmd.Context(), request.Explain(l, three)); err != nil {
				return work(err)
			}
			if err := keep(cmd, w, found, save, request.Correction{}); err != nil {
				return err
			}
			remark(cmd, found.Remarks)
			remark(cmd, l.Doubts())
			_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s: %s opened, with its measurements\n", to.Path, found.Short)
			return work(err)
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.BoolVar(&explain, "explain", false, "label the measurements")
	f.BoolVar(&three, "three", false, "only the three measurements to take with a ruler")
	inGroup(f, "explain", paperGroup)
	inGroup(f, "three", paperGroup)
	envelopeFlags(f, &w)
	linerFlags(f, &w)
	saveFlag(f, &save)
	outputFlags(f, &output, &dpi, "look.png", "200")
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}
