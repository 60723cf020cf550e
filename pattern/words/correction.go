package words

import (
	"math"
	"strings"
)

// A printer that is out by more than this does something else than rescale a
// little: the paper or the scaling in its dialogue is wrong.
const leastCorrection, mostCorrection = 0.9, 1.1

// Correction reads how much larger to draw so that a printer that rescales
// comes out true: a ratio, "100/98.7"; the factor itself, "1.013"; what the
// 100 mm rule measured, "98.7"; or, in inches, what the 4 in rule measured,
// "3.95in".
func Correction(field, given string) (float64, error) {
	refuse := func(why string) error {
		return &Refused{Field: field, Given: given, Why: why,
			Accepts: "what the 100 mm rule measured, such as 98.7, or the 4 in rule, such as 3.95in, or a ratio such as 100/98.7; up to a tenth more or less"}
	}
	word := strings.TrimSpace(given)
	k := 0.0
	if over, under, ok := strings.Cut(word, "/"); ok && unitOf(word) == "" && !strings.ContainsAny(strings.TrimSpace(over), " -") {
		a, errA := decimal(strings.TrimSpace(over))
		b, errB := decimal(strings.TrimSpace(under))
		if errA != nil || errB != nil || b == 0 {
			return 0, refuse("not a ratio")
		}
		k = a / b
	} else if factor, err := decimal(word); err == nil && factor > 0 && factor < 2 {
		k = factor // in full, where a length is rounded
	} else {
		mm, why := lengthOf(word)
		switch {
		case why != "":
			return 0, refuse(why)
		case mm == 0:
			return 0, refuse("nothing printed")
		case strings.HasPrefix(strings.ToLower(unitOf(word)), "in") || unitOf(word) == `"`:
			k = 4 * MillimetresPerInch / mm
		default:
			k = 100 / mm
		}
	}
	if math.IsNaN(k) || k < leastCorrection || k > mostCorrection {
		return 0, refuse("more than a tenth out: check the paper size and the scaling in the print dialogue")
	}
	return k, nil
}
