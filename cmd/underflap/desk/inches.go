package desk

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"underflap/liner/request"
	"underflap/pattern"
)

// plainNumber is a number or fraction without a unit: "6.5", "4 3/8".
var plainNumber = regexp.MustCompile(`^\s*(?:\d+(?:\.\d*)?|\.\d+|(?:\d+[ -]+)?\d+/\d+)\s*$`)

// readInches puts a unit behind every plain number where a length is asked for, so
// that below the page nothing knows of the switch.
func (d *Desk) readInches(l *request.Look) {
	for _, field := range l.Fields() {
		switch {
		case field.Text == nil:
		case field.Name == "correct-x" || field.Name == "correct-y":
			*field.Text = correctionInInches(*field.Text)
		case field.Kind == request.LengthKind, field.Kind == request.DepthKind, field.Kind == request.SizeKind:
			*field.Text = inInches(*field.Text)
		case field.Sized && !slices.Contains(field.Offers, strings.ToLower(strings.ReplaceAll(*field.Text, " ", ""))) && strings.ContainsAny(*field.Text, "xX×"):
			*field.Text = inInches(*field.Text)
		}
	}
	lengths := d.lengthsOf(l.Words)
	for i, set := range l.Set {
		name, value, ok := strings.Cut(set, "=")
		if ok && slices.Contains(lengths, strings.ToLower(strings.TrimSpace(name))) {
			l.Set[i] = name + "=" + inInches(value)
		}
	}
}

// inInches is a plain number, or two with x between, in inches; every other word as
// it is.
func inInches(word string) string {
	parts := strings.FieldsFunc(word, func(r rune) bool { return strings.ContainsRune("xX×", r) })
	if len(parts) == 0 || len(parts) > 2 {
		return word
	}
	for i, part := range parts {
		if !plainNumber.MatchString(part) {
			return word
		}
		parts[i] = strings.TrimSpace(part) + "in"
	}
	if len(parts) == 1 && strings.ContainsAny(word, "xX×") {
		return word // a side is missing, and the field says so
	}
	return strings.Join(parts, "x")
}

// correctionInInches is what the 4 in rule measured. A factor and what the 100 mm
// rule measured are so far from 4 that nobody means them in inches.
func correctionInInches(word string) string {
	if v, err := strconv.ParseFloat(strings.TrimSpace(word), 64); err != nil || v < 2 || v > 10 {
		return word
	}
	return strings.TrimSpace(word) + "in"
}

// lengthsOf names the parameters of the chosen pattern that are lengths.
func (d *Desk) lengthsOf(w request.Words) (names []string) {
	chosen := w.Pattern
	switch {
	case chosen == "" && w.Stamp != "":
		chosen = pattern.Stamps
	case chosen == "":
		chosen = pattern.Default
	}
	all := pattern.Describe()
	own, _ := d.shelf.Patterns() // what cannot be read is refused when it is drawn
	for _, p := range own {
		info := p.Info()
		info.Name = p.Name
		all = append(all, info)
	}
	for _, info := range all {
		if !strings.EqualFold(info.Name, strings.TrimSpace(chosen)) {
			continue
		}
		for _, p := range info.Params {
			if p.Kind == pattern.LengthParam {
				names = append(names, p.Name)
			}
		}
	}
	return names
}
