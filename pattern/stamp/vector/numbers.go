package vector

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"underflap/pattern/draw"
)

var (
	number     = regexp.MustCompile(`^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?`)
	transforms = regexp.MustCompile(`^[\s,]*(\w+)\s*\(([^()]*)\)`)
)

// largest is more than any drawing's coordinates; past it numbers lose places.
const largest = 1e9

// read takes a number from the front of a word.
func read(word string) (v float64, rest string, err error) {
	word = strings.TrimLeft(word, " \t\r\n,")
	found := number.FindString(word)
	v, err = strconv.ParseFloat(found, 64)
	if err != nil || math.Abs(v) > largest {
		return 0, "", fmt.Errorf("a broken number %q", short(word))
	}
	return v, word[len(found):], nil
}

// numbers reads a list.
func numbers(word string) (list []float64, err error) {
	for strings.Trim(word, " \t\r\n,") != "" {
		var v float64
		if v, word, err = read(word); err != nil {
			return nil, err
		}
		list = append(list, v)
	}
	return list, nil
}

// units are CSS's, in its pixels: 96 to the inch.
var units = map[string]float64{"": 1, "px": 1, "in": 96, "cm": 96 / 2.54, "mm": 96 / 25.4, "q": 96 / 101.6, "pt": 96.0 / 72, "pc": 16}

// length reads a length in the drawing's units, or takes def when there is none.
func length(word string, def float64) (float64, error) {
	if strings.TrimSpace(word) == "" {
		return def, nil
	}
	v, unit, err := read(word)
	if err != nil {
		return 0, err
	}
	k, ok := units[strings.ToLower(strings.TrimSpace(unit))]
	if !ok {
		return 0, fmt.Errorf("the length %q, which is not understood", short(word))
	}
	return v * k, nil
}

// ratio reads 0.5 or 50%.
func ratio(word string) (float64, error) {
	word, percent := strings.CutSuffix(strings.TrimSpace(word), "%")
	v, err := strconv.ParseFloat(word, 64)
	if percent {
		v /= 100
	}
	return v, err
}

// transform reads a list of transforms, the outermost first.
func transform(word string) (draw.Matrix, error) {
	m := draw.Identity
	for strings.Trim(word, " \t\r\n,") != "" {
		found := transforms.FindStringSubmatch(word)
		if found == nil {
			return m, fmt.Errorf("a broken transform %q", short(word))
		}
		word = word[len(found[0]):]
		v, err := numbers(found[2])
		if err != nil {
			return m, err
		}
		step, ok := transformOf(found[1], v)
		if !ok {
			return m, fmt.Errorf("a broken transform %q", short(found[0]))
		}
		m = m.After(step)
	}
	return m, nil
}

func transformOf(name string, v []float64) (draw.Matrix, bool) {
	switch n := len(v); {
	case name == "matrix" && n == 6:
		return draw.Matrix{A: v[0], B: v[1], C: v[2], D: v[3], E: v[4], F: v[5]}, true
	case name == "translate" && n == 1:
		return draw.Translate(v[0], 0), true
	case name == "translate" && n == 2:
		return draw.Translate(v[0], v[1]), true
	case name == "scale" && n == 1:
		return draw.Scale(v[0]), true
	case name == "scale" && n == 2:
		return draw.Matrix{A: v[0], D: v[1]}, true
	case name == "rotate" && n == 1:
		return draw.Turn(v[0]), true
	case name == "rotate" && n == 3:
		return draw.Translate(v[1], v[2]).After(draw.Turn(v[0])).After(draw.Translate(-v[1], -v[2])), true
	case name == "skewX" && n == 1:
		return draw.Matrix{A: 1, C: math.Tan(v[0] * math.Pi / 180), D: 1}, true
	case name == "skewY" && n == 1:
		return draw.Matrix{A: 1, B: math.Tan(v[0] * math.Pi / 180), D: 1}, true
	}
	return draw.Identity, false
}
