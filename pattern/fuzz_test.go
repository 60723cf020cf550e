package pattern

import (
	"errors"
	"math"
	"strings"
	"testing"
	"unicode"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Any setting of any family is refused, naming the setting, or gives a pattern
// that is refused for too many motifs or draws no more than it may.
func FuzzSettings(f *testing.F) {
	for _, info := range Describe() {
		for _, p := range info.Params {
			f.Add(info.Name, p.Name, p.Default, "", "", 1.0, 0.0)
			if p.Numeric() {
				f.Add(info.Name, p.Name, plainly(p.Least), "", "", 0.3, 45.0)
				f.Add(info.Name, p.Name, plainly(p.Most), "", "", 3.0, -30.0)
			}
		}
	}
	f.Add("dots", "size", "NaN", "spacing", "1e308", 1.0, 0.0)
	f.Add("stripes", "bands", "0.2:1,0.2:0", "inks", "1,,2", 1.0, 31.0)
	f.Add("scallops", "inks", "99999999999999999999", "rise", "-0", 1.0, 0.0)
	f.Add("stamps", "size", "25", "symmetry", "p31m", 1.0, 0.0)
	f.Add("leaves", "cell-angle", "45", "symmetry", "p1", 1.0, 0.0)
	f.Fuzz(func(t *testing.T, family, name, value, other, word string, scale, turn float64) {
		given := map[string]Setting{}
		for _, s := range [][2]string{{name, value}, {other, word}} {
			if s[0] != "" {
				given[s[0]] = Setting{Field: "set " + s[0], Value: s[1]}
			}
		}
		refused := func(err error) {
			var r *words.Refused
			if !errors.As(err, &r) || r.Field == "" || len([]rune(r.Accepts+r.Why)) > 900 {
				t.Fatalf("%s with %v: %q", family, given, err)
			}
			if !strings.ContainsFunc(family+name+other, func(r rune) bool { return !unicode.IsPrint(r) }) && strings.ContainsFunc(err.Error(), func(r rune) bool { return !unicode.IsPrint(r) }) {
				t.Fatalf("%s with %v: %q", family, given, err)
			}
		}
		m, err := New(family, given, nil)
		if err != nil {
			refused(err)
			return
		}
		if !(scale >= 0.05 && scale <= 50 && math.Abs(turn) <= 360) {
			return
		}
		area := draw.Rect{MinX: -20, MinY: -15, MaxX: 20, MaxY: 15}
		d := Design{Motif: m, Colours: blackOnWhite, Scale: scale, Turn: turn}
		if count := m.Count(area); !(count >= 0) || math.IsInf(count, 0) {
			t.Fatalf("%s with %v: %g motifs", family, given, count)
		}
		if err := d.Check(area); err != nil {
			refused(err)
			return
		}
		if m.Count(d.space().Inverse().Bounds(area)) > 5000 { // bounded by Check; drawing it all would only be slow
			return
		}
		page := draw.NewSurface()
		d.Draw(page, area)
	})
}

// What fades, how motifs recur and by which symmetry are words of few spellings.
func FuzzFewWords(f *testing.F) {
	for _, seed := range append(append(RepeatNames(), SymmetryNames()...), "ink:30%", "size:5%", "ink:NaN%", "ink:1e308%", "size:4.999%", "ink:-1%", "", " INK ", "ink:", ":", "brick\x00", "\xff") {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, given string) {
		for _, read := range []func() error{
			func() error {
				fade, err := ParseFade("word", given)
				if err == nil && fade.Of != "" && !(fade.To >= 0 && fade.To <= 1) {
					t.Fatalf("%q: %+v", given, fade)
				}
				return err
			},
			func() error { _, err := ParseRepeat("word", given); return err },
			func() error { _, err := ParseSymmetry("word", given); return err },
		} {
			var r *words.Refused
			if err := read(); err != nil && (!errors.As(err, &r) || r.Field != "word" || strings.ContainsFunc(err.Error(), func(r rune) bool { return !unicode.IsPrint(r) })) {
				t.Fatalf("%q: %q", given, err)
			}
		}
	})
}
