package pattern

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"underflap/pattern/words"
)

// What a form asks for must be what the family takes: every number from its
// least to its most, unless another parameter narrows them, and nothing past them; every word that is offered.
func TestParametersSayWhatTheyTake(t *testing.T) {
	for name, f := range families {
		settle := func(param, value string) *words.Refused {
			p := params{given: map[string]Setting{param: {"set " + param, value}}}
			if strings.HasPrefix(param, "cell-") { // which only a symmetry has
				p.given["symmetry"] = Setting{"set symmetry", "p2"}
			}
			f.bind(&p, nil)
			if refused, ok := p.finish(name).(*words.Refused); ok && refused.Field == "set "+param {
				return refused
			}
			return nil // others' fields are to blame: two parameters, or missing art
		}
		for _, p := range f.info().Params {
			what := name + " " + p.Name
			switch {
			case p.Kind == "":
				t.Errorf("%s has no kind", what)
			case p.Numeric():
				if p.Usual < p.Least || p.Usual > p.Most || p.Least >= p.Most {
					t.Errorf("%s: %g is not between %g and %g", what, p.Usual, p.Least, p.Most)
				}
				step := 1.0
				if p.Kind != CountParam {
					step = (p.Most - p.Least) / 1000
				}
				unit := ""
				if p.Kind == LengthParam {
					unit = "mm"
				}
				for _, v := range []float64{p.Least - step, p.Most + step} {
					if v < 0 && p.Kind == LengthParam {
						continue // no length
					}
					if settle(p.Name, decimal(v)+unit) == nil {
						t.Errorf("%s takes %g, which is not between %g and %g", what, v, p.Least, p.Most)
					}
				}
				if p.Default != strings.TrimSpace(decimal(p.Usual)+" "+unit) && words.MM(p.Usual) != p.Default {
					t.Errorf("%s: default %q, and usually %g", what, p.Default, p.Usual)
				}
				if refused := settle(p.Name, decimal(p.Usual)+unit); refused != nil {
					t.Errorf("%s refuses its default: %v", what, refused)
				}
				for _, v := range []float64{p.Least, p.Most} {
					refused := settle(p.Name, decimal(v)+unit)
					if refused == nil {
						continue
					}
					if refused.Accepts == p.Accepts { // another parameter would narrow them
						t.Errorf("%s refuses %g, an end of its limits: %v", what, v, refused)
					}
					for _, end := range strings.Split(refused.Accepts, " to ") {
						if refused := settle(p.Name, end); refused != nil {
							t.Errorf("%s is said to take %s: %v", what, end, refused)
						}
					}
				}
			case p.Kind == WordParam, p.Kind == WordsParam:
				for _, word := range p.Offers {
					if refused := settle(p.Name, word); refused != nil {
						t.Errorf("%s refuses %s, which it offers: %v", what, word, refused)
					}
				}
				for _, word := range strings.Split(p.Default, ",") {
					if !slices.Contains(p.Offers, word) {
						t.Errorf("%s does not offer its default %s", what, word)
					}
				}
			}
		}
	}
}

func decimal(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
