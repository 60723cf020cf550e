package setting_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
)

// Lines hold all words in order, as many as go in: the next word would not have
// fitted. Widths are those of the typeface for the whole line.
func TestWrappedLinesAreFullAndNoWiderThanAsked(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.StringMatching(`[A-Za-z]{1,9}[,.]?`), 0, 40).Draw(t, "text"), " ")
		width := rapid.Float64Range(1, 40).Draw(t, "ems")
		w := setting.Measure(text, draw.Regular)
		lines := w.Wrap(width)
		if w.Lines(width) != len(lines) || strings.Join(lines, " ") != text {
			t.Fatalf("%d lines, %q, of %q", w.Lines(width), lines, text)
		}
		for i, line := range lines {
			wide := draw.Regular.Width(line, 1)
			if wide > max(width, w.Widest)+1e-9 || strings.Contains(line, " ") && wide > width+1e-9 {
				t.Fatalf("%q is %v ems wide, at most %v were asked for", line, wide, width)
			}
			if i+1 < len(lines) {
				next, _, _ := strings.Cut(lines[i+1], " ")
				if draw.Regular.Width(line+" "+next, 1) < width-1e-9 {
					t.Fatalf("%q would have gone behind %q in %v ems", next, line, width)
				}
			}
		}
	})
}
