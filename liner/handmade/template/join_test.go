package template_test

import (
	"bytes"
	"math"
	"testing"
	"time"

	"underflap/liner/geom"
	"underflap/liner/handmade/template"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/referee"
)

// Two pages that meet are laid on each other by their offsets: every joining
// mark must be where the other page has it, and so must all ink between. The
// pages are drawn by poppler (pdftoppm).
func TestJoiningMarksAndLinesOfNeighboursCoincide(t *testing.T) {
	all := sketches(t)
	for _, name := range []string{"made up, joined from A4", "made up, as wide as A4 and longer", "four-corner from 8 in, joined A5", "two-panel from A3, joined from A4"} {
		t.Run(name, func(t *testing.T) {
			c := all[name]
			l, pages := c.layout, c.pages
			prints := map[template.Tile]*referee.Raster{}
			for i, tile := range l.Tiles {
				var file bytes.Buffer
				if err := pdf.Write(t.Context(), &file, pages[i:i+1], time.Time{}); err != nil {
					t.Fatal(err)
				}
				prints[tile] = referee.Renderers["poppler"](t, file.Bytes(), truthDPI)
			}
			joins := l.Joins(c.blank)
			if want := l.Rows*(l.Columns-1) + l.Columns*(l.Rows-1); len(joins) != want {
				t.Fatalf("%d joins, want %d", len(joins), want)
			}
			letters := map[string]bool{}
			for _, j := range joins {
				a, b := prints[j.A], prints[j.B]
				if len(j.Marks) == 0 {
					t.Error("a join without marks")
				}
				for _, m := range j.Marks {
					if letters[m.Letter] {
						t.Errorf("two marks %s", m.Letter)
					}
					letters[m.Letter] = true
					p, q := centre(a, j.A, m.At), centre(b, j.B, m.At)
					if d := p.Distance(q); !(d < truth) {
						t.Errorf("mark %s lies at %v on the one page and %v on the other", m.Letter, p, q)
					}
				}
				checkShared(t, j, a, b)
			}
		})
	}
}

// centre is the middle of the ink of a mark and its letters, in laid space.
func centre(page *referee.Raster, tile template.Tile, about geom.Point) geom.Point {
	const reach, step = 4.5, 0.02
	sum, x, y := 0.0, 0.0, 0.0
	for dx := -reach; dx <= reach; dx += step {
		for dy := -reach; dy <= reach; dy += step {
			dark := 255 - page.At(about.X+tile.Offset.X+dx, about.Y+tile.Offset.Y+dy)
			sum, x, y = sum+dark, x+dark*dx, y+dark*dy
		}
	}
	return geom.Point{X: about.X + x/sum, Y: about.Y + y/sum}
}

// checkShared compares the ink of both pages where they show the same: what is
// dark on the one lies less than 0.13 mm from something dark on the other.
func checkShared(t *testing.T, j template.Join, a, b *referee.Raster) {
	both := j.A.Window.Within(j.B.Window).Grow(-0.3)
	const step, reach, grey = 0.1, 0.13, 160
	dark, alone := 0, 0
	one := func(a, b *referee.Raster, at, bt template.Tile) {
		for x := both.MinX; x < both.MaxX; x += step {
			for y := both.MinY; y < both.MaxY; y += step {
				if a.At(x+at.Offset.X, y+at.Offset.Y) > grey-40 {
					continue
				}
				dark++
				near := false
				for dx := -reach; dx <= reach && !near; dx += reach / 2 {
					for dy := -reach; dy <= reach && !near; dy += reach / 2 {
						near = b.At(x+dx+bt.Offset.X, y+dy+bt.Offset.Y) < grey
					}
				}
				if !near {
					alone++
				}
			}
		}
	}
	one(a, b, j.A, j.B)
	one(b, a, j.B, j.A)
	if dark < 200 {
		t.Errorf("%d dark places were compared", dark)
	}
	if float64(alone) > 0.002*float64(dark) {
		t.Errorf("%d of %d dark places are on one page only", alone, dark)
	}
}

// A mark lies inside what both pages show, and keeps off cuts and folds where
// it can.
func TestJoiningMarksLieOnBothPages(t *testing.T) {
	for name, c := range sketches(t) {
		l := c.layout
		for _, j := range l.Joins(c.blank) {
			both := j.A.Window.Within(j.B.Window)
			across := math.Min(both.Width(), both.Height())
			if math.Abs(across-template.Overlap) > 1e-9 {
				t.Errorf("%s: pages share %v", name, across)
			}
			for _, m := range j.Marks {
				if m.At.X < both.MinX+4 || m.At.X > both.MaxX-4 || m.At.Y < both.MinY+4 || m.At.Y > both.MaxY-4 {
					t.Errorf("%s: mark %s at %v is not inside %v", name, m.Letter, m.At, both)
				}
			}
		}
	}
}
