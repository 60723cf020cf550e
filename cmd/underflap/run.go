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
	cmd := &cobra.Command{
		Use:   "run file.toml",
		Short: "Make the sheet that a job file asks for",
		Long: `Make the sheet of liners that a job file asks for, as underflap sheet makes it of
the same words. The page writes such a file ("Save design"), and so does
underflap sheet --save-job; it is text to read and change: each line is a flag
of underflap sheet or look without its dashes.

    envelope = "c5"
    pattern = "scallops"
    count = 30

    [set]
    size = "14mm"

Files that it names lie beside it, or in the file itself. Words about the
picture alone, such as view, do nothing here.`,
		Example: `  underflap run invitations.toml
  underflap run invitations.toml -o supper.pdf
  underflap sheet --pattern leaves --count 12 --save-job invitations.toml`,
		Args: oneJob,
		RunE: func(cmd *cobra.Command, args []string) error { return runJob(cmd, args[0], output, dpi, cutPath) },
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return []cobra.Completion{"toml"}, cobra.ShellCompDirectiveFilterFileExt
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	outputFlags(f, &output, &dpi, "", request.DefaultDPI)
	f.Lookup("output").Usage += " (default called as the job file, .pdf)"
	cutFlag(f, &cutPath)
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
func runJob(cmd *cobra.Command, path, output, dpi, cutPath string) error {
	if output == "" && !cmd.Flags().Changed("output") {
		output = strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)) + ".pdf"
	}
	to, err := request.ResolveOutput(output, dpi)
	if err != nil {
		return work(err)
	}
	job, err := readJob(path)
	if err != nil {
		return err
	}
	folder := filed.Folder(filepath.Dir(path))
	w := job.Look.Words
	w.Shelf, w.Files = request.UsualShelf(), job.Source(folder)
	inputs := []request.Input{{What: "job file", Path: path}}
	for _, in := range w.Reads() {
		if _, here := job.Carried[in.Path]; in.Path != "" && !here {
			inputs = append(inputs, request.Input{What: in.What, Path: folder.Path(in.Path)})
		}
	}
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
	return tellSheet(cmd, r, made, to, toCut, false)
}

// readJob reads a job file.
func readJob(path string) (request.Job, error) {
	data, err := filed.Disk{}.Read(path, request.MostJob)
	if err != nil {
		return request.Job{}, fmt.Errorf("job file %q: %w; accepted: one that underflap sheet --save-job or the page wrote", words.Shorten(path), err)
	}
	job, err := request.ParseJob(data)
	return job, inJob(path, job, err)
}

// inJob says in which file, and where in it, a word is refused.
func inJob(path string, job request.Job, err error) error {
	var slip *filed.Slip
	var refused *words.Refused
	err = job.Blame(err)
	switch {
	case errors.As(err, &slip):
		return fmt.Errorf("%s, %w", path, slip)
	case errors.As(err, &refused): // a word that the file leaves out
		return fmt.Errorf("%s: %s", path, refused.Error())
	}
	return work(err)
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
	for _, in := range l.Reads() {
		if in.Path != "" && same(in.Path, path) {
			return refuse("is the "+in.What+" itself", "another file name")
		}
	}
	if same(output, path) {
		return refuse("is the output as well", "another file name")
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
