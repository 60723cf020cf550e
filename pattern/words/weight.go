package words

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Basis sizes of North American papers, in inches: a ream of 500 sheets of that
// size weighs the stated pounds. From memory: TAPPI TIP 0800-01; the pound is
// 453.59237 g (international pound of 1959, exact).
var basis = map[string][2]float64{
	"bond": {17, 22}, "writing": {17, 22}, "ledger": {17, 22},
	"text": {25, 38}, "book": {25, 38}, "offset": {25, 38},
	"cover": {20, 26},
	"index": {25.5, 30.5},
}

const gramsPerPound = 453.59237

// PerPound is the weight in g/m² of a paper of one pound on a basis: "bond",
// "text", "cover" or another name of the trade.
func PerPound(name string) float64 {
	b := basis[name]
	ream := 500 * b[0] * b[1] * MillimetresPerInch * MillimetresPerInch / 1e6 // m²
	return gramsPerPound / ream
}

var weightForm = regexp.MustCompile(`^(\d+(?:\.\d*)?|\.\d+)\s*(gsm|g/m2|g/m²|g|lbs|lb|#)?\s*(?:-\s*)?([a-z]*)$`)

// Weights of paper that a person can mean, in g/m².
const leastWeight, mostWeight = 20, 600

// PaperWeight reads a paper's weight and gives g/m²: "120", "80gsm", "20 lb
// bond", "80lb text", "65lb cover". Pounds need their basis.
func PaperWeight(field, given string) (float64, error) {
	refuse := func(why string) error {
		return &Refused{Field: field, Given: given, Why: why, Accepts: "a paper's weight such as 80gsm, 20lb bond, 70lb text or 65lb cover"}
	}
	m := weightForm.FindStringSubmatch(strings.ToLower(strings.TrimSpace(given)))
	if m == nil {
		return 0, refuse("not a weight")
	}
	v, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		return 0, refuse("not a weight")
	}
	switch kind := m[3]; {
	case strings.HasPrefix(m[2], "lb") || m[2] == "#":
		if kind == "" {
			return 0, refuse("pounds of bond, text or cover differ")
		}
		if _, known := basis[kind]; !known {
			return 0, refuse("unknown basis " + strconv.Quote(Shorten(kind)))
		}
		v *= PerPound(kind)
	case kind != "":
		return 0, refuse("not a weight")
	}
	if v < leastWeight || v > mostWeight || math.IsNaN(v) {
		return 0, refuse(fmt.Sprintf("outside %d to %d g/m²", leastWeight, mostWeight))
	}
	return v, nil
}
