package desk

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"path"
	"strings"
	"sync"
	"unicode"

	"github.com/hashicorp/golang-lru/v2/simplelru"

	"underflap/pattern/words/filed"
)

// addedBefore begins the word of every file that was uploaded: added-HASH/NAME.
const addedBefore = "added-"

// uploads are the files that a person added to the page, in memory by what they
// hold: the only files that words of a form can name. It is a filed.Source.
type uploads struct {
	mostBytes int64

	mu    sync.Mutex
	kept  *simplelru.LRU[string, []byte] // by hash
	bytes int64
}

func newUploads(l Limits) *uploads {
	u := &uploads{mostBytes: l.UploadsBytes}
	u.kept, _ = simplelru.NewLRU(max(1, l.Uploads), func(_ string, gone []byte) { u.bytes -= int64(len(gone)) }) // fails for sizes under 1 only
	return u
}

// add keeps a file, and gives the word that names it. What was used least lately
// goes when there are too many.
func (u *uploads) add(name string, data []byte) (word string) {
	sum := sha256.Sum256(data)
	hash := hex.EncodeToString(sum[:12])
	u.mu.Lock()
	defer u.mu.Unlock()
	if _, ok := u.kept.Get(hash); !ok {
		u.bytes += int64(len(data))
		u.kept.Add(hash, data)
	}
	for u.kept.Len() > 1 && u.bytes > u.mostBytes {
		u.kept.RemoveOldest()
	}
	return addedBefore + hash + "/" + fileName(name)
}

var (
	errNotAdded = errors.New("files are not read by their name here; add it with its button")
	errDropped  = errors.New("it is no longer at hand; please add the file again")
)

// Read implements filed.Source.
func (u *uploads) Read(word string, most int64) ([]byte, error) {
	rest, ok := strings.CutPrefix(word, addedBefore)
	if !ok {
		return nil, errNotAdded
	}
	hash, _, ok := strings.Cut(rest, "/")
	if !ok {
		return nil, errNotAdded
	}
	u.mu.Lock()
	defer u.mu.Unlock()
	data, ok := u.kept.Get(hash)
	if !ok {
		return nil, errDropped
	}
	return filed.Held{word: data}.Read(word, most)
}

// fileName is the name of a file as it may be shown and stand in a word: the last
// part of a path, of letters and digits and little else, at most 60 of them, its
// ending kept.
func fileName(given string) string {
	given = strings.TrimPrefix(path.Base(strings.ReplaceAll(given, `\`, "/")), "/")
	name := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsMark(r) || unicode.IsDigit(r) || strings.ContainsRune(" -_.", r) && r != unicode.ReplacementChar {
			return r
		}
		return '-'
	}, given)
	name = strings.Trim(strings.TrimLeft(name, ". "), " ")
	if r := []rune(name); len(r) > 60 {
		ending := []rune(path.Ext(name))
		ending = ending[:min(len(ending), 10)]
		name = string(r[:60-len(ending)]) + string(ending)
	}
	if name == "" {
		return "file"
	}
	return name
}
