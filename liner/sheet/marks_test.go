package sheet

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// letters is the box of a line of notes on the page, from the tops of its
// capitals to its tails.
func (b block) letters(l line) geom.Box {
	font := draw.Regular
	if l.bold {
		font = draw.Bold
	}
	r := b.at.Bounds(draw.Rect{MinX: l.x, MinY: l.drop - 0.8*b.size, MaxX: l.x + font.Width(l.text, b.size), MaxY: l.drop + 0.25*b.size})
	return geom.Box{MinX: r.MinX, MinY: r.MinY, MaxX: r.MaxX, MaxY: r.MaxY}
}

func boxWKT(b geom.Box) string {
	return fmt.Sprintf("((%.6f %.6f,%.6f %.6f,%.6f %.6f,%.6f %.6f,%.6f %.6f))", b.MinX, b.MinY, b.MaxX, b.MinY, b.MaxX, b.MaxY, b.MinX, b.MaxY, b.MinX, b.MinY)
}

func shapeWKT(points []geom.Point) string {
	var all []string
	for _, p := range points {
		all = append(all, fmt.Sprintf("%.6f %.6f", p.X, p.Y))
	}
	return "((" + strings.Join(all, ",") + "))"
}

// apart asks GEOS how far two groups of shapes lie apart; 0 when they touch.
func apart(t *testing.T, a, b []string) float64 {
	t.Helper()
	group := func(shapes []string) string { return "MULTIPOLYGON(" + strings.Join(shapes, ",") + ")" }
	said := strings.TrimSpace(string(referee.Run(t, "geosop", "-a", group(a), "-b", group(b), "-f", "wkt", "distance")))
	d, err := strconv.ParseFloat(said, 64)
	if err != nil {
		t.Fatalf("geosop said %q", said)
	}
	return d
}

// The design keeps marks clear of artwork: the rule's bar and every line of the
// notes keep off the bleed, off each other and inside the printable area.
func TestRuleAndNotesKeepClearOfTheArtwork(t *testing.T) {
	ruled, noted := 0, 0
	for i, one := range linings(t) {
		for _, paper := range one.papers {
			if !one.often && i%4 != 0 {
				continue // GEOS takes a while
			}
			name, l := one.name+" on "+paper.Short, one.liner
			p, err := Arrange(Task{Liner: l, Paper: paper, PrinterMargin: 5, Bleed: 2, Gap: 4, Layout: []string{"", Straight}[i%2]})
			if err != nil {
				continue // nothing is drawn
			}
			p, m := p.Settle()
			printable := geom.Box{MinX: 5, MinY: 5, MaxX: paper.Width - 5, MaxY: paper.Height - 5}
			within := func(what string, b geom.Box) {
				if b.MinX < printable.MinX-1e-6 || b.MinY < printable.MinY-1e-6 || b.MaxX > printable.MaxX+1e-6 || b.MaxY > printable.MaxY+1e-6 {
					t.Errorf("%s: %s at %v leaves the printable area", name, what, b)
				}
			}
			var art, lines []string
			for _, pl := range p.Placements {
				art = append(art, shapeWKT(pl.OnPage(p.Pieces[pl.Piece].Outline.Bleed(p.Bleed)).Flatten(0.01)))
			}
			if m.noted {
				noted++
				for _, l := range m.notes.lines {
					b := m.notes.letters(l)
					within("the line "+l.text, b)
					lines = append(lines, boxWKT(b))
				}
				if d := apart(t, lines, art); d < 1 {
					t.Errorf("%s: notes are %v from the artwork", name, d)
				}
			}
			if m.HasRule {
				ruled++
				bar := m.Rule.Bar()
				within("the rule", bar)
				if long := math.Max(bar.Width(), bar.Height()); math.Abs(long-100) > 1e-9 {
					t.Errorf("%s: the rule is %v long", name, long)
				}
				if d := apart(t, []string{boxWKT(bar)}, art); d < 1 {
					t.Errorf("%s: the rule is %v from the artwork", name, d)
				}
				if len(lines) > 0 {
					if d := apart(t, []string{boxWKT(m.Rule.box())}, lines); d <= 0 {
						t.Errorf("%s: the notes touch the rule", name)
					}
				}
			}
			for _, cut := range p.trims() {
				for _, mark := range cut.marks {
					if m.HasRule && m.Rule.box().Meets(mark.number) {
						t.Errorf("%s: the rule lies on a trimmer's mark", name)
					}
					for _, l := range m.notes.lines {
						if b := m.notes.letters(l); b.Meets(mark.line) || b.Meets(mark.number) {
							t.Errorf("%s: %q lies on a trimmer's mark", name, l.text)
						}
					}
				}
			}
			if got := len(m.Remarks()); (got == 0) != (m.HasRule && m.noted && m.folds == "") {
				t.Errorf("%s: rule %v, notes %v, remarks %v", name, m.HasRule, m.noted, m.Remarks())
			}
		}
	}
	t.Logf("%d sheets with a rule, %d with notes", ruled, noted)
	if ruled < 60 || noted < 60 {
		t.Errorf("%d sheets with a rule and %d with notes: the check hardly ran", ruled, noted)
	}
}

// A column of notes breaks only between notes, and its lines do not overlap.
func TestLinesOfNotesDoNotOverlap(t *testing.T) {
	l, err := liner.New(liner.Entries()[0].Envelope(liner.Pointed), liner.Clearances{SideGap: 3, GumClearance: 1.5, CornerRadius: 4})
	if err != nil {
		t.Fatal(err)
	}
	p, err := Arrange(Task{Liner: l, Paper: liner.Papers()[0], PrinterMargin: 5, Bleed: 2, Gap: 4, Layout: "straight"})
	if err != nil {
		t.Fatal(err)
	}
	set := 0
	for _, notes := range [][]note{steps(p, "Measure.", len(p.trims())), shorter(p, "Measure.", len(p.trims())), shortest(p)} {
		for w := 30.0; w <= 200; w += 17 {
			for h := 10.0; h <= 200; h += 19 {
				room := geom.Box{MinX: 7, MinY: 9, MaxX: 7 + w, MaxY: 9 + h}
				b, ok := fit(notes, room, append(readable, small...))
				if !ok {
					continue
				}
				set++
				for i, a := range b.lines {
					box := b.letters(a)
					if box.MinX < room.MinX-1e-6 || box.MinY < room.MinY-1e-6 || box.MaxX > room.MaxX+1e-6 || box.MaxY > room.MaxY+1e-6 {
						t.Errorf("%v x %v: %q at %v leaves its room", w, h, a.text, box)
					}
					for _, c := range b.lines[:i] {
						other := b.letters(c)
						if over := box.Within(other); over.Width() > 1e-6 && over.Height() > 1e-6 {
							t.Errorf("%v x %v: %q overlaps %q", w, h, a.text, c.text)
						}
					}
				}
			}
		}
	}
	if set < 50 {
		t.Errorf("notes were set in %d rooms only", set)
	}
}
