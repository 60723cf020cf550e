package look

import (
	"fmt"
	"math"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// Troubles draws four things that go wrong with the liner l, each beside how it
// should be: printed too small, too wide for its pocket, over the gum, and glued in
// the pocket. The page is the drawing's own, and not to scale.
func Troubles(l liner.Liner) *draw.Page {
	b := newBench(l)
	e := b.Envelope
	at := func(room draw.Rect) bench { return b.at(room, 10, 4, 4) }
	wrong, right := verdict(false), verdict(true)
	over, overWords := "Liner over the gum", "The gum lies under the liner, and the flap will not seal."
	free, freeWords := "Gum left free", fmt.Sprintf("The liner ends before the gum. If yours is wider than %.4g"+bound+"mm, measure it and say --gum.", e.Gum)
	if e.Gum == 0 {
		over, overWords = "Liner up to the edge", "No place is left for your glue, and the flap will not close."
		free, freeWords = "Border left free", "The liner keeps a border of the flap free for your glue. A wider one is --border"+bound+"8."
	}
	panels := []panel{
		{wrong, "Printed too small", "The printer shrank the page to 97" + bound + "%: its rule of 100" + bound + "mm ends at 97 on your ruler.",
			func(s *draw.Surface, room draw.Rect) { scaled(s, room, 0.97) }},
		{right, "Printed at actual size", "Actual size or 100" + bound + "% in the print dialogue. The rule is as long as it says.",
			func(s *draw.Surface, room draw.Rect) { scaled(s, room, 1) }},
		{wrong, "Liner too wide", "It touches the pocket's sides and crumples on the way into the envelope.", func(s *draw.Surface, room draw.Rect) {
			b := at(room)
			b.flap(s)
			b.seen(s, b.liner)
			b.pocket(s)
			b.hidden(s, b.crumpled())
			b.creases(s)
			b.fold(s)
		}},
		{right, "Room at both sides", fmt.Sprintf("Here %.4g"+bound+"mm left and right. In a tight pocket say more: --side-gap"+bound+"%.4g.", b.SideGap, b.SideGap+1), func(s *draw.Surface, room draw.Rect) {
			b := at(room)
			b.open(s)
			b.gapsAtSides(s)
		}},
		{wrong, over, overWords, func(s *draw.Surface, room draw.Rect) {
			b := at(room)
			b.flap(s)
			b.seen(s, b.over())
			b.buried(s)
			b.pocket(s)
			b.hidden(s, b.liner)
			b.fold(s)
		}},
		{right, free, freeWords, func(s *draw.Surface, room draw.Rect) { at(room).open(s) }},
		{wrong, "Glued in the pocket as well", "The liner cannot slide, and wrinkles at the fold when the flap moves.", func(s *draw.Surface, room draw.Rect) {
			b := at(room)
			b.open(s)
			b.stuck(s)
			b.wrinkles(s)
		}},
		{right, "Glued to the flap only", "Glue along the flap part's edge, here hatched. The part in the pocket is loose.", func(s *draw.Surface, room draw.Rect) {
			b := at(room)
			b.open(s)
			b.glued(s)
		}},
	}
	return guide(fmt.Sprintf("What goes wrong, and how it should be: %s envelope, %s flap", e.Short, e.Flap.Shape),
		"Seen from the back, flap open. Dashed is what lies in the pocket, hatching is glue.", panels, 2)
}

// crumpled is a liner as wide as the pocket lets it be, its sides in waves.
func (b bench) crumpled() geom.Contour {
	e, depth := b.Envelope, b.WantedPocketDepth()
	wave := 1.6 / b.v.scale // page millimetres
	var left, right []geom.Point
	const steps = 60
	for i := range steps + 1 {
		t := float64(i) / steps
		in := wave * (0.55 - 0.45*math.Cos(2*math.Pi*t*depth*b.v.scale/4.5))
		left = append(left, geom.Point{X: in, Y: -t * depth})
		right = append(right, geom.Point{X: e.Width - in, Y: -t * depth})
	}
	var c geom.Contour
	join := func(p, q geom.Point) { c = append(c, geom.Line(p, q)) }
	for i := 1; i < len(left); i++ {
		join(left[i-1], left[i])
	}
	join(left[steps], right[steps])
	for i := steps; i > 0; i-- {
		join(right[i], right[i-1])
	}
	join(right[0], left[0])
	return c
}

// creases are where crumpled paper buckles: they run in from both sides.
func (b bench) creases(s *draw.Surface) {
	e, depth := b.Envelope, b.WantedPocketDepth()
	for _, chain := range runs(b.v.chain(b.crumpled()), b.v.y, -1) {
		s.Stroke(polyline(chain), linerEdge, edgeWidth)
	}
	for i, share := range []float64{0.14, 0.3, 0.44, 0.6, 0.74, 0.9} {
		reach := 3.5 + 2.2*float64((i*2)%3)
		for _, side := range []float64{1, -1} {
			x := 0.0
			if side < 0 {
				x = e.Width
			}
			from := b.v.xy(x, -share*depth)
			from.X += side * 1.2
			var p draw.Path
			p.Move(from.X, from.Y)
			p.Cubic(draw.Point{X: from.X + side*reach*0.35, Y: from.Y - 1.3}, draw.Point{X: from.X + side*reach*0.65, Y: from.Y + 1.1}, draw.Point{X: from.X + side*reach, Y: from.Y - 0.2})
			s.Stroke(p, accent, 0.4)
		}
	}
}

// gapsAtSides points at the side gaps, from inside the liner.
func (b bench) gapsAtSides(s *draw.Surface) {
	e := b.Envelope
	y := -0.55 * b.WantedPocketDepth()
	for _, side := range []float64{1, -1} {
		x := b.SideGap / 2
		if side < 0 {
			x = e.Width - x
		}
		tip := b.v.xy(x, y)
		from := draw.Point{X: tip.X + side*8, Y: tip.Y}
		tip.X += side * 0.3
		move(s, from, tip, 0)
	}
}

// over is a liner's flap part that reaches nearly to the flap's edge.
func (b bench) over() geom.Contour {
	const short = 1.0
	left, right := b.SideGap, b.Envelope.Width-b.SideGap
	c := geom.Contour(b.profile.Erode(short).Over(0, left, right))
	if len(c) == 0 {
		return b.liner
	}
	first, last := c[0].A, c[len(c)-1].B
	return append(c, geom.Line(last, geom.Point{X: last.X}), geom.Line(geom.Point{X: last.X}, geom.Point{X: first.X}), geom.Line(geom.Point{X: first.X}, first))
}

// buriedTone is the gum, seen through the liner.
var buriedTone = draw.Colour{R: 0xdf, G: 0xd6, B: 0xb4}

// buried shows where the gum lies under a liner.
func (b bench) buried(s *draw.Surface) {
	gum := b.Envelope.Gum
	if gum == 0 {
		return
	}
	bare := geom.Contour(b.profile.Erode(gum).Over(0, 0, b.Envelope.Width))
	s.Clipped(b.v.closed(b.over()), func(s *draw.Surface) {
		all := b.v.closed(geom.Contour(b.profile))
		s.Fill(all, buriedTone)
		if len(bare) > 0 {
			s.Clipped(b.v.closed(bare), func(s *draw.Surface) { b.printed(s, b.liner.Bounds()) })
		}
	})
	if len(bare) > 0 {
		s.Stroke(dashed(b.v.chain(bare), hiddenOn, hiddenOff, everywhere), accent, edgeWidth)
	}
}

// stuck hatches glue over the part in the pocket.
func (b bench) stuck(s *draw.Surface) {
	s.Clipped(b.lower(), func(s *draw.Surface) {
		s.Clipped(b.v.closed(b.liner), func(s *draw.Surface) {
			low := b.liner.Bounds()
			p, q := b.v.xy(low.MinX, -0.45*b.WantedPocketDepth()), b.v.xy(low.MaxX, low.MinY)
			room := draw.Rect{MinX: p.X + 3, MinY: p.Y, MaxX: q.X - 3, MaxY: q.Y - 3}
			s.Clipped(draw.Rectangle(room), func(s *draw.Surface) { hatch(s, room) })
		})
	})
	b.glued(s)
}

// glued hatches the glue behind the flap part's edge.
func (b bench) glued(s *draw.Surface) {
	b.glue(s, false, func(s *draw.Surface) { b.printed(s, b.liner.Bounds()) })
	b.fold(s)
}

// wrinkles are waves across the liner on both sides of the fold.
func (b bench) wrinkles(s *draw.Surface) {
	wide := b.Width() * b.v.scale
	for i, away := range []float64{-3.4, -1.7, 1.7, 3.4} {
		share := 0.34 - 0.04*float64(i%2)
		if away < 0 { // on the flap part, where it is narrower
			share = 0.24 - 0.04*float64(i%2)
		}
		mid := b.v.xy(b.Envelope.Width/2, 0)
		var line []draw.Point
		for n := range 41 {
			t := float64(n)/40*2 - 1
			line = append(line, draw.Point{X: mid.X + t*share*wide, Y: mid.Y + away + 0.5*math.Sin(t*9+float64(i))})
		}
		s.Stroke(polyline(line), accent, 0.45)
	}
}
