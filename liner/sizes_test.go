package liner_test

import (
	"bytes"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"underflap/liner"
	"underflap/pattern/draw/referee"
)

func rowNamed(t *testing.T, name string) liner.Entry {
	t.Helper()
	for _, e := range liner.Entries() {
		if e.Name == name {
			return e
		}
	}
	t.Fatalf("no row %s", name)
	return liner.Entry{}
}

// ISO 269:1985 (envelopes) and ISO 216:2007 (paper), in millimetres, short by
// long side; figures from memory, and checked below against the closed form
// and against two other parties' tables.
var isoSizes = map[string][2]float64{
	"iso_c6_114x162mm": {114, 162},
	"iso_c5_162x229mm": {162, 229},
	"iso_dl_110x220mm": {110, 220},
	"iso_b6_125x176mm": {125, 176},
	"iso_c7_81x114mm":  {81, 114},
	"iso_a4_210x297mm": {210, 297},
	"iso_a3_297x420mm": {297, 420},
}

// sides are the table's own sizes, short by long, of envelopes and papers.
func sides() map[string][2]float64 {
	all := map[string][2]float64{}
	for _, e := range liner.Entries() {
		all[e.Name] = [2]float64{min(e.Width, e.Height), max(e.Width, e.Height)}
	}
	for _, p := range liner.Papers() {
		all[p.Name] = [2]float64{min(p.Width, p.Height), max(p.Width, p.Height)}
	}
	return all
}

func TestEveryISOSizeIsTheStandards(t *testing.T) {
	seen := 0
	for name, size := range sides() {
		if !strings.HasPrefix(name, "iso_") {
			continue
		}
		seen++
		if want, ok := isoSizes[name]; !ok || size != want {
			t.Errorf("%s is %v, the standard says %v", name, size, want)
		}
	}
	if seen != len(isoSizes) {
		t.Errorf("the tables have %d ISO sizes, this test knows %d", seen, len(isoSizes))
	}
}

// ISO 216: A0 has an area of 1 m² and sides in the ratio 1:√2, so A-n is
// 2^(1/4-n/2) m long; B-n is 2^(1/2-n/2) m long; C-n (ISO 269) is the geometric
// mean of A-n and B-n. The standard rounds down at each halving, hence 1 mm.
func TestISOSizesFollowTheClosedForm(t *testing.T) {
	long := map[byte]float64{'a': 0.25, 'b': 0.5, 'c': (0.25 + 0.5) / 2}
	compared := 0
	for name, size := range sides() {
		if !strings.HasPrefix(name, "iso_") || strings.HasPrefix(name, "iso_dl") {
			continue // DL is no member of a series: it takes A4 folded in three
		}
		n := float64(name[5] - '0')
		wantLong := 1000 * math.Exp2(long[name[4]]-n/2)
		wantShort := wantLong / math.Sqrt2
		if math.Abs(size[0]-wantShort) > 1 || math.Abs(size[1]-wantLong) > 1 {
			t.Errorf("%s is %v, the closed form gives %.2f x %.2f", name, size, wantShort, wantLong)
		}
		compared++
	}
	if compared != 6 {
		t.Errorf("compared %d sizes", compared)
	}
}

// ISO 269 names what an envelope is for: C6 takes A6, C5 takes A5, DL takes A4
// folded in three, B6 takes C6, C7 takes A7. A4 halves by ISO 216.
func TestISOEnvelopesTakeTheSheetTheyAreNamedFor(t *testing.T) {
	for name, sheet := range map[string][2]float64{
		"iso_c6_114x162mm": {105, 148}, "iso_c5_162x229mm": {148, 210}, "iso_dl_110x220mm": {99, 210},
		"iso_b6_125x176mm": {114, 162}, "iso_c7_81x114mm": {74, 105},
	} {
		if e := rowNamed(t, name); e.Height <= sheet[0] || e.Width <= sheet[1] {
			t.Errorf("%s (%v x %v) does not take %v", name, e.Width, e.Height, sheet)
		}
	}
}

// PWG 5101.1 "Media Standardized Names": the name ends in the size, short side
// first, in mm or in inches of 25.4 mm. Worked by hand.
func TestSelfDescribingNamesSayTheirSize(t *testing.T) {
	for name, want := range map[string][2]float64{
		"iso_c6_114x162mm":              {114, 162},
		"na_letter_8.5x11in":            {215.9, 279.4},
		"na_number-10_4.125x9.5in":      {104.775, 241.3},
		"na_a2_4.375x5.75in":            {111.125, 146.05},
		"jpn_kahu_240x322.1mm":          {240, 322.1},
		"custom_photo_100x150mm":        {100, 150},
		"iso_a4-extra_235.5x322.3mm":    {235.5, 322.3},
		"na_monarch_3.875x7.5in":        {98.425, 190.5},
		"custom_min_a_b_10.125x20.25mm": {10.125, 20.25},
	} {
		short, long, err := liner.SelfDescribed(name)
		if err != nil || math.Abs(short-want[0]) > 1e-9 || math.Abs(long-want[1]) > 1e-9 {
			t.Errorf("%s: %v x %v, %v; want %v", name, short, long, err, want)
		}
	}
	for _, name := range []string{"", "c6", "iso_c6", "iso_c6_114mm", "iso_c6_114x162", "iso_c6_114x162pt", "iso_c6_x162mm", "na_letter_8.5xin"} {
		if short, long, err := liner.SelfDescribed(name); err == nil {
			t.Errorf("%q was read as %v x %v", name, short, long)
		}
	}
}

// libcups carries the names of PWG 5101.1 as C strings. Names of ours that the
// standard lacks say in their source that they only follow its rule.
func TestOurNamesAreThoseOfPWG51011AsCUPSListsThem(t *testing.T) {
	found, err := filepath.Glob("/usr/lib/*/libcups.so.2")
	if err != nil {
		t.Fatal(err)
	}
	path := "/usr/lib/x86_64-linux-gnu/libcups.so.2"
	if len(found) > 0 {
		path = found[0]
	}
	library := referee.File(t, path, "libcups2")
	sources := map[string]string{}
	for _, e := range liner.Entries() {
		sources[e.Name] = e.Source
	}
	for _, p := range liner.Papers() {
		sources[p.Name] = p.Source
	}
	ruled := map[string]bool{"na_a6_4.75x6.5in": true, "na_a7_5.25x7.25in": true}
	listed := 0
	for name, source := range sources {
		byRule := strings.Contains(source, "named by PWG 5101.1's rule")
		if byRule != ruled[name] {
			t.Errorf("%s: source %q; named by the rule: want %v", name, source, ruled[name])
		}
		if byRule {
			continue
		}
		if !strings.HasPrefix(source, "PWG 5101.1") {
			t.Errorf("%s: source %q does not name PWG 5101.1", name, source)
		}
		if !bytes.Contains(library, []byte("\x00"+name+"\x00")) {
			t.Errorf("libcups does not list %s", name)
		}
		listed++
	}
	if listed != 12 {
		t.Errorf("libcups was asked about %d names", listed)
	}
}

// Debian's cups-ppdc lists Adobe's media in whole points of 1/72 inch.
func TestSizesAgreeWithTheMediaOfCUPSToTheirPoint(t *testing.T) {
	theirs := map[string][2]float64{}
	for _, line := range strings.Split(string(referee.File(t, "/usr/share/cups/ppdc/media.defs", "cups-ppdc")), "\n") {
		quoted, ok := strings.CutPrefix(line, `#media "`)
		end := strings.LastIndex(quoted, `" `)
		if !ok || end < 0 {
			continue
		}
		numbers := strings.Fields(quoted[end+2:])
		if len(numbers) != 2 {
			t.Fatalf("media.defs: %q", line)
		}
		w, errW := strconv.ParseFloat(numbers[0], 64)
		h, errH := strconv.ParseFloat(numbers[1], 64)
		if errW != nil || errH != nil {
			t.Fatalf("media.defs: %q", line)
		}
		name, _, _ := strings.Cut(quoted[:end], "/")
		theirs[name] = [2]float64{min(w, h), max(w, h)}
	}
	ours := sides()
	for name, cups := range map[string]string{
		"iso_c6_114x162mm": "EnvC6", "iso_c5_162x229mm": "EnvC5", "iso_dl_110x220mm": "EnvDL", "iso_b6_125x176mm": "EnvISOB6",
		"iso_c7_81x114mm": "EnvC7", "na_number-10_4.125x9.5in": "Env10", "na_monarch_3.875x7.5in": "EnvMonarch",
		"iso_a4_210x297mm": "A4", "iso_a3_297x420mm": "A3", "na_letter_8.5x11in": "Letter", "na_legal_8.5x14in": "Legal",
	} {
		points, ok := theirs[cups]
		size, have := ours[name]
		if !ok || !have {
			t.Errorf("%s (%s): in media.defs %v, in our tables %v", name, cups, ok, have)
			continue
		}
		for i := range size {
			if off := math.Abs(size[i]*72/25.4 - points[i]); off > 0.5 {
				t.Errorf("%s: side of %v mm is %.3f points from media.defs", name, size[i], off)
			}
		}
	}
}
