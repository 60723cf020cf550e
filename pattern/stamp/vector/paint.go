package vector

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"golang.org/x/image/colornames"

	"underflap/pattern/draw"
)

// paint is the colour of a fill or stroke, nil for none.
func (s style) paint(word, opacity string) (*draw.Colour, error) {
	if strings.EqualFold(word, "currentColor") {
		word = s.colour
	}
	word = strings.ToLower(strings.TrimSpace(word))
	if word == "none" || word == "transparent" || opacity == "0" {
		return nil, nil
	}
	if !opaque(opacity) {
		return nil, errTransparent
	}
	if strings.HasPrefix(word, "url(") {
		return nil, fmt.Errorf("a gradient or pattern (%s), which cannot be drawn", short(word))
	}
	c, err := colour(word)
	return &c, err
}

// referred is the name in "url(#name)".
func referred(word string) string {
	word = strings.TrimSuffix(strings.TrimPrefix(strings.TrimSpace(word), "url("), ")")
	return strings.TrimPrefix(strings.Trim(word, `"' `), "#")
}

// colour reads a colour of CSS Color 4, in lower case.
func colour(word string) (draw.Colour, error) {
	if c, ok := colornames.Map[word]; ok {
		return draw.Colour{R: c.R, G: c.G, B: c.B}, nil
	}
	if hex, ok := strings.CutPrefix(word, "#"); ok {
		return hexColour(word, hex)
	}
	name, list, ok := strings.Cut(strings.TrimSuffix(word, ")"), "(")
	parts := strings.FieldsFunc(list, func(r rune) bool { return r == ',' || r == ' ' || r == '/' })
	if !ok || name != "rgb" && name != "rgba" || len(parts) != 3 && len(parts) != 4 {
		return draw.Colour{}, fmt.Errorf("the colour %q, which is not understood", short(word))
	}
	if len(parts) == 4 && !opaque(parts[3]) {
		return draw.Colour{}, errTransparent
	}
	var v [3]uint8
	for i := range v {
		of := 1.0
		part, percent := strings.CutSuffix(parts[i], "%")
		if percent {
			of = 2.55
		}
		n, err := strconv.ParseFloat(part, 64)
		if err != nil {
			return draw.Colour{}, fmt.Errorf("the colour %q, which is not understood", short(word))
		}
		v[i] = uint8(math.Round(min(max(n*of, 0), 255)))
	}
	return draw.Colour{R: v[0], G: v[1], B: v[2]}, nil
}

func hexColour(word, hex string) (draw.Colour, error) {
	if len(hex) == 3 || len(hex) == 4 {
		var long strings.Builder
		for _, r := range hex {
			long.WriteRune(r)
			long.WriteRune(r)
		}
		hex = long.String()
	}
	if len(hex) == 8 {
		if hex[6:] != "ff" {
			return draw.Colour{}, errTransparent
		}
		hex = hex[:6]
	}
	v, err := strconv.ParseUint(hex, 16, 32)
	if err != nil || len(hex) != 6 {
		return draw.Colour{}, fmt.Errorf("the colour %q, which is not understood", short(word))
	}
	return draw.Colour{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v)}, nil
}
