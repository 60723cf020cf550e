package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"underflap/liner"
	"underflap/liner/request"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

func newLook() *cobra.Command {
	var l request.Look
	var output, dpi, save, saveJob string
	var explain, three, steps, troubles bool
	picture := pflag.NewFlagSet("picture", pflag.ContinueOnError)
	cmd := &cobra.Command{
		Use:   "look",
		Short: "Draw the lined envelope, to choose before printing",
		Long: `Draw the envelope with its liner as it will lie on the table: your pattern in
your colours, cut as the sheet cuts it. With --palettes or --patterns many
designs stand in one picture.

Or draw the envelope to learn from: --explain labels its measurements, --steps
shows how the liner is cut, folded, slid in and glued, and --troubles what goes
wrong beside how it should be.`,
		Example: `  underflap look
  underflap look --pattern scallops --palette rowan-jelly --envelope-colour navy
  underflap look --card a6 --show-card ivory --view open,closed
  underflap look --palettes all -o colours.png
  underflap look --patterns dots,petals,waves --palettes hop-garden,rowan-jelly -o choose.pdf
  underflap look --explain --envelope a7 --flap contour -o a7.svg
  underflap look --steps --card a6 -o steps.pdf`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			l.Shelf = request.UsualShelf()
			drawing, err := drawingOf(explain, three, steps, troubles)
			if err != nil {
				return err
			}
			if drawing != nil {
				if saveJob != "" {
					return &words.Refused{Field: "save-job", Given: saveJob, Why: drawing.why, Accepts: "without --" + drawing.flag}
				}
				if err := onlyWithout(cmd, *drawing, picture); err != nil {
					return err
				}
				return writeDrawing(cmd, *drawing, l.Words, output, dpi, save)
			}
			return writePicture(cmd, l, output, dpi, save, saveJob)
		},
	}
	f, fields := cmd.Flags(), l.Fields()
	f.SortFlags = false
	envelopeFlags(f, fields)
	linerFlags(f, fields)
	saveFlag(f, &save)
	for _, add := range []func(*pflag.FlagSet, []request.Field){designFlags, saverFlag, lookFlags, sheetFlags} {
		add(picture, fields) // to know them by name
		add(f, fields)
	}
	f.BoolVar(&explain, "explain", false, "label the measurements")
	f.BoolVar(&three, "three", false, "with --explain, only the three measurements to take with a ruler")
	f.BoolVar(&steps, "steps", false, "draw how the liner is made: score, cut, fold, slide in, glue, close")
	f.BoolVar(&troubles, "troubles", false, "draw what goes wrong, beside how it should be")
	inGroup(f, "steps", request.PictureGroup)
	inGroup(f, "troubles", request.PictureGroup)
	inGroup(f, "explain", request.PictureGroup)
	inGroup(f, "three", request.PictureGroup)
	outputFlags(f, &output, &dpi, "look.png", "what makes it about 1600 pixels wide")
	saveJobFlag(f, &saveJob)
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}

// drawing is one to learn from, in place of the picture.
type drawing struct {
	flag  string
	why   string // it takes nothing about paper and pattern
	says  string // what is drawn, after the envelope's name
	pages func(liner.Liner) []*draw.Page
}

// drawingOf is the drawing that flags ask for; nil is the picture.
func drawingOf(explain, three, steps, troubles bool) (asked *drawing, err error) {
	for _, d := range []struct {
		asked bool
		drawing
	}{
		{explain, drawing{"explain", "the labelled drawing shows neither paper nor pattern", "opened, with its measurements",
			func(l liner.Liner) []*draw.Page { return request.Explain(l, three) }}},
		{steps, drawing{"steps", "the drawing of the steps shows neither paper nor pattern", "lined in six steps", request.Steps}},
		{troubles, drawing{"troubles", "the drawing of the troubles shows neither paper nor pattern", "and what goes wrong with its liner", request.Troubles}},
	} {
		if !d.asked {
			continue
		}
		if asked != nil {
			return nil, &words.Refused{Field: d.flag, Why: "is another drawing than --" + asked.flag, Accepts: "one of them at a time"}
		}
		asked = &d.drawing
	}
	if three && !explain {
		return nil, &words.Refused{Field: "three", Why: "a picture has no labels", Accepts: "look --explain --three"}
	}
	return asked, nil
}

// onlyWithout refuses words about the picture on a drawing.
func onlyWithout(cmd *cobra.Command, d drawing, picture *pflag.FlagSet) (err error) {
	cmd.Flags().Visit(func(f *pflag.Flag) {
		if err == nil && picture.Lookup(f.Name) != nil {
			err = &words.Refused{Field: f.Name, Given: f.Value.String(), Why: d.why, Accepts: "without --" + d.flag}
		}
	})
	return err
}

// writePicture draws what the maker will get.
func writePicture(cmd *cobra.Command, l request.Look, output, dpi, save, saveJob string) error {
	if _, err := request.ResolveOutput(output, dpi); err != nil { // before the work
		return work(err)
	}
	seen, err := request.See(cmd.Context(), l)
	if err != nil {
		return work(err)
	}
	if dpi == "" {
		dpi = seen.UsualDPI()
	}
	to, err := request.ResolveOutput(output, dpi)
	if err != nil {
		return work(err)
	}
	if err := reads(to.Path, l.Reads()); err != nil {
		return err
	}
	if err := mayKeep(l.Words, save); err != nil {
		return err
	}
	job, err := mayKeepJob(l, saveJob, to.Path)
	if err != nil {
		return err
	}
	if err := to.Write(cmd.Context(), seen.Pages()); err != nil {
		return work(err)
	}
	if err := keep(cmd, l.Words, seen.Found, save, request.Correction{}); err != nil {
		return err
	}
	if err := keepJob(cmd, saveJob, job); err != nil {
		return err
	}
	remark(cmd, seen.Found.Remarks)
	remark(cmd, seen.Remarks)
	remark(cmd, seen.Scene.Liner.Doubts())
	return wrote(cmd, to.Path, seen.Says)
}

// writeDrawing draws an envelope to learn from.
func writeDrawing(cmd *cobra.Command, d drawing, w request.Words, output, dpi, save string) error {
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
	if err := reads(to.Path, w.Reads()); err != nil {
		return err
	}
	if err := mayKeep(w, save); err != nil {
		return err
	}
	if err := to.Write(cmd.Context(), d.pages(l)); err != nil {
		return work(err)
	}
	if err := keep(cmd, w, found, save, request.Correction{}); err != nil {
		return err
	}
	remark(cmd, found.Remarks)
	remark(cmd, l.Doubts())
	return wrote(cmd, to.Path, fmt.Sprintf("%s %s", found.Short, d.says))
}
