package desk

import (
	"errors"
	"fmt"
	"math"
	"net/http"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"underflap/pattern/words"
)

// speech is how lines of the program are said on the page: without flags, and in
// inches for those who measure in them. Files of the shelf go by their place on it.
type speech struct {
	inches bool
	shelf  string // its folder, which is nobody's business on a page; may be empty
}

// speechOf goes by the address alone, for what cannot be read as a form.
func (d *Desk) speechOf(r *http.Request) speech {
	return speech{r.URL.Query().Get("units") == "in", d.shelf.Dir}
}

var (
	flagWord  = regexp.MustCompile(`--([a-z]+(?:-[a-z]+)*)`)
	addedWord = regexp.MustCompile(regexp.QuoteMeta(addedBefore) + `[0-9a-f]+/`)
	rangeWord = regexp.MustCompile(`(\d+(?:\.\d+)?) mm to (\d+(?:\.\d+)?) mm`)
	sizeWord  = regexp.MustCompile(`(\d+(?:\.\d+)?) × (\d+(?:\.\d+)?) mm\b`)
	mmWord    = regexp.MustCompile(`(\d+(?:\.\d+)?) mm\b`)
)

// onTheLine are the parts of lines that help on a command line alone.
var onTheLine = strings.NewReplacer(
	"; underflap patterns lists them", "",
	"; underflap sizes --fits lists others", "",
	"with --correct-x and --correct-y once, as underflap ruler explains", "a name that is offered, or leave it empty and type what the printed rule measures",
	"; with --per-sheet 1 it is ", "; alone on its sheet it would reach ",
	"a larger paper with --paper WxH", "a larger paper",
	", a file such as ./hedge.toml, or a wish such as envelope:kraft", "",
	", or a file such as ./holly.toml", "",
	"a name that underflap sizes lists, such as ", "a name such as ",
)

// rephrased are lines of the command line that the page says another way, in order.
var rephrased = []struct {
	is *regexp.Regexp
	to string
}{
	{regexp.MustCompile(`pocket depth reduced by (\S+ mm) to (\S+ mm) so that`), "the part in the pocket ends $1 sooner, $2 below the fold, so that"},
	{regexp.MustCompile(`write --pocket \d\S*`), "change A for B"},
	{regexp.MustCompile(`write --card \S+`), "choose --card"},
	{regexp.MustCompile(`; write --from .*`), "; another sheet can be named under “More about folding”"},
	{regexp.MustCompile(`with --registration all`), "“all” under --registration"},
	{regexp.MustCompile(`--pocket-depth (\d+(?:\.\d+)?)`), "a pocket depth of $1 mm"},
	{regexp.MustCompile(`--side-gap (\d+(?:\.\d+)?)`), "a side gap of $1 mm"},
}

var (
	paperWord = regexp.MustCompile(`--paper ([a-z0-9-]+)`)
	areaWord  = regexp.MustCompile(`(\d+(?:\.\d+)?) cm²`)
	fileFirst = regexp.MustCompile(`^[^:;]*\.[A-Za-z0-9]{2,4}: `)
)

// limits are what would be accepted, in plain words: no wider than they are.
func (s speech) limits(text string) string {
	if s.inches {
		text = rangeWord.ReplaceAllStringFunc(text, func(of string) string {
			m := rangeWord.FindStringSubmatch(of)
			return fmt.Sprintf("%s in to %s in", hundredths(m[1], math.Ceil), hundredths(m[2], math.Floor))
		})
	}
	return s.line(text)
}

// line is one line of the program in plain words.
func (s speech) line(text string) string {
	text = onTheLine.Replace(text)
	for _, t := range rephrased {
		text = t.is.ReplaceAllString(text, t.to)
	}
	text = paperWord.ReplaceAllStringFunc(text, func(of string) string { return paperOf(paperWord.FindStringSubmatch(of)[1]) + " paper" })
	text = flagWord.ReplaceAllStringFunc(text, func(flag string) string { return "“" + named(flag[2:]) + "”" })
	text = addedWord.ReplaceAllString(text, "")
	if s.shelf != "" {
		text = strings.NewReplacer(s.shelf+"/", "", s.shelf+`\`, "").Replace(text)
	}
	if !s.inches {
		return text
	}
	text = strings.NewReplacer("a length such as 114, 11.4cm, 4.5in or 4-3/8in", "a length such as 4.5, 4-3/8 or 114mm",
		"a length such as 70", "a length such as 2 3/4",
		"such as 162x114 or 5.75x4.375in", "such as 5.75x4.375 or 162x114mm").Replace(text)
	text = areaWord.ReplaceAllStringFunc(text, func(of string) string {
		cm2, _ := strconv.ParseFloat(areaWord.FindStringSubmatch(of)[1], 64) // digits alone
		return strconv.FormatFloat(math.Round(10*cm2*100/words.MillimetresPerInch/words.MillimetresPerInch)/10, 'f', -1, 64) + " sq in"
	})
	text = sizeWord.ReplaceAllStringFunc(text, func(of string) string {
		m := sizeWord.FindStringSubmatch(of)
		return fmt.Sprintf("%s × %s in", hundredths(m[1], math.Round), hundredths(m[2], math.Round))
	})
	return mmWord.ReplaceAllStringFunc(text, func(of string) string {
		return hundredths(mmWord.FindStringSubmatch(of)[1], math.Round) + " in"
	})
}

// hundredths writes millimetres in inches, to a hundredth: 4.28.
func hundredths(mm string, round func(float64) float64) string {
	v, _ := strconv.ParseFloat(mm, 64) // digits alone
	in := 100 * v / words.MillimetresPerInch
	return strconv.FormatFloat(round(math.Round(in*1e6)/1e6)/100, 'f', -1, 64)
}

// lines are lines in plain words, each said once.
func (s speech) lines(texts []string) []string {
	out := []string{}
	said := map[string]bool{}
	for _, text := range texts {
		text = s.line(strings.TrimSpace(text))
		if text != "" && !said[text] {
			said[text] = true
			if first, _, _ := strings.Cut(text, " "); !strings.Contains(first, ".") && !fileFirst.MatchString(text) { // the name of a file stays as it is
				text = capital(text)
			}
			out = append(out, text)
		}
	}
	return out
}

// problem is a refusal as it stands next to its field.
func (s speech) problem(r *words.Refused) problem {
	p := problem{Field: r.Field, Given: addedWord.ReplaceAllString(r.Given, "")}
	if name, ok := strings.CutPrefix(r.Field, "set "); ok {
		p.Field, p.Param = "set", name
	}
	says := r.Why
	switch {
	case says != "":
	case r.Given != "":
		says = "“" + words.Shorten(r.Given) + "” does not go here"
	default:
		says = "something is missing here"
	}
	says = capital(s.line(says))
	if r.Accepts != "" {
		if says = strings.TrimSuffix(says, "."); !strings.HasSuffix(says, "?") {
			says += "."
		}
		says += " Try " + s.limits(r.Accepts)
	}
	if !strings.HasSuffix(says, ".") {
		says += "."
	}
	p.Says = words.Printable(says)
	return p
}

// problems are the refusals among errors, one of a field at most, and the first
// error that is no refusal.
func (s speech) problems(errs ...error) (list []problem, err error) {
	blamed := map[string]bool{}
	for _, e := range errs {
		var refused *words.Refused
		switch {
		case e == nil:
		case !errors.As(e, &refused):
			if err == nil {
				err = e
			}
		case !blamed[refused.Field]:
			blamed[refused.Field] = true
			list = append(list, s.problem(refused))
		}
	}
	return list, err
}

// capital begins a line, which holds something, with a capital.
func capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}
