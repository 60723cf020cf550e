package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"underflap/liner/occasion"
	"underflap/liner/request"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// occasionFlags are the flags of run that are about several liners.
type occasionFlags struct {
	vary, check, ink        bool
	only, part, paperWeight string
	cuts                    string // as typed, of --cut-file
}

// target is where an occasion goes: one PDF, or a folder.
type target struct {
	path   string
	folder bool
}

// given tells whether any flag is there that only an occasion has.
func (o occasionFlags) given() bool {
	return o.vary || o.check || o.only != "" || o.part != ""
}

// occasionGroup is what run is asked for besides what the file says.
const occasionGroup request.Group = "Occasion"

func addOccasionFlags(f *pflag.FlagSet, o *occasionFlags) {
	mark := func(into *bool, name, help string) {
		f.BoolVar(into, name, false, help)
		inGroup(f, name, occasionGroup)
	}
	mark(&o.check, "check", "write nothing: say what would be made, and what is there already")
	mark(&o.vary, "vary", "give every liner its own seed and turn, so that no two are alike, whatever the file says")
	define(f, occasionGroup, []given{{&o.only, "only", "names", "make only these liners, with commas between; other files of the folder are left alone"}})
	define(f, occasionGroup, []given{{&o.part, "part", "share", "make only this share of the sheets, such as 1/2, into a folder that several programs may fill; run it without in the end"}})
	mark(&o.ink, "ink", "say how much ink it takes")
	define(f, occasionGroup, []given{{&o.paperWeight, "paper-weight", "weight", "of the paper printed on, for the totals: 80gsm, 20lb bond (default 80gsm)"}})
}

// runOccasion makes what an occasion's file asks for, or says what that would be.
func runOccasion(cmd *cobra.Command, path, output string, file request.Occasion, flags occasionFlags) error {
	if cmd.Flags().Changed("dpi") {
		return &words.Refused{Field: "dpi", Why: "an occasion is made as PDF", Accepts: "without --dpi"}
	}
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	only := parted(flags.only)
	if output == "" {
		output = strings.Join(append([]string{name}, only...), "-") + ".pdf"
	}
	to, err := occasionTarget(output)
	if err == nil && to.folder && !cmd.Flags().Changed("output") {
		err = &words.Refused{Field: "output", Given: output, Why: "is a folder", Accepts: "a file name, or " + output + "/ to fill the folder"}
	}
	if err != nil {
		return err
	}
	part, err := occasion.ParsePart("part", flags.part)
	if err != nil {
		return err
	}
	if flags.part != "" && !to.folder {
		return &words.Refused{Field: "part", Given: flags.part, Why: "one PDF is made as a whole", Accepts: "with --output and a folder, such as -o " + name + "/"}
	}
	cuts, err := occasion.ParseCutFormat("cut-file", flags.cuts)
	if err == nil && cuts != "" && !to.folder {
		err = &words.Refused{Field: "cut-file", Given: flags.cuts, Why: "a cut file lies beside each sheet, and one PDF has them all", Accepts: "with --output and a folder, such as -o " + name + "/"}
	}
	if err != nil {
		return err
	}
	folder := filed.Folder(filepath.Dir(path))
	if err := occasionInputs(path, folder, file, to); err != nil {
		return err
	}
	o, err := occasion.New(cmd.Context(), file, occasion.Wish{Title: name, Vary: flags.vary, Only: only, PaperWeight: flags.paperWeight, CutFormat: cuts,
		Tool: version(), Shelf: request.UsualShelf(), Beside: folder})
	if err != nil {
		return inFile(path, err)
	}
	if flags.check {
		return checkOccasion(cmd, o, to, part, flags.ink)
	}
	var filled occasion.Filled
	if to.folder {
		filled, err = o.Fill(cmd.Context(), to.path, part, len(only) == 0)
	} else {
		filled, err = o.Book(cmd.Context(), to.path)
	}
	if err != nil {
		return work(err)
	}
	return tellOccasion(cmd, o, to, part, filled, flags.ink)
}

// counted is a number with its noun.
func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}

// parted are names with commas between.
func parted(list string) (names []string) {
	for _, name := range strings.Split(list, ",") {
		if name = strings.TrimSpace(name); name != "" {
			names = append(names, name)
		}
	}
	return names
}

// occasionTarget tells a folder from a PDF: it ends in a slash, is there as one, or
// has no ending.
func occasionTarget(output string) (target, error) {
	ending := filepath.Ext(output)
	bare := strings.TrimRightFunc(output, func(r rune) bool { return r < 0x80 && os.IsPathSeparator(byte(r)) })
	info, err := os.Stat(bare)
	there := err == nil && info.IsDir()
	switch {
	case there || bare != "" && bare != output || ending == "" && strings.TrimSpace(output) != "":
		if err == nil && !info.IsDir() {
			return target{}, &words.Refused{Field: "output", Given: output, Why: "is a file", Accepts: "a folder"}
		}
		return target{filepath.Clean(output), true}, nil
	case strings.EqualFold(ending, ".pdf") && len(filepath.Base(output)) > len(ending):
		_, err := request.ResolveOutput(output, "")
		return target{output, false}, err
	}
	return target{}, &words.Refused{Field: "output", Given: output, Accepts: "a file name that ends in .pdf, or a folder, such as supper/"}
}

// occasionInputs refuses to write over what is read.
func occasionInputs(path string, folder filed.Folder, file request.Occasion, to target) error {
	written := []string{to.path}
	if to.folder {
		written = []string{filepath.Join(to.path, occasion.IndexFile), filepath.Join(to.path, occasion.SumsFile)}
	}
	for _, output := range written {
		if err := reads(output, jobInputs(path, folder, file)); err != nil {
			return err
		}
	}
	return nil
}

// inFile says in which file a word is refused.
func inFile(path string, err error) error {
	var slip *filed.Slip
	if errors.As(err, &slip) {
		return fmt.Errorf("%s, %w", path, slip)
	}
	return work(err)
}

// checkOccasion says what would be made, and writes nothing.
func checkOccasion(cmd *cobra.Command, o *occasion.Occasion, to target, part occasion.Part, ink bool) error {
	kept, all, err := 0, 0, error(nil)
	if to.folder {
		kept, all, err = o.Found(cmd.Context(), to.path, part)
	} else {
		kept, all, err = o.BookFound(cmd.Context(), to.path)
	}
	if err != nil {
		return work(err)
	}
	totals, err := o.Totals(cmd.Context(), ink)
	if err != nil {
		return work(err)
	}
	remark(cmd, o.Remarks())
	_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s\n%s\n%s\n%s: %s, %d there already, %d to make\n", o.Title+"\n", o.Table(), strings.Join(totals, "\n"), to.path, counted(all, "different sheet"), kept, all-kept)
	return work(err)
}

// tellOccasion says what was made.
func tellOccasion(cmd *cobra.Command, o *occasion.Occasion, to target, part occasion.Part, f occasion.Filled, ink bool) error {
	var say strings.Builder
	if f.Kept > 0 {
		fmt.Fprintf(&say, "%d of %d sheets were there already\n", f.Kept, f.Kept+f.Made)
	}
	for _, name := range f.Removed {
		fmt.Fprintf(&say, "removed %s, which is not wanted any more\n", filepath.Join(to.path, name))
	}
	totals, err := o.Totals(cmd.Context(), ink)
	if err != nil {
		return work(err)
	}
	remark(cmd, o.Remarks())
	switch {
	case part.Of > 1:
		fmt.Fprintf(&say, "%s: part %d of %d, %s; when all parts are made, run it without --part\n", to.path, part.Number, part.Of, counted(f.Kept+f.Made, "different sheet"))
	default:
		begin := "its first pages, the index, tell"
		if to.folder {
			begin = filepath.Join(to.path, occasion.IndexFile) + " tells"
		}
		fmt.Fprintf(&say, "%s: %s on %s and an index; print at actual size\n%s\nnext: %s what is on which sheet and how to cut it\n",
			to.path, counted(o.Liners(), "liner"), counted(o.Count(), "sheet"), strings.Join(totals, "\n"), begin)
	}
	_, err = io.WriteString(summaries(cmd), say.String())
	return work(err)
}
