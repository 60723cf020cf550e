package scene

import (
	"context"
	"fmt"
	"math"

	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/draw/progress"
	"underflap/pattern/draw/setting"
)

// MostCells is the most designs that one picture compares.
const MostCells = 60

// Cell is a design to compare, with the name under it.
type Cell struct {
	Name   string
	Design pattern.Design
}

// Room on a page of cells, as shares of a cell's envelope's width.
const (
	cellGap  = 0.17 // between envelopes
	nameEm   = 0.075
	nameDrop = 0.155 // from the envelope's foot to the name's baseline: past its shadow
)

// gridWide is about the width of a page of cells, in millimetres.
const gridWide = 400.0

// Grid draws the envelope once for every cell, each in its design with its name
// under it, row by row. The number of columns is a multiple of together, so that
// so many neighbours stay in one row, and makes a page a little wider than high.
// When ctx ends it stops and gives the context's error.
func (sc Scene) Grid(ctx context.Context, cells []Cell, v View, together int) (Placed, error) {
	b := sc.bounds(v)
	gap, drop := cellGap*b.Width(), (nameDrop+0.6*nameEm)*b.Width()
	dx, dy := b.Width()+gap, b.Height()+drop+0.55*gap
	columns := bestColumns(len(cells), max(1, together), dx, dy)
	rows := (len(cells) + columns - 1) / columns
	wide, high := float64(columns)*dx+gap, float64(rows)*dy+0.9*gap
	k := gridWide / wide
	p := Placed{Page: draw.NewPage(gridWide, high*k), Scale: k}
	p.Until(ctx)
	p.Trim = draw.Rect{MaxX: p.Width, MaxY: p.Height}
	p.Title = fmt.Sprintf("%d linings of a %s envelope", len(cells), sc.Liner.Envelope.Short)
	for i := range cells {
		p.Folds = append(p.Folds, draw.Point{X: k * (gap + float64(i%columns)*dx - b.MinX), Y: k * (0.9*gap + float64(i/columns)*dy - b.MinY)})
	}
	drawn := progress.Begin(ctx, "design", len(cells))
	defer drawn.End()
	p.Layer(draw.Artwork, func(s *draw.Surface) {
		s.Fill(p.Whole(), sc.Table)
		for i, cell := range cells {
			one := sc
			one.Design = cell.Design
			s.Within(draw.Matrix{A: k, D: k, E: p.Folds[i].X, F: p.Folds[i].Y}, func(s *draw.Surface) { one.draw(s, v) })
			drawn.Done(1)
		}
	})
	p.Layer(draw.Notes, func(s *draw.Surface) {
		wide := (b.Width() + 0.7*gap) * k
		em := commonEm(cells, nameEm*b.Width()*k, wide)
		for i, cell := range cells {
			name := setting.Shortened(cell.Name, draw.Regular, em, wide)
			x := p.Folds[i].X + k*(b.MinX+b.Width()/2) - draw.Regular.Width(name, em)/2
			s.Text(name, draw.Regular, em, draw.Translate(x, p.Folds[i].Y+k*(b.MaxY+nameDrop*b.Width())), lettering(sc.Table))
		}
	})
	return p, ctx.Err()
}

// bestColumns is the number for which the page is nearest to 4 to 3, with few
// empty places in the last row.
func bestColumns(n, together int, dx, dy float64) int {
	best, least := together, math.Inf(1)
	for c := together; c <= n; c += together {
		rows := (n + c - 1) / c
		shape := float64(c) * dx / (float64(rows) * dy)
		cost := math.Abs(math.Log(shape*3/4)) + 0.8*float64(c*rows-n)/float64(c*rows)
		if cost < least {
			best, least = c, cost
		}
	}
	return best
}

// commonEm is the size at which every name is no wider than width, from em down
// to two thirds of it.
func commonEm(cells []Cell, em, width float64) float64 {
	least := em
	for _, cell := range cells {
		if wide := draw.Regular.Width(cell.Name, em); wide > width {
			least = min(least, em*width/wide)
		}
	}
	return max(least, em*2/3)
}
