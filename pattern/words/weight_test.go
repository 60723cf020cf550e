package words_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underflap/pattern/words"
)

// A ream of 500 sheets of the basis size weighs the stated pounds: bond 17 x 22 in,
// text 25 x 38 in, cover 20 x 26 in. Worked by hand with 453.59237 g to the
// pound and 25.4 mm to the inch: 20 lb of bond are 9071.8474 g on
// 500 x 0.4318 m x 0.5588 m = 120.64492 m2, so 75.1946 g/m2.
var weights = map[string]float64{
	"80":           80,
	" 80 ":         80,
	"80g":          80,
	"80 g":         80,
	"80gsm":        80,
	"80 gsm":       80,
	"80GSM":        80,
	"80g/m2":       80,
	"80 g/m²":      80,
	"104.5 gsm":    104.5,
	"80.":          80,
	"20":           20,
	"600":          600,
	"20lb bond":    75.1946,
	"20 lb bond":   75.1946,
	"20LB Bond":    75.1946,
	"20lbs bond":   75.1946,
	"20 lbs bond":  75.1946,
	"20# bond":     75.1946,
	"20#bond":      75.1946,
	"20lb-bond":    75.1946,
	"20lbbond":     75.1946,
	"24lb bond":    90.2335,
	"32 lb bond":   120.3114,
	"60lb text":    88.8088,
	"70lb text":    103.6103,
	"80 lb text":   118.4117,
	"100lb text":   148.0146,
	"65lb cover":   175.7674,
	"80lb cover":   216.3291,
	"100 lb cover": 270.4114,
	"110lb cover":  297.4525,
}

func TestWeightsOfPaperAreReadOnEveryBasis(t *testing.T) {
	for given, want := range weights {
		got, err := words.PaperWeight("paper-weight", given)
		if err != nil || math.Abs(got-want) > 0.0001 {
			t.Errorf("%q: %v, %v; want %v", given, got, err, want)
		}
	}
}

// Common practice, no source: paper of 120 g/m2 is sold as 44 lb cover, 80 g/m2
// as 54 lb text or 21 lb bond, 300 g/m2 as 111 lb cover, rounded to the pound.
func TestAPoundOnEachBasisIsWhatTheTradeSays(t *testing.T) {
	for _, c := range []struct {
		gsm, pounds float64
		basis       string
	}{{120, 44, "cover"}, {216, 80, "cover"}, {300, 111, "cover"}, {80, 54, "text"}, {104, 70, "text"}, {148, 100, "text"}, {75, 20, "bond"}, {80, 21, "bond"}, {90, 24, "bond"}} {
		if got := c.gsm / words.PerPound(c.basis); math.Round(got) != c.pounds {
			t.Errorf("%g g/m2 is %.3f lb %s, want about %g", c.gsm, got, c.basis, c.pounds)
		}
	}
}

func TestWhatIsNoWeightIsRefusedByItsField(t *testing.T) {
	for given, why := range map[string]string{
		"": "not a weight", " ": "not a weight", "heavy": "not a weight", "-80": "not a weight", "NaN": "not a weight", "Inf": "not a weight", "1e2": "not a weight",
		"0x50": "not a weight", "80,5": "not a weight", "8 0": "not a weight", "80 gsm gsm": "not a weight", "80 oz": "not a weight", "80 bond": "not a weight",
		"80gsm bond": "not a weight", "80\n90": "not a weight", "80gsm\x00": "not a weight", "bond 20lb": "not a weight",
		"20lb": "pounds of bond, text or cover differ", "20 lbs": "pounds of bond, text or cover differ", "20#": "pounds of bond, text or cover differ",
		"20lb card": `unknown basis "card"`, "110lb velvet": `unknown basis "velvet"`,
		"0": "outside 20 to 600 g/m²", "19.9": "outside 20 to 600 g/m²", "600.1": "outside 20 to 600 g/m²", "5lb bond": "outside 20 to 600 g/m²",
		"222lb cover": "outside 20 to 600 g/m²", strings.Repeat("9", 300): "outside 20 to 600 g/m²", strings.Repeat("9", 400): "not a weight",
	} {
		got, err := words.PaperWeight("paper-weight", given)
		var refused *words.Refused
		if !errors.As(err, &refused) {
			t.Errorf("%q was read as %v, %v", given, got, err)
			continue
		}
		if refused.Field != "paper-weight" || refused.Given != given || refused.Why != why || !strings.Contains(refused.Accepts, "80gsm") {
			t.Errorf("%q: refusal %+v, want %q", given, refused, why)
		}
	}
}

// What a refusal offers is taken.
func TestEveryWeightThatARefusalOffersIsAccepted(t *testing.T) {
	_, err := words.PaperWeight("paper-weight", "heavy")
	var refused *words.Refused
	if !errors.As(err, &refused) {
		t.Fatal(err)
	}
	list, ok := strings.CutPrefix(refused.Accepts, "a paper's weight such as ")
	if !ok {
		t.Fatal(refused.Accepts)
	}
	offers := strings.Split(strings.ReplaceAll(list, " or ", ", "), ", ")
	if len(offers) < 4 {
		t.Errorf("%q", offers)
	}
	for _, offer := range offers {
		if _, err := words.PaperWeight("paper-weight", offer); err != nil {
			t.Error(err)
		}
	}
}

// Whatever is typed, a weight is refused or one that a paper has.
func TestEveryWordIsRefusedOrAWeightOfPaper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := rapid.OneOf(rapid.String(), rapid.StringMatching(`[-0-9. ]{0,5}(g|gsm|g/m2|g/m²|lbs?|#)?[ -]{0,2}(bond|text|cover|x)?`)).Draw(t, "given")
		v, err := words.PaperWeight("card-weight", given)
		if err == nil && !(v >= 20 && v <= 600) {
			t.Fatalf("%q was read as %v", given, v)
		}
		var refused *words.Refused
		if err != nil && !errors.As(err, &refused) {
			t.Fatalf("%q: %T %v", given, err, err)
		}
	})
}
