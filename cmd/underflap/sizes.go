package main

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"underflap/liner"
	"underflap/liner/request"
	"underflap/pattern/words"
)

func newSizes() *cobra.Command {
	var w request.Words
	var fits, room string
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "sizes",
		Short: "List the envelopes known by name",
		Long: `List the envelopes known by name: those of the trade and those you saved. A
pocket's width is the side with the flap. With --fits only those that a card
goes into, the tightest first.`,
		Example: `  underflap sizes
  underflap sizes --fits a6
  underflap sizes --fits 148x105 --room 5
  underflap sizes --json`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			w.Shelf = request.UsualShelf()
			list, problems, err := request.Sizes(w.Shelf, fits, room)
			if err != nil {
				return err
			}
			remark(cmd, request.PassedOver(problems))
			if asJSON {
				data, err := json.MarshalIndent(list, "", " ")
				if err == nil {
					_, err = fmt.Fprintln(cmd.OutOrStdout(), string(data))
				}
				return work(err)
			}
			if len(list) == 0 {
				remark(cmd, []string{"no envelope takes a card of " + fits + " with that room: less --room, or fold one by hand, as underflap fold explains"})
			}
			if err := printSizes(cmd, list, fits != ""); err != nil {
				return err
			}
			if slices.ContainsFunc(list, func(e request.Size) bool { return e.Family == request.SavedFamily }) {
				remark(cmd, []string{"saved envelopes are kept in " + w.Shelf.Dir})
			}
			return nil
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.Var(word{&fits, "card"}, "fits", "only envelopes for a card: a6, 148x105, or \"5.5in x 4.25in\"")
	f.Var(word{&room, "length"}, "room", "least room beside the card, one length or long x short side (default 3)")
	f.BoolVar(&asJSON, "json", false, "a JSON list for programs, lengths in millimetres")
	_ = cmd.RegisterFlagCompletionFunc("fits", cobra.FixedCompletions(request.AsTyped(liner.CardNames()), cobra.ShellCompDirectiveNoFileComp)) // fails only for a flag that does not exist
	cmd.SetUsageFunc(groupedUsage)
	return cmd
}

// printSizes prints envelopes in columns, under their families or, for a card,
// with the room left.
func printSizes(cmd *cobra.Command, list []request.Size, card bool) error {
	return table(cmd, func(row func(...string)) {
		heads := []string{"ENVELOPE", "POCKET", "INCHES", "FLAP ON", "USUAL FLAPS, DEPTH/GUM", "NAME"}
		if card {
			heads = append([]string{"ENVELOPE", "ROOM LEFT"}, heads[1:]...)
		}
		row(heads...)
		family := ""
		for _, e := range list {
			if !card && e.Family != family {
				family = e.Family
				row("", "", "", "", "", "")
				row(strings.ToUpper(family), "", "", "", "", "")
			}
			var flaps []string
			for _, f := range e.Flaps {
				flaps = append(flaps, fmt.Sprintf("%s %s/%s", f.Shape, words.Tenth(f.Depth), words.Tenth(f.Gum)))
			}
			cells := []string{strings.Join(e.Trade[:min(2, len(e.Trade))], ", "), words.MMSize(e.Width, e.Height), words.InchSize(e.Width, e.Height), e.FlapSide + " side", strings.Join(flaps, ", "), e.Name}
			if card {
				cells = append([]string{cells[0], words.MMSize(e.Room.Long, e.Room.Short)}, cells[1:]...)
			}
			row(cells...)
		}
	})
}
