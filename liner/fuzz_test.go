package liner

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode"

	"underflap/pattern/words"
)

// refusedWell asks of a refusal what every refusal promises: a field, and one
// printable line of a length that can be read.
func refusedWell(t *testing.T, given any, err error) {
	t.Helper()
	var r *words.Refused
	if !errors.As(err, &r) || r.Field == "" || len([]rune(err.Error())) > 700 || strings.ContainsFunc(err.Error(), func(r rune) bool { return !unicode.IsPrint(r) }) {
		t.Fatalf("%q: %q", given, err)
	}
}

// A traced flap is refused or goes from left to right in lengths that can be
// measured, and the liner made of it stays inside the flap.
func FuzzTrace(f *testing.F) {
	for _, seed := range []string{"x,height\n0,0\n81,60\n162,0\n", "# a flap\n0;0\n40,5;30,25\n162;0\n", "\ufeff0 0\n1in 2cm\n162 0", "0,0\n0,30\n80,64\n162,30\n162,0", "0\t0\n81\t60\n162\t0",
		"0,0\n10,10\n9,9", "O,0\n1,1\n2,2", "0,NaN\n1,Inf\n2,1e308", "0,0\n" + strings.Repeat("1,1\n", 5001), strings.Repeat("1", 70000), "1,1\x00\n", "\xff,\xfe\n1,1\n", "0,5000\n0,0\n0,5000\n", "0,0\n1,50\n1,0\n2,50\n2,0\n160,60\n162,0"} {
		f.Add([]byte(seed), 162.0)
	}
	f.Fuzz(func(t *testing.T, data []byte, width float64) {
		points, err := ReadTrace("profile", strings.NewReader(string(data)))
		if err != nil {
			refusedWell(t, data, err)
			return
		}
		if len(points) < 3 || len(points) > MostTracePoints {
			t.Fatalf("%d points", len(points))
		}
		var b strings.Builder
		for i, p := range points {
			if !(p.X >= 0 && p.Y >= 0 && p.X <= words.Longest && p.Y <= words.Longest) || i > 0 && p.X < points[i-1].X {
				t.Fatalf("%v", points)
			}
			fmt.Fprintf(&b, "%f; %f\n", p.X, p.Y)
		}
		again, err := ReadTrace("profile", strings.NewReader(b.String()))
		if err != nil || fmt.Sprint(again) != fmt.Sprint(points) {
			t.Fatalf("%v comes back as %v, %v", points, again, err)
		}
		if !(width >= 60 && width <= 500) || len(points) > 200 {
			return
		}
		l, err := New(Envelope{Name: Measured, Short: "traced", Width: width, Height: 114, Flap: TracedFlap(points), Gum: 10}, Clearances{GumClearance: 1.5, SideGap: 3, CornerRadius: 4})
		if err != nil {
			refusedWell(t, data, err)
			return
		}
		for _, p := range l.Outline(60).Flatten(0.01) {
			if !(p.X >= 3-1e-6 && p.X <= width-3+1e-6 && p.Y >= -60-1e-6 && p.Y <= l.Envelope.Flap.Depth) {
				t.Fatalf("%v of the liner lies outside", p)
			}
		}
	})
}

// A self-describing name is refused, or ends in two sides that have a length.
func FuzzSelfDescribed(f *testing.F) {
	for _, e := range Entries() {
		f.Add(e.Name)
	}
	for _, seed := range []string{"", "_", "x", "mm", "iso_c6_114x162", "iso_c6_NaNx162mm", "a_infxinfin", "a_0x0mm", "a_-1x5mm", "a_1e308x1e308in", "a_0x1p9x2mm", "a_1_0x2mm", "a_1x2x3mm", "a_1x2minm", "a_1x2in ", "a_１x２mm", "a_1x\xffmm"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, name string) {
		short, long, err := SelfDescribed(name)
		if err != nil {
			if strings.ContainsFunc(err.Error(), func(r rune) bool { return !unicode.IsPrint(r) }) {
				t.Fatalf("%q", err)
			}
			return
		}
		for _, v := range []float64{short, long} {
			if !(v > 0 && v <= words.Longest) || v != math.Round(v*1e6)/1e6 {
				t.Fatalf("%q: %g by %g", name, short, long)
			}
		}
		if !strings.HasSuffix(name, "mm") && !strings.HasSuffix(name, "in") {
			t.Fatalf("%q: %g by %g of no unit", name, short, long)
		}
	})
}

// Names of envelopes, papers and cards, or their sizes.
func FuzzNames(f *testing.F) {
	for _, names := range [][]string{EnvelopeNames(), PaperNames(), CardNames(),
		{"", " ", "#10", "No. 10", "iso_c6_114x162mm", "305x305", "12x12in", "0x0", "49.9x100", "1300x1300", "1300.0001x50", "NaNxNaN", "a4\x00", "\xff", "a6 flat", "148x105", `5"x7"`, "folded a5", "pointed", "Traced"}} {
		for _, name := range names {
			f.Add(name)
		}
	}
	f.Fuzz(func(t *testing.T, given string) {
		if e, err := LookUp(given); err != nil {
			refusedWell(t, given, err)
		} else if again, err := LookUp(e.Name); err != nil || again.Name != e.Name || !(e.Width > 0 && e.Height > 0) {
			t.Fatalf("%q: %+v, then %+v, %v", given, e, again, err)
		}
		if p, err := ParsePaper("paper", given); err != nil {
			refusedWell(t, given, err)
		} else if min(p.Width, p.Height) < leastPaper || max(p.Width, p.Height) > mostPaper && !strings.HasPrefix(p.Name, "iso_") && !strings.HasPrefix(p.Name, "jis_") && !strings.HasPrefix(p.Name, "na_") {
			t.Fatalf("%q: %+v", given, p)
		}
		if c, err := ParseCard("card", given); err != nil {
			refusedWell(t, given, err)
		} else if min(c.Width, c.Height) < leastCard || max(c.Width, c.Height) > mostCard {
			t.Fatalf("%q: %+v", given, c)
		}
		if s, err := ParseShape("flap", given); err != nil {
			refusedWell(t, given, err)
		} else if again, err := ParseShape("flap", string(s)); err != nil || again != s {
			t.Fatalf("%q: %q, %v", given, s, err)
		}
	})
}
