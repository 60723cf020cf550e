package look

import (
	"fmt"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// GlueStrip is how wide the drawings hatch the glue along the flap part's edge:
// that of common double-sided tape, from memory.
const GlueStrip = 8.0

// Steps draws how the liner l is made and put into its envelope, in six numbered
// pictures on one page: score, cut, fold, slide in, glue, close. They show the
// envelope's own proportions; the page is the drawing's own, and not to scale.
func Steps(l liner.Liner) *draw.Page {
	b := newBench(l)
	e := b.Envelope
	part := b.part()
	lift := 0.4 * b.WantedPocketDepth()
	back := func(b bench, s *draw.Surface) { // the flap part turned down, its plain side up
		over := turnedDown(b.liner)
		s.Clipped(b.lower(), func(s *draw.Surface) {
			s.Fill(b.v.closed(over), backTone)
			s.Stroke(b.v.closed(over), linerEdge, edgeWidth)
		})
	}
	panels := []panel{
		{numbered("1"), "Score", "Lay a ruler from one fold mark to the other and score along it with something blunt.", func(s *draw.Surface, room draw.Rect) {
			b := b.at(room, 8, 6, 6)
			b.printedSheet(s)
			y := b.v.xy(0, 0).Y
			steelRule(s, room.MinX, y+0.2, room.Width())
			s.Stroke(dashed([]draw.Point{b.v.xy(b.SideGap, 0), b.v.xy(e.Width-b.SideGap, 0)}, 1.8, 1, room), ink, edgeWidth)
			from := b.v.xy(0.3*e.Width, 0)
			tip := b.v.xy(0.62*e.Width, 0)
			move(s, draw.Point{X: from.X, Y: from.Y - 2}, draw.Point{X: tip.X - 2.2, Y: tip.Y - 2}, 0)
			bone(s, tip)
		}},
		{numbered("2"), "Cut", "Cut along the thin line. The pattern passes it, so a cut that wanders shows no white.", func(s *draw.Surface, room draw.Rect) {
			b := b.at(room, 8, 6, 6)
			b.printedSheet(s)
			line := b.v.xy(b.SideGap, -0.55*b.WantedPocketDepth())
			scissors(s, draw.Point{X: line.X, Y: line.Y + 6}, -90)
			move(s, draw.Point{X: line.X - 3.2, Y: line.Y + 3}, draw.Point{X: line.X - 3.2, Y: line.Y - 7}, 0)
		}},
		{numbered("3"), "Fold", "Fold on the score, pattern inside, and open it again.", func(s *draw.Surface, room draw.Rect) {
			b := b.at(room, 8, 6, 6)
			outlineOf(s, b.v.closed(geom.Contour(part)))
			s.Clipped(b.lower(), func(s *draw.Surface) { b.face(s, b.liner) })
			back(b, s)
			s.Stroke(polyline([]draw.Point{b.v.xy(b.SideGap, 0), b.v.xy(e.Width-b.SideGap, 0)}), linerEdge, edgeWidth)
			high := 0.62 * part.Height()
			move(s, b.v.xy(0.5*e.Width, high), b.v.xy(0.5*e.Width, -high), 0.35)
		}},
		{numbered("4"), "Slide in", "Pattern up, into the open envelope: crease on fold, the same gap left and right.", func(s *draw.Surface, room draw.Rect) {
			b := b.at(room, 8, lift, 0)
			up := b.lifted(lift)
			b.flap(s)
			s.Clipped(b.upper(), func(s *draw.Surface) { up.face(s, b.liner) })
			s.Stroke(dashed(b.v.chain(geom.Contour(b.profile)), hiddenOn, hiddenOff, room), paperEdge, lightWidth) // the flap, behind
			crease := dashed([]draw.Point{up.v.xy(b.SideGap, 0), up.v.xy(e.Width-b.SideGap, 0)}, 1.8, 1, room)
			s.Stroke(crease, ink, lightWidth)
			b.pocket(s)
			b.hidden(s, geom.Contour(b.liner).Map(func(p geom.Point) geom.Point { return geom.Point{X: p.X, Y: p.Y + lift} }, false))
			b.fold(s)
			move(s, b.v.xy(0.5*e.Width, 0.75*lift), b.v.xy(0.5*e.Width, -0.5*lift), 0)
		}},
		{numbered("5"), "Glue the flap part", "Turn it down, glue the hatched edge of its back, press it to the flap. The part in the pocket stays loose.", func(s *draw.Surface, room draw.Rect) {
			b := b.at(room, 8, 6, 6)
			b.flap(s)
			b.pocket(s)
			b.hidden(s, b.liner)
			back(b, s)
			b.glue(s, true, func(s *draw.Surface) { s.Fill(b.lower(), backTone) })
			b.fold(s)
			high := 0.55 * part.Height()
			move(s, b.v.xy(0.5*e.Width, -high), b.v.xy(0.5*e.Width, high), -0.35)
		}},
		{numbered("6"), "Close", "Close the flap before the glue sets, so that the liner finds its place. Open it again and let it dry.", func(s *draw.Surface, room draw.Rect) {
			b := b.at(room, 8, 6, 6)
			outlineOf(s, b.v.closed(geom.Contour(b.profile)))
			b.pocket(s)
			shut := turnedDown(geom.Contour(b.profile))
			s.Fill(b.v.closed(shut), flapTone)
			s.Stroke(b.v.path(shut), paperEdge, edgeWidth)
			b.fold(s)
			high := 0.62 * b.depth
			move(s, b.v.xy(0.5*e.Width, high), b.v.xy(0.5*e.Width, -high), 0.35)
		}},
	}
	return guide(fmt.Sprintf("How a liner is made: %s envelope, %s flap", e.Short, e.Flap.Shape),
		"Seen from the back. Dots are the pattern, white is its plain back, hatching is glue.", panels, 3)
}

// flapTone is the envelope's outside, of a closed flap.
var flapTone = draw.Colour{R: 0xee, G: 0xe0, B: 0xc6}

// part is the liner's edge on the flap, as a height over the fold.
func (b bench) part() geom.Profile {
	return b.liner.Upper()
}

// printedSheet is a liner as it was printed: on paper, with its bleed, its cut
// line and the fold's marks.
func (b bench) printedSheet(s *draw.Surface) {
	const bleed, reach = 3.0, 8.0
	o := b.Outline(b.WantedPocketDepth())
	over := o.Bleed(reach).Bounds().Grow(1)
	sheet := b.v.closed(box(over.MinX, over.MinY, over.MaxX, over.MaxY))
	s.Fill(sheet, sheetTone)
	s.Stroke(sheet, sheetEdge, lightWidth)
	s.Clipped(b.v.closed(o.Bleed(bleed)), func(s *draw.Surface) { b.printed(s, over) })
	s.Stroke(b.v.closed(b.liner), ink, lightWidth)
	for _, side := range []float64{-1, 1} {
		x := b.SideGap - bleed - 0.5
		if side > 0 {
			x = b.Envelope.Width - x
		}
		at := b.v.xy(x, 0)
		s.Stroke(polyline([]draw.Point{at, b.v.xy(x+side*4, 0)}), ink, edgeWidth)
	}
}

// outlineOf shows where something was.
func outlineOf(s *draw.Surface, p draw.Path) { s.Stroke(p, sheetEdge, lightWidth) }
