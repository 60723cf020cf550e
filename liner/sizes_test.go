package liner_test

import (
	"bytes"
	"debug/elf"
	"math"
	"path/filepath"
	"regexp"
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

// ISO 216:2007 (A and B) and ISO 269:1985 (the others), in millimetres, short
// by long side; figures from memory, and checked below against the closed
// forms and against two other parties' tables.
var isoSizes = map[string][2]float64{
	"iso_c6_114x162mm": {114, 162},
	"iso_c5_162x229mm": {162, 229},
	"iso_dl_110x220mm": {110, 220},
	"iso_b6_125x176mm": {125, 176},
	"iso_c7_81x114mm":  {81, 114},
	"iso_a4_210x297mm": {210, 297},
	"iso_a3_297x420mm": {297, 420},

	"iso_a5_148x210mm": {148, 210},
	"iso_a6_105x148mm": {105, 148},
	"iso_a7_74x105mm":  {74, 105},

	"iso_b0_1000x1414mm": {1000, 1414},
	"iso_b1_707x1000mm":  {707, 1000},
	"iso_b2_500x707mm":   {500, 707},
	"iso_b3_353x500mm":   {353, 500},
	"iso_b4_250x353mm":   {250, 353},
	"iso_b5_176x250mm":   {176, 250},
	"iso_b7_88x125mm":    {88, 125},
	"iso_b8_62x88mm":     {62, 88},
	"iso_b9_44x62mm":     {44, 62},
	"iso_b10_31x44mm":    {31, 44},

	"iso_c0_917x1297mm": {917, 1297},
	"iso_c1_648x917mm":  {648, 917},
	"iso_c2_458x648mm":  {458, 648},
	"iso_c3_324x458mm":  {324, 458},
	"iso_c4_229x324mm":  {229, 324},
	"iso_c8_57x81mm":    {57, 81},
	"iso_c9_40x57mm":    {40, 57},
	"iso_c10_28x40mm":   {28, 40},

	"iso_c6c5_114x229mm": {114, 229},
	"iso_c7c6_81x162mm":  {81, 162},
	"iso_b6c4_125x324mm": {125, 324},
	"iso_e4_280x400mm":   {280, 400},
}

// sides are the tables' own sizes, short by long, of envelopes, papers and
// cards.
func sides() map[string][2]float64 {
	all := map[string][2]float64{}
	for _, e := range liner.Entries() {
		all[e.Name] = [2]float64{min(e.Width, e.Height), max(e.Width, e.Height)}
	}
	for _, p := range liner.Papers() {
		all[p.Name] = [2]float64{min(p.Width, p.Height), max(p.Width, p.Height)}
	}
	for _, c := range liner.Cards() {
		all[c.Name] = [2]float64{min(c.Width, c.Height), max(c.Width, c.Height)}
	}
	return all
}

// sources are where the tables say that their sizes come from.
func sources() map[string]string {
	all := map[string]string{}
	for _, e := range liner.Entries() {
		all[e.Name] = e.SizeSource
	}
	for _, p := range liner.Papers() {
		all[p.Name] = p.Source
	}
	for _, c := range liner.Cards() {
		all[c.Name] = c.Source
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

// ISO 269:1985's own list, from memory.
func TestTheTableHasEveryEnvelopeOfISO269AndNamesItWhereItIsTheSource(t *testing.T) {
	listed := map[string]bool{}
	for _, name := range []string{"iso_c3_324x458mm", "iso_b4_250x353mm", "iso_c4_229x324mm", "iso_b5_176x250mm", "iso_c5_162x229mm",
		"iso_b6_125x176mm", "iso_c6_114x162mm", "iso_dl_110x220mm", "iso_c6c5_114x229mm", "iso_c7c6_81x162mm", "iso_c7_81x114mm", "iso_e4_280x400mm"} {
		listed[name] = true
		rowNamed(t, name)
	}
	for _, e := range liner.Entries() {
		if named := strings.Contains(e.SizeSource, "ISO 269"); named != listed[e.Name] {
			t.Errorf("%s: source %q, in ISO 269: %v", e.Name, e.SizeSource, listed[e.Name])
		}
	}
}

// member reads series and number of a name as "iso_c6_114x162mm"; false for one
// of no series.
func member(name string) (series string, number int, ok bool) {
	found := regexp.MustCompile(`^iso_([abc])(\d+)_`).FindStringSubmatch(name)
	if found == nil {
		return "", 0, false
	}
	number, err := strconv.Atoi(found[2])
	return found[1], number, err == nil
}

// ISO 216: A0 has an area of 1 m² and sides in the ratio 1:√2, so A-n is
// 2^(1/4-n/2) m long; B-n is 2^(1/2-n/2) m long; C-n (ISO 269) is the geometric
// mean of A-n and B-n. The standard rounds down at each halving, hence 1 mm.
func TestISOSizesFollowTheClosedForm(t *testing.T) {
	long := map[string]float64{"a": 0.25, "b": 0.5, "c": (0.25 + 0.5) / 2}
	compared := 0
	for name, size := range sides() {
		series, number, ok := member(name)
		if !ok {
			continue // DL is no member of a series: it takes A4 folded in three
		}
		wantLong := 1000 * math.Exp2(long[series]-float64(number)/2)
		wantShort := wantLong / math.Sqrt2
		if math.Abs(size[0]-wantShort) > 1 || math.Abs(size[1]-wantLong) > 1 {
			t.Errorf("%s is %v, the closed form gives %.2f x %.2f", name, size, wantShort, wantLong)
		}
		compared++
	}
	if compared != 27 { // B0 to B10, C0 to C10, A3 to A7
		t.Errorf("compared %d sizes", compared)
	}
}

// seriesSizes are the table's B and C sizes and ISO 216's A sizes, which halve
// from 841 x 1189.
func seriesSizes() map[string][11][2]float64 {
	a := [11][2]float64{{841, 1189}}
	for n := 1; n < len(a); n++ {
		a[n] = [2]float64{math.Floor(a[n-1][1] / 2), a[n-1][0]}
	}
	all := map[string][11][2]float64{}
	for name, size := range sides() {
		if series, number, ok := member(name); ok {
			sizes := all[series]
			sizes[number] = size
			all[series] = sizes
		}
	}
	all["a"] = a
	return all
}

// ISO 216: each size is the one before it, halved across its long side and
// rounded down. C follows (its closed form is tested above to the millimetre).
func TestEachISOSizeIsTheOneBeforeItHalved(t *testing.T) {
	all := seriesSizes()
	for _, series := range []string{"b", "c"} {
		sizes := all[series]
		for n := 1; n < len(sizes); n++ {
			if want := [2]float64{math.Floor(sizes[n-1][1] / 2), sizes[n-1][0]}; sizes[n] != want {
				t.Errorf("%s%d is %v, %s%d halved is %v", series, n, sizes[n], series, n-1, want)
			}
		}
	}
}

// ISO 216 and ISO 269: C-n is the geometric mean of A-n and B-n, B-n that of
// A-n and A-(n-1), rounded.
func TestEachCSizeIsBetweenAAndBAsTheirGeometricMean(t *testing.T) {
	all := seriesSizes()
	for n := range 11 {
		for i, side := range []string{"short", "long"} {
			a, b, c := all["a"][n][i], all["b"][n][i], all["c"][n][i]
			if a >= c || c >= b {
				t.Errorf("%s sides of A%d, C%d and B%d are %v, %v and %v", side, n, n, n, a, c, b)
			}
			if mean := math.Sqrt(a * b); math.Abs(c-mean) > 1 {
				t.Errorf("C%d's %s side is %v, the mean of %v and %v is %.2f", n, side, c, a, b, mean)
			}
			if n > 0 {
				if mean := math.Sqrt(a * all["a"][n-1][i]); math.Abs(b-mean) > 1 {
					t.Errorf("B%d's %s side is %v, the mean of A%d and A%d is %.2f", n, side, b, n, n-1, mean)
				}
			}
		}
	}
}

// C6/C5 is as high as C6 and as long as C5, and so on: that is what they are
// named for.
func TestAnEnvelopeOfTwoISONamesTakesASideFromEach(t *testing.T) {
	all := seriesSizes()
	for name, want := range map[string][2]float64{
		"iso_c6c5_114x229mm": {all["c"][6][0], all["c"][5][1]},
		"iso_c7c6_81x162mm":  {all["c"][7][0], all["c"][6][1]},
		"iso_b6c4_125x324mm": {all["b"][6][0], all["c"][4][1]},
	} {
		if size := sides()[name]; size != want {
			t.Errorf("%s is %v, want %v", name, size, want)
		}
	}
}

// ISO 269 names what an envelope is for: C6 takes A6, C5 takes A5, DL takes A4
// folded in three, B6 takes C6, C7 takes A7. A4 halves by ISO 216. C6/C5 takes
// A4 folded in three too, C7/C6 A5 so folded, B6/C4 half an A4 along, E4 a B4.
func TestISOEnvelopesTakeTheSheetTheyAreNamedFor(t *testing.T) {
	takes := map[string][2]float64{
		"iso_c6_114x162mm": {105, 148}, "iso_c5_162x229mm": {148, 210}, "iso_dl_110x220mm": {99, 210},
		"iso_b6_125x176mm": {114, 162}, "iso_c7_81x114mm": {74, 105}, "iso_c6c5_114x229mm": {99, 210},
		"iso_c7c6_81x162mm": {70, 148}, "iso_b6c4_125x324mm": {105, 297}, "iso_e4_280x400mm": {250, 353},
	}
	all := seriesSizes()
	for name := range sides() {
		switch series, number, ok := member(name); {
		case ok && series == "b":
			takes[name] = all["c"][number]
		case ok && series == "c":
			takes[name] = all["a"][number]
		}
	}
	for name, sheet := range takes {
		if e := rowNamed(t, name); min(e.Height, e.Width) <= sheet[0] || max(e.Width, e.Height) <= sheet[1] {
			t.Errorf("%s (%v x %v) does not take %v", name, e.Width, e.Height, sheet)
		}
	}
}

// US trade practice, from memory: the sizes are whole eighths of an inch, and
// each takes its card with 1/4 inch to spare along it and 1/8 or 1/4 across.
// Page-size tables of general-purpose software have them in whole millimetres
// (from memory too; one of them makes A10 159 x 244).
func TestUSAnnouncementEnvelopesTakeTheirCardWithAQuarterInchToSpare(t *testing.T) {
	for name, want := range map[string]struct{ card, whole [2]float64 }{
		"na_a1_3.625x5.125in": {[2]float64{3.5, 4.875}, [2]float64{92, 130}},
		"na_a2_4.375x5.75in":  {[2]float64{4.25, 5.5}, [2]float64{111, 146}},
		"na_a6_4.75x6.5in":    {[2]float64{4.5, 6.25}, [2]float64{121, 165}},
		"na_a7_5.25x7.25in":   {[2]float64{5, 7}, [2]float64{133, 184}},
		"na_a8_5.5x8.125in":   {[2]float64{5.25, 7.875}, [2]float64{140, 206}},
		"na_a9_5.75x8.75in":   {[2]float64{5.5, 8.5}, [2]float64{146, 222}},
		"na_a10_6x9.5in":      {[2]float64{5.75, 9.25}, [2]float64{152, 241}},
		"na_lee_5.25x7.25in":  {[2]float64{5, 7}, [2]float64{133, 184}},
	} {
		e := rowNamed(t, name)
		inches := [2]float64{e.Height / 25.4, e.Width / 25.4}
		for i, v := range inches {
			if !alike(v*8, math.Round(v*8)) {
				t.Errorf("%s: %v in is no whole number of eighths", name, v)
			}
			if spare := v - want.card[i]; !alike(spare, 0.25) && (i == 1 || !alike(spare, 0.125)) {
				t.Errorf("%s: %v in for a card of %v in", name, v, want.card[i])
			}
		}
		if whole := [2]float64{math.Round(e.Height), math.Round(e.Width)}; whole != want.whole {
			t.Errorf("%s is %v mm, other tables say %v", name, whole, want.whole)
		}
	}
	for _, e := range liner.Entries() {
		if e.Family == "US announcement" && (e.Height > 6*25.4 || e.Width > 9.5*25.4) {
			t.Errorf("%s is greater than A10", e.Name)
		}
	}
}

// JIS S 5502 and Japanese trade practice (Kaku 1, You 3, 5 and 7), from memory.
func TestJapaneseEnvelopesHaveTheSizesOfJISS5502(t *testing.T) {
	want := map[string][2]float64{
		"Chou 2": {119, 277}, "Chou 3": {120, 235}, "Chou 4": {90, 205}, "Chou 40": {90, 225},
		"Kaku 1": {270, 382}, "Kaku 2": {240, 332}, "Kaku 3": {216, 277}, "Kaku 4": {197, 267},
		"Kaku 5": {190, 240}, "Kaku 6": {162, 229}, "Kaku 7": {142, 205}, "Kaku 8": {119, 197},
		"You 1": {120, 176}, "You 2": {114, 162}, "You 3": {98, 148}, "You 4": {105, 235},
		"You 5": {95, 217}, "You 6": {98, 190}, "You 7": {92, 165},
	}
	for name, size := range want {
		e, err := liner.LookUp(name)
		if err != nil || e.Family != "Japan" || sides()[e.Name] != size {
			t.Errorf("%s is %s, %v; want %v", name, e.Name, err, size)
			continue
		}
		// a you (western) envelope opens on its long side, the others on the short one
		if long := e.Width > e.Height; long != strings.HasPrefix(name, "You") {
			t.Errorf("%s: pocket %v wide and %v high", name, e.Width, e.Height)
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
		"na_square-6-5_6.5x6.5in":       {165.1, 165.1},
		"custom_min_a_b_10.125x20.25mm": {10.125, 20.25},
	} {
		short, long, err := liner.SelfDescribed(name)
		if err != nil || math.Abs(short-want[0]) > 1e-9 || math.Abs(long-want[1]) > 1e-9 {
			t.Errorf("%s: %v x %v, %v; want %v", name, short, long, err, want)
		}
	}
	for _, name := range []string{"", "c6", "iso_c6", "iso_c6_114mm", "iso_c6_114x162", "iso_c6_114x162pt", "iso_c6_x162mm", "na_letter_8.5xin",
		"iso_c6_NaNx162mm", "iso_c6_infx162mm", "iso_c6_-114x162mm", "iso_c6_0x162mm", "iso_c6_1e2x162mm", "iso_c6_0x1px162mm", "iso_c6_114x162nimm", "iso_c6_114x5001mm"} {
		if short, long, err := liner.SelfDescribed(name); err == nil {
			t.Errorf("%q was read as %v x %v", name, short, long)
		}
	}
}

// PWG 5101.1's grammar: a class that says the unit, a name in small letters,
// digits and dashes, and two dimensions without needless zeros.
func TestEveryNameIsWrittenByTheGrammarOfPWG51011(t *testing.T) {
	const dim = `([1-9][0-9]*(\.[0-9]*[1-9])?|0\.[0-9]*[1-9])`
	grammar := regexp.MustCompile(`^((na|asme|roc|oe)_[a-z0-9][-a-z0-9]*_` + dim + `x` + dim + `in|(iso|jis|jpn|prc|om)_[a-z0-9][-a-z0-9]*_` + dim + `x` + dim + `mm)$`)
	for name := range sides() {
		short, long, err := liner.SelfDescribed(name)
		if !grammar.MatchString(name) || err != nil || short > long {
			t.Errorf("%s: %v x %v, %v", name, short, long, err)
		}
	}
}

// medium is a row of the table in libcups: PWG's name, the name of old IPP, the
// name in PPD files, and the size in hundredths of a millimetre, rounded down.
type medium struct {
	name, legacy, ppd string
	width, length     int32
}

// cupsMedia reads that table out of the library: rows of pwg_media_t, which
// cups/pwg.h gives as three pointers and two ints. A shared object keeps the
// pointers as relocations.
func cupsMedia(t *testing.T) []medium {
	t.Helper()
	found, err := filepath.Glob("/usr/lib/*/libcups.so.2")
	if err != nil {
		t.Fatal(err)
	}
	path := "/usr/lib/x86_64-linux-gnu/libcups.so.2"
	if len(found) > 0 {
		path = found[0]
	}
	library := referee.File(t, path, "libcups2")
	object, err := elf.NewFile(bytes.NewReader(library))
	if err != nil || object.Class != elf.ELFCLASS64 {
		t.Fatalf("%s: %v, %v", path, object, err)
	}
	section := func(name string) (address uint64, data []byte) {
		s := object.Section(name)
		if s == nil {
			t.Fatalf("%s has no section %s", path, name)
		}
		data, err := s.Data()
		if err != nil {
			t.Fatal(err)
		}
		return s.Addr, data
	}
	textAt, text := section(".rodata")
	rowsAt, rows := section(".data.rel.ro")
	_, relocations := section(".rela.dyn")
	strs := map[uint64]string{} // by the address of the pointer
	for r := relocations; len(r) >= 24; r = r[24:] {
		where, what := object.ByteOrder.Uint64(r), object.ByteOrder.Uint64(r[16:])
		if what < textAt || what >= textAt+uint64(len(text)) {
			continue
		}
		s, _, _ := bytes.Cut(text[what-textAt:], []byte{0})
		strs[where] = string(s)
	}
	size := func(where uint64) int32 {
		return int32(object.ByteOrder.Uint32(rows[where-rowsAt:]))
	}
	first := uint64(0)
	for where, s := range strs {
		if s == "na_index-3x5_3x5in" && where >= rowsAt {
			first = where
		}
	}
	const row = 3*8 + 2*4
	var media []medium
	for where := first; where >= rowsAt && where+row <= rowsAt+uint64(len(rows)) && strings.Count(strs[where], "_") == 2; where += row {
		media = append(media, medium{strs[where], strs[where+8], strs[where+16], size(where + 24), size(where + 28)})
	}
	if len(media) < 150 {
		t.Fatalf("read %d rows of the table in %s: %v", len(media), path, media)
	}
	return media
}

// Names of PWG 5101.1 that libcups leaves out for another of the same size,
// which its source says in comments.
var cupsLeavesOut = map[string]string{
	"prc_3_125x176mm": "iso_b6_125x176mm", "prc_5_110x220mm": "iso_dl_110x220mm",
	"prc_10_324x458mm": "iso_c3_324x458mm", "om_postfix_114x229mm": "iso_c6c5_114x229mm",
}

// libcups carries the names of PWG 5101.1. Names of ours that the standard
// lacks say in their source that they only follow its rule.
func TestOurNamesAreThoseOfPWG51011AsCUPSListsThem(t *testing.T) {
	theirs := map[string]medium{}
	for _, m := range cupsMedia(t) {
		theirs[m.name] = m
	}
	ours := sides()
	listed := 0
	for name, source := range sources() {
		byRule := strings.Contains(source, "named by PWG 5101.1's rule")
		m, known := theirs[name]
		same, left := cupsLeavesOut[name]
		if left {
			m, known = theirs[same]
		}
		if byRule == known {
			t.Errorf("%s: source %q; libcups lists it: %v", name, source, known)
		}
		if byRule || !known {
			continue
		}
		if !strings.HasPrefix(source, "PWG 5101.1") {
			t.Errorf("%s: source %q does not name PWG 5101.1", name, source)
		}
		if cups := [2]float64{float64(min(m.width, m.length)) / 100, float64(max(m.width, m.length)) / 100}; math.Abs(cups[0]-ours[name][0]) > 0.0101 || math.Abs(cups[1]-ours[name][1]) > 0.0101 {
			t.Errorf("%s is %v, libcups makes it %v", name, ours[name], cups)
		}
		listed++
	}
	if listed != 86 {
		t.Errorf("libcups was asked about %d names", listed)
	}
}

// envelopesOfPWG are the names that PWG 5101.1 calls envelopes, by their
// beginnings: in its column of common names ("na_arch-a" is its
// "architecture-a (envelope)"), and beyond it all of ISO's B and C.
var envelopesOfPWG = regexp.MustCompile(`^(iso_(b\d+|c\d+|b6c4|c6c5|c7c6|dl)` +
	`|na_(a2|c5|monarch|personal|number-\d+|6x9|7x9|9x11|arch-a|10x13|10x14|10x15)` +
	`|jpn_(chou\d+|kaku\d|kahu|you\d)|prc_\d+|om_(invite|italian|postfix))_`)

// CUPS' own mark of an envelope is asked as well: PPD names that begin with
// Env, and names of old IPP that end in -envelope.
func TestTheTableHasEveryEnvelopeOfPWG51011ThatCUPSKnows(t *testing.T) {
	ours := map[string]liner.Entry{}
	for _, e := range liner.Entries() {
		ours[e.Name] = e
	}
	envelopes := 0
	for _, m := range cupsMedia(t) {
		marked := strings.HasPrefix(m.ppd, "Env") || strings.HasSuffix(m.legacy, "-envelope")
		meant := envelopesOfPWG.MatchString(m.name)
		if marked && !meant {
			t.Errorf("libcups has an envelope %s (%q, %q) that this test does not expect", m.name, m.legacy, m.ppd)
		}
		if !marked && !meant {
			continue
		}
		envelopes++
		if _, ok := ours[m.name]; !ok {
			t.Errorf("%s (%q, %q) is not in the table", m.name, m.legacy, m.ppd)
		}
	}
	for name, same := range cupsLeavesOut {
		if e, twin := rowNamed(t, name), rowNamed(t, same); max(e.Width, e.Height) != max(twin.Width, twin.Height) || min(e.Width, e.Height) != min(twin.Width, twin.Height) {
			t.Errorf("%s and %s differ", name, same)
		}
		envelopes++
	}
	for name, e := range ours {
		if strings.HasPrefix(e.SizeSource, "PWG 5101.1") && !envelopesOfPWG.MatchString(name) {
			t.Errorf("%s: PWG 5101.1 does not call it an envelope", name)
		}
	}
	if envelopes != 68 {
		t.Errorf("libcups knows %d envelopes", envelopes)
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
	names := map[string]string{
		"EnvC6": "iso_c6_114x162mm", "EnvC5": "iso_c5_162x229mm", "EnvDL": "iso_dl_110x220mm", "EnvISOB6": "iso_b6_125x176mm",
		"EnvC7": "iso_c7_81x114mm", "Env10": "na_number-10_4.125x9.5in", "EnvMonarch": "na_monarch_3.875x7.5in",
		"A4": "iso_a4_210x297mm", "A3": "iso_a3_297x420mm", "Letter": "na_letter_8.5x11in", "Legal": "na_legal_8.5x14in",

		"EnvC0": "iso_c0_917x1297mm", "EnvC1": "iso_c1_648x917mm", "EnvC2": "iso_c2_458x648mm", "EnvC3": "iso_c3_324x458mm",
		"EnvC4": "iso_c4_229x324mm", "EnvC65": "iso_c6c5_114x229mm", "EnvISOB4": "iso_b4_250x353mm", "EnvISOB5": "iso_b5_176x250mm",
		"Env9": "na_number-9_3.875x8.875in", "Env11": "na_number-11_4.5x10.375in", "Env12": "na_number-12_4.75x11in",
		"Env14": "na_number-14_5x11.5in", "EnvPersonal": "na_personal_3.625x6.5in",
		"EnvChou3": "jpn_chou3_120x235mm", "EnvChou4": "jpn_chou4_90x205mm", "EnvKaku2": "jpn_kaku2_240x332mm",
		"EnvKaku3": "jpn_kaku3_216x277mm", "EnvYou4": "jpn_you4_105x235mm",
		"EnvPRC1": "prc_1_102x165mm", "EnvPRC2": "prc_2_102x176mm", "EnvPRC3": "prc_3_125x176mm", "EnvPRC4": "prc_4_110x208mm",
		"EnvPRC5": "prc_5_110x220mm", "EnvPRC6": "prc_6_120x230mm", "EnvPRC7": "prc_7_160x230mm", "EnvPRC8": "prc_8_120x309mm",
		"EnvPRC9": "prc_9_229x324mm", "EnvPRC10": "prc_10_324x458mm",
		"EnvInvite": "om_invite_220x220mm", "EnvItalian": "om_italian_110x230mm",

		"ISOB0": "iso_b0_1000x1414mm", "ISOB1": "iso_b1_707x1000mm", "ISOB2": "iso_b2_500x707mm", "ISOB3": "iso_b3_353x500mm",
		"ISOB4": "iso_b4_250x353mm", "ISOB5": "iso_b5_176x250mm", "ISOB6": "iso_b6_125x176mm", "ISOB7": "iso_b7_88x125mm",
		"ISOB8": "iso_b8_62x88mm", "ISOB9": "iso_b9_44x62mm", "ISOB10": "iso_b10_31x44mm",
		"7x9": "na_7x9_7x9in", "9x11": "na_9x11_9x11in", "9x12": "na_arch-a_9x12in", "10x13": "na_10x13_10x13in", "10x14": "na_10x14_10x14in",

		"A5": "iso_a5_148x210mm", "A6": "iso_a6_105x148mm", "A7": "iso_a7_74x105mm", "Tabloid": "na_ledger_11x17in",
		"w936h1368": "na_super-b_13x19in", "B5": "jis_b5_182x257mm", "B4": "jis_b4_257x364mm",
		"3x5": "na_index-3x5_3x5in", "5x7": "na_5x7_5x7in", "Photo4x6": "na_index-4x6_4x6in", "Statement": "na_invoice_5.5x8.5in",
		"Postcard": "jpn_hagaki_100x148mm",
	}
	// some of theirs are rounded down, and two are off: their EnvC3 is shorter
	// than their EnvPRC10, the same envelope, and their EnvC65 shorter than their
	// EnvC5, which is as long
	slips := map[string]float64{"EnvC0": 0.6, "EnvISOB4": 0.7, "A6": 0.7, "A7": 0.7, "Postcard": 0.6, "EnvC65": 1.2, "EnvC3": 2.3}
	ours := sides()
	for cups, name := range names {
		points, ok := theirs[cups]
		size, have := ours[name]
		if !ok || !have {
			t.Errorf("%s (%s): in media.defs %v, in our tables %v", name, cups, ok, have)
			continue
		}
		for i := range size {
			if off := math.Abs(size[i]*72/25.4 - points[i]); off > max(0.5, slips[cups]) {
				t.Errorf("%s: side of %v mm is %.3f points from media.defs", name, size[i], off)
			}
		}
	}
	for cups := range theirs {
		if strings.HasPrefix(cups, "Env") && !strings.HasSuffix(cups, "Rotated") && names[cups] == "" {
			t.Errorf("media.defs has an envelope %s that was not compared", cups)
		}
	}
}
