package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"github.com/spf13/cobra"

	"underflap/liner/request"
	"underflap/palettes/ansi"
	"underflap/pattern"
)

// table prints aligned rows.
func table(cmd *cobra.Command, rows func(row func(cells ...string))) error {
	return paintedTable(cmd, ansi.Plain, rows)
}

// colourTable prints each #rrggbb on itself, where the terminal can.
func colourTable(cmd *cobra.Command, rows func(row func(cells ...string))) error {
	return paintedTable(cmd, ansi.Of(cmd.OutOrStdout(), os.Getenv), rows)
}

func paintedTable(cmd *cobra.Command, depth ansi.Depth, rows func(row func(cells ...string))) error {
	var aligned strings.Builder
	t := tabwriter.NewWriter(&aligned, 0, 0, 2, ' ', 0)
	rows(func(cells ...string) { fmt.Fprintln(t, strings.Join(cells, "\t")) })
	if err := t.Flush(); err != nil {
		return work(err)
	}
	for line := range strings.Lines(aligned.String()) {
		if _, err := fmt.Fprintln(cmd.OutOrStdout(), depth.Paint(strings.TrimRight(line, " \n"))); err != nil {
			return work(err)
		}
	}
	return nil
}

func newPatterns() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "patterns",
		Short:   "List the patterns and what can be set on each",
		Example: "  underflap patterns",
		Args:    noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			shelf := request.UsualShelf()
			own, problems := shelf.Patterns()
			remark(cmd, request.PassedOver(problems))
			all := pattern.Describe()
			for _, p := range own {
				all = append(all, p.Info())
			}
			err := table(cmd, func(row func(...string)) {
				var shared []pattern.Param
				for _, f := range all {
					row(f.Name, f.About)
					had := shared != nil
					for _, p := range f.Params {
						switch {
						case !p.Shared:
							row("  --set "+p.Name+"="+p.Default, p.About, p.Accepts)
						case !had:
							shared = append(shared, p)
						}
					}
					row()
				}
				row("all with a repeat", "how motifs recur")
				for _, p := range shared {
					row("  --set "+p.Name+"="+p.Default, p.About, p.Accepts)
				}
			})
			if err == nil && len(own) > 0 {
				remark(cmd, []string{"your own patterns are kept in " + filepath.Join(shelf.Dir, request.PatternFolder)})
			}
			return err
		},
	}
	cmd.SetUsageFunc(groupedUsage)
	return cmd
}
