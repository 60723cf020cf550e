package desk

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"underflap/liner/request"
	"underflap/pattern"
	"underflap/pattern/words"
)

// plainNumber is a number or fraction without a unit: "6.5", "4 3/8".
var plainNumber = regexp.MustCompile(`^\s*(?:\d+(?:\.\d*)?|\.\d+|(?:\d+[ -]+)?\d+/\d+)\s*$`)

// readInches puts a unit behind every plain number where a length is asked for, so
// that below the page nothing knows of the switch.
func readInches(l *request.Look) {
	for _, field := range l.Fields() {
		switch {
		case field.Text == nil:
		case slices.Contains(measuredRule, field.Name):
			*field.Text = correctionInInches(*field.Text)
		case isLength(field):
			*field.Text = inInches(*field.Text)
		case field.Sized && !slices.Contains(field.Offers, words.AsTyped(*field.Text)) && strings.ContainsAny(*field.Text, "xX×"):
			*field.Text = inInches(*field.Text)
		}
	}
	if len(l.Set) == 0 {
		return
	}
	isLength := map[string]bool{}
	for _, p := range l.PatternParams() {
		isLength[p.Name] = p.Kind == pattern.LengthParam
	}
	for i, set := range l.Set {
		name, value, ok := strings.Cut(set, "=")
		if ok && isLength[strings.ToLower(strings.TrimSpace(name))] {
			l.Set[i] = name + "=" + inInches(value)
		}
	}
}

// measuredRule are fields that take a ratio as well as a length, which no change of
// unit may touch.
var measuredRule = []string{"correct-x", "correct-y"}

// isLength tells whether a plain number in a field is in the person's unit.
func isLength(f request.Field) bool {
	return slices.Contains([]string{request.LengthKind, request.DepthKind, request.SizeKind}, f.Kind) && !slices.Contains(measuredRule, f.Name)
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
