package desk

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"underflap/liner"
	"underflap/liner/request"
	"underflap/palettes"
	"underflap/palettes/derived"
	"underflap/pattern"
	"underflap/pattern/words"
)

// rendered is the page for a shelf, as a browser reads it.
func rendered(t *testing.T, shelf request.Shelf) []*html.Node {
	t.Helper()
	page, _, err := loadAssets()
	if err != nil {
		t.Fatal(err)
	}
	offered, problems := choices(shelf)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var b bytes.Buffer
	if err := page.ExecuteTemplate(&b, "page.html", offered); err != nil {
		t.Fatal(err)
	}
	root, err := html.Parse(&b)
	if err != nil {
		t.Fatal(err)
	}
	var all []*html.Node
	for n := range root.Descendants() {
		if n.Type == html.ElementNode {
			all = append(all, n)
		}
	}
	return all
}

func attr(n *html.Node, key string) (value string) {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

func has(n *html.Node, key string) bool {
	return slices.ContainsFunc(n.Attr, func(a html.Attribute) bool { return a.Key == key })
}

func textOf(n *html.Node) string {
	var b strings.Builder
	for d := range n.Descendants() {
		if d.Type == html.TextNode {
			b.WriteString(d.Data)
		}
	}
	return strings.TrimSpace(b.String())
}

func within(n *html.Node, tag string) *html.Node {
	for a := range n.Ancestors() {
		if a.Data == tag {
			return a
		}
	}
	return nil
}

// asked are the names of fields that the page asks for, and what each takes.
func asked(all []*html.Node) map[string][]string {
	words := map[string][]string{}
	for _, n := range all {
		if n.Data != "input" && n.Data != "select" || has(n, "data-page") {
			continue
		}
		name := attr(n, "name")
		for _, key := range []string{"data-word", "data-join"} {
			if has(n, key) {
				name = attr(n, key)
			}
		}
		switch {
		case has(n, "data-set"):
			words["set"] = append(words["set"], attr(n, "id"))
		case has(n, "data-ink"):
			words["inks"] = append(words["inks"], "")
		case name != "" && n.Data == "input":
			words[name] = append(words[name], attr(n, "value"))
		case name != "":
			words[name] = append(words[name], "")
			for d := range n.Descendants() {
				if d.Data == "option" {
					words[name] = append(words[name], attr(d, "value"))
				}
			}
		}
	}
	return words
}

// spelled is a name as the page sends it.
var spelled = words.AsTyped

func TestThePageAsksForEveryFieldAndForNoOther(t *testing.T) {
	words := asked(rendered(t, request.Shelf{}))
	var known []string
	for _, f := range new(request.Look).Fields() {
		known = append(known, f.Name)
		_, there := words[f.Name]
		elsewhere := slices.Contains(absent, f.Name) || f.Name == "repeat" || f.Name == "symmetry" // settings of every pattern that has them
		if there == elsewhere {
			t.Errorf("%s: on the page %t", f.Name, there)
		}
	}
	for name := range words {
		if !slices.Contains(known, name) && name != "units" {
			t.Errorf("the page says %s, which is no field", name)
		}
	}
}

func TestThePageOffersAllThatTheTablesHave(t *testing.T) {
	words := asked(rendered(t, request.Shelf{}))
	offers := func(name, value string) {
		t.Helper()
		if !slices.Contains(words[name], value) {
			t.Errorf("%s %q is not on the page", name, value)
		}
	}
	for _, e := range liner.Entries() {
		offers("envelope", spelled(e.Trade[0]))
	}
	for _, c := range liner.Cards() {
		offers("card", spelled(c.Trade[0]))
	}
	for _, p := range liner.Papers() {
		offers("paper", spelled(p.Short))
	}
	for _, s := range liner.Shapes {
		offers("flap", string(s))
	}
	for _, p := range palettes.All() {
		offers("palette", p.Name)
	}
	for _, name := range derived.Papers() {
		offers("palette", "envelope:"+name)
	}
	for _, info := range pattern.Describe() {
		offers("pattern", info.Name)
		for _, p := range info.Params {
			offers("set", "set-"+info.Name+"-"+p.Name)
		}
	}
}

// Names typed without capitals and blanks must find what they stand for.
func TestWordsOfThePageAreUnderstood(t *testing.T) {
	words := asked(rendered(t, request.Shelf{}))
	for _, name := range words["envelope"] {
		if name == "" {
			continue
		}
		if _, err := liner.LookUp(name); err != nil {
			t.Error(err)
		}
	}
	for _, name := range words["card"] {
		if _, err := liner.ParseCard("card", name); name != "" && err != nil {
			t.Error(err)
		}
	}
	for _, name := range words["paper"] {
		if _, err := liner.ParsePaper("paper", name); name != "" && err != nil {
			t.Error(err)
		}
	}
	offered, _ := choices(request.Shelf{})
	if len(offered.Schemes) < 2 {
		t.Error("no ways to go from a colour")
	}
	for _, s := range offered.Schemes {
		words["palette"] = append(words["palette"], s.Value+":#c0572f")
	}
	for _, name := range words["palette"] {
		if strings.HasPrefix(name, "#") {
			continue // goes behind one of the schemes
		}
		if _, _, err := request.ResolvePalette(t.Context(), request.Words{Palette: name}); err != nil {
			t.Error(err)
		}
	}
}

func TestThingsOfOnesOwnAreOffered(t *testing.T) {
	shelf := request.Shelf{Dir: t.TempDir()}
	for name, text := range map[string]string{
		"envelopes/winter-fair.toml": "name = \"Winter fair\"\npocket = \"150x110\"\nflap-depth = 60\n",
		"palettes/hedge.toml":        "ground = \"#f6ecd9\"\ninks = [\"#2f5a48\", \"#b4472e\"]\n",
		"patterns/lattice.toml":      drawnPattern(t),
	} {
		path := filepath.Join(shelf.Dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	words := asked(rendered(t, shelf))
	if words["envelope"][0] != "Winter fair" {
		t.Errorf("her own envelope is not the first: %q", words["envelope"][0])
	}
	if words["palette"][0] != "hedge" {
		t.Errorf("her own palette is not the first: %q", words["palette"][0])
	}
	if !slices.Contains(words["pattern"], "lattice") || !slices.Contains(words["set"], "set-lattice-size") {
		t.Error("her own pattern, or its size, is not on the page")
	}
}

// drawnPattern is a pattern file of the project's.
func drawnPattern(t *testing.T) string {
	files, err := filepath.Glob("../../../pattern/files/*.toml")
	if err != nil || len(files) == 0 {
		t.Fatal("no pattern files", err)
	}
	data, err := os.ReadFile(files[0])
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// The policy that the page is served with (default-src 'none', no 'unsafe-inline')
// forbids what stands in the page itself: CSP Level 3, 6.7.3.
func TestNothingInlineIsOnThePage(t *testing.T) {
	for _, n := range rendered(t, request.Shelf{}) {
		if n.Data == "style" || n.Data == "script" && (!has(n, "src") || textOf(n) != "") {
			t.Errorf("inline <%s>", n.Data)
		}
		for _, a := range n.Attr {
			switch {
			case a.Key == "style", strings.HasPrefix(a.Key, "on"), strings.HasPrefix(a.Val, "javascript:"):
				t.Errorf("<%s %s=%q>", n.Data, a.Key, a.Val)
			case (a.Key == "src" || a.Key == "href") && !strings.HasPrefix(a.Val, "/assets/") && !strings.HasPrefix(a.Val, "#"):
				t.Errorf("<%s %s=%q> is not of the page", n.Data, a.Key, a.Val)
			}
		}
	}
}

// WCAG 2.2, 1.3.1 and 4.1.2: every control has a name, every group a legend; and
// what refers to another element finds it.
func TestEveryControlHasALabel(t *testing.T) {
	all := rendered(t, request.Shelf{})
	ids, labelled := map[string]int{}, map[string]bool{}
	for _, n := range all {
		if id := attr(n, "id"); id != "" {
			ids[id]++
		}
		if n.Data == "label" && textOf(n) != "" {
			labelled[attr(n, "for")] = true
		}
	}
	for id, n := range ids {
		if n > 1 {
			t.Errorf("%d elements have the id %s", n, id)
		}
	}
	level := 0
	for _, n := range all {
		switch n.Data {
		case "input", "select":
			wrapped := within(n, "label")
			if attr(n, "type") != "hidden" && attr(n, "aria-label") == "" && !labelled[attr(n, "id")] && (wrapped == nil || textOf(wrapped) == "") {
				t.Errorf("no label on %v", n.Attr)
			}
		case "fieldset":
			if n.FirstChild == nil || !slices.ContainsFunc(all, func(m *html.Node) bool { return m.Data == "legend" && m.Parent == n && textOf(m) != "" }) {
				t.Errorf("no legend in %v", n.Attr)
			}
		case "img":
			if !has(n, "alt") || !has(n, "width") && attr(n, "id") != "large" {
				t.Errorf("no alt or no size kept free: %v", n.Attr)
			}
		case "button", "a":
			if textOf(n) == "" && attr(n, "aria-label") == "" {
				t.Errorf("no name on %v", n.Attr)
			}
		case "h1", "h2", "h3":
			if at, _ := strconv.Atoi(n.Data[1:]); at > level+1 {
				t.Errorf("%s %q follows h%d", n.Data, textOf(n), level)
			} else {
				level = at
			}
		}
		for _, key := range []string{"for", "list", "aria-describedby", "aria-labelledby", "aria-controls", "data-slides", "data-picks"} {
			for _, id := range strings.Fields(attr(n, key)) {
				if ids[id] == 0 {
					t.Errorf("<%s %s=%q> finds nothing", n.Data, key, id)
				}
			}
		}
	}
}

func TestHelpIsInPlainWords(t *testing.T) {
	for _, n := range rendered(t, request.Shelf{}) {
		if n.Data == "p" && attr(n, "class") == "help" {
			if s := textOf(n); s == "" || strings.Contains(s, "--") || strings.Contains(s, "underflap") || strings.Contains(s, "`") {
				t.Errorf("%s: %q", attr(n, "id"), s)
			}
		}
	}
}

func TestSlidersReachWhatIsUsual(t *testing.T) {
	for _, info := range pattern.Describe() {
		for _, p := range info.Params {
			if !p.Numeric() {
				continue
			}
			from, to, step := reach(p)
			if from < p.Least || to > p.Most || from >= to || p.Usual < from || p.Usual > to || step <= 0 || (to-from)/step < 3 && p.Kind != pattern.CountParam {
				t.Errorf("%s %s: a slider from %g to %g by %g for %g, %g to %g", info.Name, p.Name, from, to, step, p.Usual, p.Least, p.Most)
			}
		}
	}
}
