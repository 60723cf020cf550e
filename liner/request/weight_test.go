package request

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underflap/liner/sheet"
)

// weigh resolves words, plans one liner and estimates the letter.
func weigh(t *testing.T, w Words, h Heft) Weight {
	t.Helper()
	w.Count, w.PerSheet = "1", "1"
	r, err := ResolveFit(t.Context(), w)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := sheet.Arrange(r.Task)
	if err != nil {
		t.Fatal(err)
	}
	weight, err := ResolveWeight(h, r.Found, plan)
	if err != nil {
		t.Fatal(err)
	}
	return weight
}

// grams of so many square millimetres of paper.
func grams(mm2, gsm float64) float64 { return mm2 / 1e6 * gsm }

func near(a, b float64) bool { return math.Abs(a-b) < 0.0011 } // each is rounded to a milligram

// A flap of straight sides 60 mm high over a pocket of 160 x 115 mm, the liner 3 mm
// from its edge and from the sides, square corners: a rectangle of
// 154 x (57 + 100) mm. The envelope is two panels and the flap, and seams of
// 15 mm along both sides and the bottom.
func TestARectangularLinerWeighsItsArea(t *testing.T) {
	path := filepath.Join(t.TempDir(), "flap.csv")
	if err := os.WriteFile(path, []byte("0,60\n80,60\n160,60\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	w := Words{Pocket: "160x115", Profile: path, Gum: "2", GumClearance: "1", SideGap: "3", CornerRadius: "0", PocketDepth: "100"}
	liner, envelope := 154*157.0, 2*160*115+160*60+15*(2*115+160.0)
	for _, c := range []struct {
		heft                    Heft
		paper, envelopes, board float64
		card                    string
	}{
		{Heft{}, 80, 120, 300, ""},
		{Heft{}, 80, 120, 300, "148x105"},
		{Heft{Paper: "120", Envelope: "100gsm", Card: "250 g/m2"}, 120, 100, 250, "148x105"},
		{Heft{Paper: "20lb bond", Envelope: "70lb text", Card: "110lb cover"}, 75.19461, 103.61025, 297.45252, "148x105"},
		{Heft{Paper: "20", Envelope: "600"}, 20, 600, 300, ""},
	} {
		w.Card = c.card
		got := weigh(t, w, c.heft)
		card := 0.0
		if c.card != "" {
			card = grams(2*148*105, c.board) // folded, so twice its front
		}
		if (got.Card != nil) != (c.card != "") || got.Card != nil && !near(*got.Card, card) {
			t.Errorf("%+v: card %v, want %.3f", c, got.Card, card)
		}
		if !near(got.PaperWeight, c.paper) || !near(got.Liner, grams(liner, c.paper)) || !near(got.Envelope, grams(envelope, c.envelopes)) ||
			!near(got.Letter, grams(liner, c.paper)+grams(envelope, c.envelopes)+card) {
			t.Errorf("%+v: %+v, want a liner of %.3f g and an envelope of %.3f g", c, got, grams(liner, c.paper), grams(envelope, c.envelopes))
		}
	}
}

// An envelope folded by hand is its sheet without what is cut away.
func TestAnEnvelopeFoldedByHandWeighsItsSheetLessWhatIsCutAway(t *testing.T) {
	for _, w := range []Words{
		{Handmade: "four-corner", Card: "a6", From: "210x210"},
		{Handmade: "four-corner", Card: "a6", From: "a4"},
		{Handmade: "four-corner", Pocket: "160x115", From: "12x12in", StraightBottom: true},
		{Handmade: "two-panel", Card: "a6", From: "a4"},
		{Handmade: "two-panel", Card: "a6", From: "a3", FlapDepth: "50", Paper: "a3"},
	} {
		found, err := ResolveEnvelope(w)
		if err != nil {
			t.Fatal(err)
		}
		f := ReportFold(*found.Blank)
		left := f.Sheet.Width * f.Sheet.Height
		for _, piece := range f.CutAway {
			left -= area(piece.Shape)
		}
		if got := weigh(t, w, Heft{Envelope: "100"}).Envelope; !near(got, grams(left, 100)) {
			t.Errorf("%+v: %.3f g, and the sheet without the %d pieces cut away %.3f g", w, got, len(f.CutAway), grams(left, 100))
		}
	}
}

// On a square of side s with a pocket w x h the folds run on past where they
// cross for a shoulder of s/sqrt2 - w/2 - h/2, at a right angle to each other. The
// triangle between them is cut away, wider by the slight angle of both its cuts,
// which lean 1.5 mm over their length: half of shoulder x (shoulder + 2 x 1.5).
func TestAFourCornerEnvelopeWeighsItsSquareLessFourTriangles(t *testing.T) {
	for _, c := range [][3]float64{{210, 160, 115}, {215.9, 160, 115}, {297, 230, 160}} {
		shoulder := c[0]/math.Sqrt2 - c[1]/2 - c[2]/2
		want := grams(c[0]*c[0]-4*shoulder*(shoulder+3)/2, 120)
		side := number(c[0])
		if got := weigh(t, Words{Handmade: "four-corner", Pocket: number(c[1]) + "x" + number(c[2]), From: side + "x" + side, Paper: "a3"}, Heft{}).Envelope; !near(got, want) {
			t.Errorf("%v: %.3f g, want %.3f g", c, got, want)
		}
	}
}

// area of a closed ring or an open one, by the shoelace.
func area(ring [][2]float64) float64 {
	sum := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		sum += p[0]*q[1] - q[0]*p[1]
	}
	return math.Abs(sum) / 2
}

// More paper weighs more, and whole letters are their parts.
func TestALetterIsTheSumOfItsParts(t *testing.T) {
	for _, w := range []Words{{Card: "a6"}, {Card: "5x7in", Paper: "letter"}, {Envelope: "dl"}, {Envelope: "c5", Paper: "a3", Flap: "rounded"}, {Handmade: "two-panel", Card: "a6"}} {
		one, two := weigh(t, w, Heft{Paper: "60"}), weigh(t, w, Heft{Paper: "120"})
		sum := two.Liner + two.Envelope
		if two.Card != nil {
			sum += *two.Card
		}
		if !near(two.Liner, 2*one.Liner) || one.Envelope != two.Envelope || math.Abs(sum-two.Letter) > 0.003 || two.Letter <= one.Letter {
			t.Errorf("%+v: %+v, then %+v", w, one, two)
		}
	}
	shallow, deep := weigh(t, Words{PocketDepth: "60"}, Heft{}), weigh(t, Words{PocketDepth: "80"}, Heft{})
	if !near(deep.Liner-shallow.Liner, grams(20*156, 80)) {
		t.Errorf("20 mm more of a liner 156 mm wide: %.3f g, want %.3f g", deep.Liner-shallow.Liner, grams(20*156, 80))
	}
}

func TestTheEstimateSaysWhatItIsOf(t *testing.T) {
	if said := weigh(t, Words{}, Heft{}).Text(); !strings.Contains(said, "at 80 g/m²; with the envelope about ") || !strings.Contains(said, "your post office says") || strings.Count(said, "\n") != 1 {
		t.Errorf("%q", said)
	}
	if said := weigh(t, Words{Card: "a6"}, Heft{Paper: "20lb bond"}).Text(); !strings.Contains(said, "at 75 g/m²; with envelope and card about ") {
		t.Errorf("%q", said)
	}
}
