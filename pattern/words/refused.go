// Package words turns what a person types into values: lengths, sizes,
// angles, counts. It sits at the bottom of the project and imports nothing of
// it, so that every room can read words and refuse them in the same way.
package words

import (
	"fmt"
	"strings"
	"unicode"
)

// Refused says that a word cannot be used: which field it stood in, what was
// given, and what would be accepted. The field is named as a job file names
// it ("flap-depth"); the command line puts the dashes before it.
type Refused struct {
	Field   string // "flap-depth"
	Given   string // the person's own word, "" when something is missing
	Why     string // optional: what is wrong with it
	Accepts string // what would be accepted
}

// Error is one line. A flag's dashes are not in it; see Flag.
func (r *Refused) Error() string { return r.line(r.Field) }

// Flag is the same line with the field written as a flag of the command line.
func (r *Refused) Flag() string { return r.line("--" + r.Field) }

func (r *Refused) line(field string) string {
	var b strings.Builder
	b.WriteString(field)
	if r.Given != "" {
		fmt.Fprintf(&b, ": %q", Shorten(r.Given))
	}
	if r.Why != "" {
		fmt.Fprintf(&b, ": %s", r.Why)
	}
	if r.Accepts != "" {
		fmt.Fprintf(&b, "; accepted: %s", r.Accepts)
	}
	return b.String()
}

// Shorten keeps an error on one readable line however long the word was: the
// middle goes, since a path ends in the file's name.
func Shorten(s string) string {
	const half = 35
	if r := []rune(s); len(r) > 2*half {
		return string(r[:half]) + "…" + string(r[len(r)-half:])
	}
	return s
}

// Printable puts ? for what would break a line or do something to a terminal, as
// the name of a file may hold it.
func Printable(s string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) {
			return '?'
		}
		return r
	}, s)
}

// Choose returns the entry of accepted that equals given, ignoring case, or a
// *Refused that lists them.
func Choose(field, given string, accepted []string) (string, error) {
	for _, a := range accepted {
		if strings.EqualFold(strings.TrimSpace(given), a) {
			return a, nil
		}
	}
	return "", &Refused{Field: field, Given: given, Accepts: strings.Join(accepted, ", ")}
}
