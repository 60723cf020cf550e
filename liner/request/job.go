package request

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"

	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// Job is a design as a job file holds it: a person's words under their names, and
// the files that some of the words name. The command line and the page write the
// same file and read each other's.
type Job struct {
	Look    Look              // without a shelf, and without where its files are; see Source
	Carried map[string][]byte // files in the job itself, under the name that the words have for them

	places filed.Places
}

// A job file's bounds. Of what parts values there is little in what is carried, so
// that a file of many values is no design, and reading it would take long.
const (
	MostJob       = 32 << 20 // bytes
	MostCarried   = 20 << 20 // bytes of a carried file
	mostSeparated = 20_000
	mostWord      = 4096 // bytes of a word, as long as a path may be
)

// The tables of a job file beside its words.
const (
	settingsTable = "set"
	filesTable    = "files"
	linersTable   = "liner" // several, of an occasion
)

const jobHead = `# A design by underflap: what is not here has its usual value, plain numbers are millimetres.
# To make its sheets: underflap run FILE. To change it: open it on the page of underflap desk.

`

// ParseJob reads a job file. A word that no request has, a value of another kind
// and text that is no TOML are refused with a *filed.Slip. What the words say is
// settled later, by Resolve or See; see Blame.
func ParseJob(data []byte) (j Job, err error) {
	content, places, err := decodeJob(data)
	if err != nil {
		return j, err
	}
	j.places = places
	fields := map[string]Field{}
	for _, f := range j.Look.Fields() {
		fields[f.Name] = f
	}
	for _, name := range j.inOrder("", content) {
		field, known := fields[name]
		switch {
		case name == filesTable:
			err = j.readFiles(content[name])
		case name == linersTable:
			err = j.slip(name, "an occasion of several liners, and one design is opened here; accepted: the file of one, as underflap sheet --save-job writes it. Underflap run makes occasions")
		case !known:
			err = j.slip(name, fmt.Sprintf("unknown word %q; accepted: the flags of underflap sheet and look, without dashes, such as pattern, and [%s] and [%s]", words.Shorten(name), settingsTable, filesTable))
		default:
			err = j.readField(field, content[name])
		}
		if err != nil {
			return Job{}, err
		}
	}
	return j, nil
}

// decodeJob reads the text of a job file, within its bounds.
func decodeJob(data []byte) (content map[string]any, places filed.Places, err error) {
	if len(data) > MostJob {
		return nil, nil, &filed.Slip{Place: filed.Place{Line: 1, Column: 1}, Why: fmt.Sprintf("longer than %d MB", MostJob>>20)}
	}
	separated := 0
	for _, part := range []string{"=", ",", "[", "."} {
		separated += bytes.Count(data, []byte(part))
	}
	if separated > mostSeparated {
		return nil, nil, &filed.Slip{Place: filed.Place{Line: 1, Column: 1}, Why: "far more values than a design has"}
	}
	if err := filed.Decode(data, &content); err != nil {
		return nil, nil, err
	}
	return content, filed.PlacesIn(data), nil
}

// readField keeps a value as the word that a person would type.
func (j *Job) readField(f Field, value any) error {
	another := func(accepts string) error {
		return j.slip(f.Name, f.Name+": another kind of value belongs here; accepted: "+accepts)
	}
	if long(value) {
		return j.slip(f.Name, fmt.Sprintf("%s: longer than %d letters", f.Name, mostWord))
	}
	switch {
	case f.Mark != nil:
		on, ok := value.(bool)
		if !ok {
			return another("true or false")
		}
		*f.Mark = on
		return nil
	case f.List != nil:
		return j.readList(f, value)
	}
	word, ok := typedAs(value)
	if list, several := value.([]any); several && (f.Kind == "names" || f.Kind == "colours") {
		word, ok = strings.Join(typedList(list), ", "), len(typedList(list)) == len(list)
	}
	if !ok {
		return another("text in quotes, or a number")
	}
	*f.Text = word
	return nil
}

// readList reads settings, as a table or as a list of name=value.
func (j *Job) readList(f Field, value any) error {
	switch value := value.(type) {
	case map[string]any:
		for _, name := range j.inOrder(f.Name+".", value) {
			word, ok := typedAs(value[name])
			if !ok {
				return j.slip(f.Name+"."+name, words.Shorten(name)+`: another kind of value belongs here; accepted: text in quotes, such as "4mm", or a number`)
			}
			*f.List = append(*f.List, name+"="+word)
		}
		return nil
	case []any:
		if list := typedList(value); len(list) == len(value) {
			*f.List = list
			return nil
		}
	}
	return j.slip(f.Name, f.Name+`: another kind of value belongs here; accepted: a table such as [set] with size = "4mm", or a list such as ["size=4mm"]`)
}

// long tells words, and lists and tables of words, of which one is far longer than
// anything that a person means.
func long(value any) bool {
	switch value := value.(type) {
	case string:
		return len(value) > mostWord
	case []any:
		return slices.ContainsFunc(value, long)
	case map[string]any:
		return slices.ContainsFunc(slices.Collect(maps.Values(value)), long)
	}
	return false
}

// typedAs is a value as a person would type it.
func typedAs(value any) (word string, ok bool) {
	switch value := value.(type) {
	case string:
		return value, true
	case int64:
		return text(value), true
	case float64:
		return text(value), !math.IsNaN(value) && !math.IsInf(value, 0)
	}
	return "", false
}

// typedList are the values of a list that are words.
func typedList(values []any) (list []string) {
	for _, v := range values {
		if word, ok := typedAs(v); ok {
			list = append(list, word)
		}
	}
	return list
}

// inOrder are a table's keys as they stand in the file.
func (j *Job) inOrder(prefix string, table map[string]any) []string {
	return slices.SortedFunc(maps.Keys(table), func(a, b string) int {
		p, q := j.place(prefix+a), j.place(prefix+b)
		if p.Line != q.Line {
			return p.Line - q.Line
		}
		if p.Column != q.Column {
			return p.Column - q.Column
		}
		return strings.Compare(a, b)
	})
}

// place is where a key stands, or what it is written in.
func (j *Job) place(name string) filed.Place {
	if at, there := j.places[name]; there {
		return at
	}
	first := filed.Place{}
	for key, at := range j.places { // a table known only by what is in it
		if strings.HasPrefix(key, name+".") && (first.Line == 0 || at.Line < first.Line || at.Line == first.Line && at.Column < first.Column) {
			first = at
		}
	}
	if first.Line > 0 {
		return first
	}
	if table, _, inner := strings.Cut(name, "."); inner {
		return j.place(table)
	}
	return filed.Place{Line: 1, Column: 1}
}

func (j *Job) slip(name, why string) error {
	return &filed.Slip{Place: j.place(name), Why: words.Printable(why)}
}

// Blame adds to the refusal of a word where the word stands in the job file. Other
// errors, and refusals of words that the file leaves out, come back as they are.
func (j Job) Blame(err error) error {
	var refused *words.Refused
	if !errors.As(err, &refused) {
		return err
	}
	name := strings.Replace(refused.Field, settingsTable+" ", settingsTable+".", 1)
	table, _, _ := strings.Cut(name, ".")
	for key := range j.places {
		if key == table || strings.HasPrefix(key, table+".") {
			return &filed.Slip{Place: j.place(name), Why: refused.Error()}
		}
	}
	return err
}

// WriteJob writes a job file: the words that were chosen, in the order of Fields,
// and the files that the job carries. What is read of it is written again the
// same, byte for byte.
func WriteJob(w io.Writer, j Job) error {
	var b, tables bytes.Buffer
	b.WriteString(jobHead)
	for _, f := range j.Look.Fields() {
		var err error
		switch {
		case f.Mark != nil && *f.Mark:
			err = writeValue(&b, f.Name, true)
		case f.List != nil && len(*f.List) > 0:
			err = writeList(&b, &tables, f.Name, *f.List)
		case f.Text != nil && *f.Text != "":
			err = writeWord(&b, f.Name, *f.Text, slices.Contains(numeric, f.Kind))
		}
		if err != nil {
			return &words.Refused{Field: f.Name, Why: err.Error()}
		}
	}
	b.Write(tables.Bytes())
	if err := writeFiles(&b, j.Carried); err != nil {
		return err
	}
	if b.Len() > MostJob {
		return fmt.Errorf("the design and its files are longer than %d MB; make the pictures smaller", MostJob>>20)
	}
	_, err := w.Write(b.Bytes())
	return err
}

// numeric are the kinds of words of which a plain number is written as one. Names
// are not: an envelope may be called 10.
var numeric = []string{LengthKind, DepthKind, "number", "degrees", "ink"}

// writeList writes settings as a table where each has a plain name of its own, else
// as the list they are.
func writeList(b, tables *bytes.Buffer, name string, list []string) error {
	var lines bytes.Buffer
	seen := map[string]bool{}
	for _, entry := range list {
		key, value, ok := strings.Cut(entry, "=")
		if !ok || seen[key] || key == "" || strings.Trim(key, "abcdefghijklmnopqrstuvwxyz0123456789-") != "" {
			return writeValue(b, name, list)
		}
		seen[key] = true
		if err := writeWord(&lines, key, value, true); err != nil {
			return err
		}
	}
	fmt.Fprintf(tables, "\n[%s]\n%s", name, lines.Bytes())
	return nil
}

// writeWord writes a word, as a number where that is read as the very same word.
func writeWord(b *bytes.Buffer, name, word string, number bool) error {
	whole, errWhole := strconv.ParseInt(word, 10, 64)
	broken, errBroken := strconv.ParseFloat(word, 64)
	switch {
	case number && errWhole == nil && text(whole) == word, number && errBroken == nil && strings.Contains(word, ".") && text(broken) == word:
		_, err := fmt.Fprintf(b, "%s = %s\n", name, word)
		return err
	}
	return writeValue(b, name, word)
}

// writeValue writes one key with its value.
func writeValue(b *bytes.Buffer, name string, value any) error {
	if !utf8.ValidString(name + fmt.Sprint(value)) {
		return errors.New("holds bytes that are no text")
	}
	line, err := toml.Marshal(map[string]any{name: value})
	b.Write(line)
	return err
}
