package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"underflap/liner/request"
	"underflap/liner/sheet"
	"underflap/pattern/words"
)

func newSheet() *cobra.Command {
	var w request.Words
	var output, dpi, save, savePalette, saveJob, cutPath string
	var ink bool
	cmd := &cobra.Command{
		Use:   "sheet",
		Short: "Write a sheet of liners to print",
		Long: `Write a sheet of liners at true size: the pattern inside each cut line and its
bleed, fold marks, a 100 mm rule and the working steps. With --blank only the
outlines, to trace on patterned paper.

Two liners lie on a sheet where they fit; when they do not at full depth, the
part in the pocket is shortened just enough, and a line says by how much.`,
		Example: `  underflap sheet
  underflap sheet --envelope dl --flap square --pattern stripes --turn 45 -o supper.pdf
  underflap sheet --pocket 160x115 --flap-depth 70 --gum 0 --palette rowan-jelly
  underflap sheet --card 5x7in --paper letter --pattern scallops
  underflap sheet --handmade four-corner --card a6 --from 210x210
  underflap sheet --registration all --cut-file liners.dxf
  underflap sheet --stamp acorn.png --set size=25 --repeat half-drop -o acorns.png --dpi 300`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return writeSheet(cmd, w, output, dpi, save, savePalette, saveJob, cutPath, ink)
		},
	}
	f, fields := cmd.Flags(), w.Fields()
	f.SortFlags = false
	envelopeFlags(f, fields)
	linerFlags(f, fields)
	saveFlag(f, &save)
	sheetFlags(f, fields)
	designFlags(f, fields)
	savePaletteFlag(f, &savePalette)
	inkFlags(f, fields, &ink)
	offer(f, fields, "notes", "blank")
	printerFlags(f, fields)
	outputFlags(f, &output, &dpi, "liners.pdf", request.DefaultDPI)
	cutFlag(f, &cutPath)
	saveJobFlag(f, &saveJob)
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}

func writeSheet(cmd *cobra.Command, w request.Words, output, dpi, save, savePalette, saveJob, cutPath string, ink bool) error {
	w.Shelf = request.UsualShelf()
	to, err := request.ResolveOutput(output, dpi)
	if err != nil {
		return work(err)
	}
	if ink && w.Blank {
		return work(&words.Refused{Field: "ink", Why: "a blank sheet has no pattern", Accepts: "without --blank"})
	}
	r, err := request.Resolve(cmd.Context(), w)
	if err != nil {
		return work(err)
	}
	if err := reads(to.Path, w.Reads()); err != nil {
		return err
	}
	if err := mayKeep(w, save); err != nil {
		return err
	}
	if err := mayKeepPalette(w, savePalette); err != nil {
		return err
	}
	job, err := mayKeepJob(request.Look{Words: w}, saveJob, to.Path)
	if err != nil {
		return err
	}
	toCut, err := mayCut(cutPath, to.Path, w.Reads())
	if err != nil {
		return err
	}
	made, err := r.Make(cmd.Context())
	if err != nil {
		return work(err)
	}
	if err := to.Write(cmd.Context(), made.Pages); err != nil {
		return work(err)
	}
	if err := cut(cmd, toCut, made.Plan); err != nil {
		return err
	}
	if err := keep(cmd, w, r.Found, save, r.Correction); err != nil {
		return err
	}
	if err := keepPalette(cmd, w.Shelf, savePalette, r.Palette); err != nil {
		return err
	}
	if err := keepJob(cmd, saveJob, job); err != nil {
		return err
	}
	return tellSheet(cmd, r, made, to, toCut, ink)
}

// tellSheet says what was written, and what a person should know of it.
func tellSheet(cmd *cobra.Command, r request.Request, made request.Made, to request.Output, toCut request.CutFile, ink bool) error {
	remark(cmd, r.Found.Remarks)
	advise(cmd, made.Plan)
	remark(cmd, made.Marks.Remarks())
	tellCut(cmd, toCut, made.Plan, r.Correction, !made.Plan.Blank)
	if err := wrote(cmd, to.Path, summary(made.Plan, to)); err != nil {
		return err
	}
	out := cmd.OutOrStdout()
	if !ink { // what is saved is told unasked
		out = summaries(cmd)
	}
	return work(sayInk(cmd.Context(), out, r, made.Plan, ink))
}

// sayInk prints what the ink saver saves and, where it is asked for, how much ink
// the plan takes.
func sayInk(ctx context.Context, to io.Writer, r request.Request, p sheet.Plan, table bool) error {
	say, err := r.Saving(ctx, p)
	if err != nil {
		return err
	}
	if say != "" {
		say += "\n"
	}
	if table {
		use, err := r.Ink(ctx, p)
		if err != nil {
			return err
		}
		say += "\n" + use.Text()
	}
	_, err = io.WriteString(to, say)
	return err
}

// remark prints what a person should know, a line each.
func remark(cmd *cobra.Command, lines []string) {
	for _, line := range lines {
		fmt.Fprintln(besides(cmd), "underflap:", oneLine(line))
	}
}

// advise prints what the plan gave up, a line each.
func advise(cmd *cobra.Command, p sheet.Plan) {
	for line := range strings.Lines(p.Advice) {
		remark(cmd, []string{strings.TrimSpace(line)})
	}
}

// summary says in a few words what is in the file and what to do with it.
func summary(p sheet.Plan, to request.Output) string {
	liners := "1 liner"
	if p.Count != 1 {
		liners = fmt.Sprintf("%d liners", p.Count)
	}
	if p.Blank {
		liners = strings.Replace(liners, "liner", "template", 1)
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
