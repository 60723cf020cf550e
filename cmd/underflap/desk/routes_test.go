package desk

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"image/png"
	"mime"
	"net/url"
	"strings"
	"testing"

	"underflap/liner/request"
	"underflap/pattern"
	"underflap/pattern/draw/referee"
)

// made is the file that the commands write for the same words.
func made(t *testing.T, w request.Words, format string, dpi float64) []byte {
	t.Helper()
	r, err := request.Resolve(t.Context(), w)
	if err != nil {
		t.Fatal(err)
	}
	m, err := r.Make(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := (request.Output{Format: format, DPI: dpi}).Encode(t.Context(), &b, m.Pages); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The page's files are those of the commands, byte for byte.
func TestDownloadsAreWhatTheCommandWrites(t *testing.T) {
	s := serve(t, nil)
	words := request.Words{Envelope: "c5", Pattern: "scallops", Palette: "hop-garden", Set: []string{"size=14mm"}, Count: "5", Turn: "30"}
	query := "?envelope=c5&pattern=scallops&palette=hop-garden&set=size%3D14mm&count=5&turn=30"
	for path, c := range map[string]struct {
		format, dpi, how string
	}{"/liners.pdf": {"pdf", "", "attachment"}, "/print.pdf": {"pdf", "", "inline"}, "/liners.svg": {"svg", "", "attachment"}, "/liners.png": {"png", "150", "attachment"}} {
		dpi := 600.0
		q := query
		if c.dpi != "" {
			dpi, q = 150, query+"&dpi="+c.dpi
		}
		res, got := s.get(t, path+q)
		if want := made(t, words, c.format, dpi); !bytes.Equal(got, want) {
			t.Errorf("%s: %d bytes (%s), want %d", path, len(got), res.Status, len(want))
		}
		how, params, err := mime.ParseMediaType(res.Header.Get("Content-Disposition"))
		if err != nil || how != c.how || params["filename"] != "liners-c5-scallops-hop-garden."+c.format || res.Header.Get("Content-Type") != mediaTypes[c.format] {
			t.Errorf("%s: %v", path, res.Header)
		}
	}
}

// poppler says how many pages there are and how large they are; A4 is 595.276 by
// 841.890 pt (ISO 216).
func TestPrintedFilesAreWhole(t *testing.T) {
	s := serve(t, nil)
	for path, pages := range map[string]string{"/print.pdf?count=5": "3", "/fold.pdf?handmade=two-panel&card=a6": "2", "/ruler.pdf": "1"} {
		res, data := s.get(t, path)
		if res.StatusCode != 200 {
			t.Fatalf("%s: %s", path, data)
		}
		file := t.TempDir() + "/a.pdf"
		plant(t, file, data)
		say := string(referee.Run(t, "pdfinfo", file))
		if !strings.Contains(strings.Join(strings.Fields(say), " "), "Pages: "+pages+" ") || !strings.Contains(say, "A4") {
			t.Errorf("%s: %s", path, say)
		}
	}
}

func TestEveryAddressAnswers(t *testing.T) {
	s := serve(t, nil)
	for path, kind := range map[string]string{
		"/": "text/html", "/explain.svg?envelope=a7": "image/svg+xml", "/explain.svg?pocket=160x115&flap-depth=70": "image/svg+xml",
		"/look.png?envelope=dl&view=half": "image/png", "/job.toml?envelope=c5": "application/toml", "/samples/pattern.png?pattern=petals": "image/png",
	} {
		res, data := s.get(t, path)
		if res.StatusCode != 200 || !strings.HasPrefix(res.Header.Get("Content-Type"), kind) || len(data) == 0 {
			t.Errorf("%s: %s %.200s", path, res.Status, data)
		}
	}
	for name := range s.assets {
		res, data := s.get(t, "/assets/"+name)
		if res.StatusCode != 200 || len(data) == 0 || res.Header.Get("Content-Type") == "" || res.Header.Get("ETag") == "" {
			t.Errorf("%s: %s", name, res.Status)
		}
	}
	for path, want := range map[string]int{
		"/liners.pdf?envelope=nope": 422, "/liners.png?dpi=5000": 422, "/liners.png?dpi=1200&paper=a3&units=mm": 200, "/look.png?view=nope": 422, "/fold.pdf": 422, "/explain.svg?envelope=nope": 422,
		"/samples/pattern.png?pattern=stamps": 422, "/samples/pattern.png?pattern=nope": 422, "/art/original.png": 422, "/art/cleaned.png": 422, "/nothing": 404,
	} {
		if strings.Contains(path, "1200") && testing.Short() {
			continue
		}
		res, data := s.get(t, path)
		if res.StatusCode != want || want >= 400 && (len(problemsOf(t, data)) == 0 || res.Header.Get("Content-Disposition") != "") {
			t.Errorf("%s: %s %.200s", path, res.Status, data)
		}
	}
}

// Every pattern there is has a picture, in the colours asked for.
func TestEveryPatternHasASample(t *testing.T) {
	s := serve(t, nil)
	for _, name := range pattern.Names() {
		if name == pattern.Stamps {
			continue
		}
		res, data := s.get(t, "/samples/pattern.png?"+url.Values{"pattern": {name}, "ground": {"#204060"}, "inks": {"#f0e0d0, #e0a040, #90c0d0, #f0f0a0"}}.Encode())
		img, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			t.Errorf("%s: %s, %v", name, res.Status, err)
			continue
		}
		if b := img.Bounds(); b.Dx() != 480 || b.Dy() != 360 {
			t.Errorf("%s: %v", name, b)
		}
		grounds := 0
		for y := range 360 {
			for x := range 480 {
				if r, g, b, _ := img.At(x, y).RGBA(); r>>8 == 0x20 && g>>8 == 0x40 && b>>8 == 0x60 {
					grounds++
				}
			}
		}
		if grounds == 480*360 {
			t.Errorf("%s: nothing on its ground", name)
		}
		if tag := res.Header.Get("ETag"); tag == "" || !strings.Contains(res.Header.Get("Cache-Control"), "max-age") {
			t.Errorf("%s: %v", name, res.Header)
		}
	}
}

// The pictures of a preview are those that the commands draw, at the density of the
// page.
func TestPreviewsAreThePicturesOfTheCommands(t *testing.T) {
	s := serve(t, nil)
	for range 2 { // also when everything is remembered
		p := s.previewed(t, url.Values{"envelope": {"a7"}, "pattern": {"leaves"}, "view": {"half"}})
		l := request.Look{Words: request.Words{Envelope: "a7", Pattern: "leaves"}, View: "half"}
		seen, err := request.See(t.Context(), l)
		if err != nil {
			t.Fatal(err)
		}
		var want bytes.Buffer
		dpi := lookWide * 25.4 / max(seen.Width, seen.Height)
		if err := (request.Output{Format: "png", DPI: dpi}).Encode(t.Context(), &want, seen.Pages()); err != nil {
			t.Fatal(err)
		}
		got, err := base64.StdEncoding.DecodeString(strings.TrimPrefix(p.Look.Src, "data:image/png;base64,"))
		if err != nil || !bytes.Equal(got, want.Bytes()) {
			t.Errorf("the picture differs: %d and %d bytes, %v", len(got), want.Len(), err)
		}
		size, err := png.DecodeConfig(bytes.NewReader(got))
		if err != nil || size.Width != p.Look.Width || size.Height != p.Look.Height || max(size.Width, size.Height) != lookWide || p.Look.About == "" || p.Sheet.About == "" {
			t.Errorf("%+v, %v", size, err)
		}
	}
}

// A design that is saved and opened again is the same design, with the files it
// names, also at another desk.
func TestADesignIsSavedAndOpened(t *testing.T) {
	s := serve(t, nil)
	added := s.add(t, `C:\art\acorn.png`, disc(120))
	if added.Name != "acorn.png" || added.Width != 120 || added.Height != 120 || added.Kind != "picture" {
		t.Errorf("%+v", added)
	}
	query := url.Values{"stamp": {added.Stamp}, "envelope": {"c5"}, "set": {"size=1"}, "side-gap": {"1/8"}, "count": {"30"}, "grey": {"true"}, "palette": {"rowan-jelly"}, "units": {"in"}}
	res, job := s.get(t, "/job.toml?"+query.Encode())
	if res.StatusCode != 200 || !strings.Contains(res.Header.Get("Content-Disposition"), "attachment; filename=design-c5-rowan-jelly.toml") {
		t.Fatalf("%v %s", res.Header, job)
	}
	if strings.Contains(string(job), addedBefore) {
		t.Error("the file speaks of the desk's own names")
	}
	other := serve(t, nil)
	res, data := other.post(t, "/open", "application/octet-stream", job)
	var o opened
	if err := json.Unmarshal(data, &o); err != nil || res.StatusCode != 200 || o.Art == nil || o.Art.Name != "acorn.png" || o.Art.Width != 120 {
		t.Fatalf("%s %s", res.Status, data)
	}
	_, first := s.get(t, "/liners.svg?"+query.Encode())
	_, again := other.get(t, "/liners.svg?"+url.Values(o.Words).Encode())
	if !bytes.Equal(first, again) || len(first) < 1000 {
		t.Errorf("%d and %d bytes", len(first), len(again))
	}
	_, job2 := other.get(t, "/job.toml?"+url.Values(o.Words).Encode())
	if !bytes.Equal(job, job2) {
		t.Errorf("saved again it is another file: %s", job2[:400])
	}
	for bad, want := range map[string]string{"envelop = 'c6'": "Line 1, column 1", "envelope = ": "Line 1, column ", "grey = 'yes'": "true or false", "\x00": "Line 1", "[[liner]]\nenvelope='c6'": "one design is opened here"} {
		res, data := s.post(t, "/open", "application/toml", []byte(bad))
		if list := problemsOf(t, data); res.StatusCode != 422 || len(list) != 1 || !strings.Contains(list[0].Says, want) {
			t.Errorf("%q: %s %s", bad, res.Status, data)
		}
	}
	if _, data := s.post(t, "/open", "application/toml", []byte("stamp = '/etc/hostname'")); !strings.Contains(string(data), "is not in the design itself") {
		t.Errorf("%s", data)
	}
}

func TestCommandsAreQuoted(t *testing.T) {
	d := aDesk(t)
	f, err := d.read(url.Values{"ground": {"#f6ecd9"}, "inks": {"#b4472e, goldenrod"}, "pocket": {"6 3/8x4 1/2"}, "units": {"in"}, "table": {"x"}, "stamp-colour": {`"; rm -rf $HOME`}, "grey": {"true"}})
	want := `underflap sheet --pocket "6 3/8inx4 1/2in" --inks "#b4472e, goldenrod" --ground "#f6ecd9" --stamp-colour '"; rm -rf $HOME' --grey`
	if got := f.command(); err != nil || got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
