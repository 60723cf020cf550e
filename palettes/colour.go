package palettes

import (
	"strings"

	"github.com/lucasb-eyer/go-colorful"
	"golang.org/x/image/colornames"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Colour reads a colour as CSS writes it: #c0572f, #c52 or one of the names of
// CSS Color Module Level 4. field is what to blame.
func Colour(field, given string) (draw.Colour, error) {
	word := strings.ToLower(strings.TrimSpace(given))
	if word == "rebeccapurple" { // in CSS, and not in SVG 1.1, whose names the library has
		word = "#663399"
	}
	if named, ok := colornames.Map[word]; ok {
		return draw.Colour{R: named.R, G: named.G, B: named.B}, nil
	}
	c, err := colorful.Hex(word)
	if err != nil || len(word) != 4 && len(word) != 7 {
		return draw.Colour{}, &words.Refused{Field: field, Given: given, Why: "not a colour", Accepts: "a colour such as #c0572f, or a CSS colour name such as firebrick"}
	}
	r, g, b := c.RGB255()
	return draw.Colour{R: r, G: g, B: b}, nil
}
