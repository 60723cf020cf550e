package liner

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"underflap/pattern/words"
)

//go:embed envelopes.csv
var envelopeTable string

// Entry is a row of the size table: an envelope and its usual flaps.
type Entry struct {
	Name       string   // self-describing: iso_c6_114x162mm
	Family     string   // where it is at home: "ISO", "Japan"
	Trade      []string // short trade names, the usual one first
	Width      float64  // pocket along the fold
	Height     float64
	Flaps      []TradeFlap // usual ones, the commonest first
	SizeSource string
	FlapSource string
	turned     bool // the flap is not on the side it usually is
}

// TradeFlap is a flap that an envelope is usually sold with.
type TradeFlap struct {
	Shape Shape
	Depth float64
	Gum   float64
}

// SelfDescribed reads the dimensions at the end of a PWG 5101.1 self-describing
// media name, short side first as the name has it: "iso_c6_114x162mm" is
// 114 by 162, "na_number-10_4.125x9.5in" is 104.775 by 241.3.
func SelfDescribed(name string) (short, long float64, err error) {
	m := selfDescribed.FindStringSubmatch(name[strings.LastIndex(name, "_")+1:])
	if m == nil {
		return 0, 0, fmt.Errorf("%q does not end in its size, as in iso_c6_114x162mm", words.Shorten(name))
	}
	per := map[string]float64{"mm": 1, "in": words.MillimetresPerInch}[m[3]]
	side := func(digits string) float64 {
		v, _ := strconv.ParseFloat(digits, 64)
		return math.Round(v*per*1e6) / 1e6 // 3.875 in is 98.425 mm and not a hair less
	}
	short, long = side(m[1]), side(m[2])
	if min(short, long) <= 0 || max(short, long) > words.Longest {
		return 0, 0, fmt.Errorf("%q is not of a size from 0 to %d mm", words.Shorten(name), words.Longest)
	}
	return short, long, nil
}

// selfDescribed is how a name ends: two dimensions and their unit.
var selfDescribed = regexp.MustCompile(`^(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)(mm|in)$`)

// Entries is the size table, in the table's order. A row that cannot be read is
// a mistake in the program and panics.
var Entries = sync.OnceValue(func() []Entry {
	return rows(envelopeTable, func(cell func(string) string) (e Entry, err error) {
		e = Entry{Name: cell("name"), Family: cell("family"), Trade: strings.Split(cell("trade"), "|"),
			SizeSource: cell("size source"), FlapSource: cell("flap source")}
		short, long, err := SelfDescribed(e.Name)
		if err != nil {
			return e, err
		}
		e.Width, e.Height = long, short
		if cell("flap side") == "short" {
			e.Width, e.Height = short, long
		}
		for _, flap := range strings.Split(cell("flaps"), "|") {
			var f TradeFlap
			if _, err := fmt.Sscanf(strings.Replace(flap, "/", " ", 1), "%s %g %g", &f.Shape, &f.Depth, &f.Gum); err != nil {
				return e, fmt.Errorf("%s: flap %q is not as in %q: %w", e.Name, flap, "pointed 64/12", err)
			}
			e.Flaps = append(e.Flaps, f)
		}
		return e, nil
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
		if SameName(given, e.Name) || named(given, e.Trade) {
			return e, nil
		}
	}
	return Entry{}, &words.Refused{Field: "envelope", Given: given, Why: "no such envelope",
		Accepts: "a name that underflap sizes lists, such as " + strings.Join(EnvelopeNames()[:5], ", ") + ", or --pocket WxH with --flap-depth"}
}

// EnvelopeNames lists the usual trade name of every envelope.
func EnvelopeNames() []string {
	var names []string
	for _, e := range Entries() {
		names = append(names, e.Trade[0])
	}
	return names
}

// Usual is the trade's flap of that shape, and whether the envelope is usually
// sold with one; where it is not, depth and gum are in proportion.
func (e Entry) Usual(shape Shape) (f TradeFlap, ok bool) {
	for _, f := range e.Flaps {
		if f.Shape == shape && !e.turned {
			return f, true
		}
	}
	depth := proportional(shape, e.Width, e.Height)
	return TradeFlap{Shape: shape, Depth: depth, Gum: UsualGum(e.Flaps[0].Gum, depth)}, false
}

// UsualGum is the gum, in millimetres, of a flap that is not in the table: that
// of the envelope's other flaps, less only on a flap too shallow for it.
func UsualGum(gum, depth float64) float64 {
	if depth-gum-DefaultGumClearance < 2*leastFlapPart {
		return min(gum, math.Round(depth/3))
	}
	return gum
}

// Envelope gives the row's envelope with its usual flap of that shape; "" is
// the commonest one.
func (e Entry) Envelope(shape Shape) Envelope {
	if shape == "" {
		shape = e.Flaps[0].Shape
	}
	f, usual := e.Usual(shape)
	return Envelope{Name: e.Name, Short: e.Trade[0], Width: e.Width, Height: e.Height,
		Flap: UsualFlap(shape, f.Depth, e.Width), Gum: f.Gum, GuessedFlap: !usual}
}

// Turned is the row with its flap on the other side of the pocket.
func (e Entry) Turned() Entry {
	e.Width, e.Height, e.turned = e.Height, e.Width, !e.turned
	return e
}
