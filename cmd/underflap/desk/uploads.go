package desk

import (
	"container/list"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"path"
	"strings"
	"sync"
	"unicode"
)

// addedBefore begins the word of every file that was uploaded: added-HASH/NAME.
const addedBefore = "added-"

// uploads are the files that a person added to the page, in memory by what they
// hold: the only files that words of a form can name. It is a filed.Source.
type uploads struct {
	most      int
	mostBytes int64

	mu    sync.Mutex
	kept  map[string]*list.Element // of []byte-carrying upload, by hash
	order list.List                // the last used first
	bytes int64
}

type upload struct {
	hash string
	data []byte
}

func newUploads(l Limits) *uploads {
	return &uploads{most: l.Uploads, mostBytes: l.UploadsBytes, kept: map[string]*list.Element{}}
}

// add keeps a file, and gives the word that names it. What was used least lately
// goes when there are too many.
func (u *uploads) add(name string, data []byte) (word string) {
	sum := sha256.Sum256(data)
	hash := hex.EncodeToString(sum[:12])
	u.mu.Lock()
	defer u.mu.Unlock()
	if e, ok := u.kept[hash]; ok {
		u.order.MoveToFront(e)
	} else {
		u.kept[hash] = u.order.PushFront(upload{hash, data})
		u.bytes += int64(len(data))
	}
	for u.order.Len() > 1 && (u.order.Len() > u.most || u.bytes > u.mostBytes) {
		last := u.order.Back()
		gone := u.order.Remove(last).(upload)
		delete(u.kept, gone.hash)
		u.bytes -= int64(len(gone.data))
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
	e, ok := u.kept[hash]
	if !ok {
		return nil, errDropped
	}
	u.order.MoveToFront(e)
	data := e.Value.(upload).data
	return data[:min(int64(len(data)), most+1)], nil
}

// once is a source of one file that is forgotten afterwards.
type once struct {
	name string
	data []byte
}

// Read implements filed.Source.
func (o once) Read(word string, most int64) ([]byte, error) {
	if word != o.name {
		return nil, errNotAdded
	}
	return o.data[:min(int64(len(o.data)), most+1)], nil
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
