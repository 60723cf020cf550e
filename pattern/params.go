package pattern

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"underflap/pattern/words"
)

// Param describes one parameter of a family, for lists and forms.
type Param struct {
	Name    string
	Default string
	Accepts string
	About   string
	Shared  bool // says how motifs recur, alike in all families of single motifs

	Kind        ParamKind
	Least, Most float64  // of a number: limits, in millimetres where it is a length; another parameter may narrow them
	Usual       float64  // and default
	Offers      []string // words it takes, or a list of them, where they are few and fixed
}

// ParamKind says what a parameter is, so that a form can ask for it fittingly.
type ParamKind string

// The kinds of parameter. The first four are numbers.
const (
	LengthParam  ParamKind = "length"
	DegreesParam ParamKind = "degrees"
	CountParam   ParamKind = "count" // a whole number
	NumberParam  ParamKind = "number"
	InksParam    ParamKind = "inks"  // ink numbers with commas between
	BandsParam   ParamKind = "bands" // width:ink pairs with commas between
	WordParam    ParamKind = "word"  // one of the words offered
	WordsParam   ParamKind = "words" // of the words offered, any with commas between
)

// Numeric tells whether the parameter is a number between Least and Most.
func (p Param) Numeric() bool {
	switch p.Kind {
	case LengthParam, DegreesParam, CountParam, NumberParam:
		return true
	}
	return false
}

// Setting is a person's word for a parameter, and the field to blame for it.
type Setting struct{ Field, Value string }

// params binds a family's parameters to the fields of its motif, as a flag set
// binds flags: declaring a parameter sets its default or the person's word.
type params struct {
	list  []Param
	given map[string]Setting
	err   error
}

// declare lists a parameter and gives the word for it and the field to blame.
func (p *params) declare(kind ParamKind, name, def, accepts, about string, offers ...string) (field, word string) {
	p.list = append(p.list, Param{Name: name, Default: def, Accepts: accepts, About: about, Kind: kind, Offers: offers})
	return p.word(name, def)
}

// measure declares a number with its limits and its default.
func (p *params) measure(kind ParamKind, name, def, accepts, about string, usual, least, most float64) (field, word string) {
	field, word = p.declare(kind, name, def, accepts, about)
	d := &p.list[len(p.list)-1]
	d.Usual, d.Least, d.Most = usual, least, most
	return field, word
}

// word is what was said of a parameter, with the field to blame, or what
// stands for it when nothing was; the field is then where it could be said.
func (p *params) word(name, unsaid string) (field, word string) {
	if s, ok := p.given[name]; ok {
		return s.Field, s.Value
	}
	return "set " + name, unsaid
}

func (p *params) keep(err error) {
	if p.err == nil {
		p.err = err
	}
}

// length binds millimetres in [least, most].
func (p *params) length(into *float64, name string, def, least, most float64, about string) {
	field, word := p.measure(LengthParam, name, words.MM(def), words.MM(least)+" to "+words.MM(most), about, def, least, most)
	v, err := words.Within(field, word, least, most)
	p.keep(err)
	*into = v
}

// degrees binds an angle.
func (p *params) degrees(into *float64, name string, def float64, about string) {
	const most = 360
	field, word := p.measure(DegreesParam, name, strconv.FormatFloat(def, 'f', -1, 64), "-360 to 360 degrees", about, def, -most, most)
	v, err := words.Number(field, word, -most, most)
	p.keep(err)
	*into = v
}

// count binds a whole number in [least, most].
func (p *params) count(into *int, name string, def, least, most int, about string) {
	field, word := p.measure(CountParam, name, strconv.Itoa(def), fmt.Sprintf("%d to %d", least, most), about, float64(def), float64(least), float64(most))
	v, err := words.Count(field, word, least, most)
	p.keep(err)
	*into = v
}

// inks binds a list of ink numbers, 0 for the ground.
func (p *params) inks(into *[]int, name, def, about string) {
	field, word := p.declare(InksParam, name, def, "ink numbers such as 1,2,0 (0 is the ground)", about)
	*into = nil
	for _, part := range p.parts(field, word) {
		v, err := words.Count(field, part, 0, MostInks)
		p.keep(err)
		*into = append(*into, v)
	}
}

// mostListed bounds a list of inks or bands.
const mostListed = 24

// parts parts a list at its commas.
func (p *params) parts(field, word string) []string {
	parts := strings.Split(word, ",")
	if len(parts) > mostListed {
		p.keep(&words.Refused{Field: field, Given: word, Why: fmt.Sprintf("a list of %d", len(parts)), Accepts: fmt.Sprintf("up to %d", mostListed)})
		return parts[:mostListed]
	}
	return parts
}

// repeat binds one of the repeats.
func (p *params) repeat(into *Repeat, def Repeat) {
	field, word := p.declare(WordParam, "repeat", string(def), strings.Join(RepeatNames(), ", "), "how motifs recur; also --repeat", RepeatNames()...)
	v, err := ParseRepeat(field, word)
	p.keep(err)
	*into = v
}

// number binds a plain number in [least, most].
func (p *params) number(into *float64, name string, def, least, most float64, about string) {
	plain := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	field, word := p.measure(NumberParam, name, plain(def), plain(least)+" to "+plain(most), about, def, least, most)
	v, err := words.Number(field, word, least, most)
	p.keep(err)
	*into = v
}

// recurrence binds how single motifs recur: width and height are the motif's,
// gap the free space between one and the next. Families whose spacing means
// something else set DX and DY themselves afterwards.
func (p *params) recurrence(r *Recurrence, width, height, gap float64, def Repeat) {
	p.length(&r.Spacing, "spacing", gap, 0, 200, "free space between motifs")
	p.repeating(r, def)
	var rows float64
	p.length(&rows, "row-spacing", 0, 0, 200, "free space between rows; 0 is as between motifs")
	if rows == 0 {
		rows = r.Spacing
	}
	r.DX, r.DY = width+r.Spacing, height+rows
}

// repeating binds what is not a length about how motifs recur.
func (p *params) repeating(r *Recurrence, def Repeat) {
	own := len(p.list)
	defer func() {
		for i := own + 1; i < len(p.list); i++ { // the repeat's default is the family's own
			p.list[i].Shared = true
		}
	}()
	p.repeat(&r.Repeat, def)
	p.number(&r.Step, "step", 0.5, 0, 1, "brick and half-drop: how far along the next row or column starts, as a part of a motif's place")
	p.degrees(&r.Alternate, "alternate", 0, "turns every other motif, clockwise")
	p.number(&r.Density, "density", 1, 0.05, 1, "toss: 1 is as close as scattered motifs come")
	field, word := p.declare(WordParam, "symmetry", "none", "none, or a plane group: "+strings.Join(SymmetryNames(), ", "), "in place of a repeat; also --symmetry",
		append([]string{"none"}, SymmetryNames()...)...)
	if word != "none" {
		var err error
		r.Symmetry, err = ParseSymmetry(field, word)
		p.keep(err)
		if said, ok := p.given["repeat"]; ok {
			p.keep(&words.Refused{Field: said.Field, Given: said.Value, Why: "a symmetry takes the place of a repeat", Accepts: "one of the two"})
		}
	}
	p.number(&r.Cell.Ratio, "cell-ratio", 1, 0.25, 4, "symmetry: height to width of the cell, where the group leaves it free")
	p.number(&r.Cell.Angle, "cell-angle", 75, 45, 135, "symmetry: degrees between the cell's sides, where the group leaves it free")
	g := groupOf(r.Symmetry)
	for _, c := range []struct {
		name string
		free bool
	}{{"cell-ratio", g.lattice <= rectangular}, {"cell-angle", g.lattice == oblique}} {
		if said, ok := p.given[c.name]; ok && (r.Symmetry == "" || !c.free) {
			why := "only a symmetry has a cell"
			if r.Symmetry != "" {
				why = r.Symmetry + " has no choice there"
			}
			p.keep(&words.Refused{Field: said.Field, Given: said.Value, Why: why, Accepts: "with a plane group that leaves it free"})
		}
	}
}

// bands binds a sequence of widths and inks.
func (p *params) bands(into *[]Band, name, def, about string) {
	const accepts = "width:ink pairs such as 6:1,2:0,1:2 (0 is the ground)"
	field, word := p.declare(BandsParam, name, def, accepts, about)
	*into = nil
	for _, part := range p.parts(field, word) {
		width, ink, ok := strings.Cut(part, ":")
		if !ok {
			p.keep(&words.Refused{Field: field, Given: part, Accepts: accepts})
			continue
		}
		w, err := words.Within(field, width, 0.2, 200)
		p.keep(err)
		i, err := words.Count(field, ink, 0, MostInks)
		p.keep(err)
		*into = append(*into, Band{Width: w, Ink: i})
	}
}

// finish refuses a parameter that the family does not have.
func (p *params) finish(family string) error {
	if p.err != nil {
		return p.err
	}
	var names []string
	known := map[string]bool{}
	for _, d := range p.list {
		names = append(names, d.Name)
		known[d.Name] = true
	}
	for _, name := range slices.Sorted(maps.Keys(p.given)) {
		if !known[name] {
			return &words.Refused{Field: p.given[name].Field, Given: p.given[name].Value, Why: family + " has no such parameter", Accepts: strings.Join(names, ", ")}
		}
	}
	return nil
}

// between refuses a length that fits its own range but not another parameter's
// value.
func (p *params) between(name string, v, least, most float64) {
	if v < least || v > most {
		field, word := p.word(name, words.MM(v))
		p.keep(words.OutOf(field, word, least, most))
	}
}

// names binds a list of words out of those known.
func (p *params) names(into *[]string, name, def string, known []string, about string) {
	field, word := p.declare(WordsParam, name, def, "a list of "+strings.Join(known, ", "), about, known...)
	*into = nil
	for _, part := range p.parts(field, word) {
		v, err := words.Choose(field, part, known)
		p.keep(err)
		*into = append(*into, v)
	}
}
