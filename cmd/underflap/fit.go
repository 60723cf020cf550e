package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"underflap/liner/request"
	"underflap/liner/sheet"
)

func newFit() *cobra.Command {
	var w request.Words
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "fit",
		Short: "Say how liners fit on a sheet",
		Long: `Say how large the liner is and how it fits on a sheet, without drawing it.
With --json the answer is one object for programs: lengths in millimetres, the
outline in liner space (origin at the left end of the fold, y up into the flap)
and each placement on the page (origin top left, y down).`,
		Example: `  underflap fit --envelope c5 --paper a4
  underflap fit --envelope a7 --paper letter --json`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			task, err := request.ResolveTask(w)
			if err != nil {
				return err
			}
			plan, err := sheet.Arrange(task)
			if err != nil {
				return err
			}
			advise(cmd, plan)
			if !asJSON {
				_, err := fmt.Fprint(cmd.OutOrStdout(), request.Text(plan))
				return work(err)
			}
			data, err := request.Report(plan, sheet.Mark(plan)).JSON()
			if err == nil {
				_, err = cmd.OutOrStdout().Write(data)
			}
			return work(err)
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	envelopeFlags(f, &w)
	sheetFlags(f, &w)
	f.BoolVar(&asJSON, "json", false, "one JSON object for programs")
	inGroup(f, "json", paperGroup)
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}
