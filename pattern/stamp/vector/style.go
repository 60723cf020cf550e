package vector

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
)

// style is what an element inherits, and in own what it does not.
type style struct {
	fill, stroke               string
	fillOpacity, strokeOpacity string
	colour                     string
	visibility                 string
	evenOdd, strokeFirst       bool
	pen                        pen
	own                        map[string]string
}

// initial is the style of the root (SVG 1.1, appendix M.2).
func initial() style {
	return style{fill: "black", stroke: "none", colour: "black", visibility: "visible", pen: pen{width: 1, miter: 4}}
}

// styled is an element's style below its parent's: attributes first, then the
// rules, then its own style words.
func (r *reader) styled(e *element, parent style) (style, error) {
	said := map[string]string{}
	maps.Copy(said, e.attrs)
	var fitting []rule
	for _, rule := range r.rules {
		if rule.fits(e) {
			fitting = append(fitting, rule)
		}
	}
	slices.SortStableFunc(fitting, func(a, b rule) int { return cmp.Compare(a.weight, b.weight) })
	for _, rule := range fitting {
		maps.Copy(said, rule.said)
	}
	maps.Copy(said, declarations(e.attrs["style"]))

	if said["transform"] != e.attrs["transform"] {
		return parent, fmt.Errorf("a transform in a style, which cannot be drawn, on <%s>", e.name)
	}
	if said["transform"] != "" && strings.Trim(said["transform-origin"], "0px ") != "" {
		return parent, fmt.Errorf("a transform about another origin (transform-origin), which cannot be drawn, on <%s>", e.name)
	}

	s := parent
	s.own = said
	for _, p := range []struct {
		name string
		into *string
	}{
		{"fill", &s.fill}, {"stroke", &s.stroke}, {"fill-opacity", &s.fillOpacity}, {"stroke-opacity", &s.strokeOpacity},
		{"color", &s.colour}, {"visibility", &s.visibility},
	} {
		if v := said[p.name]; v != "" && v != "inherit" {
			*p.into = v
		}
	}
	if v := said["fill-rule"]; v != "" && v != "inherit" {
		s.evenOdd = v == "evenodd"
	}
	if v := said["paint-order"]; v != "" && v != "inherit" {
		s.strokeFirst = strings.HasPrefix(v, "stroke")
	}
	var err error
	s.pen, err = parent.pen.with(said)
	return s, err
}

// drawable refuses what no plain shape can show.
func (s style) drawable() error {
	for _, name := range []string{"filter", "mask", "marker", "marker-start", "marker-mid", "marker-end"} {
		if v := s.own[name]; v != "" && v != "none" && v != "inherit" {
			return fmt.Errorf("a %s, which cannot be drawn", strings.SplitN(name, "-", 2)[0])
		}
	}
	switch {
	case !opaque(s.own["opacity"]):
		return errTransparent
	case s.own["mix-blend-mode"] != "" && s.own["mix-blend-mode"] != "normal":
		return errors.New("a blend mode, which cannot be drawn")
	case s.own["vector-effect"] == "non-scaling-stroke" && s.stroke != "none":
		return errors.New("a stroke that does not scale (vector-effect), which cannot be drawn")
	}
	return nil
}

var errTransparent = errors.New("half-transparent paint, which cannot be drawn")

// opaque tells whether an opacity is full, or not said.
func opaque(word string) bool {
	v, err := ratio(word)
	return word == "" || word == "inherit" || err == nil && v >= 0.995
}

// rule is a rule of a style sheet with one plain selector.
type rule struct {
	tag, class, id string
	weight         int // ids over classes over tags (CSS 2.1, 6.4.3)
	said           map[string]string
	letters        int // in it
}

func (r rule) fits(e *element) bool {
	return (r.tag == "" || r.tag == e.name) && (r.id == "" || r.id == e.attrs["id"]) &&
		(r.class == "" || slices.Contains(e.classes, r.class))
}

var (
	comment  = regexp.MustCompile(`(?s)/\*.*?\*/|<!--|-->`)
	fontFace = regexp.MustCompile(`(?s)@font-face\s*\{[^{}]*\}|@charset[^;]*;`)
	block    = regexp.MustCompile(`(?s)([^{}]+)\{([^{}]*)\}`)
	selector = regexp.MustCompile(`^(\*|[A-Za-z][\w-]*)?(?:([.#])([\w-]+))?$`)
)

// addRules reads a style sheet.
func (r *reader) addRules(sheet string) error {
	sheet = fontFace.ReplaceAllString(comment.ReplaceAllString(sheet, ""), "")
	if strings.Contains(sheet, "@") {
		return errors.New("a style sheet with @ rules, which are not understood")
	}
	for _, b := range block.FindAllStringSubmatch(sheet, -1) {
		said := declarations(b[2])
		for _, word := range strings.Split(b[1], ",") {
			word = strings.TrimSpace(word)
			m := selector.FindStringSubmatch(word)
			if m == nil || word == "" {
				return fmt.Errorf("a style rule for %q, which is not understood", short(word))
			}
			if len(r.rules) == mostRules {
				return fmt.Errorf("more than %d style rules", mostRules)
			}
			made := rule{said: said, letters: len(b[2])}
			if m[1] != "" && m[1] != "*" {
				made.tag = m[1]
				made.weight++
			}
			switch m[2] {
			case ".":
				made.class = m[3]
				made.weight += 10
			case "#":
				made.id = m[3]
				made.weight += 100
			}
			r.rules = append(r.rules, made)
		}
	}
	return nil
}

// declarations parts "fill: red; stroke: none".
func declarations(words string) map[string]string {
	said := map[string]string{}
	for _, d := range strings.Split(comment.ReplaceAllString(words, ""), ";") {
		if name, value, ok := strings.Cut(d, ":"); ok {
			value = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(value), "!important"))
			said[strings.ToLower(strings.TrimSpace(name))] = value
		}
	}
	return said
}
