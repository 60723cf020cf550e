package setting

import (
	"strings"

	"underflap/pattern/draw"
)

// Shortened cuts off the end of a name that is wider than width.
func Shortened(name string, font *draw.Font, em, width float64) string {
	if font.Width(name, em) <= width+1e-9 {
		return name
	}
	letters := []rune(name)
	for len(letters) > 0 && font.Width(string(letters)+"…", em) > width {
		letters = letters[:len(letters)-1]
	}
	return strings.TrimRight(string(letters), " ,") + "…"
}
