package request

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// The rules are those that ParseOccasion and the README tell.
func TestALinersWordsWinOverThoseAtTheTop(t *testing.T) {
	const top = "envelope = 'c6'\nflap = 'square'\npattern = 'leaves'\nrepeat = 'brick'\ninks = 'navy'\nground = 'cornsilk'\nbleed = 3\nside-gap = 4\ngrey = true\ncount = 8\n[set]\nsize = 14\nturned = 3\n"
	rest := map[string]any{"side-gap": "4", "bleed": "3", "grey": true, "count": "8"}
	with := func(more map[string]any, without ...string) map[string]any {
		all := map[string]any{"envelope": "c6", "flap": "square", "pattern": "leaves", "repeat": "brick", "inks": "navy", "ground": "cornsilk", "set": `["size=14" "turned=3"]`}
		for k, v := range rest {
			all[k] = v
		}
		for _, name := range without {
			delete(all, name)
		}
		for k, v := range more {
			all[k] = v
		}
		return all
	}
	for own, want := range map[string]map[string]any{
		"":                                with(nil),
		"count = 3":                       with(map[string]any{"count": "3"}),
		"count = ''":                      with(nil, "count"),
		"grey = false":                    with(nil, "grey"),
		"envelope = 'dl'":                 with(map[string]any{"envelope": "dl"}, "flap"),
		"card = 'a6'":                     with(map[string]any{"card": "a6"}, "envelope", "flap"),
		"pocket = '160x115'":              with(map[string]any{"pocket": "160x115"}, "envelope", "flap"),
		"handmade = 'two-panel'":          with(map[string]any{"handmade": "two-panel"}, "envelope", "flap"),
		"flap = 'pointed'":                with(map[string]any{"flap": "pointed"}),
		"pattern = 'dots'":                with(map[string]any{"pattern": "dots"}, "repeat", "set"),
		"stamp = 'a.png'":                 with(map[string]any{"stamp": "a.png"}, "pattern", "repeat", "set"),
		"set = {size = 20}":               with(map[string]any{"set": `["turned=3" "size=20"]`}),
		"[liner.set]\nsize = 20":          with(map[string]any{"set": `["turned=3" "size=20"]`}),
		"pattern = 'dots'\nset.size = 5":  with(map[string]any{"pattern": "dots", "set": `["size=5"]`}, "repeat"),
		"symmetry = 'p4mm'":               with(map[string]any{"symmetry": "p4mm"}, "repeat"),
		"palette = 'hop-garden'":          with(map[string]any{"palette": "hop-garden"}, "inks", "ground"),
		"inks = ['navy', 'tan']":          with(map[string]any{"inks": "navy, tan"}),
		"blank = true":                    {"envelope": "c6", "flap": "square", "side-gap": "4", "count": "8", "blank": true},
		"name = 'replies'\nvary = true\n": with(nil),
	} {
		o, err := ParseOccasion([]byte(top + "[[liner]]\n" + own))
		if err != nil || len(o.Lines) != 1 || !o.Several {
			t.Fatalf("%q: %v", own, err)
		}
		if got := chosen(o.Lines[0].Look); !reflect.DeepEqual(got, want) {
			t.Errorf("%q: %v, want %v", own, got, want)
		}
	}
}

// Any file of one design is an occasion of one kind of liner, of the very same words.
func TestADesignIsAnOccasionOfOne(t *testing.T) {
	const text = "pattern = 'dots'\nset.size = 4\nview = 'open'\n[files]\n'a.png' = 'data:;base64,AAAA'"
	one := parsed(t, text)
	o, err := ParseOccasion([]byte(text))
	if err != nil || o.Several || len(o.Lines) != 1 || !reflect.DeepEqual(chosen(one.Look), chosen(o.Lines[0].Look)) || len(o.Lines[0].Carried) != 1 {
		t.Errorf("%+v, %v", o, err)
	}
	o, err = ParseOccasion([]byte("title = 'Winter fair'\nvary = true\nshare = false\n[[liner]]\n[[liner]]\nname = 'Bells'\nvary = false\napart = true"))
	if err != nil || o.Title != "Winter fair" || !o.Apart || len(o.Lines) != 2 || o.Lines[0].Name != "liner 1" || !o.Lines[0].Vary || o.Lines[1].Vary || !o.Lines[1].Apart {
		t.Errorf("%+v, %v", o, err)
	}
}

func TestARefusedWordIsFoundInItsLiner(t *testing.T) {
	text := "side-gap = 400\n\n[[liner]]\nname = 'a'\nbleed = 1\n[liner.set]\nrise = 1\n\n[[liner]]\n  bleed = 2\n[liner.set]\nrise = 2\n"
	o, err := ParseOccasion([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	for i, wants := range []map[string]string{
		{"side-gap": "line 1, column 1", "bleed": "line 5, column 1", "set rise": "line 7, column 1"},
		{"side-gap": "line 1, column 1", "bleed": "line 10, column 3", "set rise": "line 12, column 1"},
	} {
		for field, want := range wants {
			if got := o.Lines[i].Blame(&words.Refused{Field: field, Given: "x"}).Error(); !strings.HasPrefix(got, want+": ") {
				t.Errorf("liner %d, %s: %s, want %s", i+1, field, got, want)
			}
		}
	}
	if got := o.Lines[1].Slip("no").Error(); got != "line 9, column 3: no" {
		t.Error(got)
	}
}

func TestWhatIsWrongInAnOccasionHasALine(t *testing.T) {
	for text, want := range map[string]string{
		"titel = 'x'\n[[liner]]":                        `line 1, column 1: unknown word "titel"`,
		"[[liner]]\n[[liner]]\nenvelpoe = 'c6'":         `line 3, column 1: unknown word "envelpoe"; accepted in a [[liner]]: `,
		"[[liner]]\ntitle = 'x'":                        `line 2, column 1: unknown word "title"`,
		"[[liner]]\n[liner.files]\na = ''":              `line 2, column 2: unknown word "files"`,
		"[[liner]]\n[liner.set]\nsize = [4]":            "line 3, column 1: size: another kind of value",
		"[[liner]]\nname = 'a'\n[[liner]]\nname = 'A'":  `line 4, column 1: name: "A" is the name of another liner`,
		"[[liner]]\nname = 'liner 2'\n[[liner]]":        `line 3, column 3: name: "liner 2" is the name of another liner`,
		"[[liner]]\nname = ''":                          "line 2, column 1: name: accepted: a line of text",
		"[[liner]]\nname = 'a,b'":                       "line 2, column 1: name: ",
		"[[liner]]\nname = \"a\\u001bb\"":               "line 2, column 1: name: accepted",
		"[[liner]]\nname = '" + strings.Repeat("é", 41): "line 2, column ",
		"title = 4\n":             "",
		"title = true\n[[liner]]": "line 1, column 1: title: accepted",
		"title = '" + strings.Repeat("ö", 81) + "'\n[[liner]]": "line 1, column 1: title: \"" + words.Shorten(strings.Repeat("ö", 81)) + "\" has 81 letters; accepted: a line of text in quotes, up to 80 letters",
		"vary = 'yes'\n[[liner]]":                              "line 1, column 1: vary: another kind of value belongs here; accepted: true or false",
		"[[liner]]\nvary = 1":                                  "line 2, column 1: vary: another kind",
		"[[liner]]\napart = 1":                                 "line 2, column 1: apart: another kind",
		"share = 'no'\n[[liner]]":                              "line 1, column 1: share: another kind",
		"liner = 4":                                            "line 1, column 1: liner: another kind of value",
		"liner = []":                                           "line 1, column 1: liner: another kind of value",
		"liner = [4]":                                          "line 1, column 1: liner: another kind of value",
		"\nliner = [{pattern = 'dots'}, {bogus = 4}]":          `line 2, column 1: unknown word "bogus"`,
		"[[liner]]\npattern = true":                            "line 2, column 1: pattern: another kind",
		strings.Repeat("[[liner]]\n", MostLines+1):             "line 101, column 3: 101 liners; accepted: up to 100",
		"[[liner]]\n'a.png' = 'data:;base64,AAAA'":             `line 2, column 1: unknown word "a.png"`,
		"[[liner]]\n[files]\n'a.png' = 'data:;base64,!!'":      `line 3, column 1: file "a.png": damaged`,
	} {
		_, err := ParseOccasion([]byte(text))
		var slip *filed.Slip
		if want == "" && err == nil {
			continue
		}
		if want == "" || !errors.As(err, &slip) || !strings.HasPrefix(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%.60q: %v, want %s", text, err, want)
		}
	}
}

// Whatever a file holds, it is refused with a place, or is liners with names of
// their own; and a file of one design is read as ParseJob reads it.
func FuzzOccasion(f *testing.F) {
	f.Add([]byte("title = 'x'\nvary = true\n[set]\nsize = 4\n[[liner]]\nname = 'a'\n[liner.set]\nsize = 5\n[[liner]]\nblank = true\n[files]\n'a.png' = 'data:;base64,AAAA'\n"))
	f.Add([]byte("liner = [{pattern = 'dots'}, {set = {size = 4}}]"))
	f.Add([]byte("[liner]\nname = 'a'\n[liner.set]\nsize = 5"))
	f.Add([]byte("pattern = 'dots'\n[[liner.set]]\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		o, err := ParseOccasion(data)
		if err != nil {
			var slip *filed.Slip
			if !errors.As(err, &slip) || slip.Line < 1 || slip.Column < 1 || strings.Contains(err.Error(), "\n") {
				t.Fatalf("%v", err)
			}
			return
		}
		names := map[string]bool{}
		for _, l := range o.Lines {
			if l.Name == "" || names[strings.ToLower(l.Name)] {
				t.Fatalf("name %q", l.Name)
			}
			names[strings.ToLower(l.Name)] = true
			if err := l.Slip("x"); !strings.HasPrefix(err.Error(), "line ") {
				t.Fatal(err)
			}
		}
		if one, err := ParseJob(data); err == nil && (len(o.Lines) != 1 || !reflect.DeepEqual(chosen(one.Look), chosen(o.Lines[0].Look))) {
			t.Fatalf("%v and %v", chosen(one.Look), o.Lines)
		}
	})
}
