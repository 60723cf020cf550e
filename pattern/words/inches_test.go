package words_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"underflap/pattern/words"
)

// Worked by hand: an inch is 25.4 mm, a sixteenth 1.5875 mm, half of one
// 0.79375 mm.
func TestInchesAreTheNearestSixteenthInLowestTerms(t *testing.T) {
	for mm, want := range map[float64]string{
		0:          "0 in",
		0.79:       "0 in",
		0.8:        "1/16 in",
		1.5875:     "1/16 in",
		3.175:      "1/8 in",
		6.35:       "1/4 in",
		12.7:       "1/2 in",
		19.05:      "3/4 in",
		23.8125:    "15/16 in",
		24.6:       "15/16 in", // 15.496 sixteenths
		24.7:       "1 in",     // 15.559
		25.4:       "1 in",
		80:         "3 1/8 in",    // 50.394 sixteenths, 50/16
		114:        "4 1/2 in",    // 71.811, 72/16
		162:        "6 3/8 in",    // 102.047, 102/16
		210:        "8 1/4 in",    // 132.283, 132/16
		215.9:      "8 1/2 in",    // exactly
		297:        "11 11/16 in", // 187.087, 187/16
		304.8:      "12 in",
		104.775:    "4 1/8 in",
		5000:       "196 7/8 in", // 3149.606, 3150/16
		-80:        "-3 1/8 in",
		-0.3:       "0 in",
		123.86:     "4 7/8 in", // 78.022, 78/16
		1.5875 * 9: "9/16 in",
	} {
		if got := words.Inches(mm); got != want {
			t.Errorf("%v mm is %q, want %q", mm, got, want)
		}
	}
}

// What is written is read back by its own arithmetic: never more than half a
// sixteenth away.
func TestInchesAreWithinHalfASixteenth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(0, 2000).Draw(t, "mm")
		got := words.Inches(mm)
		var sixteenths float64
		number, over, under := 0, -1, 16
		for _, r := range got {
			switch {
			case r >= '0' && r <= '9':
				number = 10*number + int(r-'0')
			case r == '/':
				over, number = number, 0
			case r == ' ':
				if over >= 0 {
					under = number
				} else {
					sixteenths, number = float64(16*number), 0
				}
			}
		}
		if over >= 0 {
			sixteenths += float64(over) * 16 / float64(under)
			if over%2 == 0 || over >= under {
				t.Fatalf("%s is not in lowest terms", got)
			}
		}
		if math.Abs(sixteenths*1.5875-mm) > 1.5875/2+1e-9 {
			t.Fatalf("%v mm is %q", mm, got)
		}
	})
}
