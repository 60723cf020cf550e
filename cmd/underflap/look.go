package main

import (
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"underflap/liner/request"
	"underflap/pattern/words"
)

func newLook() *cobra.Command {
	var l request.Look
	var output, dpi, save, saveJob string
	var explain, three bool
	picture := pflag.NewFlagSet("picture", pflag.ContinueOnError)
	cmd := &cobra.Command{
		Use:   "look",
		Short: "Draw the lined envelope, to choose before printing",
		Long: `Draw the envelope with its liner as it will lie on the table: your pattern in
your colours, cut as the sheet cuts it. With --palettes or --patterns many
designs stand in one picture. With --explain it is a labelled drawing of the
envelope's measurements instead.`,
		Example: `  underflap look
  underflap look --pattern scallops --palette rowan-jelly --envelope-colour navy
  underflap look --card a6 --show-card ivory --view open,closed
  underflap look --palettes all -o colours.png
  underflap look --patterns dots,petals,waves --palettes hop-garden,rowan-jelly -o choose.pdf
  underflap look --explain --envelope a7 --flap contour -o a7.svg`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			l.Shelf = request.UsualShelf()
			if explain {
				if saveJob != "" {
					return &words.Refused{Field: "save-job", Given: saveJob, Why: "the labelled drawing shows neither paper nor pattern", Accepts: "without --explain"}
				}
				if err := onlyWithoutExplain(cmd, picture); err != nil {
					return err
				}
				return writeExplained(cmd, l.Words, three, output, dpi, save)
			}
			if three {
				return &words.Refused{Field: "three", Why: "a picture has no labels", Accepts: "look --explain --three"}
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
	inGroup(f, "explain", request.PictureGroup)
	inGroup(f, "three", request.PictureGroup)
	outputFlags(f, &output, &dpi, "look.png", "what makes it about 1600 pixels wide")
	saveJobFlag(f, &saveJob)
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}

// onlyWithoutExplain refuses words about the picture on the labelled drawing.
func onlyWithoutExplain(cmd *cobra.Command, picture *pflag.FlagSet) (err error) {
	cmd.Flags().Visit(func(f *pflag.Flag) {
		if err == nil && picture.Lookup(f.Name) != nil {
			err = &words.Refused{Field: f.Name, Given: f.Value.String(), Why: "the labelled drawing shows neither paper nor pattern", Accepts: "without --explain"}
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
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s: %s\n", oneLine(to.Path), oneLine(seen.Says))
	return work(err)
}

// writeExplained draws the measurements.
func writeExplained(cmd *cobra.Command, w request.Words, three bool, output, dpi, save string) error {
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
	if err := to.Write(cmd.Context(), request.Explain(l, three)); err != nil {
		return work(err)
	}
	if err := keep(cmd, w, found, save, request.Correction{}); err != nil {
		return err
	}
	remark(cmd, found.Remarks)
	remark(cmd, l.Doubts())
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s: %s opened, with its measurements\n", oneLine(to.Path), found.Short)
	return work(err)
}
