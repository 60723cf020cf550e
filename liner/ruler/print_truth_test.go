package ruler_test

import (
	"bytes"
	"fmt"
	"math"
	"testing"
	"time"

	"underflap/liner"
	"underflap/liner/ruler"
	"underflap/pattern/draw"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/referee"
	"underflap/pattern/draw/svg"
)

// The page is a measure only if it prints as one. Referees: poppler
// (pdftoppm), MuPDF (mutool), Ghostscript and librsvg (rsvg-convert).

const (
	truthDPI = 600
	// 0.05 mm, and half a pixel for where a renderer puts its grid
	truth = 0.05 + 25.4/truthDPI/2
)

func papers(t *testing.T) []liner.Paper {
	all := []liner.Paper{{Name: "small", Short: "140 × 170 mm", Width: 140, Height: 170}}
	for _, name := range []string{"a4", "letter", "a3"} {
		paper, err := liner.ParsePaper("paper", name)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, paper)
	}
	return all
}

func TestThePagePrintsAtTrueSize(t *testing.T) {
	const margin = 7
	for _, paper := range papers(t) {
		page, err := ruler.Page(paper, margin, "")
		if err != nil {
			t.Fatal(err)
		}
		rules, err := ruler.Rules(paper, margin, "")
		if err != nil {
			t.Fatal(err)
		}
		var asPDF, asSVG bytes.Buffer
		if err := pdf.Write(t.Context(), &asPDF, []*draw.Page{page}, time.Time{}); err != nil {
			t.Fatal(err)
		}
		if err := svg.Write(t.Context(), &asSVG, page); err != nil {
			t.Fatal(err)
		}
		check := func(t *testing.T, print *referee.Raster) {
			for i, r := range rules {
				t.Run(fmt.Sprint("rule ", i), func(t *testing.T) {
					checkEnds(t, r, print)
					checkTicks(t, r, print)
				})
			}
			t.Run("border", func(t *testing.T) { checkBorder(t, paper, margin, print) })
		}
		for renderer, render := range referee.Renderers {
			t.Run(paper.Short+" "+renderer, func(t *testing.T) { check(t, render(t, asPDF.Bytes(), truthDPI)) })
		}
		t.Run(paper.Short+" librsvg", func(t *testing.T) { check(t, referee.SVG(t, asSVG.Bytes(), truthDPI, "")) })
	}
}

// edge is where ink ends on the way from a place on it to a bare one, given as
// the distance from the first: the ink found on the way, over full ink.
func edge(page *referee.Raster, from, to draw.Point) float64 {
	long := math.Hypot(to.X-from.X, to.Y-from.Y)
	full := 255 - page.At(from.X, from.Y)
	const steps = 2000
	sum := 0.0
	for i := range steps {
		k := (float64(i) + 0.5) / steps
		sum += (255 - page.At(from.X+(to.X-from.X)*k, from.Y+(to.Y-from.Y)*k)) / full
	}
	return sum / steps * long
}

// along places a point by its distance along a rule and from its base line.
func along(r ruler.Rule, a, c float64) draw.Point {
	b := r.Box()
	switch {
	case r.Upright && r.Flipped:
		return draw.Point{X: b.MaxX - c, Y: b.MinY + a}
	case r.Upright:
		return draw.Point{X: b.MinX + c, Y: b.MinY + a}
	case r.Flipped:
		return draw.Point{X: b.MinX + a, Y: b.MaxY - c}
	}
	return draw.Point{X: b.MinX + a, Y: b.MinY + c}
}

// trueLength is a rule's length by the definition of its unit.
func trueLength(r ruler.Rule) float64 {
	if r.Unit == "in" {
		return 4 * 25.4
	}
	return 100
}

func checkEnds(t *testing.T, r ruler.Rule, page *referee.Raster) {
	want := trueLength(r)
	const base = 0.125 // the middle of the base line
	first := 1.5 - edge(page, along(r, 1.5, base), along(r, -0.5, base))
	last := want - 1.5 + edge(page, along(r, want-1.5, base), along(r, want+0.5, base))
	if math.Abs(last-first-want) > truth || math.Abs(first) > truth {
		t.Errorf("the rule prints from %.3f to %.3f, want 0 to %g", first, last, want)
	}
}

// checkTicks finds the middle of every tick: 1 mm or 1/16 in from the next.
func checkTicks(t *testing.T, r ruler.Rule, page *referee.Raster) {
	step := 1.0
	if r.Unit == "in" {
		step = 25.4 / 16
	}
	last := int(math.Round(trueLength(r) / step))
	for k := range last + 1 {
		sum, moment := 0.0, 0.0
		for d := -0.45; d <= 0.45; d += 0.01 {
			p := along(r, float64(k)*step+d, 1.2)
			dark := 255 - page.At(p.X, p.Y)
			sum += dark
			moment += dark * d
		}
		off := moment / sum
		switch k { // the first and the last, 0.2 mm wide, lie inside the rule's ends
		case 0:
			off -= 0.1
		case last:
			off += 0.1
		}
		if sum*0.01/255 < 0.05 || math.Abs(off) > truth {
			t.Errorf("tick %d is %.3f mm off, its ink %.3f mm", k, off, sum*0.01/255)
		}
	}
}

// checkBorder finds the border's outer edges at the margin, and the ends of the
// corners' arms 10 mm from there.
func checkBorder(t *testing.T, paper liner.Paper, margin float64, page *referee.Raster) {
	w, h := paper.Width, paper.Height
	check := func(what string, got, want float64) {
		if math.Abs(got-want) > truth {
			t.Errorf("%s at %.3f, want %g", what, got, want)
		}
	}
	const in = 0.1 // the middle of the border's line
	inside, outside := margin+in, margin-1.0
	check("left border", inside-edge(page, draw.Point{X: inside, Y: h / 3}, draw.Point{X: outside, Y: h / 3}), margin)
	check("top border", inside-edge(page, draw.Point{X: w / 3, Y: inside}, draw.Point{X: w / 3, Y: outside}), margin)
	check("right border", w-inside+edge(page, draw.Point{X: w - inside, Y: h / 3}, draw.Point{X: w - outside, Y: h / 3}), w-margin)
	check("bottom border", h-inside+edge(page, draw.Point{X: w / 3, Y: h - inside}, draw.Point{X: w / 3, Y: h - outside}), h-margin)

	arm := margin + 0.5 // inside the arms, past the border's line
	for _, left := range []bool{true, false} {
		for _, top := range []bool{true, false} {
			at := func(x, y float64) draw.Point {
				if !left {
					x = w - x
				}
				if !top {
					y = h - y
				}
				return draw.Point{X: x, Y: y}
			}
			check("arm across", arm+edge(page, at(arm, arm), at(margin+12, arm)), margin+10)
			check("arm down", arm+edge(page, at(arm, arm), at(arm, margin+12)), margin+10)
		}
	}
}
