package desk

import (
	"bytes"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"hash/crc32"
	"image/png"
	"net/url"
	"strings"
	"testing"
	"unicode"
)

// promising is a PNG whose header promises so many pixels (PNG, 11.2.2), and that
// holds next to none.
func promising(width, height uint32) []byte {
	var b bytes.Buffer
	b.WriteString("\x89PNG\r\n\x1a\n")
	chunk := func(name string, data []byte) {
		var n [4]byte
		binary.BigEndian.PutUint32(n[:], uint32(len(data)))
		b.Write(n[:])
		body := append([]byte(name), data...)
		b.Write(body)
		binary.BigEndian.PutUint32(n[:], crc32.ChecksumIEEE(body))
		b.Write(n[:])
	}
	head := make([]byte, 13)
	binary.BigEndian.PutUint32(head, width)
	binary.BigEndian.PutUint32(head[4:], height)
	head[8] = 8
	chunk("IHDR", head)
	chunk("IDAT", []byte{0x78, 0x9c, 0x03, 0x00, 0x00, 0x00, 0x00, 0x01})
	chunk("IEND", nil)
	return b.Bytes()
}

func svgOf(inner string) []byte {
	return []byte(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 40 30">` + inner + `</svg>`)
}

// What cannot be used is refused with a line beside its button, and not kept.
func TestBadUploadsAreRefused(t *testing.T) {
	s := serve(t, func(l *Limits) { l.UploadBytes = 200_000 })
	whole := disc(300)
	for name, c := range map[string]struct {
		data []byte
		want int
		says string
	}{
		"bomb.png":    {promising(100_000, 10_000), 422, "too large"},
		"tall.png":    {promising(1, 2_000_000), 422, "too large"},
		"large.png":   {promising(5001, 5000), 422, "too large"},
		"none.png":    {promising(0, 5), 422, ""},
		"empty.png":   {nil, 422, "no PNG"},
		"text.png":    {[]byte("holly"), 422, "no PNG"},
		"page.html":   {[]byte("<html><script>1</script></html>"), 422, "no PNG"},
		"gif.gif":     {[]byte("GIF89a\x01\x00\x01\x00\x00\x00\x00"), 422, "no PNG"},
		"cut.png":     {whole[:20], 422, "broken or cut short"},
		"long.png":    {bytes.Repeat([]byte("x"), 200_001), 413, "too large"},
		"cut.svg":     {[]byte(`<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0`), 422, ""},
		"entity.svg":  {[]byte(`<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]><svg xmlns="http://www.w3.org/2000/svg"><text>&a;</text></svg>`), 422, ""},
		"nothing.svg": {svgOf(""), 422, ""},
	} {
		res, data := s.post(t, "/art?name="+url.QueryEscape(name), "application/octet-stream", c.data)
		list := problemsOf(t, data)
		if res.StatusCode != c.want || len(list) != 1 || list[0].Says == "" || !strings.Contains(strings.ToLower(list[0].Says), strings.ToLower(c.says)) || c.want == 422 && list[0].Field != "stamp" {
			t.Errorf("%s: %s %s", name, res.Status, data)
		}
		res, data = s.post(t, "/photo?name="+url.QueryEscape(name), "application/octet-stream", c.data)
		if list := problemsOf(t, data); res.StatusCode != c.want || len(list) != 1 {
			t.Errorf("as a photo, %s: %s %s", name, res.Status, data)
		}
	}
	if n := s.uploads.kept.Len(); n != 0 {
		t.Errorf("%d refused files are kept", n)
	}
	// the header is whole and the rest is not: told when it is first drawn
	cut := s.add(t, "half.png", whole[:len(whole)/2])
	if p := s.previewed(t, url.Values{"stamp": {cut.Stamp}}); len(p.Problems) != 1 || p.Problems[0].Field != "stamp" || !strings.Contains(p.Problems[0].Says, "roken or cut short") {
		t.Errorf("%+v", p.Problems)
	}
	if res, data := s.get(t, "/art/original.png?stamp="+url.QueryEscape(cut.Stamp)); res.StatusCode != 422 || len(problemsOf(t, data)) != 1 {
		t.Errorf("%s", res.Status)
	}
}

// A drawing that would run or fetch something does neither: what is shown is our
// own drawing of its shapes.
func TestDrawingsDoNothing(t *testing.T) {
	s := serve(t, nil)
	for name, inner := range map[string]string{
		"script": `<script>alert(1)</script><circle cx="20" cy="15" r="9"/>`,
		"image":  `<image href="http://tarnlane.example/x.png" width="9" height="9"/><circle cx="20" cy="15" r="9"/>`,
		"use":    `<use xlink:href="http://tarnlane.example/x.svg#a"/><circle cx="20" cy="15" r="9"/>`,
		"style":  `<style>@import url(http://tarnlane.example/x.css); circle{fill:url(file:///etc/passwd)}</style><circle cx="20" cy="15" r="9"/>`,
		"event":  `<circle cx="20" cy="15" r="9" onload="alert(1)"/>`,
	} {
		res, data := s.post(t, "/art?name=a.svg", "image/svg+xml", svgOf(inner))
		if res.StatusCode == 422 && len(problemsOf(t, data)) == 1 {
			continue // refused in a line
		}
		var a art
		if err := json.Unmarshal(data, &a); err != nil || a.Kind != "drawing" {
			t.Fatalf("%s: %s", name, data)
		}
		for _, path := range []string{"/art/original.png?", "/art/cleaned.png?", "/liners.svg?"} {
			res, data := s.get(t, path+url.Values{"stamp": {a.Stamp}}.Encode())
			if res.StatusCode != 200 || bytes.Contains(data, []byte("alert")) || bytes.Contains(data, []byte("tarnlane")) || bytes.Contains(data, []byte("passwd")) || bytes.Contains(data, []byte("<script")) {
				t.Errorf("%s %s: %s %.100s", name, path, res.Status, data)
			}
		}
	}
}

// The scan's paper goes and its ink takes the palette's first: the disc covers
// pi/9 of the scan's area.
func TestArtIsShownAsAddedAndAsCleaned(t *testing.T) {
	s := serve(t, nil)
	a := s.add(t, "acorn.png", disc(900))
	_, data := s.get(t, "/art/original.png?stamp="+url.QueryEscape(a.Stamp))
	original, err := png.Decode(bytes.NewReader(data))
	if err != nil || original.Bounds().Dx() != artWide {
		t.Fatalf("%v", err)
	}
	_, data = s.get(t, "/art/cleaned.png?"+url.Values{"stamp": {a.Stamp}, "ground": {"#204060"}, "inks": {"#f0e0d0"}}.Encode())
	cleaned, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("%v %.200s", err, data)
	}
	b := cleaned.Bounds()
	inked, ground := 0, 0
	for y := range b.Dy() {
		for x := range b.Dx() {
			switch r, g, b, _ := cleaned.At(x, y).RGBA(); fmt.Sprintf("%02x%02x%02x", r>>8, g>>8, b>>8) {
			case "f0e0d0":
				inked++
			case "204060":
				ground++
			}
		}
	}
	all := b.Dx() * b.Dy()
	// cropped to the disc, in a frame of 4 in 108: (100/108)^2 pi/4
	if share, want := float64(inked)/float64(all), 0.6733; share < want-0.02 || share > want+0.02 || inked+ground < all*97/100 {
		t.Errorf("%.4f is inked, want %.4f; %d of %d in neither", share, want, all-inked-ground, all)
	}
	if p := s.previewed(t, url.Values{"stamp": {a.Stamp}}); len(p.Problems) > 0 || !strings.HasPrefix(strings.Join(p.Remarks, " "), "acorn.png: cleaned of its paper") || strings.Contains(p.Command, addedBefore) {
		t.Errorf("%+v", p)
	}
}

// A dropped file is asked for again; the last ones used stay.
func TestUploadsAreBounded(t *testing.T) {
	s := serve(t, func(l *Limits) { l.Uploads, l.UploadsBytes = 3, 4000 })
	var words []string
	for side := range 6 {
		words = append(words, s.add(t, "a.png", disc(30+side)).Stamp)
		if n, bytes := s.uploads.kept.Len(), s.uploads.bytes; n > 3 || bytes > 4000 {
			t.Fatalf("%d files of %d bytes are kept", n, bytes)
		}
		if _, err := s.uploads.Read(words[0], 1e6); side < 5 && side > 0 && err != nil {
			t.Errorf("what was just used is gone after %d more", side)
		}
	}
	p := s.previewed(t, url.Values{"stamp": {words[1]}})
	if len(p.Problems) != 1 || p.Problems[0].Field != "stamp" || !strings.Contains(p.Problems[0].Says, "please add the file again") {
		t.Errorf("%+v", p.Problems)
	}
	again := s.add(t, "b.png", disc(31))
	if strings.TrimSuffix(again.Stamp, "b.png") != strings.TrimSuffix(words[1], "a.png") {
		t.Errorf("the same picture has another word: %s, %s", again.Stamp, words[1])
	}
	few := newUploads(Limits{Uploads: 9, UploadsBytes: 30}) // what is gone weighs nothing, and what is added again was used
	file := func(n int) []byte { return bytes.Repeat([]byte{byte(n)}, 10) }
	for n := range 20 {
		few.add("a", file(n))
		first := few.add("b", file(0))
		if want := min(n+1, 3); few.kept.Len() != want || few.bytes != int64(10*want) {
			t.Fatalf("after %d files: %d of %d bytes are kept", n+1, few.kept.Len(), few.bytes)
		}
		if n == 0 {
			continue
		}
		used := few.kept.Values() // the oldest first
		if last := used[len(used)-2][0]; last != byte(n) || used[len(used)-1][0] != 0 {
			t.Errorf("after %d files: %s is not the last that was used", n+1, first)
		}
	}
	one := newUploads(Limits{Uploads: 9, UploadsBytes: 10})
	if w := one.add("a", make([]byte, 100)); one.kept.Len() != 1 {
		t.Errorf("%s: what was added last is not kept", w)
	}
}

// Names are for people: no path, nothing that breaks a line, not too long, and
// nothing that parts words of a list.
func TestNamesOfFilesAreOnlyShown(t *testing.T) {
	for given, want := range map[string]string{
		"holly.png": "holly.png", "../../etc/passwd": "passwd", `C:\Users\x\stechpalme grün.png`: "stechpalme grün.png", "": "file", "/": "file", "..": "file", ".hidden": "hidden",
		"a\nb\x1b[31m.png": "a-b--31m.png", "a,b:c.png": "a-b-c.png", "<b>.svg": "-b-.svg", strings.Repeat("a", 200) + ".png": strings.Repeat("a", 56) + ".png", "\xff\xfe.png": "--.png",
	} {
		got := fileName(given)
		if got != want {
			t.Errorf("%q is called %q, want %q", given, got, want)
		}
		if len([]rune(got)) > 60 || strings.ContainsAny(got, "/\\:,\"'<>\n") || strings.ContainsFunc(got, unicode.IsControl) {
			t.Errorf("%q", got)
		}
	}
}

// A photo's colours come back, and the photo is forgotten.
func TestAPhotoGivesColours(t *testing.T) {
	s := serve(t, nil)
	res, data := s.post(t, "/photo?name=card.jpg", "image/jpeg", disc(200))
	var got struct {
		Ground  string
		Inks    []string
		Remarks []string
	}
	if err := json.Unmarshal(data, &got); err != nil || res.StatusCode != 200 {
		t.Fatalf("%s %s", res.Status, data)
	}
	if got.Ground != "#f5f5f5" || len(got.Inks) < 3 || got.Inks[0] != "#1e1e1e" { // 245 and 30, as drawn
		t.Errorf("%+v", got)
	}
	if s.uploads.kept.Len() != 0 {
		t.Error("the photo is kept")
	}
}
