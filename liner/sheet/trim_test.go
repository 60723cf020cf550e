package sheet

import (
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
)

// Whoever cuts at the marks one after the other, each time through all paper
// that still hangs together there, hurts no liner and has every liner apart.
// The marks lie on bare paper that can be printed.
func TestTrimmerCutsPartTheLiners(t *testing.T) {
	cuts, sheets := 0, 0
	for _, e := range liner.Entries() {
		l, err := liner.New(e.Envelope(""), liner.Clearances{SideGap: 3, GumClearance: 1, CornerRadius: 3})
		if err != nil {
			continue
		}
		for _, paper := range liner.Papers()[:4] {
			for _, n := range []int{1, Most} {
				p, err := Arrange(Task{Liner: l, Paper: paper, PrinterMargin: 5, Bleed: 2, Gap: 4, Layout: Straight, PerSheet: n})
				if err == nil && len(p.Placements) < 20 {
					cuts += checkTrims(t, e.Name+" on "+paper.Short, p)
					sheets++
				}
			}
		}
	}
	if sheets < 400 || cuts < 3*sheets/2 {
		t.Errorf("only %d cuts on %d sheets", cuts, sheets)
	}
}

func checkTrims(t *testing.T, what string, p Plan) int {
	t.Helper()
	var boxes []geom.Box
	for _, pl := range p.Placements {
		boxes = append(boxes, p.CutLine(pl).Bounds())
	}
	trims := p.trims()
	for i, cut := range trims {
		for _, b := range boxes {
			low, high := b.MinY, b.MaxY
			if cut.upright {
				low, high = b.MinX, b.MaxX
			}
			if cut.at > low+1e-6 && cut.at < high-1e-6 {
				t.Fatalf("%s: cut %d at %v goes through %v", what, i+1, cut.at, b)
			}
		}
		for _, m := range cut.marks {
			for _, box := range []geom.Box{m.line, m.number} {
				if !p.onPaper(box) {
					t.Errorf("%s: mark %d at %v can not be printed", what, i+1, box)
				}
				for j, pl := range p.Placements {
					corner := geom.Point{X: box.MinX, Y: box.MinY}
					if inside(p, pl, corner) {
						t.Errorf("%s: mark %d at %v lies on liner %d", what, i+1, box, j+1)
					}
				}
			}
		}
	}
	for i, a := range boxes {
		for _, b := range boxes[:i] {
			if !parted(a, b, trims) && !brimful(p, around(p.Placements, p.Pieces[0].Outline.Contour)) {
				t.Errorf("%s: no cut between %v and %v", what, a, b)
			}
		}
	}
	return len(trims)
}

func inside(p Plan, pl Placement, q geom.Point) bool {
	return touches(pl.OnPage(p.Pieces[pl.Piece].Outline.Bleed(p.Bleed)).Flatten(0.01), geom.Box{MinX: q.X, MaxX: q.X, MinY: q.Y, MaxY: q.Y})
}

// brimful tells whether liners leave no room for marks at either end of a cut.
func brimful(p Plan, b geom.Box) bool {
	least, room := p.Bleed+trimKeep+trimLeast, p.room()
	return b.MinX-room.MinX < least && room.MaxX-b.MaxX < least || b.MinY-room.MinY < least && room.MaxY-b.MaxY < least
}

func parted(a, b geom.Box, trims []trim) bool {
	const eps = 1e-6
	for _, cut := range trims {
		if cut.upright && (cut.at >= a.MaxX-eps && cut.at <= b.MinX+eps || cut.at >= b.MaxX-eps && cut.at <= a.MinX+eps) {
			return true
		}
		if !cut.upright && (cut.at >= a.MaxY-eps && cut.at <= b.MinY+eps || cut.at >= b.MaxY-eps && cut.at <= a.MinY+eps) {
			return true
		}
	}
	return false
}
