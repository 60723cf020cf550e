package words_test

import (
	"errors"
	"math"
	"testing"

	"underflap/pattern/words"
)

// Worked by hand; an inch is 25.4 mm.
func TestSizesAreReadWidthFirst(t *testing.T) {
	for given, want := range map[string][2]float64{
		"162x114":           {162, 114},
		"162 x 114":         {162, 114},
		"162X114":           {162, 114},
		"162×114":           {162, 114},
		"162 × 114 mm":      {162, 114},
		"16.2x11.4cm":       {162, 114}, // a unit on the second goes for both
		"5.75x4.375in":      {146.05, 111.125},
		"5 3/4x4 3/8in":     {146.05, 111.125},
		"5-3/4 x 4-3/8 in":  {146.05, 111.125},
		`9.5 x 4.125"`:      {241.3, 104.775},
		"4 3/8in x 5 3/4in": {111.125, 146.05},
		"16.2cm x 114mm":    {162, 114}, // each its own
		"8.5inches x 297mm": {215.9, 297},
		"0.5x0.25":          {0.5, 0.25},
	} {
		w, h, err := words.Size("pocket", given)
		if err != nil || math.Abs(w-want[0]) > 1e-9 || math.Abs(h-want[1]) > 1e-9 {
			t.Errorf("%q: %v x %v, %v; want %v", given, w, h, err, want)
		}
	}
}

func TestWhatIsNoSizeIsRefusedByItsField(t *testing.T) {
	for _, given := range []string{"", "x", "162", "162x", "x114", "162x114x3", "162 by 114", "0x114", "162x0", "-162x114", "162x-114",
		"NaNxNaN", "InfxInf", "1e9x1", "9999x100", "4/0x3", "12x3 parsecs", "162,114", "a x b"} {
		w, h, err := words.Size("pocket", given)
		var refused *words.Refused
		if !errors.As(err, &refused) {
			t.Errorf("%q was read as %v x %v, %v", given, w, h, err)
			continue
		}
		if refused.Field != "pocket" || refused.Given != given || refused.Accepts == "" {
			t.Errorf("%q: refusal %+v", given, refused)
		}
	}
}

func TestNumbersAndCountsKeepToTheirRange(t *testing.T) {
	for given, want := range map[string]float64{"0": 0, "45": 45, "-360": -360, "360": 360, " 1.5 ": 1.5, "1e2": 100} {
		if got, err := words.Number("turn", given, -360, 360); err != nil || got != want {
			t.Errorf("%q: %v, %v", given, got, err)
		}
	}
	for _, given := range []string{"", "NaN", "Inf", "-Inf", "360.1", "-361", "1e9", "1e999", "north", "4 5"} {
		if got, err := words.Number("turn", given, -360, 360); err == nil {
			t.Errorf("%q was read as %v", given, got)
		}
	}
	for given, want := range map[string]int{"1": 1, " 12 ": 12, "1000": 1000} {
		if got, err := words.Count("count", given, 1, 1000); err != nil || got != want {
			t.Errorf("%q: %v, %v", given, got, err)
		}
	}
	for _, given := range []string{"", "0", "-1", "1001", "1.5", "two", "1e2", "99999999999999999999", "NaN"} {
		if got, err := words.Count("count", given, 1, 1000); err == nil {
			t.Errorf("%q was read as %v", given, got)
		}
	}
}
