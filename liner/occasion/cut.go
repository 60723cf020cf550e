package occasion

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"underflap/liner/cutfile"
	"underflap/pattern/words"
)

// ParseCutFormat reads what kind of cut files is wanted; nothing is none.
func ParseCutFormat(field, word string) (string, error) {
	format := strings.ToLower(strings.TrimSpace(word))
	if word != "" && !slices.Contains(cutfile.Formats, format) {
		return "", &words.Refused{Field: field, Given: word, Accepts: "of an occasion " + strings.Join(cutfile.Formats, " or ") + ": the files are called as the sheets are"}
	}
	return format, nil
}

// names are those of a sheet's files in a folder; cuts is the format of its cut
// file, or "" for none. A sheet's name has in it all that its cut lines depend on.
func (s Sheet) names(cuts string) []string {
	if cuts == "" {
		return []string{s.File}
	}
	return []string{s.File, strings.TrimSuffix(s.File, filepath.Ext(s.File)) + "." + cuts}
}

// cut writes a sheet's cut file, in the format that its name ends in.
func (s Sheet) cut(w io.Writer, name string) error {
	return cutfile.Of(s.Plan).Write(w, strings.TrimPrefix(filepath.Ext(name), "."))
}

// cutRemarks are what a person should know of the cut files, if any are wanted.
func (o *Occasion) cutRemarks() (lines []string) {
	if o.cuts == "" {
		return nil
	}
	bare, stretched := false, false
	for _, s := range o.Sheets {
		bare = bare || !s.Plan.Registration.Any()
		stretched = stretched || o.Lines[s.Lines[0]].Request.Correction.Text() != ""
		if past := cutfile.Of(s.Plan).Past(); past > 0.005 {
			said := fmt.Sprintf("sheet of %s: a cut line lies up to %s past the sheet's edge, where the machine would cut its mat", strings.Join(o.names(s.Sheet), " and "), words.MM(past))
			if !slices.Contains(lines, said) {
				lines = append(lines, said)
			}
		}
	}
	if stretched {
		lines = append(lines, "the lines in the cut files are not stretched for the printer: the machine cuts true")
	}
	if bare {
		lines = append(lines, `the sheets have no marks to line the cut files up by; registration = "all" in the job file prints them`)
	}
	return lines
}
