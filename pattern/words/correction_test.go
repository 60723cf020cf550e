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

// A rule drawn 100 mm long that measures 98.7 mm has to be drawn 100/98.7 times as
// long; worked by hand.
var corrections = map[string]float64{
	"100":        1,
	"100mm":      1,
	"10cm":       1,
	"98.7":       1.0131712259371835,
	"98.7 mm":    1.0131712259371835,
	" 98.7 ":     1.0131712259371835,
	"9.87cm":     1.0131712259371835,
	"101.3":      0.9871668311944719,
	"100/98.7":   1.0131712259371835,
	"100 / 98.7": 1.0131712259371835,
	"4/3.95":     1.0126582278481013,
	"1.0132":     1.0132,
	"1":          1,
	"0.99":       0.99,
	"4in":        1,
	"3.95in":     1.0126582278481013, // the 4 in rule measured 3.95 in
	`3.95"`:      1.0126582278481013,
	"3 15/16in":  1.0158730158730158,
	"3-15/16 in": 1.0158730158730158,
	"4 1/16 IN":  0.9846153846153847,
	"198/200":    0.99,
	"91":         1.098901098901099,
	"111":        0.9009009009009009,
	"1.1":        1.1,
	"0.9":        0.9,
}

func TestAMeasuredRuleCorrectsItself(t *testing.T) {
	for given, want := range corrections {
		got, err := words.Correction("correct-x", given)
		if err != nil || math.Abs(got-want) > 1e-7 {
			t.Errorf("%q: %v, %v; want %v", given, got, err, want)
		}
	}
}

func TestWhatIsNoCorrectionIsRefusedByItsField(t *testing.T) {
	for _, given := range []string{"", " ", "0", "0mm", "0/100", "100/0", "0/0", "-98.7", "-1.01", "-100/98.7", "100/-98.7", "-100/-98.7", "90", "89.9", "112", "1.11", "0.89",
		"50", "2", "1in", "3.5in", "4.5in", "NaN", "NaN/1", "1/NaN", "NaN/NaN", "Inf", "Inf/Inf", "+Inf/100", "1e2", "0x64", "98,7", "98.7%", "98.7 parsecs", "twelve",
		"100/twelve", "/98.7", "100/", "/", "100/98.7/98", "100/98.7mm", "100mm/98.7mm", "98.7\n99", "98.7 99", "5001", strings.Repeat("9", 400)} {
		got, err := words.Correction("correct-x", given)
		var refused *words.Refused
		if !errors.As(err, &refused) {
			t.Errorf("%q was read as %v, %v", given, got, err)
			continue
		}
		if refused.Field != "correct-x" || refused.Given != given || refused.Why == "" || !strings.Contains(refused.Accepts, "100/98.7") {
			t.Errorf("%q: refusal %+v", given, refused)
		}
	}
}

// Whatever a printer does within a tenth, the rule comes out true: what it
// printed, drawn so much larger, is 100 mm.
func TestACorrectedRuleIsTrueAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		measured := rapid.Float64Range(91, 111).Draw(t, "measured")
		number := strconv.FormatFloat(measured, 'f', -1, 64)
		for _, given := range []string{number, number + "mm", "100/" + number} {
			k, err := words.Correction("correct-y", given)
			if err != nil || math.Abs(k*measured-100) > 2e-6 { // read to the millionth of a millimetre
				t.Fatalf("%q: %v, %v", given, k, err)
			}
		}
	})
}

func TestEveryWordIsRefusedOrASmallCorrection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := rapid.OneOf(rapid.String(), rapid.StringMatching(`[-+0-9. ]{0,6}/?[0-9.]{0,5}(mm|cm|in|")?`)).Draw(t, "given")
		k, err := words.Correction("correct-x", given)
		if err == nil && !(k >= 0.9 && k <= 1.1) {
			t.Fatalf("%q was read as %v", given, k)
		}
		var refused *words.Refused
		if err != nil && !errors.As(err, &refused) {
			t.Fatalf("%q: %T %v", given, err, err)
		}
	})
}
