package request

import (
	"bytes"
	"encoding/base64"
	"errors"
	"fmt"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"underflap/palettes/derived"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// Source has the files that the job carries; those of other names come from
// beside, the folder of the job file, or from nowhere when it is nil.
func (j Job) Source(beside filed.Source) filed.Source { return carried{j.Carried, beside} }

type carried struct {
	files  map[string][]byte
	beside filed.Source
}

// Read gives a carried file, or one from beside.
func (c carried) Read(name string, most int64) ([]byte, error) {
	if _, here := c.files[name]; here {
		return filed.Held(c.files).Read(name, most)
	}
	if c.beside == nil {
		return nil, errors.New("the design carries no such file")
	}
	return c.beside.Read(name, most)
}

// readFiles reads the table of carried files, each a data: URL in base64 (RFC 2397)
// whose lines may be broken.
func (j *Job) readFiles(value any) error {
	table, ok := value.(map[string]any)
	if !ok {
		return j.slip(filesTable, filesTable+`: accepted: a table [files] with lines such as "holly.png" = "data:image/png;base64,..."`)
	}
	j.Carried = map[string][]byte{}
	for _, name := range j.inOrder(filesTable+".", table) {
		url, ok := table[name].(string)
		data, why := []byte(nil), "not text"
		if ok {
			data, why = fromDataURL(url)
		}
		if why == "" && strings.TrimSpace(name) == "" {
			why = "has no name"
		}
		if why != "" {
			return j.slip(filesTable+"."+name, fmt.Sprintf("file %q: %s; accepted: \"data:image/png;base64,...\", up to %d MB", words.Shorten(name), why, MostCarried>>20))
		}
		j.Carried[name] = data
	}
	return nil
}

// fromDataURL is what a data: URL holds, or why it cannot be read.
func fromDataURL(url string) (data []byte, why string) {
	head, body, ok := strings.Cut(url, ",")
	head = strings.ToLower(strings.TrimSpace(head))
	if !ok || !strings.HasPrefix(head, "data:") || !strings.HasSuffix(head, ";base64") {
		return nil, "not a data: URL in base64"
	}
	body = strings.Join(strings.Fields(body), "")
	if base64.StdEncoding.DecodedLen(len(body)) > MostCarried+2 { // up to two of padding
		return nil, "too long"
	}
	data, err := base64.StdEncoding.Strict().DecodeString(body)
	if err != nil {
		return nil, "damaged: " + err.Error()
	}
	return data, ""
}

// mediaTypes are of the files that words name, by ending. They are for people who
// look into a job file: what a file is, its content says.
var mediaTypes = map[string]string{".png": "image/png", ".jpg": "image/jpeg", ".jpeg": "image/jpeg", ".webp": "image/webp", ".tif": "image/tiff", ".tiff": "image/tiff",
	".svg": "image/svg+xml", ".toml": "application/toml", ".gpl": "text/plain", ".csv": "text/csv", ".txt": "text/plain"}

// writeFiles writes carried files by name, in lines of 76 (RFC 2045).
func writeFiles(b *bytes.Buffer, files map[string][]byte) error {
	if len(files) > 0 {
		fmt.Fprintf(b, "\n[%s]\n", filesTable)
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		data := files[name]
		if len(data) > MostCarried {
			return fmt.Errorf("%s: longer than %d MB, too long for a job file", words.Printable(name), MostCarried>>20)
		}
		media := mediaTypes[strings.ToLower(path.Ext(name))]
		if media == "" {
			media = "application/octet-stream"
		}
		entry, err := toml.Marshal(map[string]string{strings.ToValidUTF8(name, "?"): ""})
		if err != nil {
			return err
		}
		key := strings.TrimSuffix(string(entry), " = ''\n")
		fmt.Fprintf(b, "%s = '''\ndata:%s;base64,\n", key, media)
		for line := range slices.Chunk([]byte(base64.StdEncoding.EncodeToString(data)), 76) {
			b.Write(line)
			b.WriteByte('\n')
		}
		b.WriteString("'''\n")
	}
	return nil
}

// PackJob makes a job of words that carries every file they name, also a palette
// and a pattern of the shelf, so that it can be made on another machine. A
// measured envelope and a printer of the shelf stay names.
func PackJob(l Look) (Job, error) {
	p := packing{carried: map[string][]byte{}, names: map[string]string{}}
	files, shelf := l.files(), l.Shelf
	l.Shelf, l.Files, l.Set = Shelf{}, nil, slices.Clone(l.Set)
	err := l.rename(func(r reading, word, file string) (string, error) {
		from := files
		if file == "" && r.kept != nil {
			from, file = filed.Disk{}, r.kept(shelf, word)
		}
		if file == "" {
			return word, nil
		}
		return p.pack(from, r.field, file, func(name string) bool { return derived.Photo(word) != "" || r.file(name) != "" })
	})
	return Job{Look: l, Carried: p.carried}, err
}

// packing collects files under short names.
type packing struct {
	carried map[string][]byte
	names   map[string]string // of each path
}

// pack reads a file and says what it is called in the job: a name that good tells
// to be read as that of a file.
func (p packing) pack(from filed.Source, field, path string, good func(name string) bool) (string, error) {
	if name, done := p.names[path]; done {
		return name, nil
	}
	data, err := from.Read(path, MostCarried)
	if err == nil && len(data) > MostCarried {
		err = fmt.Errorf("longer than %d MB, too long for a job file", MostCarried>>20)
	}
	if err != nil {
		return "", &words.Refused{Field: field, Given: path, Why: err.Error()}
	}
	base := strings.ToValidUTF8(filepath.Base(strings.TrimSpace(path)), "?")
	name := base
	for n := 2; ; n++ { // a palette and a pattern are called by what follows the last slash
		if _, taken := p.carried[name]; !taken && good(name) {
			break
		}
		name = fmt.Sprintf("%d/%s", n, base)
	}
	p.carried[name], p.names[path] = data, name
	return name, nil
}
