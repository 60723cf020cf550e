package sheet

import (
	"context"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/nest"
	"underflap/pattern/draw"
)

// mixes are settled sheets of two to four different liners of the size table.
func mixes(t *testing.T, n int) (all []arranged) {
	t.Helper()
	r := rand.New(rand.NewPCG(3, 9))
	each := linings(t)
	called := []string{"invitations", "menus", "place cards for the long table", "thank-you notes"}
	for len(all) < n {
		paper := liner.Papers()[r.IntN(4)]
		task := Task{Paper: paper, PrinterMargin: 5, Bleed: 2, Gap: 4}
		var pieces []Piece
		var cuts []geom.Contour
		var of, kinds []int
		for i := range 2 + r.IntN(3) {
			l := each[r.IntN(len(each))].liner
			p := NewPiece(l, l.FullPocketDepth()*(0.7+0.3*r.Float64()), task.Bleed)
			p.Name = called[i]
			pieces, cuts, of, kinds = append(pieces, p), append(cuts, p.Outline.Contour), append(of, i), append(kinds, i)
		}
		tries := 300
		at, ok := task.Room().Lay(context.Background(), nest.NewMix(task.Gap, cuts...), kinds, &tries)
		if !ok {
			continue
		}
		p, m := Mixed(task, pieces, task.Place(at, of))
		all = append(all, arranged{name: p.Title("dots"), plan: p, marks: m})
	}
	return all
}

// named is a name on a sheet, and the box of its letters from the tops of the
// capitals to the tails.
type named struct {
	piece int
	text  string
	box   geom.Box
}

func namesOn(p Plan, m Marks) (all []named) {
	letters := func(text string, size float64, at draw.Matrix) geom.Box {
		b := at.Bounds(draw.Rect{MinY: -0.75 * size, MaxX: draw.Regular.Width(text, size), MaxY: 0.22 * size})
		return geom.Box{MinX: b.MinX, MinY: b.MinY, MaxX: b.MaxX, MaxY: b.MaxY}
	}
	for i, pl := range p.Placements {
		for _, t := range p.ticks(i) {
			if t.named {
				all = append(all, named{pl.Piece, t.text, letters(t.text, t.size, t.word)})
			}
		}
	}
	for _, l := range m.labels {
		piece := slices.IndexFunc(p.Pieces, func(q Piece) bool { return q.Name == l.text })
		all = append(all, named{piece, l.text, letters(l.text, labelType, l.at)})
	}
	return all
}

// Every liner of a shared sheet has its name beside it, once, or a remark says
// where it lies; as GEOS measures, a name touches no artwork, no other words and
// not the rule, and lies within 3 mm of its own liner's artwork.
func TestNamesOnSharedSheetsAreClearAndTheirOwn(t *testing.T) {
	seen, missing := 0, 0
	for _, one := range mixes(t, 40) {
		p, m := one.plan, one.marks
		names := namesOn(p, m)
		var art []string
		for _, pl := range p.Placements {
			art = append(art, shapeWKT(pl.OnPage(p.Pieces[pl.Piece].Outline.Bleed(p.Bleed)).Flatten(0.01)))
		}
		var words []string
		for _, l := range m.notes.lines {
			words = append(words, boxWKT(m.notes.letters(l)))
		}
		if m.HasRule {
			words = append(words, boxWKT(m.Rule.box()))
		}
		found := map[int]int{}
		for i, n := range names {
			seen++
			found[n.piece]++
			if !strings.HasSuffix(n.text, p.Pieces[n.piece].Name) {
				t.Errorf("%s: %q is said of %s", one.name, n.text, p.Pieces[n.piece].Name)
			}
			if !p.onPaper(n.box.Grow(-0.7)) {
				t.Errorf("%s: %q at %v leaves the paper that is printed", one.name, n.text, n.box)
			}
			own := slices.IndexFunc(p.Placements, func(pl Placement) bool { return pl.Piece == n.piece })
			near := apart(t, []string{boxWKT(n.box)}, art[own:own+1])
			if d := apart(t, []string{boxWKT(n.box)}, art); d <= 0.05 {
				t.Errorf("%s: %q is %v from artwork", one.name, n.text, d)
			}
			if near > 3 {
				t.Errorf("%s: %q is %v from its liner", one.name, n.text, near)
			}
			others := slices.Clone(words)
			for _, o := range names[:i] {
				others = append(others, boxWKT(o.box))
			}
			if len(others) > 0 && apart(t, []string{boxWKT(n.box)}, others) <= 0 {
				t.Errorf("%s: %q touches other words", one.name, n.text)
			}
		}
		remarks := strings.Join(m.Remarks(), "\n")
		for i, piece := range p.Pieces {
			said := strings.Contains(remarks, "the name of "+piece.Name+": "+p.lies(i))
			if (found[i] == 1) == said || found[i] > 1 {
				t.Errorf("%s: %s is named %d times, remarks %q", one.name, piece.Name, found[i], remarks)
			}
			if said {
				missing++
			}
			if m.noted && !slices.ContainsFunc(m.notes.lines, func(l line) bool { return strings.Contains(l.text, strings.Fields(piece.Name)[0]) }) {
				t.Errorf("%s: the steps do not name %s", one.name, piece.Name)
			}
		}
	}
	t.Logf("%d names beside their liners, %d in remarks", seen, missing)
	if seen < 70 || missing > seen/5 {
		t.Errorf("%d names stand beside their liners and %d do not", seen, missing)
	}
}

// Where liners lie is said of each in other words, and truly: an upper one lies
// above every lower one, a left one left of every right one.
func TestPlacesAreSaidApartAndTruly(t *testing.T) {
	for _, one := range mixes(t, 40) {
		p := one.plan
		said, numbers := p.places()
		for i, n := range numbers { // which stand for what is said
			for j, m := range numbers {
				x, y := p.CutLine(p.Placements[i]).Bounds(), p.CutLine(p.Placements[j]).Bounds()
				if i != j && n == m || n < m && x.MinY+x.MaxY > y.MinY+y.MaxY+2 {
					t.Errorf("%s: no. %d lies below no. %d", one.name, n, m)
				}
			}
		}
		if numbers != nil {
			continue
		}
		for i, a := range p.Placements {
			for j, b := range p.Placements {
				if i == j {
					continue
				}
				if said[i] == said[j] || said[i] == "" {
					t.Errorf("%s: two liners lie %q", one.name, said[i])
				}
				x, y := p.CutLine(a).Bounds(), p.CutLine(b).Bounds()
				if strings.Contains(said[i], "upper") && strings.Contains(said[j], "lower") && x.MinY+x.MaxY >= y.MinY+y.MaxY {
					t.Errorf("%s: %q lies below %q", one.name, said[i], said[j])
				}
				if strings.Contains(said[i], "left") && strings.Contains(said[j], "right") && x.MinX+x.MaxX >= y.MinX+y.MaxX {
					t.Errorf("%s: %q lies right of %q", one.name, said[i], said[j])
				}
			}
		}
	}
}

// A sheet of equal liners for two lines stays as its plan has it, trimmer cuts and
// all.
func TestASheetAmongLinesStaysAsItIs(t *testing.T) {
	for _, one := range markTasks(t) {
		p, err := Arrange(one.task)
		if err != nil || p.PerSheet() < 2 {
			continue
		}
		p, m := p.Settle()
		a, b := p.Pieces[0], p.Pieces[0]
		a.Name, b.Name = "menus", "place cards"
		of := make([]int, p.PerSheet())
		of[len(of)-1] = 1
		q, marks := p.Among([]Piece{a, b}, of)
		for i := range p.Placements {
			if x, y := p.CutLine(p.Placements[i]), q.CutLine(q.Placements[i]); !slices.Equal(x, y) {
				t.Errorf("%s: liner %d was moved", one.name, i)
			}
		}
		if p.Layout == Straight && len(m.Cuts()) > 0 && len(marks.Cuts()) == 0 {
			t.Errorf("%s: the trimmer cuts are gone", one.name)
		}
	}
}

// Placements that words such as "upper left" cannot tell apart are told by number, in
// their order.
func TestNumbersFromTheTop(t *testing.T) {
	for want, numbers := range map[string][]int{"no. 2 from the top": {2}, "nos. 1 and 2 from the top": {2, 1},
		"nos. 1–4 and 6–8 from the top": {2, 6, 7, 4, 8, 1, 3}, "nos. 1, 3 and 5 from the top": {5, 3, 1}} {
		if got := counted(numbers); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
