package words

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// MillimetresPerInch is exact: the international inch of 1959, ISO 31-1.
const MillimetresPerInch = 25.4

// Longest is the greatest length, in millimetres, that any field takes. It is
// far past every paper; what is longer is a slip of the finger.
const Longest = 5000

// a number, or a whole number and a fraction ("4 3/8", "4-3/8", "3/8"), then a unit
var lengthForm = regexp.MustCompile(`^(?:(\d+(?:\.\d*)?|\.\d+)|(?:(\d+)[ -]+)?(\d+)/(\d+))\s*([a-zA-Z"]*)$`)

var unit = map[string]float64{
	"": 1, "mm": 1, "cm": 10,
	"in": MillimetresPerInch, "inch": MillimetresPerInch, "inches": MillimetresPerInch, `"`: MillimetresPerInch,
}

const lengthAccepts = "a length such as 114, 11.4cm, 4.5in or 4-3/8in"

// Length reads a length and returns millimetres, to the millionth. Without a unit the number is
// millimetres. It refuses what is negative, not a number, not finite or beyond
// Longest; zero is read as zero, for the field to judge.
func Length(field, given string) (float64, error) {
	mm, err := lengthOf(strings.TrimSpace(given))
	if err != "" {
		return 0, &Refused{Field: field, Given: given, Why: err, Accepts: lengthAccepts}
	}
	return mm, nil
}

func lengthOf(s string) (mm float64, why string) {
	m := lengthForm.FindStringSubmatch(s)
	if m == nil {
		if _, err := strconv.ParseFloat(s, 64); err == nil && strings.HasPrefix(s, "-") {
			return 0, "below zero"
		}
		return 0, "not a length"
	}
	per, ok := unit[strings.ToLower(m[5])]
	if !ok {
		return 0, "unknown unit " + strconv.Quote(Shorten(m[5]))
	}
	var n float64
	if m[1] != "" {
		n, _ = strconv.ParseFloat(m[1], 64)
	} else {
		whole, _ := strconv.ParseFloat("0"+m[2], 64)
		over, _ := strconv.ParseFloat(m[3], 64)
		under, _ := strconv.ParseFloat(m[4], 64)
		if under == 0 {
			return 0, "a fraction over zero"
		}
		n = whole + over/under
	}
	mm = math.Round(n*per*1e6) / 1e6 // 12 in is 304.8 mm and not a hair less
	if math.IsNaN(mm) || mm > Longest {
		return 0, fmt.Sprintf("longer than %d mm", Longest)
	}
	return mm, ""
}

// Within reads a length that must lie in [least, most] millimetres.
func Within(field, given string, least, most float64) (float64, error) {
	mm, err := Length(field, given)
	if err != nil {
		return 0, err
	}
	if mm < least || mm > most {
		return 0, OutOf(field, given, least, most)
	}
	return mm, nil
}

// OutOf is the refusal of a length outside [least, most] millimetres. Limits are
// rounded inwards, so that what is said to be accepted is.
func OutOf(field, given string, least, most float64) *Refused {
	return &Refused{Field: field, Given: given, Accepts: fmt.Sprintf("%s mm to %s mm", plain(math.Ceil(least*100-1e-6)/100), plain(math.Floor(most*100+1e-6)/100))}
}

// Size reads two lengths joined by x or ×, width first: "162x114",
// "4 3/8in x 5 3/4in". A unit on one of them alone goes for both.
func Size(field, given string) (width, height float64, err error) {
	refuse := func(why string) error {
		return &Refused{Field: field, Given: given, Why: why, Accepts: "width x height, such as 162x114 or 5.75x4.375in"}
	}
	parts := strings.Split(strings.ReplaceAll(strings.ToLower(given), "×", "x"), "x")
	if len(parts) != 2 {
		return 0, 0, refuse("not a size")
	}
	a, b := strings.TrimSpace(parts[0]), strings.TrimSpace(parts[1])
	// a unit on one alone goes for both
	if ua, ub := unitOf(a), unitOf(b); ua == "" && ub != "" {
		a += ub
	} else if ub == "" {
		b += ua
	}
	width, why := lengthOf(a)
	if why == "" {
		height, why = lengthOf(b)
	}
	if why == "" && (width == 0 || height == 0) {
		why = "a side of zero"
	}
	if why != "" {
		return 0, 0, refuse(why)
	}
	return width, height, nil
}

// unitOf is the unit written behind a length, "" when there is none.
func unitOf(s string) string {
	if m := lengthForm.FindStringSubmatch(s); m != nil {
		return m[5]
	}
	return ""
}

// Number reads a plain number in [least, most]: an angle, a scale.
func Number(field, given string, least, most float64) (float64, error) {
	v, err := decimal(strings.TrimSpace(given))
	if err != nil || math.IsNaN(v) || v < least || v > most {
		return 0, &Refused{Field: field, Given: given, Accepts: fmt.Sprintf("a number from %s to %s", plain(least), plain(most))}
	}
	return v, nil
}

// decimal reads a number as people write it: none of a program's spellings, such
// as 1_0, 0x1p-3 or Inf.
func decimal(s string) (float64, error) {
	if strings.Trim(s, "0123456789.+-eE") != "" {
		return 0, strconv.ErrSyntax
	}
	return strconv.ParseFloat(s, 64)
}

// Count reads a whole number in [least, most].
func Count(field, given string, least, most int, orElse ...string) (int, error) {
	v, err := strconv.Atoi(strings.TrimSpace(given))
	if err != nil || v < least || v > most {
		accepts := fmt.Sprintf("a whole number from %d to %d", least, most)
		return 0, &Refused{Field: field, Given: given, Accepts: strings.Join(append([]string{accepts}, orElse...), ", or ")}
	}
	return v, nil
}

// MM writes a length for people: millimetres, to a tenth at most.
func MM(mm float64) string { return Tenth(mm) + " mm" }

// MMDown writes a limit for people: rounded down, so that what is said to be
// accepted is.
func MMDown(mm float64) string { return MM(math.Floor(mm*10+1e-6) / 10) }

// MMSize writes a size for people, width first.
func MMSize(width, height float64) string { return Tenth(width) + " × " + MM(height) }

// Tenth writes millimetres as a person types them, without the unit.
func Tenth(mm float64) string { return plain(math.Round(mm*10) / 10) }

func plain(v float64) string { return strconv.FormatFloat(v+0, 'f', -1, 64) } // + 0: never -0
