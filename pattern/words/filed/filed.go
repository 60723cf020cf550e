// Package filed reads the TOML files that people keep and edit, and tells what
// is wrong with line and column.
package filed

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"

	"underflap/pattern/words"
)

// Place is where something stands in a file; both count from 1.
type Place struct{ Line, Column int }

// Slip is a file that cannot be read as it should: where, and why.
type Slip struct {
	Place
	Why string
}

// Error is one line.
func (s *Slip) Error() string {
	return fmt.Sprintf("line %d, column %d: %s", s.Line, s.Column, strings.ReplaceAll(s.Why, "\n", " "))
}

// Decode reads data into a struct. A key that the struct has no field for, a
// value of another kind and text that is no TOML are refused with a *Slip.
func Decode(data []byte, into any) error {
	err := toml.NewDecoder(bytes.NewReader(plain(data))).DisallowUnknownFields().Decode(into)
	var unknown *toml.StrictMissingError
	var at *toml.DecodeError
	var slip Slip
	switch {
	case errors.As(err, &unknown) && len(unknown.Errors) > 0:
		slip.Line, slip.Column = unknown.Errors[0].Position()
		slip.Why = fmt.Sprintf("unknown key %q", words.Shorten(strings.Join(unknown.Errors[0].Key(), ".")))
	case errors.As(err, &at):
		slip.Line, slip.Column = at.Position()
		slip.Why = err.Error()
		if strings.Contains(slip.Why, "cannot decode") { // the library names types of ours
			slip.Why = words.Shorten(strings.Join(at.Key(), ".")) + ": another kind of value belongs here"
		}
	default:
		return err
	}
	return &slip
}

// plain is the file without the mark that some editors put before its text.
func plain(data []byte) []byte { return bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")) }

// Places tells where each key of a file stands, by the table it is in: "width",
// and "shape.0.ink" for the first [[shape]]. The table itself is "shape.0", and a
// table in it "shape.0.fill". They go as far as the file is TOML.
type Places map[string]Place

// Of is where the entry of a table's list has a key, "" for the entry itself:
// ("shape", 0, "ink"). What is written in one line stands where that begins.
func (p Places) Of(list string, entry int, key string) Place {
	whole := fmt.Sprintf("%s.%d", list, entry)
	for _, name := range []string{whole + "." + key, list + "." + key, whole, list} { // TOML lets a single entry be [shape]
		if at, there := p[name]; there {
			return at
		}
	}
	return Place{1, 1}
}

// PlacesIn finds the places of a file.
func PlacesIn(data []byte) Places {
	places := Places{}
	count := map[string]int{}
	var p unstable.Parser
	text := plain(data)
	p.Reset(text)
	walk := walker{text: text, at: Place{1, 1}}
	table := ""
	for p.NextExpression() {
		e := p.Expression()
		var parts []string
		var first Place
		for key := e.Key(); key.Next(); {
			if len(parts) == 0 {
				first = walk.to(int(key.Node().Raw.Offset))
			}
			parts = append(parts, string(key.Node().Data))
		}
		name := strings.Join(parts, ".")
		switch e.Kind {
		case unstable.Table:
			name = within(count, parts[:len(parts)-1], parts[len(parts)-1])
			table = name + "."
		case unstable.ArrayTable:
			list := within(count, parts[:len(parts)-1], parts[len(parts)-1])
			name = fmt.Sprintf("%s.%d", list, count[list])
			count[list]++
			table = name + "."
		case unstable.KeyValue:
			name = table + name
		}
		if _, there := places[name]; !there {
			places[name] = first
		}
	}
	return places
}

// within names what lies in tables: in those that are lists, in the last entry so
// far.
func within(count map[string]int, tables []string, last string) string {
	name := ""
	for _, part := range tables {
		name += part
		if n := count[name]; n > 0 {
			name = fmt.Sprintf("%s.%d", name, n-1)
		}
		name += "."
	}
	return name + last
}

// walker counts lines once, however many places of a long file are asked for.
type walker struct {
	text []byte
	from int
	at   Place
}

// to is where the byte at an offset stands, which is not before the last one.
func (w *walker) to(offset int) Place {
	passed := w.text[w.from:offset]
	w.from = offset
	if n := bytes.Count(passed, []byte("\n")); n > 0 {
		w.at = Place{w.at.Line + n, len(passed) - bytes.LastIndexByte(passed, '\n')}
	} else {
		w.at.Column += len(passed)
	}
	return w.at
}
