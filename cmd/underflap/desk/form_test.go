package desk

import (
	"encoding/json"
	"fmt"
	"io"
	"net/url"
	"slices"
	"strings"
	"testing"

	"underflap/liner/request"
	"underflap/pattern/words"
)

func aDesk(t *testing.T) *Desk {
	t.Helper()
	d, err := New(request.Shelf{Dir: t.TempDir()}, UsualLimits(), io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// Every field of a request is filled from the form field of its name, and only that
// one.
func TestEveryFieldIsFilledByItsName(t *testing.T) {
	d := aDesk(t)
	for _, field := range new(request.Look).Fields() {
		value := "some word"
		if field.Mark != nil {
			value = "true"
		}
		f, err := d.read(url.Values{field.Name: {value}})
		if err != nil {
			t.Errorf("%s: %v", field.Name, err)
			continue
		}
		for _, got := range f.Fields() {
			filled := got.Text != nil && *got.Text == value || got.Mark != nil && *got.Mark || got.List != nil && slices.Equal(*got.List, []string{value})
			if filled != (got.Name == field.Name) {
				t.Errorf("%s=%s fills %s: %v", field.Name, value, got.Name, filled)
			}
		}
		if empty, err := d.read(url.Values{field.Name: {""}}); err != nil || fmt.Sprint(empty.Words.Fields()[0].Text) == "" || empty.command() != "underflap sheet" {
			t.Errorf("an empty %s: %v, %s", field.Name, err, empty.command())
		}
	}
}

func TestFormsThatNoPageMadeAreRefused(t *testing.T) {
	s := serve(t, nil)
	many := strings.TrimSuffix(strings.Repeat("set=size%3D4mm&", mostListed+1), "&")
	for form, want := range map[string]int{
		"envelop=c6":               400,
		"envelope=c6&envelope=c5":  400,
		"grey=yes":                 400,
		"units=furlongs":           400,
		"units=mm&units=in":        400,
		"dpi=300":                  400,
		"shelf=%2Fetc":             400,
		"Files=x":                  400,
		many:                       400,
		"envelope=%zz":             400,
		"envelope=c6;pattern=dots": 400,
		"envelope=" + strings.Repeat("c", mostValue+1): 422,
		"table=" + strings.Repeat("c", 70_000):         413,
		"":                                             200,
		"envelope=&pattern=&set=":                      200,
		"set=size%3D4mm&set=ink%3D1":                   200,
		"envelope=c6&units=in":                         200,
	} {
		res, data := s.post(t, "/preview", "application/x-www-form-urlencoded", []byte(form))
		if res.StatusCode != want {
			t.Errorf("%.60s: %d, want %d: %.200s", form, res.StatusCode, want, data)
		}
		if want != 200 && len(problemsOf(t, data)) == 0 {
			t.Errorf("%.60s: %s", form, data)
		}
	}
	if res, _ := s.post(t, "/preview", "application/json", []byte(`{"envelope":"c6"}`)); res.StatusCode != 415 {
		t.Errorf("JSON: %d", res.StatusCode)
	}
	if res, _ := s.post(t, "/preview", "text/plain", []byte(`envelope=c6`)); res.StatusCode != 415 { // what forms elsewhere may send unasked
		t.Errorf("plain text: %d", res.StatusCode)
	}
}

// An inch is 25.4 mm exactly (ISO 31-1; the international inch of 1959).
func TestPlainNumbersAreInchesWhereInchesAreTyped(t *testing.T) {
	d := aDesk(t)
	lengths := 0
	for _, field := range new(request.Look).Fields() {
		if field.Kind != request.LengthKind && field.Kind != request.DepthKind || strings.HasPrefix(field.Name, "correct-") {
			continue
		}
		lengths++
		for given, want := range map[string]float64{"2": 50.8, "2.5": 63.5, ".5": 12.7, "3/8": 9.525, "2 3/8": 60.325, "2-3/8": 60.325, " 2 ": 50.8, "2mm": 2, "2 cm": 20, "2in": 50.8, `2"`: 50.8} {
			f, err := d.read(url.Values{field.Name: {given}, "units": {"in"}})
			if err != nil {
				t.Fatal(err)
			}
			i := slices.IndexFunc(f.Fields(), func(g request.Field) bool { return g.Name == field.Name })
			if got, err := words.Length(field.Name, *f.Fields()[i].Text); err != nil || got < want-1e-6 || got > want+1e-6 {
				t.Errorf("%s=%q: %v, %v, want %v", field.Name, given, got, err, want)
			}
			in, err := d.read(url.Values{field.Name: {given}, "units": {"mm"}})
			if err != nil || *in.Fields()[i].Text != given {
				t.Errorf("%s=%q in millimetres is changed", field.Name, given)
			}
		}
	}
	if lengths < 15 {
		t.Errorf("only %d fields are lengths", lengths)
	}
	for field, cases := range map[string]map[string]string{
		"pocket":    {"6.375x4.5": "161.925x114.3", "6 3/8 x 4 1/2": "161.925x114.3", "6.375×4.5": "161.925x114.3", "6.375x4.5in": "161.925x114.3", "162x114mm": "162x114"},
		"card":      {"5x7": "127x177.8"},
		"from":      {"12x12": "304.8x304.8", "8.27x11.69": "210.058x296.926"},
		"paper":     {"8.5x11": "215.9x279.4"},
		"room":      {"0.5x0.25": "12.7x6.35"},
		"correct-x": {"3.95": "100.33"},
	} {
		for given, want := range cases {
			f, err := d.read(url.Values{field: {given}, "units": {"in"}})
			if err != nil {
				t.Fatal(err)
			}
			i := slices.IndexFunc(f.Fields(), func(g request.Field) bool { return g.Name == field })
			got := *f.Fields()[i].Text
			if field == "card" && got == given { // 5x7 is the name of a card, which is just as large
				continue
			}
			var same bool
			if field == "correct-x" {
				a, errA := words.Length(field, got)
				same = errA == nil && fmt.Sprint(a) == want
			} else {
				w, h, err1 := words.Size(field, got)
				ww, wh, err2 := words.Size(field, want)
				same = err1 == nil && err2 == nil && fmt.Sprintf("%.4f %.4f", w, h) == fmt.Sprintf("%.4f %.4f", ww, wh)
			}
			if !same {
				t.Errorf("%s=%q is read as %q, want %s mm", field, given, got, want)
			}
		}
	}
	for field, word := range map[string]string{"ink-saver": "usual", "scale": "2", "turn": "45", "count": "12", "seed": "3", "correct-x": "98.7", "correct-y": "1.013", "paper": "a4", "envelope": "10", "per-sheet": "2", "pocket": "6x", "room": "x", "gum": "wide"} {
		f, err := d.read(url.Values{field: {word}, "units": {"in"}})
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(f.Fields(), func(g request.Field) bool { return g.Name == field })
		if got := *f.Fields()[i].Text; got != word {
			t.Errorf("%s=%q becomes %q", field, word, got)
		}
	}
}

// Of a pattern's settings only lengths are inches.
func TestSettingsInInches(t *testing.T) {
	d := aDesk(t)
	f, err := d.read(url.Values{"pattern": {"dots"}, "set": {"size=1/4", "spacing=0.5", "density=0.5", "size=4mm"}, "units": {"in"}})
	if want := []string{"size=1/4in", "spacing=0.5in", "density=0.5", "size=4mm"}; err != nil || !slices.Equal(f.Set, want) {
		t.Errorf("%v, %v", f.Set, err)
	}
	// art alone chooses the pattern it is drawn by
	f, err = d.read(url.Values{"stamp": {"added-0/holly.png"}, "set": {"row-spacing=0.5", "lean=4"}, "units": {"in"}})
	if want := []string{"row-spacing=0.5in", "lean=4"}; err != nil || !slices.Equal(f.Set, want) {
		t.Errorf("of art: %v, %v", f.Set, err)
	}
}

// A pattern that was added as a file has its own lengths.
func TestSettingsOfAnAddedPatternInInches(t *testing.T) {
	d := aDesk(t)
	added := d.uploads.add("holly.toml", []byte("width = 8\nheight = 8\n[[shape]]\npath = \"M-3,-3 L3,-3 L3,3 L-3,3 Z\"\nink = 1\n"))
	f, err := d.read(url.Values{"pattern": {added}, "set": {"size=1/2", "density=0.5"}, "units": {"in"}})
	if want := []string{"size=1/2in", "density=0.5"}; err != nil || !slices.Equal(f.Set, want) {
		t.Errorf("%q, %v, want %q", f.Set, err, want)
	}
}

func TestLabelsBeginWithACapital(t *testing.T) {
	for name, want := range map[string]string{"side-gap": "Side gap", "épicéa": "Épicéa", "155 mm square": "155 mm square", "": ""} {
		if got := label(name); got != want {
			t.Errorf("%q: %q, want %q", name, got, want)
		}
	}
}

// Both ways of typing make the same liner, to a hundredth of a millimetre.
func TestInchesAndMillimetresMakeTheSameSheet(t *testing.T) {
	s := serve(t, nil)
	_, mm := s.get(t, "/liners.svg?pocket=161.925x114.3&flap-depth=63.5&side-gap=3.175&set=size%3D6.35")
	_, in := s.get(t, "/liners.svg?pocket=6+3/8x4.5&flap-depth=2.5&side-gap=1/8&set=size%3D.25&units=in")
	if string(mm) != string(in) || len(mm) < 1000 {
		t.Errorf("%d and %d bytes differ", len(mm), len(in))
	}
}

// All that is wrong is told at once, each beside its field.
func TestProblemsAreToldTogether(t *testing.T) {
	s := serve(t, nil)
	p := s.previewed(t, url.Values{"pocket": {"9x"}, "flap-depth": {"deep"}, "gum": {"wide"}, "paper": {"zzz"}, "pattern": {"paisleys"}, "palette": {"nope"}, "table": {"wood"}, "envelope-colour": {"skin"}, "correct-x": {"5"}, "view": {"below"}})
	var fields []string
	for _, problem := range p.Problems {
		fields = append(fields, problem.Field)
	}
	slices.Sort(fields)
	if want := []string{"correct-x", "envelope-colour", "flap-depth", "gum", "palette", "paper", "pattern", "pocket", "table", "view"}; !slices.Equal(fields, want) {
		t.Errorf("%v, want %v", fields, want)
	}
	if p.Look != nil || p.Sheet != nil {
		t.Error("pictures in spite of problems")
	}
	for _, one := range []url.Values{{"set": {"size=900"}}, {"set": {"hue=4"}}, {"scale": {"0"}}, {"side-gap": {"60"}}, {"stamp": {"holly.png"}}, {"show-card": {"ivory"}, "view": {"closed"}}, {"pattern": {"dots"}, "scale": {"0.05"}, "set": {"size=0.5", "spacing=0.1"}},
		{"envelope": {"c3"}, "paper": {"a5"}}, {"grey": {"true"}, "blank": {"true"}, "bleed": {"3"}}} {
		if p := s.previewed(t, one); len(p.Problems) != 1 || p.Problems[0].Says == "" || p.Look != nil {
			t.Errorf("%v: %+v", one, p.Problems)
		}
	}
}

// A sheet of outlines has no pattern, and the pattern chosen before is no problem.
func TestABlankSheetLeavesThePatternOut(t *testing.T) {
	s := serve(t, nil)
	p := s.previewed(t, url.Values{"blank": {"true"}, "pattern": {"waves"}, "palette": {"rowan-jelly"}, "set": {"rise=9"}, "grey": {"true"}, "ink-saver": {"20"}})
	if len(p.Problems) > 0 || p.Look == nil || p.Sheet == nil || p.Command != "underflap sheet --blank" {
		t.Errorf("%+v %q", p.Problems, p.Command)
	}
}

// No line on the page speaks of the command line.
func TestLinesAreSaidWithoutFlags(t *testing.T) {
	s := serve(t, nil)
	for _, one := range []url.Values{
		{"pocket": {"160x115"}}, {"pocket": {"160x115"}, "envelope": {"c6"}}, {"palette": {"nope"}}, {"pattern": {"nope"}}, {"set": {"size"}}, {"envelope": {"nope"}}, {"printer": {"kitchen"}}, {"handmade": {"two-panel"}},
		{"handmade": {"four-corner"}, "card": {"a6"}}, {"stamp-trace": {"true"}}, {"room": {"4"}}, {"symmetry": {"p4"}, "repeat": {"brick"}}, {"card": {"900x900"}}, {"border": {"4"}}, {"gum": {"0"}, "gum-clearance": {"2"}},
		{"card": {"a6"}}, {"envelope": {"a7"}}, {"ink-saver": {"25"}}, {"palettes": {"all"}, "palette": {"rowan-jelly"}}, {"envelope": {"c4"}, "count": {"10"}}, {"envelope": {"c5"}, "per-sheet": {"most"}}, {"flap": {"square"}, "shoulder": {"4"}},
	} {
		for _, units := range []string{"mm", "in"} {
			one.Set("units", units)
			p := s.previewed(t, one)
			text := p.Says + " " + strings.Join(p.Remarks, " ")
			for _, problem := range p.Problems {
				text += " " + problem.Says
			}
			for _, no := range []string{"--", "underflap ", "./", "\n", addedBefore, "\ufffd"} {
				if strings.Contains(text, no) {
					t.Errorf("%v: %q in %s", one, no, text)
				}
			}
			if units == "in" && strings.Contains(strings.ReplaceAll(text, "100 mm", ""), " mm ") {
				t.Errorf("%v: millimetres in %s", one, text)
			}
		}
	}
}

// 108.6 mm are 4.2756 in, 156 x 157.7 mm 6.1417 x 6.2087 in; limits are rounded
// inwards: 5 mm is 0.19685 in and 700 mm 27.559 in. Worked by hand from 25.4.
func TestLengthsAreSaidInInches(t *testing.T) {
	say := speech{inches: true}
	for given, want := range map[string]string{
		"reduced to 108.6 mm": "reduced to 4.28 in", "liner 156 × 157.7 mm: 49.1 mm": "liner 6.14 × 6.21 in: 1.93 in", "100 mmm": "100 mmm",
		"by 0.4 mm to 108.6 mm": "by 0.02 in to 4.28 in", "use --side-gap 3": "use a side gap of 0.12 in",
		"--ink-saver saves 200 cm² of 411 cm²": "“Print only what shows” saves 31 sq in of 63.7 sq in", // 1 in² is 6.4516 cm²
	} {
		if got := say.line(given); got != want {
			t.Errorf("%q: %q, want %q", given, got, want)
		}
	}
	if got, want := say.limits("5 mm to 700 mm"), "0.2 in to 27.55 in"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	_, err := words.Length("gum", "wide") // the examples are still those that are put into inches
	_, _, err2 := words.Size("pocket", "wide")
	for _, e := range []error{err, err2} {
		if got := say.limits(e.(*words.Refused).Accepts); !strings.Contains(got, "mm") || strings.Contains(got, "cm") || strings.Contains(got, "162x114 ") || strings.HasSuffix(got, "in") {
			t.Errorf("%q", got)
		}
	}
}

// What is said to be accepted in inches is accepted.
func TestSaidLimitsAreAccepted(t *testing.T) {
	s := serve(t, nil)
	for field, given := range map[string]string{"side-gap": "9", "bleed": "9", "printer-margin": "90", "overlap": "9"} {
		form := url.Values{field: {given}, "units": {"in"}}
		if field == "overlap" {
			form.Set("handmade", "two-panel")
			form.Set("card", "a6")
		}
		p := s.previewed(t, form)
		if len(p.Problems) != 1 {
			t.Fatalf("%s: %+v", field, p.Problems)
		}
		var least, most float64
		says := p.Problems[0].Says
		if _, err := fmt.Sscanf(says[strings.Index(says, "Try ")+4:], "%f in to %f in.", &least, &most); err != nil {
			t.Fatalf("%s: %v in %s", field, err, says)
		}
		for _, v := range []float64{least, most} {
			form.Set(field, fmt.Sprint(v))
			for _, problem := range s.previewed(t, form).Problems {
				if problem.Field == field && strings.Contains(problem.Says, " in to ") {
					t.Errorf("%s=%v in: %s", field, v, problem.Says)
				}
			}
		}
	}
}

func TestAnswersAreJSONAsAgreed(t *testing.T) {
	s := serve(t, nil)
	_, data := s.post(t, "/preview", "application/x-www-form-urlencoded", []byte("envelope=c6&count=12&palette=rowan-jelly"))
	var got map[string]any
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	// ISO 269: C6 is 114 by 162 mm
	envelope := got["envelope"].(map[string]any)
	copies := got["copies"].(map[string]any)
	look := got["look"].(map[string]any)
	if envelope["name"] != "C6" || envelope["width"] != 162.0 || envelope["height"] != 114.0 || envelope["flap"] != "pointed" {
		t.Errorf("%v", envelope)
	}
	if copies["count"] != 12.0 || copies["perSheet"] != 2.0 || copies["sheets"] != 6.0 || copies["says"] != "12 liners: 6 sheets of A4, 2 on each" {
		t.Errorf("%v", copies)
	}
	if got["command"] != "underflap sheet --envelope c6 --palette rowan-jelly --count 12" || !strings.HasPrefix(look["src"].(string), "data:image/png;base64,") || len(got["problems"].([]any)) != 0 {
		t.Errorf("%v", got["command"])
	}
	liner := got["liner"].(map[string]any)
	if liner["width"] != 156.0 || liner["height"].(float64)-liner["onFlap"].(float64)-liner["inPocket"].(float64) > 0.11 { // 3 mm free at each side
		t.Errorf("%v", liner)
	}
}
