package filed_test

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"
	"unicode"

	"underflap/pattern/words/filed"
)

type form struct {
	Name  string `toml:"name"`
	Width any    `toml:"width"`
	Shape []struct {
		Ink  int       `toml:"ink"`
		Line []float64 `toml:"line"`
	} `toml:"shape"`
}

func TestWhatIsWrongHasALine(t *testing.T) {
	for data, want := range map[string]string{
		"name = \"a\"\nwidth = 4\n":                    "",
		"\ufeffname = \"a\"\nwidth = 4\n":              "",
		"\ufeffwidht = 4\n":                            `line 1, column 1: unknown key "widht"`,
		"name = \"a\"\nwidht = 4\n":                    `line 2, column 1: unknown key "widht"`,
		"\n[[shape]]\nink = 1\n[[shape]]\n  inc = 1\n": `line 5, column 3: unknown key "shape.inc"`,
		"name = 5\n":                                   "line 1, column 8: name: another kind of value belongs here",
		"[[shape]]\nink = \"one\"":                     "line 2, column 7: shape.ink: another kind of value belongs here",
		"[[shape]]\nline = [1, 2,\n \"x\"]":            "line 3, column 2: shape.line: another kind of value belongs here",
		"name = \"a\nwidth = 4":                        "line 1, column 10: toml: ",
		"name = \"a\"\nname = \"b\"":                   "line 2, column 1: toml: key name is already defined",
		"name = \"a\"\n= 4":                            "line 2, column 1: toml: ",
		"name = \"\x00\"":                              "line 1, column 9: toml: ",
		"name = \"\xff\"":                              "line 1, column 9: toml: ",
	} {
		var f form
		err := filed.Decode([]byte(data), &f)
		var slip *filed.Slip
		if want == "" && err == nil {
			continue
		}
		if !errors.As(err, &slip) || len(err.Error()) < len(want) || err.Error()[:len(want)] != want || want == "" {
			t.Errorf("%q: %v, want %s", data, err, want)
		}
	}
}

func TestKeysHaveTheirPlaces(t *testing.T) {
	data := "# a comment\nname = 'é'\n\n  width=4 # mm\n[[shape]]\nink = 1\nline = [1,\n 2]\n[[shape]]\n\"ink\" = 2\n[other]\na.b = 1\n"
	got := filed.PlacesIn([]byte(data))
	for key, want := range map[string]string{"name": "{2 1}", "width": "{4 3}", "shape.0": "{5 3}", "shape.0.ink": "{6 1}", "shape.0.line": "{7 1}",
		"shape.1": "{9 3}", "shape.1.ink": "{10 1}", "other.a.b": "{12 1}", "shape.2": "{0 0}"} {
		if fmt.Sprint(got[key]) != want {
			t.Errorf("%s: %v, want %s", key, got[key], want)
		}
	}
}

func TestAnEntryIsFoundHoweverItsListIsWritten(t *testing.T) {
	for data, want := range map[string]string{
		"[[shape]]\nink = 1\n[[shape]]\nink = 2\n":     "{4 1} {3 3}",
		"shape = [{ink = 1},\n {ink = 2}]":             "{1 1} {1 1}",
		"[shape]\nink = 1\n":                           "{2 1} {1 2}",
		"name = 'a'\n[[shape]]\nname = 1\n[[shape]]\n": "{4 3} {4 3}",
		"\ufeffshape = [{ink = 1}]":                    "{1 1} {1 1}",
		"":                                             "{1 1} {1 1}",
	} {
		p := filed.PlacesIn([]byte(data))
		if got := fmt.Sprint(p.Of("shape", 1, "ink"), " ", p.Of("shape", 1, "")); got != want {
			t.Errorf("%q: %s, want %s", data, got, want)
		}
	}
}

func FuzzReading(f *testing.F) {
	f.Add([]byte("name = 'a'\n[[shape]]\nink=1"))
	f.Add([]byte("a.b.c = {x=[1,{y=2}]}\n[[a]]\n[a.b]\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		var into form
		err := filed.Decode(data, &into)
		places := filed.PlacesIn(data)
		lines := bytes.Count(data, []byte("\n")) + 1
		for name, at := range places {
			if at.Line < 1 || at.Line > lines || at.Column < 1 || at.Column > len(data)+1 {
				t.Fatalf("%q stands at %+v of %d lines", name, at, lines)
			}
		}
		if err == nil {
			return
		}
		var slip *filed.Slip
		if !errors.As(err, &slip) || slip.Line < 1 || slip.Line > lines+1 || slip.Column < 1 || strings.ContainsFunc(err.Error(), func(r rune) bool { return !unicode.IsPrint(r) }) || len([]rune(err.Error())) > 400 {
			t.Fatalf("%q", err)
		}
	})
}
