package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
	"github.com/spf13/pflag"

	"underflap/liner/request"
	"underflap/pattern/words"
)

// newManual writes what a package installs beside the program. It is left out of
// the help, because nobody who makes liners needs it.
func newManual() *cobra.Command {
	return &cobra.Command{
		Use:    "manual folder",
		Short:  "Write the man pages and the completions of shells",
		Hidden: true,
		Long: `Write the man pages of every command to folder/man, and the completions for
bash, zsh, fish and PowerShell to folder/completions. SOURCE_DATE_EPOCH sets
the date of the pages.`,
		Example: `  underflap manual dist`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 || strings.TrimSpace(args[0]) == "" {
				return fmt.Errorf("%s takes one folder, to write man and completions in", cmd.Name())
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error { return work(writeManual(cmd, args[0])) },
	}
}

// writeManual writes every page and every completion.
func writeManual(cmd *cobra.Command, folder string) error {
	root := cmd.Root()
	files := map[string]func(io.Writer) error{
		"completions/underflap.bash": func(w io.Writer) error { return root.GenBashCompletionV2(w, true) },
		"completions/_underflap":     root.GenZshCompletion,
		"completions/underflap.fish": func(w io.Writer) error { return root.GenFishCompletion(w, true) },
		"completions/underflap.ps1":  root.GenPowerShellCompletionWithDesc,
	}
	var add func(c *cobra.Command)
	add = func(c *cobra.Command) {
		files["man/"+strings.ReplaceAll(c.CommandPath(), " ", "-")+".1"] = func(w io.Writer) error { return manPage(w, c) }
		for _, child := range c.Commands() {
			if child.IsAvailableCommand() {
				add(child)
			}
		}
	}
	add(root)
	for name, write := range files {
		path := filepath.Join(folder, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			return err
		}
		if err := request.Save(cmd.Context(), path, write); err != nil {
			return err
		}
	}
	return nil
}

// manPage is the page that cobra makes of a command, its options under the
// headings of the help.
func manPage(w io.Writer, c *cobra.Command) error {
	c.DisableAutoGenTag = true
	c.InitDefaultHelpFlag()
	var page bytes.Buffer
	header := &doc.GenManHeader{Source: "underflap " + c.Root().Version, Manual: "Liner paper for envelopes"}
	if err := doc.GenMan(c, header, &page); err != nil {
		return err
	}
	_, err := io.WriteString(w, withOptions(titled(page.String(), *header.Date), manOptions(c)))
	return err
}

// optionsSection is what cobra lists of flags, up to the next section.
var optionsSection = regexp.MustCompile(`(?s)\.SH OPTIONS\n.*?(\n\.SH |\z)`)

// inherited is what cobra lists once more of flags that every command has.
var inherited = regexp.MustCompile(`(?s)\n\.SH OPTIONS INHERITED FROM PARENT COMMANDS\n.*?(\n\.SH |\z)`)

// withOptions puts our options in the place of cobra's.
func withOptions(page, options string) string {
	page = inherited.ReplaceAllString(page, "$1")
	at := optionsSection.FindStringSubmatchIndex(page)
	if at == nil {
		return page
	}
	return page[:at[0]] + options + strings.TrimPrefix(page[at[2]:], "\n")
}

// title is the first request of a page, up to its date.
var title = regexp.MustCompile(`(?s)^.*?(\.TH "[^"]*" "[^"]*" )"[^"]*"`)

// titled drops what stands before the title, settings for tables that no page
// has and a blank line, and writes its date as ISO 8601 has it.
func titled(page string, date time.Time) string {
	return title.ReplaceAllString(page, `${1}"`+date.UTC().Format(time.DateOnly)+`"`)
}

// manOptions are a command's flags as a section of roff.
func manOptions(c *cobra.Command) string {
	var b strings.Builder
	b.WriteString(".SH OPTIONS\n")
	for _, group := range append(slices.Clone(groups), "") {
		var entries strings.Builder
		entry := func(f *pflag.Flag) {
			if f.Hidden || headingOf(f) != group {
				return
			}
			kind, usage := pflag.UnquoteUsage(f)
			entries.WriteString(".TP\n")
			if f.Shorthand != "" {
				entries.WriteString(`\fB\-` + roff(f.Shorthand) + `\fP, `)
			}
			entries.WriteString(`\fB\-\-` + roff(f.Name) + `\fP`)
			if kind != "" {
				entries.WriteString(` \fI` + roff(kind) + `\fP`)
			}
			if f.DefValue != "" && f.Value.Type() == "string" {
				usage += " (default " + f.DefValue + ")"
			}
			entries.WriteString("\n" + roff(usage) + "\n")
		}
		c.LocalFlags().VisitAll(entry)
		c.InheritedFlags().VisitAll(entry)
		if entries.Len() > 0 {
			if group == "" {
				group = helpHeading
			}
			b.WriteString(".SS " + roff(string(group)) + "\n" + entries.String())
		}
	}
	return b.String()
}

// roff sets a text in short lines, none of which is taken for a request.
func roff(text string) string {
	const width = 72
	var b strings.Builder
	line := 0
	for i, word := range strings.Fields(words.Printable(text)) {
		word = strings.NewReplacer(`\`, `\e`, "-", `\-`).Replace(word)
		switch {
		case i == 0:
		case line+1+len(word) > width:
			b.WriteByte('\n')
			line = 0
		default:
			b.WriteByte(' ')
			line++
		}
		if line == 0 && strings.ContainsAny(word[:1], ".'") {
			word = `\&` + word
		}
		b.WriteString(word)
		line += len(word)
	}
	return b.String()
}
