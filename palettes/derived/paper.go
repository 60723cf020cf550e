package derived

import (
	"strings"

	"underflap/palettes"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// PaperColour reads the colour of a paper: one of Papers, a CSS name or hex. field
// is what to blame.
func PaperColour(field, given string) (draw.Colour, error) {
	name := paperName(given)
	for _, p := range papers {
		if p.name == name {
			return p.colour, nil
		}
	}
	c, err := palettes.Colour(field, given)
	if err != nil {
		return c, &words.Refused{Field: field, Given: given, Why: "no colour of a paper that is known",
			Accepts: strings.Join(Papers(), ", ") + ", a CSS colour name, or a colour such as #c0572f"}
	}
	return c, nil
}

// paperName is a word for a paper as Papers has it.
func paperName(word string) string {
	return strings.ReplaceAll(strings.ToLower(strings.TrimSpace(word)), " ", "-")
}
