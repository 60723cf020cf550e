package words_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"underflap/pattern/words"
)

// Worked by hand from the millimetres of ISO 269 and PWG 5101.1, a sixteenth being
// 1.5875 mm: 162 mm are 102.047 sixteenths, 114 mm 71.811, 229 mm 144.252,
// 324 mm 204.094.
func TestSizesInInchesAreWrittenWidthFirst(t *testing.T) {
	for want, size := range map[string][2]float64{"6 3/8 × 4 1/2 in": {162, 114}, "9 1/2 × 4 1/8 in": {241.3, 104.775}, "6 × 6 in": {152.4, 152.4}, "9 × 12 3/4 in": {229, 324}} {
		if got := words.InchSize(size[0], size[1]); got != want {
			t.Errorf("%v: %q, want %q", size, got, want)
		}
	}
}

// What is written is taken where lengths and sizes are typed, and lies within half
// a sixteenth of what was meant.
func TestWrittenInchesAreReadAsALength(t *testing.T) {
	near := func(got, want float64) bool { return math.Abs(got-want) <= 1.5875/2+1e-6 }
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(1, 4900).Draw(t, "a"), rapid.Float64Range(1, 4900).Draw(t, "b")
		if got, err := words.Length("gum", words.Inches(a)); err != nil || !near(got, a) {
			t.Fatalf("%v mm is written %q and read %v, %v", a, words.Inches(a), got, err)
		}
		if w, h, err := words.Size("pocket", words.InchSize(a, b)); err != nil || !near(w, a) || !near(h, b) {
			t.Fatalf("%v x %v mm is written %q and read %v x %v, %v", a, b, words.InchSize(a, b), w, h, err)
		}
	})
}
