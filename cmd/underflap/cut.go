package main

import (
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"underflap/liner/request"
	"underflap/liner/sheet"
	"underflap/pattern/words"
)

// cutFlag names a file for a cutting machine.
func cutFlag(f *pflag.FlagSet, path *string) {
	define(f, request.PaperGroup, []given{{path, "cut-file", "file", "write cut and fold lines of one sheet for a cutting machine as well: .dxf or .svg"}})
}

// mayCut refuses a file for a cutting machine before any work is done.
func mayCut(path, output string, inputs []request.Input) (request.CutFile, error) {
	c, err := request.ResolveCutFile(path)
	if err != nil || path == "" {
		return c, err
	}
	if why := taken(path, output, inputs); why != "" {
		return c, &words.Refused{Field: "cut-file", Given: path, Why: why, Accepts: "another file name"}
	}
	return c, nil
}

// cut writes the file, where one is wanted.
func cut(cmd *cobra.Command, c request.CutFile, p sheet.Plan) error {
	if c.Path == "" {
		return nil
	}
	return work(c.Write(cmd.Context(), p))
}

// tellCut says what was written, and what a person should know of it.
func tellCut(cmd *cobra.Command, c request.CutFile, p sheet.Plan, by request.Correction, printed bool) {
	if c.Path == "" {
		return
	}
	remark(cmd, append([]string{"cut and fold lines of one sheet, in millimetres, in " + c.Path}, c.Remarks(p, by, printed)...))
}
