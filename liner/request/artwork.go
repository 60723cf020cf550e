package request

import (
	"crypto/sha256"
	"fmt"

	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// mostHashed bounds a file that is only hashed, in bytes; what reads it has bounds
// of its own.
const mostHashed = 1 << 30

// Artwork stands for everything that shapes what is drawn on a liner, besides its
// outline: the words about the pattern, its colours and the paper's, and what is in
// the files and on the shelf under the names they say. Words that give the same
// artwork in another way, a file by another name say, may differ in it.
func (w Words) Artwork() ([sha256.Size]byte, error) {
	h := sha256.New()
	fmt.Fprintf(h, "blank %t\n", w.Blank)
	design := map[string]bool{}
	for _, f := range w.designFields() {
		design[f.Name] = true
		fmt.Fprintf(h, "%s %q\n", f.Name, f.Said())
	}
	for _, r := range (&Look{Words: w}).readings() {
		if !design[r.field] || *r.word == "" {
			continue
		}
		from, file := w.files(), r.file(*r.word)
		if file == "" && r.kept != nil {
			from, file = filed.Disk{}, r.kept(w.Shelf, *r.word)
		}
		if file == "" {
			continue
		}
		data, err := from.Read(file, mostHashed)
		if err != nil {
			return [sha256.Size]byte{}, &words.Refused{Field: r.field, Given: *r.word, Why: err.Error()}
		}
		fmt.Fprintf(h, "%s holds %x\n", r.field, sha256.Sum256(data))
	}
	return [sha256.Size]byte(h.Sum(nil)), nil
}
