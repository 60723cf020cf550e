package main

import (
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"underflap/liner/request"
	"underflap/liner/sheet"
	"underflap/pattern/words"
)

func newSheet() *cobra.Command {
	var w request.Words
	var output, dpi string
	cmd := &cobra.Command{
		Use:   "sheet",
		Short: "Write a sheet of liners to print",
		Long: `Write a sheet of liners at true size: the pattern inside each cut line and its
bleed, fold marks, a 100 mm rule and the working steps.

Two liners lie on a sheet where they fit; when they do not at full depth, the
part in the pocket is shortened just enough, and a line says by how much.`,
		Example: `  underflap sheet
  underflap sheet --envelope dl --flap square --pattern stripes --turn 45 -o supper.pdf
  underflap sheet --pocket 160x115 --flap-depth 70 --gum 0 --palette rowan-jelly
  underflap sheet --stamp acorn.png --set size=25 --repeat half-drop -o acorns.png --dpi 300`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return writeSheet(cmd, w, output, dpi)
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	envelopeFlags(f, &w)
	sheetFlags(f, &w)
	designFlags(f, &w)
	define(f, paperGroup, []given{{&dpi, "dpi", "number", "density of a PNG in dots per inch, 72 to 1200 (default " + request.DefaultDPI + ")"}})
	f.StringVarP(&output, "output", "o", "liners.pdf", "`file` to write: .pdf, .png or .svg")
	inGroup(f, "output", paperGroup)
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}

func writeSheet(cmd *cobra.Command, w request.Words, output, dpi string) error {
	to, err := request.ResolveOutput(output, dpi)
	if err != nil {
		return err
	}
	r, err := request.Resolve(w)
	if err != nil {
		return err
	}
	if same(w.Stamp, to.Path) {
		return &words.Refused{Field: "output", Given: output, Why: "is the stamp itself", Accepts: "another file name"}
	}
	made, err := r.Make()
	if err != nil {
		return work(err)
	}
	if err := to.Write(cmd.Context(), made.Pages); err != nil {
		return work(err)
	}
	advise(cmd, made.Plan)
	for _, line := range made.Marks.Remarks() {
		fmt.Fprintln(cmd.ErrOrStderr(), "underflap:", line)
	}
	fmt.Fprintf(cmd.OutOrStdout(), "%s: %s\n", to.Path, summary(made.Plan, to))
	return nil
}

// same tells whether two names are of one file that exists.
func same(a, b string) bool {
	first, errA := os.Stat(a)
	second, errB := os.Stat(b)
	return errA == nil && errB == nil && os.SameFile(first, second)
}

// advise prints what the plan gave up, a line each.
func advise(cmd *cobra.Command, p sheet.Plan) {
	for line := range strings.Lines(p.Advice) {
		fmt.Fprintln(cmd.ErrOrStderr(), "underflap:", strings.TrimSpace(line))
	}
}

// summary says in a few words what is in the file and what to do with it.
func summary(p sheet.Plan, to request.Output) string {
	liners := "1 liner"
	if p.Count != 1 {
		liners = fmt.Sprintf("%d liners", p.Count)
	}
	say := fmt.Sprintf("%s for %s, %s, pocket depth %.1f mm; print at actual size", liners, p.Liner.Envelope.Short, p.Paper.Short, p.Depth)
	switch {
	case p.Sheets == 1:
	case to.Format == "pdf":
		say += fmt.Sprintf(", %d sheets", p.Sheets)
	default:
		say += fmt.Sprintf(", %d copies of this sheet", p.Sheets)
	}
	return say
}
