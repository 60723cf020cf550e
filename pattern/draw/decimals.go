package draw

import (
	"strconv"
	"strings"
)

// Decimals writes a number plainly with at most so many decimals, as PDF and
// SVG take it.
func Decimals(v float64, most int) string {
	s := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(v, 'f', most, 64), "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
