package request

import (
	"strings"

	"underflap/pattern/words/filed"
)

// Input is a file that words name: what it holds, and where it is. The path is
// empty where a word names none.
type Input struct{ What, Path string }

// Reads are the files that the words name, by what they hold.
func (w Words) Reads() []Input {
	return []Input{{"palette", PaletteFile(w.Palette)}, {"pattern", PatternFile(w.Pattern)}, {"profile", w.Profile}, {"stamp", w.Stamp}}
}

// Reads are the files that words for a picture name, those in lists too.
func (l Look) Reads() []Input {
	files := l.Words.Reads()
	for _, word := range strings.Split(l.Palettes, ",") {
		files = append(files, Input{"palette", PaletteFile(strings.TrimSpace(word))})
	}
	for _, word := range strings.Split(l.Patterns, ",") {
		files = append(files, Input{"pattern", PatternFile(strings.TrimSpace(word))})
	}
	return files
}

// files is where the files are that the words name.
func (w Words) files() filed.Source {
	if w.Files == nil {
		return filed.Disk{}
	}
	return w.Files
}
