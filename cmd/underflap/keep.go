package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"underflap/liner/request"
)

// keep puts on the shelf what the person asked to be kept: the envelope under a
// name, and corrections given together with a printer's name.
func keep(cmd *cobra.Command, w request.Words, found request.Found, envelope string, c request.Correction) error {
	if envelope != "" {
		path, err := w.Shelf.SaveEnvelope(cmd.Context(), envelope, found.Envelope)
		if err != nil {
			return work(err)
		}
		remark(cmd, []string{fmt.Sprintf("saved %s in %s", envelope, path)})
	}
	if w.Printer != "" && (w.CorrectX != "" || w.CorrectY != "") {
		path, err := w.Shelf.SavePrinter(cmd.Context(), w.Printer, c)
		if err != nil {
			return work(err)
		}
		remark(cmd, []string{fmt.Sprintf("saved the corrections of %s in %s", w.Printer, path)})
	}
	return nil
}
