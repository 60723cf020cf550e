package request

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// PatternFolder is where a shelf has a person's own patterns.
const PatternFolder = "patterns"

// OwnPattern is a pattern from the shelf.
type OwnPattern struct {
	Name string
	pattern.Own
}

// Patterns lists the shelf's patterns, each called as its file. What cannot be
// read, and what is called like one of the project's, is passed over and comes
// back as a problem.
func (s Shelf) Patterns() (list []OwnPattern, problems []error) {
	paths, problems := s.files(PatternFolder)
	for _, path := range paths {
		name := patternName(path)
		own, err := readPattern(filed.Disk{}, name, path)
		switch {
		case !nameable(name):
			problems = append(problems, fmt.Errorf("%s: a file's name may have up to 60 letters, digits, blanks and dashes", path))
		case slices.Contains(pattern.Names(), name):
			problems = append(problems, fmt.Errorf("%s: there is a pattern %s already; give the file another name", path, name))
		case err != nil:
			problems = append(problems, fmt.Errorf("%s, %w", path, err))
		default:
			list = append(list, OwnPattern{name, own})
		}
	}
	return list, problems
}

// PatternFile is the file that a word for a pattern names, "" when it names
// none: a path has a slash or ends in .toml.
func PatternFile(word string) string {
	if strings.ContainsAny(word, `/\`) || strings.EqualFold(filepath.Ext(strings.TrimSpace(word)), ".toml") {
		return word
	}
	return ""
}

// patternName is what the pattern in a file is called, never nothing. It stands
// in titles and in files.
func patternName(path string) string {
	base := words.Printable(filepath.Base(path))
	if name := strings.TrimSuffix(base, filepath.Ext(base)); name != "" {
		return strings.ToLower(name)
	}
	return strings.ToLower(base)
}

// resolvePattern finds a pattern by name, in a file or on the shelf, and settles
// its parameters. name is what it is called.
func resolvePattern(w Words, word string, given map[string]pattern.Setting, art *draw.Art) (name string, m pattern.Motif, err error) {
	name, own, err := findPattern(w, word)
	switch {
	case err != nil:
		return "", nil, err
	case own != nil:
		m, err = own.New(given)
	default:
		m, err = pattern.New(name, given, art)
	}
	return name, m, err
}

// findPattern finds a pattern in a file or on the shelf, or else the name of one of
// the project's.
func findPattern(w Words, word string) (name string, own *pattern.Own, err error) {
	from, path, where := w.files(), PatternFile(word), ""
	if path == "" {
		if name, err = words.Choose("pattern", word, pattern.Names()); err == nil {
			return name, nil, nil
		}
		from, path = filed.Disk{}, w.Shelf.patternSource(word)
		where = path + ", "
	}
	if path != "" {
		name = patternName(path)
		read, err := readPattern(from, name, path)
		if err != nil {
			return "", nil, &words.Refused{Field: "pattern", Given: word, Why: where + err.Error()}
		}
		return name, &read, nil
	}
	list, _ := w.Shelf.Patterns()
	accepted := pattern.Names()
	for _, own := range list {
		accepted = append(accepted, own.Name)
	}
	return "", nil, &words.Refused{Field: "pattern", Given: word, Accepts: strings.Join(accepted, ", ") + ", or a file such as ./holly.toml"}
}

// patternName is the word for the pattern: what is usual, when it is not said.
func (w Words) patternName() string {
	if w.Stamp != "" {
		return or(w.Pattern, pattern.Stamps)
	}
	return or(w.Pattern, pattern.Default)
}

// PatternParams are the parameters of the pattern that the words choose, none of
// one that cannot be found.
func (w Words) PatternParams() []pattern.Param {
	name, own, err := findPattern(w, w.patternName())
	if err != nil {
		return nil
	}
	if own != nil {
		return own.Info().Params
	}
	all := pattern.Describe()
	return all[slices.IndexFunc(all, func(info pattern.Info) bool { return info.Name == name })].Params
}

// patternSource is the file of the shelf that a word for a pattern names, "" when
// it names none.
func (s Shelf) patternSource(word string) string {
	if _, err := words.Choose("pattern", word, pattern.Names()); err == nil {
		return ""
	}
	paths, _ := s.files(PatternFolder)
	for _, path := range paths {
		called := patternName(path)
		if strings.EqualFold(called, strings.TrimSpace(word)) || strings.EqualFold(called, strings.ReplaceAll(strings.TrimSpace(word), " ", "-")) {
			return path
		}
	}
	return ""
}

// readPattern reads a pattern file that goes by a name.
func readPattern(from filed.Source, name, path string) (pattern.Own, error) {
	data, err := from.Read(path, pattern.MostFile)
	if err != nil {
		return pattern.Own{}, err
	}
	return pattern.Parse(name, data)
}
