package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"underflap/liner/request"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

func newRun() *cobra.Command {
	var output, dpi, cutPath string
	var flags occasionFlags
	cmd := &cobra.Command{
		Use:   "run file.toml",
		Short: "Make all that a job file asks for: one design, or a whole occasion",
		Long: `Make what a job file asks for. A file of one design gives the sheet that
underflap sheet makes of the same words. The page writes such a file ("Save
design"), and so does underflap sheet --save-job; it is text to read and change:
each line is a flag of underflap sheet or look without its dashes.

    envelope = "c5"
    pattern = "scallops"
    count = 30

    [set]
    size = "14mm"

An occasion has several kinds of liners. Words at the top hold for all of them,
and a [[liner]]'s own words win over them; where it names another envelope,
pattern or palette, what the top says about the envelope, the pattern or the
colours does not hold for it.

    title = "Harvest supper"
    paper = "a4"
    palette = "hop-garden"

    [[liner]]
    name = "invitations"
    envelope = "c6"
    pattern = "leaves"
    count = 24

    [[liner]]
    name = "replies"
    envelope = "c7"
    count = 24
    vary = true       # no two of them alike

It becomes one PDF with an index first, or a folder of PDFs that tells its files in
SHA256SUMS. Different liners share sheets where that saves paper (not with
share = false, or apart = true in a liner). Stopped, it goes on where it ended
when it is run again. With --vary every liner has a seed and a turn of its own.

Files that it names lie beside it, or in the file itself. Words about the
picture alone, such as view, do nothing here.`,
		Example: `  underflap run invitations.toml
  underflap run invitations.toml -o supper.pdf
  underflap run harvest-supper.toml --check
  underflap run harvest-supper.toml -o supper/
  underflap run harvest-supper.toml -o supper/ --cut-file dxf
  underflap run harvest-supper.toml --only replies
  underflap run harvest-supper.toml -o supper/ --part 1/2
  underflap sheet --pattern leaves --count 12 --save-job invitations.toml`,
		Args: oneJob,
		RunE: func(cmd *cobra.Command, args []string) error {
			return runJob(cmd, args[0], output, dpi, cutPath, flags)
		},
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return []cobra.Completion{"toml"}, cobra.ShellCompDirectiveFilterFileExt
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	addOccasionFlags(f, &flags)
	outputFlags(f, &output, &dpi, "", request.DefaultDPI)
	f.Lookup("output").Usage += "; of an occasion .pdf or a folder/ (default called as the job file, .pdf)"
	cutFlag(f, &cutPath)
	f.Lookup("cut-file").Usage += "; for an occasion in a folder just dxf or svg, and every sheet has one beside it"
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}

// oneJob takes the name of one file.
func oneJob(cmd *cobra.Command, args []string) error {
	switch {
	case len(args) == 0 || strings.TrimSpace(args[0]) == "":
		return fmt.Errorf("%s: which file? accepted: a job file, such as invitations.toml", cmd.Name())
	case len(args) > 1:
		return fmt.Errorf("%s takes one file; also given: %q", cmd.Name(), words.Shorten(args[1]))
	}
	return nil
}

// runJob makes the sheets of a job file. It keeps nothing on the shelf.
func runJob(cmd *cobra.Command, path, output, dpi, cutPath string, flags occasionFlags) error {
	if output == "" && cmd.Flags().Changed("output") {
		return &words.Refused{Field: "output", Accepts: "a file name that ends in .pdf, .png or .svg, or of an occasion a folder"}
	}
	file, err := readJob(path)
	if err != nil {
		return err
	}
	if file.Several || flags.given() || output != "" && os.IsPathSeparator(output[len(output)-1]) {
		flags.cuts = cutPath
		return runOccasion(cmd, path, output, file, flags)
	}
	if flags.paperWeight != "" {
		return &words.Refused{Field: "paper-weight", Given: flags.paperWeight, Why: "is for the totals of an occasion", Accepts: "with --check, or with several [[liner]] in the file"}
	}
	if output == "" {
		output = strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)) + ".pdf"
	}
	to, err := request.ResolveOutput(output, dpi)
	if err != nil {
		return work(err)
	}
	job := file.Lines[0].Job
	folder := filed.Folder(filepath.Dir(path))
	w := job.Look.Words
	w.Shelf, w.Files = request.UsualShelf(), job.Source(folder)
	inputs := jobInputs(path, folder, file)
	if err := reads(to.Path, inputs); err != nil {
		return err
	}
	toCut, err := mayCut(cutPath, to.Path, inputs)
	if err != nil {
		return err
	}
	r, err := request.Resolve(cmd.Context(), w)
	if err != nil {
		return inJob(path, job, err)
	}
	made, err := r.Make(cmd.Context())
	if err != nil {
		return inJob(path, job, err)
	}
	if err := to.Write(cmd.Context(), made.Pages); err != nil {
		return work(err)
	}
	if err := cut(cmd, toCut, made.Plan); err != nil {
		return err
	}
	return tellSheet(cmd, r, made, to, toCut, flags.ink)
}

// readJob reads a job file of any kind.
func readJob(path string) (file request.Occasion, err error) {
	data, err := filed.Disk{}.Read(path, request.MostJob)
	if err != nil {
		return file, fmt.Errorf("job file %q: %w; accepted: one of your own, or that underflap sheet --save-job or the page wrote", words.Shorten(path), err)
	}
	file, err = request.ParseOccasion(data)
	return file, inFile(path, err)
}

// jobInputs are a job file, and the files that it names and does not carry.
func jobInputs(path string, folder filed.Folder, file request.Occasion) []request.Input {
	inputs := []request.Input{{What: "job file", Path: path}}
	for _, line := range file.Lines {
		for _, in := range line.Look.Words.Reads() {
			if _, here := line.Carried[in.Path]; in.Path != "" && !here {
				inputs = append(inputs, request.Input{What: in.What, Path: folder.Path(in.Path)})
			}
		}
	}
	return inputs
}

// inJob says in which file, and where in it, a word is refused.
func inJob(path string, job request.Job, err error) error {
	var refused *words.Refused
	err = job.Blame(err)
	if errors.As(err, &refused) { // a word that the file leaves out
		return fmt.Errorf("%s: %s", path, refused.Error())
	}
	return inFile(path, err)
}

// mayKeepJob packs a design for a job file, or refuses the file, before any work
// is done.
func mayKeepJob(l request.Look, path, output string) (job request.Job, err error) {
	if path == "" {
		return job, nil
	}
	refuse := func(why, accepts string) (request.Job, error) {
		return request.Job{}, &words.Refused{Field: "save-job", Given: path, Why: why, Accepts: accepts}
	}
	if ending := filepath.Ext(path); !strings.EqualFold(ending, ".toml") || len(filepath.Base(path)) == len(ending) {
		return refuse("", "a file name that ends in .toml")
	}
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return refuse("is a folder", "a file name that ends in .toml")
	}
	if _, err := os.Stat(filepath.Dir(path)); err != nil {
		return refuse("no such folder", "a file name in a folder that is there")
	}
	if why := taken(path, output, l.Reads()); why != "" {
		return refuse(why, "another file name")
	}
	if job, err = request.PackJob(l); err == nil {
		err = request.WriteJob(io.Discard, job)
	}
	return job, work(err)
}

// keepJob writes a design to a job file.
func keepJob(cmd *cobra.Command, path string, job request.Job) error {
	if path == "" {
		return nil
	}
	_, err := os.Stat(path)
	again := err == nil
	var b bytes.Buffer
	if err := request.WriteJob(&b, job); err != nil {
		return work(err)
	}
	if err := request.Save(cmd.Context(), path, func(w io.Writer) error { _, err := b.WriteTo(w); return err }); err != nil {
		return work(err)
	}
	saved(cmd, "the design", again, path)
	return nil
}
