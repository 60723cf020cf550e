package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"underflap/liner/handmade/template"
	"underflap/liner/request"
	"underflap/pattern/words"
)

func newFold() *cobra.Command {
	var w request.Words
	var output, dpi, save string
	var onlyTable, asJSON bool
	cmd := &cobra.Command{
		Use:   "fold",
		Short: "Write a cut-and-fold template of an envelope folded by hand",
		Long: `Write a true-size template of an envelope folded by hand around a card: cuts
solid, folds dashed, glue hatched, and print every distance in millimetres and
inches. A sheet larger than the paper comes on several pages that join.

two-panel    from an upright sheet: a straight flap, a panel and a bottom panel
             one above the other; the sides fold in, the bottom panel folds up
four-corner  from a square turned 45 degrees: its four corners fold to the middle

The same words after underflap sheet make the liner for it.`,
		Example: `  underflap fold --handmade four-corner --card a6
  underflap fold --handmade two-panel --card a6 --from a4
  underflap fold --handmade four-corner --pocket 160x115 --from 210x210 --straight-bottom
  underflap sheet --handmade four-corner --card a6`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			w.Shelf = request.UsualShelf()
			to, err := request.ResolveOutput(output, dpi)
			if err != nil {
				return work(err)
			}
			if w.Handmade == "" {
				return &words.Refused{Field: "handmade", Why: "which construction?", Accepts: "two-panel or four-corner; underflap fold --help describes them"}
			}
			r, err := request.ResolveFold(w)
			if err != nil {
				return work(err)
			}
			if err := mayKeep(w, save); err != nil {
				return err
			}
			if onlyTable || asJSON {
				for _, name := range []string{"output", "dpi"} {
					if cmd.Flags().Changed(name) {
						return &words.Refused{Field: name, Why: "no file is written", Accepts: "without --only-table and --json"}
					}
				}
			}
			if onlyTable && asJSON {
				return &words.Refused{Field: "only-table", Why: "the answer is JSON", Accepts: "either --only-table or --json"}
			}
			var names []string
			if !onlyTable && !asJSON {
				pages, err := r.Template()
				if err != nil {
					return work(err)
				}
				if names, err = to.WriteAll(cmd.Context(), pages); err != nil {
					return work(err)
				}
			}
			if err := keep(cmd, w, r.Found, save, r.Correction); err != nil {
				return err
			}
			remark(cmd, r.Found.Remarks)
			out := cmd.OutOrStdout()
			if asJSON {
				data, err := request.ReportFold(*r.Found.Blank).JSON()
				if err == nil {
					_, err = out.Write(data)
				}
				return work(err)
			}
			if len(names) > 0 {
				out = summaries(cmd)
			}
			say := template.Text(*r.Found.Blank)
			if s := r.Found.Blank.Smallest; s.Width > 0 {
				say += fmt.Sprintf("sheet %s; the smallest standard sheet that is large enough: %s\n", r.Found.Blank.Sheet.Short, s.Short)
			}
			if len(names) > 0 {
				say += fmt.Sprintf("%s: the template on %s; print at actual size\n", strings.Join(names, ", "), r.Paper.Short)
			}
			_, err = fmt.Fprint(out, say)
			return work(err)
		},
	}
	f, fields := cmd.Flags(), w.Fields()
	f.SortFlags = false
	define(f, request.EnvelopeGroup, []given{
		{&w.Card, "card", "name", "what the envelope is for: a6, or width x height"},
		{&w.Room, "room", "length", "to spare beside the card: 5, or long x short side (default 12x10)"},
		{&w.Pocket, "pocket", "WxH", "the pocket itself, width along the flap's fold: 160x115"},
	})
	handmadeFlags(f, fields)
	define(f, request.HandmadeGroup, []given{{&w.FlapDepth, "flap-depth", "length", "depth of a two-panel envelope's flap"}})
	saveFlag(f, &save)
	pageFlags(f, fields)
	printerFlags(f, fields)
	outputFlags(f, &output, &dpi, "fold.pdf", request.DefaultDPI)
	f.BoolVar(&onlyTable, "only-table", false, "print the distances and write no file")
	f.BoolVar(&asJSON, "json", false, "one JSON object for programs, and no file")
	for _, name := range []string{"only-table", "json"} {
		inGroup(f, name, request.PaperGroup)
	}
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}
