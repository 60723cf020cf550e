package liner

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode"

	"underflap/liner/geom"
	"underflap/pattern/words"
)

// MostTracePoints bounds a trace; a flap traced every half millimetre has
// about a thousand.
const MostTracePoints = 5000

const traceAccepts = "x and height on each line, such as 12.5, 30, with x growing from the pocket's left side"

// ReadTrace reads a measured flap as comma-separated values: x along the fold
// from the pocket's left side and the flap's height there, in millimetres
// unless a unit is written. A first line of words and lines that begin with #
// are passed over. Semicolons part numbers that have decimal commas. Refusals
// name the line.
func ReadTrace(field string, from io.Reader) ([]geom.Point, error) {
	var points []geom.Point
	named := false
	lines := bufio.NewScanner(from)
	n := 0
	for lines.Scan() {
		n++
		line := strings.TrimSpace(strings.TrimPrefix(lines.Text(), "\ufeff"))
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		p, ok := tracePoint(field, line)
		if !ok {
			if len(points) == 0 && !named && strings.IndexFunc(line, unicode.IsLetter) == 0 && !hasLength(field, line) {
				named = true // the columns' names
				continue
			}
			return nil, &words.Refused{Field: field, Given: fmt.Sprintf("line %d: %s", n, short(line)), Accepts: traceAccepts}
		}
		if k := len(points); k > 0 && p.X < points[k-1].X {
			return nil, &words.Refused{Field: field, Given: fmt.Sprintf("line %d: x of %s", n, words.MM(p.X)),
				Why: "left of the point before, at " + words.MM(points[k-1].X), Accepts: "points from left to right"}
		}
		if points = append(points, p); len(points) > MostTracePoints {
			return nil, &words.Refused{Field: field, Given: fmt.Sprintf("line %d", n), Why: "too many points", Accepts: fmt.Sprintf("up to %d", MostTracePoints)}
		}
	}
	if err := lines.Err(); errors.Is(err, bufio.ErrTooLong) {
		return nil, &words.Refused{Field: field, Given: fmt.Sprintf("line %d", n+1), Why: "without an end", Accepts: traceAccepts}
	} else if err != nil {
		return nil, err
	}
	if len(points) < 3 {
		return nil, &words.Refused{Field: field, Given: fmt.Sprint(len(points), " points"), Accepts: "three or more, " + traceAccepts}
	}
	return points, nil
}

// hasLength tells whether one of a line's fields is a length: "O,0" is a slip
// and no column's name.
func hasLength(field, line string) bool {
	return slices.ContainsFunc(strings.FieldsFunc(line, func(r rune) bool { return strings.ContainsRune(",;\t", r) }), func(part string) bool {
		_, err := words.Length(field, part)
		return err == nil
	})
}

// tracePoint reads two lengths parted by a comma, a semicolon, a tab or a blank.
// Commas are decimal ones where something else parts.
func tracePoint(field, line string) (p geom.Point, ok bool) {
	line = strings.TrimRight(line, ",;\t ")
	parts := strings.FieldsFunc(line, func(r rune) bool { return r == ';' || r == '\t' })
	if len(parts) == 2 {
		parts[0], parts[1] = strings.ReplaceAll(parts[0], ",", "."), strings.ReplaceAll(parts[1], ",", ".")
	} else if parts = strings.Split(line, ","); len(parts) == 1 {
		parts = strings.Fields(line)
	}
	if len(parts) != 2 {
		return p, false
	}
	var errX, errY error
	p.X, errX = words.Length(field, parts[0])
	p.Y, errY = words.Length(field, parts[1])
	return p, errX == nil && errY == nil
}

func short(s string) string {
	if r := []rune(s); len(r) > 30 {
		return string(r[:30]) + "…"
	}
	return s
}
