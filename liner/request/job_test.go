package request

import (
	"bytes"
	"encoding/base64"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

func parsed(t *testing.T, text string) Job {
	t.Helper()
	j, err := ParseJob([]byte(text))
	if err != nil {
		t.Fatalf("%v in\n%s", err, text)
	}
	return j
}

func written(t rapid.TB, j Job) string {
	var b bytes.Buffer
	if err := WriteJob(&b, j); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// chosen are a design's words by name.
func chosen(l Look) map[string]any {
	all := map[string]any{}
	for _, f := range l.Fields() {
		switch {
		case f.Mark != nil && *f.Mark:
			all[f.Name] = true
		case f.List != nil && len(*f.List) > 0:
			all[f.Name] = fmt.Sprintf("%q", *f.List)
		case f.Text != nil && *f.Text != "":
			all[f.Name] = *f.Text
		}
	}
	return all
}

// Whatever is put into the fields, text of any kind and files of any bytes, comes
// back, and is then written the same.
func TestEveryWordComesBackFromAJobFile(t *testing.T) {
	word := rapid.OneOf(rapid.String(), rapid.StringMatching(`-?[0-9]{1,22}(\.[0-9]{1,4})?(mm|in)?`), rapid.SampledFrom([]string{
		"10", "4.5", "4.50", "-0", "007", "1e3", "inf", "nan", "0x10", "1_000", "true", "#b4472e, goldenrod", "4 3/8in", "it's", `"quoted"`, "'''", "a\nb", "\x00", "é ½ 漢", " ", "a = 1", "[set]"}))
	rapid.Check(t, func(t *rapid.T) {
		var j Job
		for _, f := range j.Look.Fields() {
			if !rapid.Bool().Draw(t, "whether "+f.Name) {
				continue
			}
			switch {
			case f.Mark != nil:
				*f.Mark = true
			case f.List != nil:
				*f.List = rapid.SliceOfN(rapid.OneOf(word, rapid.StringMatching(`[a-z -]{1,6}=[0-9a-z.= ]{0,6}`)), 1, 6).Draw(t, f.Name)
			default:
				*f.Text = word.Draw(t, f.Name)
			}
		}
		j.Carried = rapid.MapOfN(rapid.StringN(1, 20, -1).Filter(func(s string) bool { return strings.TrimSpace(s) != "" }), rapid.SliceOfN(rapid.Byte(), 0, 200), 0, 3).Draw(t, "files")
		first := written(t, j)
		again, err := ParseJob([]byte(first))
		if err != nil {
			t.Fatalf("%v in\n%s", err, first)
		}
		if want, got := chosen(j.Look), chosen(again.Look); !reflect.DeepEqual(want, got) {
			t.Fatalf("written %q, read %q, from\n%s", want, got, first)
		}
		if len(again.Carried) != len(j.Carried) {
			t.Fatalf("%d files came back of %d", len(again.Carried), len(j.Carried))
		}
		for name, data := range j.Carried {
			if !bytes.Equal(again.Carried[name], data) {
				t.Fatalf("file %q is %x, was %x", name, again.Carried[name], data)
			}
		}
		if second := written(t, again); second != first {
			t.Fatalf("written again\n%s\nwas\n%s", second, first)
		}
	})
}

func TestAJobFileIsRead(t *testing.T) {
	for text, want := range map[string]map[string]any{
		"":                              {},
		"# nothing chosen\n":            {},
		"\ufeffpattern = 'dots'\r\n":    {"pattern": "dots"},
		"flap-depth = 70":               {"flap-depth": "70"},
		"flap-depth = 70.0":             {"flap-depth": "70"},
		"flap-depth = '2 3/4in'":        {"flap-depth": "2 3/4in"},
		"scale = 0.00001":               {"scale": "0.00001"},
		"envelope = 10":                 {"envelope": "10"},
		"grey = true\nblank = false":    {"grey": true},
		"palette = ''":                  {},
		"inks = ['#b4472e', 'navy']":    {"inks": "#b4472e, navy"},
		"view = ['open', 'closed']":     {"view": "open, closed"},
		"[set]\nsize = 4\nrise = '2mm'": {"set": `["size=4" "rise=2mm"]`},
		"[set]\nrise = '2mm'\nsize = 4": {"set": `["rise=2mm" "size=4"]`},
		"set.size = 4\nseed = 3":        {"set": `["size=4"]`, "seed": "3"},
		"set = {size = 4}":              {"set": `["size=4"]`},
		"set = ['size=4', 'size=5']":    {"set": `["size=4" "size=5"]`},
	} {
		if got := chosen(parsed(t, text).Look); !reflect.DeepEqual(got, want) {
			t.Errorf("%q: read %v, want %v", text, got, want)
		}
	}
}

func TestWhatIsWrongInAJobFileHasALine(t *testing.T) {
	long := strings.Repeat("A", MostCarried/3*4+400)
	for text, want := range map[string]string{
		"pattern = 'dots'\nenvelpoe = 'c6'":                     `line 2, column 1: unknown word "envelpoe"; accepted: `,
		"b = 1\na = 2":                                          `line 1, column 1: unknown word "b"`,
		"a.b = 1":                                               `line 1, column 1: unknown word "a"`,
		"\n[pattern]\nname = 'dots'":                            "line 2, column 2: pattern: another kind of value belongs here",
		"pattern = true":                                        "line 1, column 1: pattern: another kind of value",
		"pattern = ['dots']":                                    "line 1, column 1: pattern: another kind of value",
		"seed = 2026-11-28":                                     "line 1, column 1: seed: another kind of value",
		"scale = nan":                                           "line 1, column 1: scale: another kind of value",
		"scale = -inf":                                          "line 1, column 1: scale: another kind of value",
		"inks = ['navy', true]":                                 "line 1, column 1: inks: another kind of value",
		"grey = 'true'":                                         "line 1, column 1: grey: another kind of value belongs here; accepted: true or false",
		"set = 'size=4'":                                        "line 1, column 1: set: another kind of value",
		"[set]\nrise = 1\nsize = [4]":                           "line 3, column 1: size: another kind of value",
		"[[set]]\nsize = 4":                                     "line 1, column 3: set: another kind of value",
		"[[liner]]\npattern = 'dots'":                           "line 1, column 3: an occasion of several liners, and one design is opened here; accepted: ",
		"files = 'holly.png'":                                   "line 1, column 1: files: accepted: a table",
		"[files]\n'a.png' = 5":                                  `line 2, column 1: file "a.png": not text`,
		"[files]\n'a.png' = 'holly'":                            `line 2, column 1: file "a.png": not a data: URL in base64`,
		"[files]\n'a.png' = 'data:,holly'":                      `line 2, column 1: file "a.png": not a data: URL in base64`,
		"[files]\n'a.png' = 'data:;base64,holly'":               `line 2, column 1: file "a.png": damaged: `,
		"[files]\n'a.png' = 'file:///etc/passwd'":               `line 2, column 1: file "a.png": not a data: URL`,
		"[files]\n' ' = 'data:;base64,'":                        `line 2, column 1: file " ": has no name`,
		"[files]\n'a.png' = 'data:;base64," + long + "'":        `line 2, column 1: file "a.png": too long`,
		"pattern = 'dots":                                       "line 1, column ",
		"pattern = 'dots'\npattern = 'dots'":                    "line 2, column 1: ",
		"a = " + strings.Repeat("[", 200_000):                   "line 1, column 1: far more values",
		strings.Repeat("a.", 200_000) + "b = 1":                 "line 1, column 1: far more values",
		strings.Repeat("# harvest supper\n", MostJob/17+1):      "line 1, column 1: longer than 32 MB",
		"pattern = '\x1b[31mdots'":                              "line 1, column 12: ",
		"\"pat\\u001btern\" = 1":                                `line 1, column 1: unknown word "pat\x1btern"`,
		"envelope = 'c6'\n" + strings.Repeat("seed = 1\n", 2e4): "line 1, column 1: far more values",
	} {
		_, err := ParseJob([]byte(text))
		var slip *filed.Slip
		if !errors.As(err, &slip) || !strings.HasPrefix(err.Error(), want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%.60q: %v, want %s", text, err, want)
		}
	}
}

// The examples of RFC 4648, section 10, and one broken into lines as RFC 2045 does.
func TestCarriedFilesAreDataURLs(t *testing.T) {
	for body, want := range map[string]string{"": "", "Zg==": "f", "Zm8=": "fo", "Zm9v": "foo", "Zm9vYg==": "foob", "Zm9vYmE=": "fooba", "Zm9vYmFy": "foobar", "\nZm9v\r\n  YmFy\n": "foobar"} {
		for _, head := range []string{"data:image/png;base64,", "data:;base64,", "DATA:image/png;Base64,", "\ndata:text/plain;charset=utf-8;base64,"} {
			j := parsed(t, "[files]\n'supper/holly.png' = \"\"\""+head+body+"\"\"\"")
			data, err := j.Source(nil).Read("supper/holly.png", 100)
			if err != nil || string(data) != want {
				t.Errorf("%q: %q, %v; want %q", head+body, data, err, want)
			}
		}
	}
}

func TestACarriedFileIsFoundBeforeOneBeside(t *testing.T) {
	dir := t.TempDir()
	for name, data := range map[string]string{"holly.png": "beside", "ivy.png": "beside too"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(data), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	j := Job{Carried: map[string][]byte{"holly.png": []byte("carried")}}
	for name, want := range map[string]string{"holly.png": "carried", "ivy.png": "beside too", filepath.Join(dir, "holly.png"): "beside"} {
		if data, err := j.Source(filed.Folder(dir)).Read(name, 100); err != nil || string(data) != want {
			t.Errorf("%s: %q, %v; want %q", name, data, err, want)
		}
	}
	if data, _ := j.Source(nil).Read("holly.png", 3); string(data) != "carr" { // a byte more than most
		t.Errorf("read %q", data)
	}
	for _, name := range []string{"ivy.png", filepath.Join(dir, "ivy.png"), "../holly.png", "./holly.png", "file://holly.png", ""} {
		if data, err := j.Source(nil).Read(name, 100); err == nil {
			t.Errorf("%s was read as %q from a job alone", name, data)
		}
	}
}

// What is packed needs nothing of the machine it was packed on: the files lie in
// the job, under names that are read as the same kind of word.
func TestAPackedJobStandsAlone(t *testing.T) {
	dir := t.TempDir()
	put := func(name, data string) string {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(data), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	const colours = "ground = 'cornsilk'\ninks = ['navy', '#b4472e']\n"
	const drawing = "width = 20\nheight = 20\n[[shape]]\ncircle = [0, 0, 4]\n"
	shelf := Shelf{filepath.Join(dir, "shelf")}
	put("shelf/palettes/hedge.toml", colours)
	put("shelf/patterns/holly.toml", drawing)
	l := Look{Words: Words{Pattern: put("a/holly.toml", drawing), Palette: put("b/holly.toml", colours), Shelf: shelf}}
	j, err := PackJob(l)
	if err != nil {
		t.Fatal(err)
	}
	if j.Look.Palette != "holly.toml" || j.Look.Pattern != "2/holly.toml" || len(j.Carried) != 2 {
		t.Errorf("packed as %q and %q, %d files", j.Look.Palette, j.Look.Pattern, len(j.Carried))
	}
	kept, err := PackJob(Look{Words: Words{Pattern: "holly", Palette: "Hedge", Shelf: shelf}})
	if err != nil || kept.Look.Palette != "hedge.toml" || kept.Look.Pattern != "holly.toml" {
		t.Fatalf("%+v, %v", kept.Look, err)
	}
	back := parsed(t, written(t, kept))
	w := back.Look.Words
	w.Files = back.Source(nil)
	alone, err := Resolve(t.Context(), w)
	if err != nil {
		t.Fatal(err)
	}
	there, err := Resolve(t.Context(), Words{Pattern: "holly", Palette: "hedge", Shelf: shelf})
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(alone.Palette.Inks, there.Palette.Inks) || alone.Palette.Name != there.Palette.Name || alone.Design.Name != there.Design.Name {
		t.Errorf("alone %v, on its machine %v", alone.Palette, there.Palette)
	}
	lists, err := PackJob(Look{Palettes: "hop-garden, hedge," + l.Palette, Patterns: "dots,holly", Words: Words{Shelf: shelf}})
	if err != nil || lists.Look.Palettes != "hop-garden,hedge.toml,holly.toml" || lists.Look.Patterns != "dots,2/holly.toml" {
		t.Errorf("%q, %q, %v", lists.Look.Palettes, lists.Look.Patterns, err)
	}
	photo := put("card.jpg", "a photo")
	if j, err = PackJob(Look{Words: Words{Palette: "Photo: " + photo, Stamp: photo}}); err != nil || j.Look.Palette != "Photo: card.jpg" || j.Look.Stamp != "card.jpg" || len(j.Carried) != 1 {
		t.Errorf("%q, %q, %v", j.Look.Palette, j.Look.Stamp, err)
	}
	var refused *words.Refused
	if _, err = PackJob(Look{Words: Words{Stamp: filepath.Join(dir, "gone.png")}}); !errors.As(err, &refused) || refused.Field != "stamp" {
		t.Errorf("a missing file: %v", err)
	}
}

func TestARefusedWordIsFoundInItsFile(t *testing.T) {
	j := parsed(t, "pattern = 'dots'\n\n  side-gap = 400\n[set]\nrise = 1\n")
	for field, want := range map[string]string{
		"side-gap": `line 3, column 3: side-gap: "x"`, "set rise": `line 5, column 1: set rise: "x"`, "set size": `line 4, column 2: set size: "x"`, "paper": `paper: "x"`,
	} {
		if got := j.Blame(&words.Refused{Field: field, Given: "x"}).Error(); got != want {
			t.Errorf("%s: %s, want %s", field, got, want)
		}
	}
	if other := errors.New("no space left"); j.Blame(other) != other || j.Blame(nil) != nil {
		t.Error("another error was changed")
	}
}

// Whatever a file holds, it is refused or written again as it was read.
func FuzzJobFile(f *testing.F) {
	f.Add([]byte("pattern = 'dots'\n[set]\nsize = 4\n[files]\n'a.png' = 'data:;base64,AAAA'\n"))
	f.Add([]byte(strings.Repeat("[a]\n", 3000)))
	f.Add([]byte("[files]\n" + strings.Repeat("'' = '", 100) + base64.StdEncoding.EncodeToString(make([]byte, 500))))
	f.Fuzz(func(t *testing.T, data []byte) {
		j, err := ParseJob(data)
		if err != nil {
			return
		}
		first := written(t, j)
		again, err := ParseJob([]byte(first))
		if err != nil || written(t, again) != first {
			t.Fatalf("%v after\n%s", err, first)
		}
	})
}
