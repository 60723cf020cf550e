package look

import (
	"fmt"
	"math"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// atTheFold marks what is measured at the left end of the fold: the gaps in
// the enlarged detail, the shoulder there or, where it is long, on the
// envelope.
func (b *board) atTheFold(f *figure) {
	if f.larger > 0 {
		b.lens(f)
		b.gaps(f)
	}
	up := f.Envelope.Flap.Shoulder
	if f.shoulders {
		b.sides(f, f.near, up, f.glass.holdsMark)
		return
	}
	if f.Envelope.Flap.Shape == liner.Square {
		up = f.depth
	}
	b.sides(f, f.main, up, nil)
}

// lens ties the detail to the ring on the envelope, and says how much larger
// it is drawn.
func (b *board) lens(f *figure) {
	ring := f.ring()
	elbow := draw.Point{X: f.main.x - leftRoom/2 - 1, Y: 0}
	from := draw.Point{X: ring.X - ring.r*math.Sqrt2/2, Y: ring.Y + ring.r*math.Sqrt2/2}
	elbow.X = min(elbow.X, from.X-0.5)
	elbow.Y = from.Y + (from.X - elbow.X)
	if f.glass.Y-f.glass.r > elbow.Y { // below: down beside the pocket
		end := draw.Point{X: elbow.X}
		if dx := elbow.X - f.glass.X; math.Abs(dx) < f.glass.r*0.8 {
			end.Y = f.glass.Y - math.Sqrt(f.glass.r*f.glass.r-dx*dx)
		} else {
			end = draw.Point{X: f.glass.X + f.glass.r*0.8*dx/math.Abs(dx), Y: f.glass.Y - 0.6*f.glass.r}
		}
		b.lines = append(b.lines, Line{detail, Leader, from, elbow}, Line{detail, Leader, elbow, end})
	} else {
		dx, dy := from.X-f.glass.X, from.Y-f.glass.Y
		k := f.glass.r / math.Hypot(dx, dy)
		b.lines = append(b.lines, Line{detail, Leader, from, draw.Point{X: f.glass.X + dx*k, Y: f.glass.Y + dy*k}})
	}
	line := fmt.Sprintf("%d times larger", f.larger)
	width := draw.Regular.Width(line, smallType)
	b.text(detail, line, draw.Regular, smallType, draw.Point{X: f.glass.X - width/2, Y: f.glass.Y + f.glass.r + 3.6}, faint)
}

// touches tells whether some of a mark lies in the circle's box.
func (c circle) touches(m *mark) bool {
	if c.r == 0 {
		return false
	}
	box := c.box().Grow(clearLabel)
	for _, l := range m.lines {
		if l.hits(box) {
			return true
		}
	}
	return meets(box, m.box())
}

// holdsMark tells whether a mark lies inside the circle.
func (c circle) holdsMark(m *mark) bool {
	for _, l := range m.lines {
		if !c.holds(l.A, 0.6) || !c.holds(l.B, 0.6) {
			return false
		}
	}
	return c.holds(m.disc, radius(m.main)+0.6)
}

// gaps marks the base gap and the side gap below the fold, where the flap's
// and the liner's ends can be carried down to the pocket's side.
func (b *board) gaps(f *figure) {
	v := f.near
	foot := f.profile[0].A
	rows := []float64{4.6, 10.2}
	for _, g := range []struct {
		of string
		x  float64
		up geom.Point // the edge that is carried down
	}{{baseGap, foot.X, geom.Point{X: foot.X}}, {sideGap, f.SideGap, geom.Point{X: f.SideGap}}} {
		if g.x*v.scale < leastSeen || !f.means(g.of) {
			continue
		}
		for _, row := range rows {
			m := &mark{of: g.of}
			from, to := draw.Point{X: v.x, Y: v.y + row}, draw.Point{X: v.x + g.x*v.scale, Y: v.y + row}
			if g.of == baseGap {
				m.extend(v.at(g.up), to)
			}
			m.span(from, to, draw.Point{X: from.X - tail - sideDisc - 0.8, Y: from.Y})
			if f.glass.holdsMark(m) && b.try(m) {
				break
			}
		}
	}
}

// sides marks the shoulder and the taper left of the flap, up to a height over
// the fold.
func (b *board) sides(f *figure, v view, up float64, allowed func(*mark) bool) {
	flap := f.Envelope.Flap
	foot, end := v.xy(flap.BaseGap, 0), v.xy(flap.BaseGap+flap.Taper, up)
	corner := v.xy(0, 0)
	try := func(m *mark) bool { return (allowed == nil || allowed(m)) && b.try(m) }

	if high := corner.Y - end.Y; f.means(shoulder) && flap.Shoulder > 0 && high >= leastSeen {
		for _, away := range []float64{7.5, 9, 6} {
			m := &mark{of: shoulder}
			low, top := draw.Point{X: corner.X - away, Y: corner.Y}, draw.Point{X: corner.X - away, Y: end.Y}
			at := between(low, top, 0.5)
			if high < onLine {
				at.X -= discAway - 0.8
			}
			m.extend(corner, low)
			m.extend(end, top)
			m.span(top, low, at)
			if try(m) {
				break
			}
		}
	}
	if end.X-foot.X >= leastSeen && f.means(taper) {
		for _, over := range []float64{3.6, 5, 6.5} {
			m := &mark{of: taper}
			from, to := draw.Point{X: foot.X, Y: end.Y - over}, draw.Point{X: end.X, Y: end.Y - over}
			m.extend(foot, from)
			m.extend(end, to)
			m.span(from, to, draw.Point{X: from.X - tail - sideDisc - 0.8, Y: from.Y})
			if try(m) {
				break
			}
		}
	}
}
