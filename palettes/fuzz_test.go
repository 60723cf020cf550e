package palettes

import (
	"errors"
	"strings"
	"testing"
	"unicode"

	"underflap/pattern"
	"underflap/pattern/words"
)

// Whatever is typed for a colour or a list of inks is refused in one printable
// line, or is a colour that is read again as the same.
func FuzzColours(f *testing.F) {
	for _, seed := range []string{"#c0572f", "#C52", "firebrick", " RebeccaPurple ", "#b4472e, goldenrod", "", ",", "#", "#12345", "#1234567", "#gggggg", "# 12345", "#+1+2+3", "#12\x003", "rgb(1,2,3)", "\xff", "ſky", "#0x0x0x", strings.Repeat("red,", 13), strings.Repeat("red,", 11) + "red", "#١٢٣"} {
		f.Add(seed)
	}
	refused := func(t *testing.T, given string, err error) {
		var r *words.Refused
		if !errors.As(err, &r) || r.Field == "" || r.Accepts == "" || len([]rune(err.Error())) > 500 || strings.ContainsFunc(err.Error(), func(r rune) bool { return !unicode.IsPrint(r) }) {
			t.Fatalf("%q: %q", given, err)
		}
	}
	f.Fuzz(func(t *testing.T, given string) {
		if c, err := Colour("ground", given); err != nil {
			refused(t, given, err)
		} else if again, err := Colour("ground", c.Hex()); err != nil || again != c {
			t.Fatalf("%q: %s, then %s, %v", given, c.Hex(), again.Hex(), err)
		} else if word := strings.TrimSpace(given); strings.HasPrefix(word, "#") && len(word) == 7 && !strings.EqualFold(word, c.Hex()) {
			t.Fatalf("%q: %s", given, c.Hex())
		}
		inks, err := ParseInks("inks", given)
		if err != nil {
			refused(t, given, err)
		} else if n := len(inks); n != strings.Count(given, ",")+1 || n > pattern.MostInks {
			t.Fatalf("%q: %d inks", given, n)
		}
	})
}
