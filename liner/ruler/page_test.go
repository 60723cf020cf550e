package ruler_test

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/ruler"
	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// texts are the lines of a page with the box of their letters' outlines.
func texts(page *draw.Page) (said []string, boxes []draw.Rect) {
	draw.Walk(page.Nodes(), func(n draw.Node) {
		if t, ok := n.(*draw.Text); ok {
			said = append(said, t.String)
			boxes = append(boxes, t.Font.Outlines(t.String, t.Size).Transform(t.At).Bounds())
		}
	})
	return said, boxes
}

func apart(a, b draw.Rect) float64 {
	dx := max(a.MinX-b.MaxX, b.MinX-a.MaxX)
	dy := max(a.MinY-b.MaxY, b.MinY-a.MaxY)
	return max(dx, dy) // below zero: they overlap
}

// On every paper that is accepted, with every margin: words touch neither the
// rules nor each other, and all lies 2 mm inside the border, whose corners are
// 0.8 mm thick.
func TestWordsKeepClearOfRulesAndOfEachOther(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		paper := liner.Paper{Short: "custom", Width: rapid.Float64Range(110, 330).Draw(t, "width"), Height: rapid.Float64Range(110, 450).Draw(t, "height")}
		margin := rapid.Float64Range(0, 15).Draw(t, "margin")
		page, err := ruler.Page(paper, margin, "")
		if err != nil {
			return
		}
		drawn++
		rules, err := ruler.Rules(paper, margin, "")
		if err != nil {
			t.Fatal(err)
		}
		said, boxes := texts(page)
		border := ruler.Border(paper, margin)
		inside := func(what string, b draw.Rect) {
			if b.MinX < border.MinX+2 || b.MinY < border.MinY+2 || b.MaxX > border.MaxX-2 || b.MaxY > border.MaxY-2 {
				t.Errorf("%s at %v leaves the border %v", what, b, border)
			}
		}
		for i, b := range boxes {
			inside(said[i], b)
			for _, r := range rules {
				if d := apart(b, r.Box()); d < 0.8 {
					t.Errorf("%q is %.2f mm from a rule", said[i], d)
				}
			}
			for j := range i {
				if d := apart(b, boxes[j]); d < 0.25 {
					t.Errorf("%q is %.2f mm from %q", said[i], d, said[j])
				}
			}
		}
		for i, r := range rules {
			inside("a rule", r.Box())
			for j := range i {
				if d := apart(r.Box(), rules[j].Box()); d < 2 {
					t.Errorf("rules %d and %d are %.2f mm apart", i, j, d)
				}
			}
		}
	})
	if drawn < 20 {
		t.Errorf("%d pages were drawn: the check hardly ran", drawn)
	}
}

// What is measured is what is told to measure: boxes of 100 mm and 4 in, an
// inch being 25.4 mm.
func TestRulesAreOneHundredMillimetresAndFourInches(t *testing.T) {
	for _, paper := range papers(t) {
		rules, err := ruler.Rules(paper, 5, "")
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range [][2]float64{{100, 5}, {101.6, 5}, {5, 100}, {5, 101.6}} {
			if b := rules[i].Box(); math.Abs(b.Width()-want[0]) > 1e-9 || math.Abs(b.Height()-want[1]) > 1e-9 {
				t.Errorf("%s: rule %d is %v by %v, want %v", paper.Short, i, b.Width(), b.Height(), want)
			}
		}
	}
}

func TestThePageSaysWhatToDo(t *testing.T) {
	page, err := ruler.Page(liner.Papers()[0], 5, "")
	if err != nil {
		t.Fatal(err)
	}
	lines, _ := texts(page)
	said := strings.Join(lines, " ")
	for _, want := range []string{"actual size", "100 mm", "half a millimetre", "--correct-x 98.7 --correct-y 99.2", "100/98.7", "3.95in", "--printer NAME", "--printer-margin 8", "5 mm"} {
		if !strings.Contains(said, want) {
			t.Errorf("the page does not say %q: %s", want, said)
		}
	}
}

var sizes = regexp.MustCompile(`(\d+) × (\d+) mm`)

// The paper that a refusal asks for is accepted, and one a little smaller is
// not.
func TestPaperTooSmallForTheRulesIsRefused(t *testing.T) {
	for _, margin := range []float64{0, 3, 5, 6.35, 12.7} {
		for _, small := range []liner.Paper{{Short: "A6", Width: 105, Height: 148}, {Short: "100 × 400 mm", Width: 100, Height: 400}, {Short: "400 × 100 mm", Width: 400, Height: 100}} {
			page, err := ruler.Page(small, margin, "")
			var refused *words.Refused
			if !errors.As(err, &refused) || refused.Field != "paper" || refused.Given != small.Short || page != nil {
				t.Fatalf("%s: %v", small.Short, err)
			}
			asked := sizes.FindAllStringSubmatch(refused.Accepts, -1)
			if len(asked) != 2 {
				t.Fatalf("%s asks for %d papers", refused.Accepts, len(asked))
			}
			for _, size := range asked {
				w, _ := strconv.ParseFloat(size[1], 64)
				h, _ := strconv.ParseFloat(size[2], 64)
				if _, err := ruler.Page(liner.Paper{Short: "asked", Width: w, Height: h}, margin, ""); err != nil {
					t.Errorf("margin %g: %v", margin, err)
				}
				if _, err := ruler.Page(liner.Paper{Short: "less", Width: w - 1.1, Height: h - 1.1}, margin, ""); err == nil {
					t.Errorf("margin %g: %g by %g would have done", margin, w-1.1, h-1.1)
				}
			}
		}
	}
}

func TestEveryLargerPaperOfTheTableTakesThePage(t *testing.T) {
	taken := 0
	for _, paper := range liner.Papers() {
		for _, p := range []liner.Paper{paper, {Short: paper.Short + " lying", Width: paper.Height, Height: paper.Width}} {
			if min(p.Width, p.Height) < 152 {
				continue
			}
			page, err := ruler.Page(p, 5, "")
			if err != nil {
				t.Fatal(err)
			}
			if got, want := fmt.Sprint(page.Width, page.Height), fmt.Sprint(p.Width, p.Height); got != want {
				t.Errorf("%s: the page is %s", want, got)
			}
			taken++
		}
	}
	if taken < 8 {
		t.Errorf("%d papers were tried", taken)
	}
}
