package desk

import (
	"bytes"
	"go/parser"
	"go/token"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"underflap/liner/request"
)

// Whatever is typed into whatever field: an answer is the same whether there is a
// file of that name or not, so that none was looked at.
func TestNoWordReachesTheFileSystem(t *testing.T) {
	s := serve(t, nil)
	home := t.TempDir()
	work := filepath.Join(home, "deep", "work")
	plant(t, filepath.Join(work, "kept.txt"), []byte("x"))
	t.Chdir(work)
	files := map[string][]byte{
		"hedge.toml": []byte("ground = '#f6ecd9'\ninks = ['#b4472e', '#224466', '#448844']\n"),
		"hedge.gpl":  []byte("GIMP Palette\n#\n246 236 217 a\n180 71 46 b\n34 68 102 c\n"),
		"flap.csv":   []byte("x, height\n0, 5\n81, 66\n162, 5\n"),
		"acorn.png":  disc(60),
		"acorn.svg":  []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><circle cx="4" cy="4" r="4"/></svg>`),
	}
	var places []string
	for name := range files {
		places = append(places, filepath.Join(home, name), filepath.Join(work, name))
	}
	shelved := filepath.Join(s.shelf, "..", filepath.Base(s.shelf)+"-beside.toml")
	answers := func(field, word string) (all []string) {
		query := url.Values{field: {word}}
		paths := []string{"/job.toml?", "/liners.svg?"}
		switch field {
		case "stamp":
			paths = append(paths, "/art/original.png?", "/art/cleaned.png?")
		case "profile":
			paths = append(paths, "/explain.svg?")
		case "palette", "pattern":
			paths = append(paths, "/samples/pattern.png?")
		default: // words of the picture alone
			_, data := s.post(t, "/preview", "application/x-www-form-urlencoded", []byte(query.Encode()))
			all = append(all, string(data))
		}
		for _, path := range paths {
			_, data := s.get(t, path+query.Encode())
			all = append(all, string(data))
		}
		_, opened := s.post(t, "/open", "application/toml", []byte(field+" = "+strconv.Quote(word)+"\n"))
		return append(all, string(opened))
	}
	ways := func(name string) []string {
		abs := filepath.Join(home, name)
		return []string{abs, "./" + name, name, "../../" + name, "file://" + abs, "photo:" + abs, "photo:./" + name, "photo:" + name, `C:\` + name, "added-/" + abs, "added-00/../../" + name,
			abs + "\x00.toml", "~/" + name, url.PathEscape(abs)}
	}
	var fields []string
	for _, f := range new(request.Look).Fields() {
		if f.Mark == nil {
			fields = append(fields, f.Name)
		}
	}
	asked := 0
	for name := range files {
		for _, word := range ways(name) {
			for _, field := range fields {
				// every field at one way of each file, the fields of files at all
				if !slices.Contains([]string{"palette", "palettes", "pattern", "patterns", "profile", "stamp"}, field) && (name != "hedge.toml" || word != ways(name)[0] && word != ways(name)[3]) {
					continue
				}
				for _, place := range places {
					os.Remove(place)
				}
				before := answers(field, word)
				for _, n := range []string{filepath.Join(home, name), filepath.Join(work, name), shelved} {
					plant(t, n, files[name])
				}
				if after := answers(field, word); !slices.Equal(before, after) {
					t.Errorf("%s=%q: the answer depends on the file", field, word)
				}
				asked++
			}
		}
	}
	os.Remove(shelved)
	if asked < 400 {
		t.Errorf("only %d words asked", asked)
	}
}

// The package cannot open a file, but those built into it.
func TestTheDeskImportsNothingThatOpensFiles(t *testing.T) {
	sources, err := filepath.Glob("*.go")
	if err != nil || len(sources) < 10 {
		t.Fatal(sources, err)
	}
	for _, name := range sources {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		for _, spec := range file.Imports {
			switch path, _ := strconv.Unquote(spec.Path.Value); path {
			case "os", "os/exec", "io/ioutil", "path/filepath", "syscall", "golang.org/x/sys/unix", "unsafe", "plugin", "underflap/pattern/words/filed/disk":
				t.Errorf("%s imports %s", name, path)
			}
		}
	}
	for _, name := range sources { // nor does it ask for the source that is the disk
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasSuffix(name, "_test.go") && (bytes.Contains(data, []byte("filed.Disk")) || bytes.Contains(data, []byte("filed.Folder")) || bytes.Contains(data, []byte("http.Dir")) || bytes.Contains(data, []byte("ServeFile("))) {
			t.Errorf("%s reads the disk", name)
		}
	}
}

// Nothing is written to the shelf, whatever is asked for.
func TestTheShelfIsOnlyRead(t *testing.T) {
	s := serve(t, nil)
	plant(t, filepath.Join(s.shelf, "palettes", "winter-fair.toml"), []byte("ground = '#f6ecd9'\ninks = ['#b4472e', '#224466', '#448844']\n"))
	if p := s.previewed(t, url.Values{"palette": {"winter-fair"}, "printer": {"kitchen"}, "correct-x": {"99"}, "correct-y": {"99"}}); len(p.Problems) > 0 || p.Colours.Inks[0] != "#b4472e" {
		t.Errorf("%+v", p.Problems)
	}
	s.get(t, "/ruler.pdf?printer=kitchen&correct-x=98&correct-y=99")
	var found []string
	_ = filepath.Walk(s.shelf, func(path string, info os.FileInfo, err error) error {
		if !info.IsDir() {
			found = append(found, filepath.Base(path))
		}
		return err
	})
	if !slices.Equal(found, []string{"winter-fair.toml"}) {
		t.Errorf("the shelf holds %v", found)
	}
}

// Broken files of the shelf are told of by their place on it: where that lies is
// not said to any page.
func TestTheShelfsPlaceIsNotTold(t *testing.T) {
	s := serve(t, nil)
	for _, folder := range []string{"envelopes", "printers", "palettes", "patterns"} {
		plant(t, filepath.Join(s.shelf, folder, "broken.toml"), []byte("holly = "))
	}
	for _, q := range []string{"envelope=broken", "printer=broken", "palette=broken", "pattern=broken", "palettes=broken", "patterns=broken", "card=5x7in"} {
		for _, units := range []string{"", "&units=in"} {
			res, data := s.post(t, "/preview", "application/x-www-form-urlencoded", []byte(q+units))
			if res.StatusCode != 200 || !strings.Contains(string(data), "s/broken.toml, line 1") || strings.Contains(string(data), filepath.Base(s.shelf)+string(filepath.Separator)) {
				t.Errorf("%s: %s %.300s", q, res.Status, data)
			}
		}
		for _, path := range []string{"/liners.pdf?", "/look.png?", "/samples/pattern.png?", "/explain.svg?", "/ruler.pdf?", "/job.toml?", "/art/cleaned.png?stamp=x&", "/?"} {
			if _, data := s.get(t, path+q); strings.Contains(string(data), s.shelf) {
				t.Errorf("%s%s tells of %s", path, q, s.shelf)
			}
		}
	}
}
