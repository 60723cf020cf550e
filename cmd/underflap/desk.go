package main

import (
	"fmt"
	"io"
	"runtime/debug"

	"github.com/cli/browser"
	"github.com/spf13/cobra"

	"underflap/cmd/underflap/desk"
	"underflap/liner/request"
)

func newDesk() *cobra.Command {
	var port string
	var noOpen bool
	cmd := &cobra.Command{
		Use:   "desk",
		Short: "Open a page to choose, see and print with the mouse",
		Long: `Open a page in your browser on which everything is chosen by sight: envelope,
pattern, colours. It shows the lined envelope and the sheet as you change them,
and prints them or saves the files.

The page lives on this computer and answers to nobody else. It ends with Ctrl-C,
or when this window is closed.`,
		Example: `  underflap desk
  underflap desk --no-open
  underflap desk --port 8040`,
		Args: noWords,
		RunE: func(cmd *cobra.Command, _ []string) error {
			endsItself(cmd.Context())
			l, err := desk.Listen(port)
			if err != nil {
				return work(err)
			}
			defer l.Close()
			debug.SetGCPercent(50) // what is kept are pictures, without a pointer in them: quick to look through, and large
			d, err := desk.New(request.UsualShelf(), desk.UsualLimits(), cmd.ErrOrStderr())
			if err != nil {
				return work(err)
			}
			address := desk.Address(l)
			if _, err := fmt.Fprintf(cmd.OutOrStdout(), "underflap desk: %s (Ctrl-C ends it)\n", address); err != nil {
				return work(err)
			}
			if !noOpen {
				browser.Stdout, browser.Stderr = io.Discard, io.Discard
				go func() { _ = browser.OpenURL(address) }() // the address is printed, and can be typed
			}
			return work(d.Serve(cmd.Context(), l))
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	define(f, pageGroup, []given{{&port, "port", "number", fmt.Sprintf("of this computer to answer at; 0 is any free one (default %d, or any free one)", desk.UsualPort)}})
	f.BoolVar(&noOpen, "no-open", false, "print the address and open no browser")
	inGroup(f, "no-open", pageGroup)
	cmd.SetUsageFunc(groupedUsage)
	complete(cmd)
	return cmd
}
