package sheet

import (
	"slices"
	"testing"

	"underflap/liner"
	"underflap/liner/geom"
)

// lining is a liner of the table with the papers it is tried on.
type lining struct {
	name   string
	liner  liner.Liner
	papers []liner.Paper
	often  bool // one of the commonest envelopes, tried in every way
}

// commonest are the envelopes that home card makers line most.
var commonest = []string{"C6", "C5", "DL", "B6", "C7", "A2", "A6", "A7", "No. 10", "Monarch"}

// linings is the whole size table: every envelope with its commonest flap on A4
// and Letter, and the ten commonest with every flap on A3 and Legal as well.
func linings(t *testing.T) (all []lining) {
	t.Helper()
	papers := liner.Papers()[:4]
	for _, e := range liner.Entries() {
		often := slices.Contains(commonest, e.Trade[0])
		shapes := []liner.Shape{""}
		if often {
			shapes = liner.Shapes
		}
		for _, shape := range shapes {
			l, err := liner.New(e.Envelope(shape), liner.Clearances{SideGap: 3, GumClearance: 1.5, CornerRadius: liner.UsualCornerRadius(e.Envelope(shape))})
			if err != nil {
				t.Fatalf("%s %s: %v", e.Name, shape, err)
			}
			one := lining{e.Trade[0] + " " + string(l.Envelope.Flap.Shape), l, papers, true}
			if !often {
				one.papers, one.often = []liner.Paper{papers[0], papers[2]}, false
			}
			all = append(all, one)
		}
	}
	if papers[0].Short != "A4" || papers[2].Short != "Letter" || len(all) < 100 {
		t.Fatalf("%d liners on %v", len(all), papers)
	}
	return all
}

// arranged is one settled sheet of the size table.
type arranged struct {
	name  string
	often bool
	plan  Plan
	marks Marks
}

// arrangedOnce is filled by the first test that asks.
var arrangedOnce []arranged

// plans is the whole size table on paper, for some bleeds, gaps and layouts.
func plans(t *testing.T, check func(name string, often bool, p Plan)) {
	t.Helper()
	for _, one := range everyPlan(t) {
		check(one.name, one.often, one.plan)
	}
}

func everyPlan(t *testing.T) []arranged {
	t.Helper()
	if arrangedOnce != nil {
		return arrangedOnce
	}
	for _, one := range linings(t) {
		for _, paper := range one.papers {
			for i, c := range []struct {
				bleed, gap float64
				layout     string
			}{{2, 4, ""}, {2, 4, Straight}, {0, 4, Straight}, {0, 0, Nested}, {4, 8, Straight}, {3, 1, Nested}} {
				if i > 1 && !one.often {
					break
				}
				p, err := Arrange(Task{Liner: one.liner, Paper: paper, PrinterMargin: 5, Bleed: c.bleed, Gap: c.gap, Layout: c.layout})
				if err != nil {
					continue
				}
				p, m := p.Settle()
				arrangedOnce = append(arrangedOnce, arranged{one.name + " " + paper.Short + " " + p.Layout, one.often, p, m})
			}
		}
	}
	if len(arrangedOnce) < 500 {
		t.Fatalf("%d plans only", len(arrangedOnce))
	}
	return arrangedOnce
}

// A fold tick lies on the fold's own line, outside its cut line, and never on
// another liner: it is cut away with the margin and leaves no mark.
func TestFoldTicksStandOnTheFoldOutsideEveryCutLine(t *testing.T) {
	plans(t, func(name string, _ bool, p Plan) {
		for i, pl := range p.Placements {
			o := p.Pieces[pl.Piece].Outline
			ends := []geom.Point{pl.page(geom.Point{X: o.Left}), pl.page(geom.Point{X: o.Right})}
			for k, tick := range p.ticks(i) {
				for _, b := range append([]geom.Box{tick.inner}, tick.dashes...) {
					mid := geom.Point{X: (b.MinX + b.MaxX) / 2, Y: (b.MinY + b.MaxY) / 2}
					along, across := mid.X-ends[k].X, mid.Y-ends[k].Y
					switch pl.Turn {
					case 90:
						along, across = across, along
					case 180:
						along = -along
					case 270:
						along, across = -across, along
					}
					if across > 1e-9 || across < -1e-9 {
						t.Errorf("%s, bleed %v, gap %v: a tick lies %v off the fold", name, p.Bleed, p.Gap, across)
					}
					if k == 0 && along > -tickFrom || k == 1 && along < tickFrom {
						t.Errorf("%s, bleed %v, gap %v: a tick begins %v from the cut line", name, p.Bleed, p.Gap, along)
					}
					for j := range p.Placements {
						cut := p.CutLine(p.Placements[j])
						if b.Meets(cut.Bounds()) && touches(cut.Flatten(0.01), b) {
							t.Errorf("%s, bleed %v, gap %v: tick %v of liner %d lies on liner %d", name, p.Bleed, p.Gap, b, i, j)
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
	plans(t, func(name string, often bool, p Plan) {
		remarks := p.foldRemark() != ""
		for i := range p.Placements {
			ticks := p.ticks(i)
			if seen := ticks[0].seen || ticks[1].seen; !seen && !remarks {
				t.Errorf("%s, bleed %v, gap %v: liner %d has no fold tick and nothing is said", name, p.Bleed, p.Gap, i)
			}
		}
		if often && p.Bleed == 2 && remarks {
			t.Errorf("%s: no room for fold ticks with the usual bleed", name)
		}
	})
}

// With the usual bleed every sheet of the commonest envelopes has its rule and
// its steps, and of the others nearly every one: the rest says what is missing.
func TestEverySheetHasItsRuleAndItsSteps(t *testing.T) {
	others, bare := 0, 0
	for _, one := range everyPlan(t) {
		if one.plan.Bleed != 2 {
			continue
		}
		lines := one.marks.Remarks()
		switch {
		case one.often && len(lines) > 0:
			t.Errorf("%s: %q", one.name, lines)
		case !one.often:
			others++
			bare += min(1, len(lines))
		}
	}
	t.Logf("%d of %d sheets of rarer envelopes lack a mark", bare, others)
	if others < 160 || bare > others/15 {
		t.Errorf("%d of %d sheets of rarer envelopes lack a mark", bare, others)
	}
}
