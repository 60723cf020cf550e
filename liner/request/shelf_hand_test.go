package request

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// shelve writes files of envelopes by hand.
func shelve(t *testing.T, s Shelf, files map[string]string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Join(s.Dir, "envelopes"), 0o777); err != nil {
		t.Fatal(err)
	}
	for name, content := range files {
		if err := os.WriteFile(filepath.Join(s.Dir, "envelopes", name), []byte(content), 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

// spoilt are files that hold no envelope, and what must be said of each beside
// the file's name.
var spoilt = map[string][]string{
	"pocket = '160x115'\nflap-depth = 70\nflap-dept = 3\n":    {"line 3, column 1", `unknown key "flap-dept"`},
	"pocket = '160x115'\n[flap]\ndepth = 70\n":                {"line 2"},
	"pocket = '160x115\n":                                     {"line 1"},
	"pocket = '160x115'\nflap-depth = 7 0\n":                  {"line 2, column 16"},
	"pocket = '160x115'\nflap-depth = 70\nflap-depth = 71\n":  {"line 3"},
	"pocket = 160\nflap-depth = 70\n":                         {"line 1", "pocket"},
	"pocket = '160x115'\nflap-depth = 70\nflap = 3\n":         {"line 3", "flap"},
	"pocket = '160x115'\npoints = [[0,0],[80,'a'],[160,0]]\n": {"line 2", "points"},
	"":                                  {"pocket"},
	"\xff\xfe\x00":                      {"line 1"},
	"pocket = '160'\nflap-depth = 70\n": {"pocket", "not a size"},
	"pocket = '160x115'\n":              {"flap-depth"},
	"pocket = '160x115'\nflap-depth = '70 parsecs'\n":                         {"flap-depth", "parsecs"},
	"pocket = '160x115'\nflap-depth = [1, 2]\n":                               {"flap-depth"},
	"pocket = '160x115'\nflap-depth = true\n":                                 {"flap-depth"},
	"pocket = '160x115'\nflap-depth = -70\n":                                  {"flap-depth", "below zero"},
	"pocket = '160x115'\nflap-depth = nan\n":                                  {"flap-depth"},
	"pocket = '160x115'\nflap-depth = inf\n":                                  {"flap-depth"},
	"pocket = '160x115'\nflap-depth = 1e9\n":                                  {"flap-depth"},
	"pocket = '160x115'\nflap-depth = 2026-11-25\n":                           {"flap-depth"},
	"pocket = '160x115'\nflap-depth = 190\n":                                  {"flap-depth", "deeper than the pocket"},
	"pocket = '160x115'\nflap-depth = 70\nshoulder = 70\n":                    {"shoulder"},
	"pocket = '160x115'\nflap-depth = 70\ntaper = 90\n":                       {"taper"},
	"pocket = '160x115'\nflap-depth = 70\nflap = 'round'\n":                   {"flap", "round"},
	"pocket = '160x115'\nflap-depth = 70\nflap = 'square'\nshoulder = 3\n":    {"shoulder"},
	"pocket = '160x115'\nflap-depth = 70\npoints = [[0,0],[80,60],[160,0]]\n": {"flap-depth"},
	"pocket = '160x115'\npoints = [[0,0],[160,0]]\n":                          {"points"},
	"pocket = '160x115'\npoints = [[0,0],[80,60],[40,0]]\n":                   {"points", "left of the point before"},
	"pocket = '160x115'\npoints = [[0,0],[80,60],[190,0]]\n":                  {"points", "past the pocket"},
	"pocket = '160x115'\npoints = [[0,0],[80,-60],[160,0]]\n":                 {"points"},
	"pocket = '160x115'\npoints = [[0,0],[80,nan],[160,0]]\n":                 {"points"},
	"pocket = '160x115'\npoints = [[0,0],[inf,60],[160,0]]\n":                 {"points"},
	"pocket = '160x115'\npoints = [[0,0],[80,60,3],[160,0]]\n":                {"points"},
	"pocket = '160x115'\npoints = [[0,0],[80],[160,0]]\n":                     {"points"},
	"pocket = '160x115'\npoints = [[0,0],[80,600],[160,0]]\n":                 {"deeper than the pocket"},
	"pocket = '160x115'\nflap-depth = 70\n#" + strings.Repeat("-", 1<<20):     {"too long"},
}

// A file that holds no envelope is named with what is wrong in it, in a person's
// words; it takes nothing away from the others.
func TestASpoiltFileIsNamedAndTheOthersStayUsable(t *testing.T) {
	for content, says := range spoilt {
		shelf := attic(t)
		shelve(t, shelf, map[string]string{"spoilt.toml": content, "good.toml": "pocket = '155x110'\nflap-depth = 60\n"})
		what := content[:min(len(content), 80)]
		list, problems := shelf.Envelopes()
		if len(list) != 1 || list[0].Name != "good" || len(problems) != 1 {
			t.Errorf("%q: %d envelopes, problems %v", what, len(list), problems)
			continue
		}
		_, err := ResolveEnvelope(Words{Envelope: "spoilt", Shelf: shelf})
		if err == nil {
			t.Errorf("%q is taken", what)
			continue
		}
		for _, said := range []string{problems[0].Error(), err.Error()} {
			for _, part := range append(says, filepath.Join(shelf.Dir, "envelopes", "spoilt.toml")) {
				if !strings.Contains(said, part) {
					t.Errorf("%q: %q does not say %q", what, said, part)
				}
			}
			for _, ours := range []string{"request.", "struct", "float64", "%!", "\n"} {
				if strings.Contains(said, ours) {
					t.Errorf("%q: %q speaks of the program's insides: %q", what, said, ours)
				}
			}
		}
		if !strings.HasPrefix(err.Error(), `envelope: "spoilt": `) {
			t.Errorf("%q: %v", what, err)
		}
		if found, err := ResolveEnvelope(Words{Envelope: "good", Shelf: shelf}); err != nil || found.Short != "good" {
			t.Errorf("%q: the good one: %v", what, err)
		}
		if found, err := ResolveEnvelope(Words{Card: "a6", Shelf: shelf}); err != nil || found.Short != "good" {
			t.Errorf("%q: for a card: %+v, %v", what, found.Short, err)
		}
		sizes, problems, err := Sizes(shelf, "a6", "")
		if data, bad := json.Marshal(sizes); err != nil || bad != nil || len(problems) != 1 || !strings.Contains(string(data), `"good"`) {
			t.Errorf("%q: sizes: %v, %v, %v", what, err, bad, problems)
		}
	}
}

func TestAFileEditedByHandIsReadInTheWordsOfTheFlags(t *testing.T) {
	for content, want := range map[string]Words{
		"pocket = '160x115'\nflap-depth = 70\n":                                                    {Pocket: "160x115", FlapDepth: "70"},
		"pocket = \"6 1/2in x 4 3/4in\"\nflap-depth = \"2 3/4in\"\ngum = \"3/8in\"\n":              {Pocket: "165.1x120.65", FlapDepth: "69.85", Gum: "9.525"},
		"pocket = '16 x 11.5 cm'\nflap = 'SQUARE'\nflap-depth = '4.5cm'\ntaper = 3\n":              {Pocket: "160x115", Flap: "square", FlapDepth: "45", Taper: "3"},
		"# from the kitchen\npocket='160x115' # mm\nflap='contour'\nflap-depth=60.5\nshoulder=0\n": {Pocket: "160x115", Flap: "contour", FlapDepth: "60.5", Shoulder: "0"},
		"pocket = '160x115'\nflap-depth = 7e1\ngum = 0\n":                                          {Pocket: "160x115", FlapDepth: "70", Gum: "0"},
		"pocket = '160x115'\r\nflap-depth = 70\r\ntaper = 0.00001\r\n":                             {Pocket: "160x115", FlapDepth: "70", Taper: "0.00001"},
	} {
		shelf := attic(t)
		shelve(t, shelf, map[string]string{"copy.toml": content})
		checkCopy(t, shelf, measuredBy(t, want))
	}
}

// The name in a file may be any; what is no envelope's file is passed over in
// silence.
func TestOnlyFilesOfEnvelopesAreListed(t *testing.T) {
	shelf := attic(t)
	good := "pocket = '155x110'\nflap-depth = 60\n"
	shelve(t, shelf, map[string]string{"good.toml": good, ".good.toml.0badcafe.part": "pock", ".hidden.toml": good, "notes.txt": "plums", "good.toml~": good, "good.toml.bak": good,
		"other.toml": "name = 'The other one'\n" + good})
	list, problems := shelf.Envelopes()
	if len(list) != 2 || list[0].Name != "good" || list[1].Name != "The other one" || len(problems) != 0 {
		t.Errorf("%+v, %v", list, problems)
	}
	for _, name := range []string{"the other one", "other"} {
		if saved, ok, err := shelf.Envelope(name); !ok || err != nil || saved.Name != "The other one" {
			t.Errorf("%q: %+v, %v, %v", name, saved, ok, err)
		}
	}
	for _, name := range []string{"hidden", "notes", "good.toml", "../envelopes/good", "", "."} {
		if saved, ok, err := shelf.Envelope(name); ok || err != nil {
			t.Errorf("%q: %+v, %v", name, saved, err)
		}
	}
	if err := os.Mkdir(filepath.Join(shelf.Dir, "envelopes", "folder.toml"), 0o777); err != nil {
		t.Fatal(err)
	}
	if list, problems := shelf.Envelopes(); len(list) != 2 || len(problems) != 1 || !strings.Contains(problems[0].Error(), "folder.toml") {
		t.Errorf("%+v, %v", list, problems)
	}
}
