package sheet

import (
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
)

// plans is the whole size table on every paper, for some bleeds and gaps.
func plans(t *testing.T, check func(name string, p Plan)) {
	t.Helper()
	checked := 0
	for _, e := range liner.Entries() {
		for _, shape := range liner.Shapes {
			l, err := liner.New(e.Envelope(shape), liner.Clearances{SideGap: 3, GumClearance: 1.5, CornerRadius: 4})
			if err != nil {
				t.Fatal(err)
			}
			for _, paper := range liner.Papers() {
				for _, c := range []struct{ bleed, gap float64 }{{2, 4}, {0, 4}, {0, 0}, {4, 8}, {3, 1}} {
					p, err := Arrange(Task{Liner: l, Paper: paper, PrinterMargin: 5, Bleed: c.bleed, Gap: c.gap, Layout: "straight"})
					if err != nil {
						continue
					}
					checked++
					check(e.Trade[0]+" "+string(shape)+" "+paper.Short, p)
				}
			}
		}
	}
	if checked < 300 {
		t.Fatalf("%d plans only", checked)
	}
}

// A fold tick lies on the fold's own line, outside its cut line, and never on
// another liner: it is cut away with the margin and leaves no mark.
func TestFoldTicksStandOnTheFoldOutsideEveryCutLine(t *testing.T) {
	plans(t, func(name string, p Plan) {
		for i, pl := range p.Placements {
			o := p.Pieces[pl.Piece].Outline
			ends := []geom.Point{pl.page(geom.Point{X: o.Left}), pl.page(geom.Point{X: o.Right})}
			for k, tick := range p.ticks(i) {
				for _, b := range append([]geom.Box{tick.inner}, tick.dashes...) {
					mid := geom.Point{X: (b.MinX + b.MaxX) / 2, Y: (b.MinY + b.MaxY) / 2}
					along, across := mid.X-ends[k].X, mid.Y-ends[k].Y
					if pl.Turn == 90 {
						along, across = across, along
					}
					if across > 1e-9 || across < -1e-9 {
						t.Errorf("%s, bleed %v, gap %v: a tick lies %v off the fold", name, p.Bleed, p.Gap, across)
					}
					if k == 0 && along > -tickFrom || k == 1 && along < tickFrom {
						t.Errorf("%s, bleed %v, gap %v: a tick begins %v from the cut line", name, p.Bleed, p.Gap, along)
					}
					for j := range p.Placements {
						cut := p.CutLine(p.Placements[j]).Bounds()
						if over := b.Within(cut); over.Width() > 1e-9 && over.Height() > 1e-9 {
							t.Errorf("%s, bleed %v, gap %v: tick %v of liner %d lies on liner %d, %v", name, p.Bleed, p.Gap, b, i, j, cut)
						}
					}
				}
			}
		}
	})
}

// On every sheet of the table each liner has at least one fold tick that a
// printer can print, or a remark says where the fold lies.
func TestEveryLinerShowsItsFold(t *testing.T) {
	plans(t, func(name string, p Plan) {
		remarks := len(Mark(p).folds) > 0
		for i := range p.Placements {
			ticks := p.ticks(i)
			if seen := ticks[0].seen || ticks[1].seen; !seen && !remarks {
				t.Errorf("%s, bleed %v, gap %v: liner %d has no fold tick and nothing is said", name, p.Bleed, p.Gap, i)
			}
		}
		if p.Bleed == 2 && remarks {
			t.Errorf("%s: no room for fold ticks with the usual bleed", name)
		}
	})
}

// With the usual bleed every sheet of the table has its rule and its steps.
func TestEverySheetHasItsRuleAndItsSteps(t *testing.T) {
	plans(t, func(name string, p Plan) {
		if p.Bleed != 2 {
			return
		}
		if lines := Mark(p).Remarks(); len(lines) > 0 {
			t.Errorf("%s: %q", name, lines)
		}
	})
}
