package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"underflap/liner/request"
	"underflap/liner/sheet"
)

func newFit() *cobra.Command {
	var w request.Words
	var heft request.Heft
	var save, cutPath string
	var asJSON, ink bool
	cmd := &cobra.Command{
		Use:   "fit",
		Short: "Say how liners fit on a sheet",
		Long: `Say how large the liner is, how it fits on a sheet and what it weighs, without
drawing it, though with --cut-file a machine can cut it. With --ink it says how much each colour covers; the pattern's flags
are those of underflap sheet.
With --json the answer is one object for programs: lengths in millimetres, the
outline in liner space (origin at the left end of the fold, y up into the flap)
and each placement on the page (origin top left, y down).`,
		Example: `  underflap fit --envelope c5 --paper a4
  underflap fit --pattern gingham --palette rowan-jelly --count 30 --ink
  underflap fit --envelope a7 --paper letter --json`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			w.Shelf = request.UsualShelf()
			r, err := request.Resolve(cmd.Context(), w)
			if err != nil {
				return work(err)
			}
			if err := mayKeep(w, save); err != nil {
				return err
			}
			toCut, err := mayCut(cutPath, "", w.Reads())
			if err != nil {
				return err
			}
			plan, err := sheet.Arrange(r.Task)
			if err != nil {
				return err
			}
			settled, marks := plan.Settle()
			if err := settled.Check(r.Design); err != nil {
				return work(err)
			}
			weight, err := request.ResolveWeight(heft, r.Found, plan)
			if err != nil {
				return work(err)
			}
			if err := cut(cmd, toCut, settled); err != nil {
				return err
			}
			if err := keep(cmd, w, r.Found, save, r.Correction); err != nil {
				return err
			}
			remark(cmd, r.Found.Remarks)
			advise(cmd, plan)
			tellCut(cmd, toCut, settled, r.Correction, false)
			if !asJSON {
				_, err := fmt.Fprint(cmd.OutOrStdout(), request.Text(plan)+weight.Text()+"\n"+request.ChancesText(plan))
				if err == nil {
					err = sayInk(cmd.Context(), cmd.OutOrStdout(), r, settled, ink)
				}
				return work(err)
			}
			report := request.Report(settled, marks)
			report.Weight = weight
			if ink {
				use, err := r.Ink(cmd.Context(), settled)
				if err != nil {
					return work(err)
				}
				report.Ink = use.Report()
			}
			data, err := report.JSON()
			if err == nil {
				_, err = cmd.OutOrStdout().Write(data)
			}
			return work(err)
		},
	}
	f, fields := cmd.Flags(), w.Fields()
	f.SortFlags = false
	envelopeFlags(f, fields)
	linerFlags(f, fields)
	saveFlag(f, &save)
	sheetFlags(f, fields)
	designFlags(f, fields)
	inkFlags(f, fields, &ink)
	cutFlag(f, &cutPath)
	define(f, weightGroup, []given{
		{&heft.Paper, "paper-weight", "weight", "of the liner's paper: 80gsm, 20lb bond, 70lb text (default 80gsm)"},
		{&heft.Envelope, "envelope-weight", "weight", "of the envelope's paper (default 120gsm)"},
		{&heft.Card, "card-weight", "weight", "of the card's board: 300gsm, 110lb cover (default 300gsm)"},
	})
	f.BoolVar(&asJSON, "json", false, "one JSON object for programs")
	inGroup(f, "json", request.PaperGroup)
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}
