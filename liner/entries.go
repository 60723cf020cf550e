package liner

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"underflap/pattern/words"
)

//go:embed envelopes.csv
var envelopeTable string

//go:embed papers.csv
var paperTable string

// Entry is a row of the size table: an envelope and its usual flaps.
type Entry struct {
	Name    string   // self-describing: iso_c6_114x162mm
	Trade   []string // short trade names, the usual one first
	Width   float64  // pocket along the fold
	Height  float64
	Pointed float64 // usual depth of a pointed flap
	Square  float64 // usual depth of a square flap
	Gum     float64
	Source  string // of size and of flap figures
}

// Paper is a sheet to print on, width and height as it is fed.
type Paper struct {
	Name   string
	Short  string
	Width  float64
	Height float64
	Source string
}

// SelfDescribed reads the dimensions at the end of a PWG 5101.1 self-describing
// media name, short side first as the name has it: "iso_c6_114x162mm" is
// 114 by 162, "na_number-10_4.125x9.5in" is 104.775 by 241.3.
func SelfDescribed(name string) (short, long float64, err error) {
	last := name[strings.LastIndex(name, "_")+1:]
	digits := strings.TrimRight(last, "imn")
	a, b, _ := strings.Cut(digits, "x")
	per := map[string]float64{"mm": 1, "in": words.MillimetresPerInch}[last[len(digits):]]
	short, errA := strconv.ParseFloat(a, 64)
	long, errB := strconv.ParseFloat(b, 64)
	if per == 0 || errA != nil || errB != nil {
		return 0, 0, fmt.Errorf("%q does not end in its size, as in iso_c6_114x162mm", name)
	}
	whole := func(v float64) float64 { return math.Round(v*per*1e6) / 1e6 } // 3.875 in is 98.425 mm and not a hair less
	return whole(short), whole(long), nil
}

// Entries is the size table, in the table's order. A row that cannot be read is
// a mistake in the program and panics.
var Entries = sync.OnceValue(func() []Entry {
	return rows(envelopeTable, func(cell func(string) string) (e Entry, err error) {
		e = Entry{Name: cell("name"), Trade: strings.Split(cell("trade"), "|"), Source: cell("size source") + "; flap: " + cell("flap source")}
		short, long, err := SelfDescribed(e.Name)
		if err != nil {
			return e, err
		}
		e.Width, e.Height = long, short
		if cell("flap side") == "short" {
			e.Width, e.Height = short, long
		}
		for column, into := range map[string]*float64{"pointed depth": &e.Pointed, "square depth": &e.Square, "gum": &e.Gum} {
			if *into, err = words.Length(column, cell(column)); err != nil {
				return e, err
			}
		}
		return e, nil
	})
})

// Papers is the table of papers.
var Papers = sync.OnceValue(func() []Paper {
	return rows(paperTable, func(cell func(string) string) (Paper, error) {
		w, h, err := SelfDescribed(cell("name"))
		return Paper{Name: cell("name"), Short: cell("trade"), Width: w, Height: h, Source: cell("source")}, err
	})
})

// rows reads an embedded table whose first line names its columns.
func rows[T any](table string, read func(cell func(string) string) (T, error)) []T {
	r := csv.NewReader(strings.NewReader(table))
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		panic(err)
	}
	var out []T
	for _, line := range lines[1:] {
		row, err := read(func(column string) string { return line[slices.Index(lines[0], column)] })
		if err != nil {
			panic(err)
		}
		out = append(out, row)
	}
	return out
}

// LookUp finds an envelope by its PWG name or a trade name; case, spaces,
// dots and dashes do not matter ("No. 10" is "no10").
func LookUp(given string) (Entry, error) {
	for _, e := range Entries() {
		for _, name := range append([]string{e.Name}, e.Trade...) {
			if plainName(name) == plainName(given) {
				return e, nil
			}
		}
	}
	return Entry{}, &words.Refused{Field: "envelope", Given: given, Why: "no such envelope",
		Accepts: strings.Join(EnvelopeNames(), ", ") + ", a PWG name, or --pocket WxH with --flap-depth"}
}

// EnvelopeNames lists the usual trade name of every envelope.
func EnvelopeNames() []string {
	var names []string
	for _, e := range Entries() {
		names = append(names, e.Trade[0])
	}
	return names
}

// PaperNames lists the short name of every paper.
func PaperNames() []string {
	var names []string
	for _, p := range Papers() {
		names = append(names, p.Short)
	}
	return names
}

// ParsePaper finds a paper by name or reads its size, "305x305".
func ParsePaper(field, given string) (Paper, error) {
	for _, p := range Papers() {
		if plainName(p.Name) == plainName(given) || plainName(p.Short) == plainName(given) {
			return p, nil
		}
	}
	refused := &words.Refused{Field: field, Given: given, Accepts: fmt.Sprintf("%s, or width x height from %s to %s",
		strings.Join(PaperNames(), ", "), words.MM(leastPaper), words.MM(mostPaper))}
	w, h, err := words.Size(field, given)
	if err != nil || min(w, h) < leastPaper || max(w, h) > mostPaper {
		return Paper{}, refused
	}
	size := fmt.Sprintf("%gx%gmm", w, h)
	return Paper{Name: "custom_sheet_" + size, Short: strings.Replace(strings.TrimSuffix(size, "mm"), "x", " × ", 1) + " mm", Width: w, Height: h}, nil
}

const leastPaper, mostPaper = 50.0, 1300.0

func plainName(s string) string {
	return strings.NewReplacer(" ", "", ".", "", "-", "", "#", "no").Replace(strings.ToLower(strings.TrimSpace(s)))
}

// Envelope gives the row's envelope with its usual flap of that shape.
func (e Entry) Envelope(shape Shape) Envelope {
	depth := e.Pointed
	if shape == Square {
		depth = e.Square
	}
	return Envelope{Name: e.Name, Short: e.Trade[0], Width: e.Width, Height: e.Height,
		Flap: UsualFlap(shape, depth), Gum: e.Gum}
}

// UsualFlap fills in what people do not measure. Common practice, no source:
// pointed flaps rise about 6 mm before they slant, and end in a tip of 8 mm
// radius; the sides of square flaps lean in by 5 mm and their corners have a
// radius of 6 mm. All shrink with a shallow flap.
func UsualFlap(shape Shape, depth float64) Flap {
	small := min(1, depth/30)
	if shape == Square {
		return Flap{Shape: Square, Depth: depth, Taper: 5 * small, BaseGap: 1, TipRadius: 6 * small}
	}
	return Flap{Shape: Pointed, Depth: depth, Shoulder: 6 * small, Taper: 1 * small, BaseGap: 1, TipRadius: 8 * small}
}
