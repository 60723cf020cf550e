package desk

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"underflap/liner/request"
	"underflap/pattern"
)

// Control asks for one field of a request.
type Control struct {
	Name, Label, Help string
	Mark              bool     // yes or no
	Fixed             bool     // only the words offered will do
	Offers            []string // words
	Length            bool     // a plain number is in the page's unit
	Number            bool
	Figures           bool   // the help has figures, which are millimetres
	Usual             string // what stands for it, in millimetres where it is a length
	Show              string // the choice it belongs to: "way=card|fold"
}

// Setting asks for one parameter of a pattern.
type Setting struct {
	ID, Pattern, Name, Label, Help string
	Numeric, Length                bool
	Offers                         []string // one of these
	Usual                          string   // in millimetres where it is a length
	From, To, Step                 string   // of the slider; the number beside it goes up to Most
	Least, Most                    string
}

// placed are the fields that the page has controls of its own for; repeat and
// symmetry are among every pattern's settings.
var placed = []string{"envelope", "card", "pocket", "flap-depth", "flap", "handmade", "pattern", "palette", "inks", "ground", "set", "stamp", "stamp-colour",
	"stamp-trace", "repeat", "symmetry", "scale", "turn", "seed", "envelope-colour", "paper", "count"}

// absent are the fields that have no place on the page: a picture of one design
// compares no others, and a traced flap is a file.
var absent = []string{"palettes", "patterns", "profile"}

// aboutColours are fields that stand with the colours, not with the pattern.
var aboutColours = []string{"paper-colour", "grey"}

// addMore makes controls for all other fields, each where its words belong. A
// printer that was corrected once is offered by its name.
func (p *Page) addMore(shelf request.Shelf) {
	for _, f := range new(request.Look).Fields() {
		if slices.Contains(placed, f.Name) || slices.Contains(absent, f.Name) {
			continue
		}
		if f.Name == "printer" {
			f.Offers = shelf.Printers()
		}
		into := &p.EnvelopeMore
		switch {
		case slices.Contains(aboutColours, f.Name):
			into = &p.ColoursMore
		case f.Group == request.HandmadeGroup:
			into = &p.FoldMore
		case f.Group == request.PatternGroup:
			into = &p.PatternMore
		case f.Group == request.PictureGroup:
			into = &p.PictureMore
		case f.Group == request.PaperGroup:
			into = &p.PaperMore
		}
		*into = append(*into, control(f))
	}
}

// free are the kinds of field that take more than the words they offer.
var free = []string{request.LengthKind, request.DepthKind, request.SizeKind, "colour", "colours", "sheet", "what", "names", "ink", "number"}

var usually = regexp.MustCompile(` ?\(default (\d+(?:\.\d+)?)\)`)

func control(f request.Field) Control {
	c := Control{Name: f.Name, Label: named(f.Name), Show: belongs[f.Name], Mark: f.Mark != nil, Offers: f.Offers, Number: f.Kind == "number" || f.Kind == "degrees",
		Length: isLength(f)}
	c.Fixed = len(f.Offers) > 0 && !slices.Contains(free, f.Kind)
	help := f.Help
	if m := usually.FindStringSubmatch(help); m != nil { // stands in the empty field, in the page's unit
		c.Usual, help = m[1], strings.Replace(help, m[0], "", 1)
	}
	c.Help = plain(help)
	c.Figures = c.Length && strings.ContainsAny(c.Help, "0123456789")
	return c
}

// usualWords are those for what a program calls a default; an empty list says
// "As usual" itself.
var usualWords = strings.NewReplacer(" (default as usual)", "", "(default ", "(usually ")

// plain is a help text without words of the command line.
func plain(help string) string {
	var kept []string
	for _, clause := range strings.Split(help, "; ") {
		if strings.Contains(clause, "underflap ") || strings.Contains(clause, "also --") || strings.HasPrefix(clause, "with --") {
			continue
		}
		clause = flagWord.ReplaceAllStringFunc(clause, func(flag string) string { return strings.ToLower(label(flag[2:])) })
		kept = append(kept, strings.ReplaceAll(clause, "`", ""))
	}
	return usualWords.Replace(strings.Join(kept, "; "))
}

// settings are a family's parameters: how large and how far apart first, all else
// behind "more".
func settings(info pattern.Info) (first, more []Setting) {
	numbers := 0
	for _, p := range info.Params {
		s := setting(info.Name, p)
		if s.Numeric {
			numbers++
		}
		if s.Numeric && !p.Shared && (numbers <= 2 || p.Name == "size" || p.Name == "spacing") {
			first = append(first, s)
		} else {
			more = append(more, s)
		}
	}
	return first, more
}

func setting(family string, p pattern.Param) Setting {
	s := Setting{ID: "set-" + family + "-" + p.Name, Pattern: family, Name: p.Name, Label: label(p.Name), Help: plain(p.About),
		Numeric: p.Numeric(), Length: p.Kind == pattern.LengthParam, Usual: p.Default}
	switch {
	case p.Numeric():
		from, to, step := reach(p)
		s.Usual, s.Least, s.Most = digits(p.Usual), digits(p.Least), digits(p.Most)
		s.From, s.To, s.Step = digits(from), digits(to), digits(step)
	case p.Kind == pattern.WordParam:
		s.Offers = p.Offers
	default:
		s.Help += ": " + plain(p.Accepts)
	}
	return s
}

// reach is how far a slider goes: to what is likely, as a hand cannot aim on one
// that goes to all that is possible.
func reach(p pattern.Param) (from, to, step float64) {
	from, to = p.Least, p.Most
	switch p.Kind {
	case pattern.CountParam:
		return from, to, 1
	case pattern.DegreesParam:
		return max(from, -180), min(to, 180), 1
	case pattern.NumberParam:
		if to-from > 20 {
			return from, to, 1
		}
		return from, to, 0.05
	}
	if to = min(to, 20); p.Usual > 0 {
		to = min(p.Most, 5*p.Usual)
	}
	if to-from > 60 {
		return from, to, 0.5
	}
	return from, to, 0.1
}

func digits(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
