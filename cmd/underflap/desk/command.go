package desk

import "strings"

// command is what makes the same sheets on a command line.
func (f form) command() string {
	line := []string{"underflap sheet"}
	w := f.sheetWords()
	for _, field := range w.Fields() {
		for _, word := range field.Said() {
			line = append(line, "--"+field.Name)
			if field.Mark == nil {
				line = append(line, quoted(word))
			}
		}
	}
	return addedWord.ReplaceAllString(strings.Join(line, " "), "")
}

// quoted is a word as the shells of Unix take it, and in all but strange cases that
// of Windows too.
func quoted(word string) string {
	const plain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_.,:=/+%@"
	switch {
	case word != "" && strings.Trim(word, plain) == "":
		return word
	case !strings.ContainsAny(word, "\"$`\\!\n"):
		return `"` + word + `"`
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}
