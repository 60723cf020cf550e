package request

import (
	"strings"

	"underflap/pattern/words/filed"
)

// Input is a file that words name: what it holds, and where it is. The path is
// empty where a word names none.
type Input struct{ What, Path string }

// reading is a word that may name files.
type reading struct {
	field, what string
	word        *string
	file        func(word string) string          // the file that it names, "" when it names none
	kept        func(s Shelf, word string) string // the file of the shelf; nil where a job carries none of it
	list        bool                              // several words, with commas between
}

// readings are all words that may name files.
func (l *Look) readings() []reading {
	path := func(word string) string { return word }
	return []reading{
		{"palette", "palette", &l.Palette, PaletteFile, Shelf.PaletteSource, false},
		{"pattern", "pattern", &l.Pattern, PatternFile, Shelf.patternSource, false},
		{"profile", "profile", &l.Profile, path, nil, false},
		{"stamp", "stamp", &l.Stamp, path, nil, false},
		{"palettes", "palette", &l.Palettes, PaletteFile, Shelf.PaletteSource, true},
		{"patterns", "pattern", &l.Patterns, PatternFile, Shelf.patternSource, true},
	}
}

// each are the single words.
func (r reading) each() []string {
	if !r.list {
		return []string{*r.word}
	}
	var parts []string
	for _, part := range strings.Split(*r.word, ",") {
		parts = append(parts, strings.TrimSpace(part))
	}
	return parts
}

// Reads are the files that the words name, by what they hold.
func (w Words) Reads() []Input { return Look{Words: w}.Reads() }

// Reads are the files that words for a picture name, those in lists too.
func (l Look) Reads() (files []Input) {
	for _, r := range l.readings() {
		for _, word := range r.each() {
			files = append(files, Input{r.what, r.file(word)})
		}
	}
	return files
}

// Rename puts other words in place of those that may name files. file is what such
// a word names, "" when it names none.
func (l *Look) Rename(to func(field, word, file string) (string, error)) error {
	return l.rename(func(r reading, word, file string) (string, error) { return to(r.field, word, file) })
}

func (l *Look) rename(to func(r reading, word, file string) (string, error)) error {
	for _, r := range l.readings() {
		if *r.word == "" {
			continue
		}
		parts := r.each()
		for i, word := range parts {
			file := r.file(word)
			name, err := to(r, word, file)
			switch {
			case err != nil:
				return err
			case file == "" || name == "":
			case name == file:
				name = word
			case strings.HasSuffix(word, file) && len(word) > len(file): // photo:card.jpg
				name = strings.TrimSuffix(word, file) + name
			}
			parts[i] = name
		}
		*r.word = strings.Join(parts, ",")
	}
	return nil
}

// files is where the files are that the words name.
func (w Words) files() filed.Source {
	if w.Files == nil {
		return filed.Disk{}
	}
	return w.Files
}
