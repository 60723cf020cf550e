package setting_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
)

// Every word is set once and in order, inside the block, and lines do not
// touch: measured on the letters' outlines.
func TestNotesKeepTheirWordsInsideTheirBlock(t *testing.T) {
	set := 0
	rapid.Check(t, func(t *rapid.T) {
		var notes []setting.Note
		var words []string
		for range rapid.IntRange(1, 8).Draw(t, "notes") {
			n := setting.Note{Text: strings.Join(rapid.SliceOfN(rapid.StringMatching(`[A-Za-z]{1,9}[,.]?`), 1, 30).Draw(t, "text"), " "),
				Bold: rapid.Bool().Draw(t, "bold"), Under: rapid.Bool().Draw(t, "under"), Number: rapid.SampledFrom([]string{"", "1", "12"}).Draw(t, "number")}
			if n.Number != "" {
				n.Under = false
				words = append(words, n.Number)
			}
			words = append(words, strings.Fields(n.Text)...)
			notes = append(notes, n)
		}
		size, width := rapid.Float64Range(2, 5).Draw(t, "size"), rapid.Float64Range(10, 150).Draw(t, "width")
		b, ok := setting.Set(notes, size, width)
		if !ok {
			return
		}
		set++
		var said []string
		var last draw.Rect
		for i, l := range b.Lines {
			said = append(said, strings.Fields(l.Text)...)
			font := draw.Regular
			if l.Bold {
				font = draw.Bold
			}
			box := font.Outlines(l.Text, size).Transform(draw.Translate(l.X, l.Drop)).Bounds()
			if box.MinX < -0.1*size || box.MaxX > b.Width+0.1*size || b.Width > width+1e-9 || box.MinY < 0 || box.MaxY > b.Height {
				t.Fatalf("%q at %v leaves its block of %v × %v", l.Text, box, b.Width, b.Height)
			}
			if i > 0 && box.MinX < last.MaxX && box.MinY < last.MaxY {
				t.Fatalf("%q at %v touches the line before it at %v", l.Text, box, last)
			}
			last = box
		}
		if strings.Join(said, " ") != strings.Join(words, " ") {
			t.Fatalf("set %q, given %q", said, words)
		}
	})
	if set < 10 {
		t.Errorf("%d blocks were set", set)
	}
}

func TestAWordTooWideForTheMeasureIsToldSo(t *testing.T) {
	if _, ok := setting.Set([]setting.Note{{Text: "incomprehensibilities"}}, 4, 10); ok {
		t.Error("set a word of about 40 mm to 10 mm")
	}
}
