package words

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// refusedWell asks of a refusal what every refusal promises: the field, and one
// printable line of a length that can be read.
func refusedWell(t *testing.T, given string, err error) {
	t.Helper()
	var r *Refused
	switch {
	case !errors.As(err, &r) || r.Field != "word" || r.Accepts == "":
		t.Fatalf("%q: %#v", given, err)
	case len([]rune(err.Error())) > 700 || strings.ContainsFunc(err.Error(), func(r rune) bool { return !unicode.IsPrint(r) }):
		t.Fatalf("%q: not a printable line: %q", given, err)
	}
}

// plainly writes a number as a person types it.
func plainly(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

var typedWords = []string{"114", "11.4cm", "4 3/8in", "4-3/8in", `4.5"`, " 7 mm\t", ".5", "5.", "", "-1", "NaN", "Inf", "1e308", "0x10", "1_000", "1/0", "9/0in", "00000001",
	"999999999999999999999999999999/3", "1" + strings.Repeat("0", 400), "1/" + strings.Repeat("9", 400), "4 3/8 parsecs", "\xff", "114\x00", "１１４", "0.0000001", "5000", "5000.0000001",
	"162x114", "4 3/8in x 5 3/4in", "5×7in", "5in x 7", "5x7x9", "x", "0x0", "X", "1x\n2", "3×", "NaNxNaN",
	"80gsm", "20 lb bond", "80lb text", "65# cover", "20lb", "1e3g", "20lb soup", "90 - index",
	"100/98.7", "1.013", "98.7", "3.95in", "100/0", "0/0", "-100/-98", "1e308/1e308", "Inf/Inf", "0x1p0", "100 / 99", "3 15/16in"}

// Whatever is typed for a length is refused, or is millimetres from 0 to Longest
// that are read again as the same.
func FuzzLength(f *testing.F) {
	for _, w := range typedWords {
		f.Add(w)
	}
	f.Fuzz(func(t *testing.T, given string) {
		mm, err := Length("word", given)
		if err != nil {
			refusedWell(t, given, err)
			return
		}
		if !(mm >= 0 && mm <= Longest) {
			t.Fatalf("%q: %g mm", given, mm)
		}
		if again, err := Length("word", plainly(mm)); err != nil || again != mm {
			t.Fatalf("%q: %g, then %g, %v", given, mm, again, err)
		}
		// a millionth of a millimetre is all that rounding may take
		if inch, err := Length("word", plainly(mm/MillimetresPerInch)+"in"); err != nil || math.Abs(inch-mm) > 1e-6 {
			t.Fatalf("%q: %g mm, in inches %g, %v", given, mm, inch, err)
		}
		if _, err := Within("word", given, mm+1, mm+2); err == nil {
			t.Fatalf("%q: %g mm is taken for %g or more", given, mm, mm+1)
		}
	})
}

// A size is two lengths above zero that are read again as the same, and its width
// stands first.
func FuzzSize(f *testing.F) {
	for _, w := range typedWords {
		f.Add(w)
	}
	f.Fuzz(func(t *testing.T, given string) {
		w, h, err := Size("word", given)
		if err != nil {
			refusedWell(t, given, err)
			return
		}
		if !(w > 0 && h > 0 && w <= Longest && h <= Longest) {
			t.Fatalf("%q: %g by %g", given, w, h)
		}
		if a, b, err := Size("word", plainly(w)+"x"+plainly(h)+"mm"); err != nil || a != w || b != h {
			t.Fatalf("%q: %g by %g, then %g by %g, %v", given, w, h, a, b, err)
		}
	})
}

// Numbers and counts lie between the limits that are given.
func FuzzNumber(f *testing.F) {
	for _, w := range typedWords {
		f.Add(w, -360.0, 360.0)
	}
	f.Add("1e-400", 0.0, 1.0)
	f.Add("-0", 0.0, 1.0)
	f.Fuzz(func(t *testing.T, given string, least, most float64) {
		if !(math.Abs(least) < 1e9 && math.Abs(most) < 1e9) {
			t.Skip()
		}
		if v, err := Number("word", given, least, most); err != nil {
			refusedWell(t, given, err)
		} else if !(v >= least && v <= most) {
			t.Fatalf("%q: %g is not from %g to %g", given, v, least, most)
		}
		if v, err := Count("word", given, int(least), int(most)); err != nil {
			refusedWell(t, given, err)
		} else if again, err := Count("word", strconv.Itoa(v), int(least), int(most)); v < int(least) || v > int(most) || err != nil || again != v {
			t.Fatalf("%q: %d, then %d, %v", given, v, again, err)
		}
	})
}

// A correction is within a tenth of one, however it is said.
func FuzzCorrection(f *testing.F) {
	for _, w := range typedWords {
		f.Add(w)
	}
	f.Fuzz(func(t *testing.T, given string) {
		k, err := Correction("word", given)
		if err != nil {
			refusedWell(t, given, err)
			return
		}
		if !(k >= leastCorrection && k <= mostCorrection) {
			t.Fatalf("%q: %g", given, k)
		}
		if again, err := Correction("word", plainly(k)); err != nil || again != k {
			t.Fatalf("%q: %g, then %g, %v", given, k, again, err)
		}
	})
}

// A paper's weight is one that paper has, and is read again as the same.
func FuzzWeight(f *testing.F) {
	for _, w := range typedWords {
		f.Add(w)
	}
	f.Fuzz(func(t *testing.T, given string) {
		g, err := PaperWeight("word", given)
		if err != nil {
			refusedWell(t, given, err)
			return
		}
		if !(g >= leastWeight && g <= mostWeight) {
			t.Fatalf("%q: %g", given, g)
		}
		if again, err := PaperWeight("word", plainly(g)+" g/m²"); err != nil || again != g {
			t.Fatalf("%q: %g, then %g, %v", given, g, again, err)
		}
	})
}
