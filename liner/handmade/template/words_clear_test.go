package template_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"underflap/liner/geom"
	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
	"underflap/pattern/words"
)

// A person cuts and folds along lines and reads words: no letter comes near a
// cut line or a fold that its page shows. GEOS (geosop) measures, from the
// boxes of the letters.
func TestWordsKeepClearOfCutsAndFolds(t *testing.T) {
	for name, c := range sketches(t) {
		l, pages := c.layout, c.pages
		for i, tile := range l.Tiles {
			onPage := func(p geom.Point) string { q := l.OnPage(tile, p); return fmt.Sprintf("%.5f %.5f", q.X, q.Y) }
			var lines []string
			for k, p := range c.blank.Outline {
				lines = append(lines, "("+onPage(p)+","+onPage(c.blank.Outline[(k+1)%len(c.blank.Outline)])+")")
			}
			for _, p := range c.blank.Panels[1:] {
				lines = append(lines, "("+onPage(p.Fold.A)+","+onPage(p.Fold.B)+")")
			}
			var words []string
			said, boxes := texts(pages[i])
			for k, box := range boxes {
				if isMark(said[k]) {
					continue
				}
				var ring []string
				for _, p := range append(box, box[0]) {
					ring = append(ring, fmt.Sprintf("%.5f %.5f", p.X, p.Y))
				}
				words = append(words, "(("+strings.Join(ring, ",")+"))")
			}
			if len(words) == 0 {
				continue // a corner of the sheet
			}
			out := strings.TrimSpace(string(referee.Run(t, "geosop", "-a", "MULTIPOLYGON("+strings.Join(words, ",")+")",
				"-b", "MULTILINESTRING("+strings.Join(lines, ",")+")", "-f", "wkt", "distance")))
			d, err := strconv.ParseFloat(out, 64)
			if err != nil {
				t.Fatalf("geosop said %q", out)
			}
			if d < 0.9 {
				t.Errorf("%s, page %d: words are %.2f mm from a line", name, i+1, d)
			}
		}
	}
}

// isMark tells whether a text is a joining mark's letter, which lies where its
// pages meet.
func isMark(text string) bool { return len(text) == 1 && text >= "A" && text <= "Z" }

// Words lie inside the printer margin and not on each other.
func TestWordsAreWholeAndApart(t *testing.T) {
	for name, c := range sketches(t) {
		pages := c.pages
		for i, page := range pages {
			said, boxes := texts(page)
			if len(said) == 0 {
				t.Errorf("%s: nothing is written on page %d", name, i+1)
			}
			for k, box := range boxes {
				for _, p := range box {
					if p.X < c.margin || p.Y < c.margin || p.X > page.Width-c.margin || p.Y > page.Height-c.margin {
						t.Errorf("%s, page %d: %q at %v is not printed whole", name, i+1, said[k], p)
					}
				}
				for j := range k {
					if gap := between(box, boxes[j]); gap < 0.15 {
						t.Errorf("%s, page %d: %q lies %.2f mm from %q", name, i+1, said[k], gap, said[j])
					}
				}
			}
		}
	}
}

// between is the widest gap that a straight line along a side of either box
// leaves between the two; below zero they overlap.
func between(a, b []geom.Point) float64 {
	gap := math.Inf(-1)
	for _, box := range [][]geom.Point{a, b} {
		for i, p := range box {
			q := box[(i+1)%4]
			long := p.Distance(q)
			if long == 0 {
				continue
			}
			nx, ny := (p.Y-q.Y)/long, (q.X-p.X)/long
			extent := func(box []geom.Point) (low, high float64) {
				low, high = math.Inf(1), math.Inf(-1)
				for _, r := range box {
					d := r.X*nx + r.Y*ny
					low, high = min(low, d), max(high, d)
				}
				return low, high
			}
			aLow, aHigh := extent(a)
			bLow, bHigh := extent(b)
			gap = max(gap, aLow-bHigh, bLow-aHigh)
		}
	}
	return gap
}

// Every panel, fold and page is named, and the steps carry their cautions.
func TestTheTemplateNamesItsPartsAndSaysWhatToDo(t *testing.T) {
	for name, c := range sketches(t) {
		l, pages := c.layout, c.pages
		all := ""
		for i, page := range pages {
			said, _ := texts(page)
			text := strings.Join(said, " ")
			all += " " + text
			if i < len(l.Tiles) && len(l.Tiles) > 1 {
				tile := l.Tiles[i]
				if want := fmt.Sprintf("page %d of %d, row %d column %d", i+1, len(pages), tile.Row, tile.Column); !strings.Contains(text, want) {
					t.Errorf("%s: page %d does not say %q: %s", name, i+1, want, text)
				}
			}
			if page.Width != c.paper.Width || page.Height != c.paper.Height {
				t.Errorf("%s: page %d is %v × %v", name, i+1, page.Width, page.Height)
			}
		}
		wants := []string{"address side outside", "glue", "100 mm rule", "actual size", "Fold 1 and 2 inwards, then 3", "where the template is hatched", "Let it dry", "is the flap", "no gum",
			"cutting mat", "metal ruler", "fingers behind the edge", "away from yourself", "solvent", "open a window", "measure", "inches"}
		for i, p := range c.blank.Panels {
			wants = append(wants, p.Name)
			if i > 0 {
				wants = append(wants, fmt.Sprintf("%d %s", i, p.Fold.Name))
			}
		}
		if len(l.Tiles) > 1 {
			wants = append(wants, "thin grey line", "diamonds")
		}
		for _, want := range wants {
			if !strings.Contains(all, want) {
				t.Errorf("%s: nothing says %q", name, want)
			}
		}
		for _, m := range c.blank.Measures {
			first := strings.Fields(m.Name)[0]
			if !strings.Contains(all, first) || !strings.Contains(all, fmt.Sprintf(" %.1f ", m.MM)) || !strings.Contains(all, words.Inches(m.MM)) {
				t.Errorf("%s: the table lacks %q, %v", name, m.Name, m.MM)
			}
		}
	}
}

// Cut lines, folds and the rest lie on layers of their own, each once.
func TestPagesHaveTheirLayersOnce(t *testing.T) {
	for name, c := range sketches(t) {
		pages := c.pages
		for i, page := range pages {
			names := ""
			for _, n := range page.Nodes() {
				names += n.(*draw.Layer).Name + " "
			}
			if names != "cut fold notes " && names != "notes " {
				t.Errorf("%s, page %d: layers %s", name, i+1, names)
			}
		}
	}
}
