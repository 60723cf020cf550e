package words_test

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underflap/pattern/words"
)

// An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
// Results worked by hand.
var lengths = map[string]float64{
	"114":               114,
	"114mm":             114,
	"114 mm":            114,
	"  114\tmm ":        114,
	"11.4cm":            114,
	"11.4 CM":           114,
	".5":                0.5,
	"5.":                5,
	"0":                 0,
	"0mm":               0,
	"1in":               25.4,
	"1 inch":            25.4,
	"2inches":           50.8,
	`9.5"`:              241.3,
	`9.5 "`:             241.3,
	"4.125in":           104.775,
	"3/8in":             9.525,
	"4 3/8in":           111.125,
	"4-3/8in":           111.125,
	"4  3/8 in":         111.125,
	`5 3/4"`:            146.05,
	"4 3/8 IN":          111.125,
	"1/2cm":             5,
	"1 1/2":             1.5,
	"5000":              5000,
	"500cm":             5000,
	"0.000001":          0.000001,
	"00114":             114,
	"3/1":               3,
	"0/4":               0,
	"114.0000000000000": 114,
}

func TestLengthsAreReadInEveryUnit(t *testing.T) {
	for given, want := range lengths {
		got, err := words.Length("side-gap", given)
		if err != nil || math.Abs(got-want) > 1e-9 {
			t.Errorf("%q: %v, %v; want %v", given, got, err, want)
		}
	}
}

func TestWhatIsNoLengthIsRefusedByItsField(t *testing.T) {
	for _, given := range []string{
		"", " ", "-1", "-1mm", "+1", "NaN", "nan", "Inf", "-Inf", "infinity", "1e9", "1e3", "0x10", "4/0", "1 4/0in", "12 parsecs",
		"mm", "in", "1,5", "1_000", "1.2.3", "4 3/8 3/8in", "4 3in", "3/", "/8", "5001", "501cm", "200in", "--", "12m", "12 mm mm",
		"1" + strings.Repeat("0", 400), strings.Repeat("9", 400) + "/" + strings.Repeat("9", 400), "١٢", "12\nmm x", "½in", "1\x00",
	} {
		got, err := words.Length("side-gap", given)
		var refused *words.Refused
		if !errors.As(err, &refused) {
			t.Errorf("%q was read as %v, %v", given, got, err)
			continue
		}
		if refused.Field != "side-gap" || refused.Given != given || refused.Accepts == "" {
			t.Errorf("%q: refusal %+v", given, refused)
		}
	}
}

// Whatever is typed, a length is refused or lies in [0, Longest].
func TestEveryWordIsRefusedOrAFiniteLength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := rapid.OneOf(rapid.String(), rapid.StringMatching(`[-+0-9. /]{0,9}(mm|cm|in|"|e9)?`)).Draw(t, "given")
		mm, err := words.Length("gum", given)
		if err == nil && !(mm >= 0 && mm <= words.Longest) {
			t.Fatalf("%q was read as %v", given, mm)
		}
		var refused *words.Refused
		if err != nil && !errors.As(err, &refused) {
			t.Fatalf("%q: %T %v", given, err, err)
		}
	})
}

func TestAWrittenLengthIsReadAsItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := rapid.Float64Range(0, 190).Draw(t, "length")
		number := strconv.FormatFloat(want, 'f', -1, 64)
		for unit, per := range map[string]float64{"": 1, "mm": 1, " cm": 10, "in": 25.4, `"`: 25.4} {
			got, err := words.Length("gum", number+unit)
			if err != nil || math.Abs(got-want*per) > 0.6e-6 { // read to the millionth of a millimetre
				t.Fatalf("%q: %v, %v", number+unit, got, err)
			}
		}
	})
}

func TestLengthsOutsideTheirRangeAreRefusedWithIt(t *testing.T) {
	for given, ok := range map[string]bool{"5": true, "20": true, "2cm": true, "4.9": false, "20.1": false, "1in": false, "0": false} {
		_, err := words.Within("bleed", given, 5, 20)
		if (err == nil) != ok {
			t.Errorf("%q: %v", given, err)
		}
		if err != nil && err.Error() != `bleed: "`+given+`"; accepted: 5 mm to 20 mm` {
			t.Errorf("%q: %s", given, err)
		}
	}
}

func TestLengthsAreWrittenToATenthAtMost(t *testing.T) {
	for mm, want := range map[float64]string{0: "0 mm", 114: "114 mm", 104.775: "104.8 mm", 3.04: "3 mm", 0.05: "0.1 mm", 1300: "1300 mm", 1e6: "1000000 mm"} {
		if got := words.MM(mm); got != want {
			t.Errorf("%v: %q, want %q", mm, got, want)
		}
	}
}

// A program's spellings of numbers are slips where a person writes them.
func TestNumbersAreWrittenInFigures(t *testing.T) {
	for _, word := range []string{"1_0", "0x10", "0x1p-3", "Inf", "infinity", "nan", "+", "-", "e5", "1e", "1 0", "١"} {
		if v, err := words.Number("turn", word, -360, 360); err == nil {
			t.Errorf("%q was read as %g", word, v)
		}
		if v, err := words.Correction("correct-x", word+"/"+word); err == nil {
			t.Errorf("%q was read as a ratio of %g", word, v)
		}
	}
	for word, want := range map[string]float64{"10": 10, "-2.5": -2.5, "+3": 3, ".5": 0.5, "5.": 5, "1e2": 100} {
		if v, err := words.Number("turn", word, -360, 360); err != nil || v != want {
			t.Errorf("%q was read as %g, %v", word, v, err)
		}
	}
}
