package look

import (
	"math"
	"strconv"

	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// Tones of what lies beside envelope and liner.
var (
	dotTone   = draw.Colour{R: 0x9f, G: 0xb6, B: 0x9c} // the pattern
	backTone  = draw.Colour{R: 0xff, G: 0xff, B: 0xff} // a liner's plain side
	sheetTone = draw.Colour{R: 0xfb, G: 0xfa, B: 0xf6} // paper that is cut away
	sheetEdge = draw.Colour{R: 0xc9, G: 0xc3, B: 0xb8}
	steel     = draw.Colour{R: 0xe4, G: 0xe6, B: 0xe8}
	steelEdge = draw.Colour{R: 0x7b, G: 0x82, B: 0x88}
	glueTone  = draw.Colour{R: 0xf4, G: 0xd9, B: 0xd0}
	wellTone  = draw.Colour{R: 0x4c, G: 0x7a, B: 0x52} // as it should be
)

// moveWidth is that of the arrows that show a movement.
const moveWidth = 0.55

// move is an arrow along a bow from a to b; bend is how far the bow's middle lies
// to the left of the straight way, as a share of its length.
func move(s *draw.Surface, a, b draw.Point, bend float64) {
	dx, dy := b.X-a.X, b.Y-a.Y
	c := draw.Point{X: (a.X+b.X)/2 + 2*bend*dy, Y: (a.Y+b.Y)/2 - 2*bend*dx}
	const steps = 24
	var way []draw.Point
	for i := range steps + 1 {
		t := float64(i) / steps
		way = append(way, between(between(a, c, t), between(c, b, t), t))
	}
	length := math.Hypot(b.X-c.X, b.Y-c.Y)
	ux, uy := (b.X-c.X)/length, (b.Y-c.Y)/length
	const long, half = 2.6, 1.15
	back := draw.Point{X: b.X - ux*long, Y: b.Y - uy*long}
	for len(way) > 2 && math.Hypot(way[len(way)-1].X-b.X, way[len(way)-1].Y-b.Y) < 0.8*long { // the line ends under the head
		way = way[:len(way)-1]
	}
	s.Stroke(polyline(append(way, back)), accent, moveWidth)
	var head draw.Path
	head.Move(b.X, b.Y)
	head.Line(back.X-uy*half, back.Y+ux*half)
	head.Line(back.X+uy*half, back.Y-ux*half)
	head.Close()
	s.Fill(head, accent)
}

// steelRule is a ruler that lies level, its edge on y.
func steelRule(s *draw.Surface, x, y, long float64) {
	const high = 5.0
	body := draw.Rectangle(draw.Rect{MinX: x, MinY: y, MaxX: x + long, MaxY: y + high})
	s.Fill(body, steel)
	for i := 1; float64(i) < long; i++ {
		reach := 1.0
		if i%5 == 0 {
			reach = 1.7
		}
		s.Stroke(polyline([]draw.Point{{X: x + float64(i), Y: y}, {X: x + float64(i), Y: y + reach}}), steelEdge, 0.15)
	}
	s.Stroke(body, steelEdge, lightWidth)
}

// bone is a blunt tool that scores: its tip lies at a point, it leans to the
// right.
func bone(s *draw.Surface, tip draw.Point) {
	var p draw.Path
	p.Move(0, 0)
	p.Cubic(draw.Point{X: 0.3, Y: -1.6}, draw.Point{X: 0.9, Y: -2.6}, draw.Point{X: 1.2, Y: -4})
	p.Line(1.2, -13)
	p.Cubic(draw.Point{X: 1.2, Y: -14.6}, draw.Point{X: -1.2, Y: -14.6}, draw.Point{X: -1.2, Y: -13})
	p.Line(-1.2, -4)
	p.Cubic(draw.Point{X: -0.9, Y: -2.6}, draw.Point{X: -0.3, Y: -1.6}, draw.Point{})
	p.Close()
	p = p.Transform(draw.Translate(tip.X, tip.Y).After(draw.Turn(30)))
	s.Fill(p, draw.White)
	s.Stroke(p, ink, lightWidth)
}

// scissors lie with their blades' crossing at a point and cut along a direction
// of the page, in degrees.
func scissors(s *draw.Surface, at draw.Point, degrees float64) {
	m := draw.Translate(at.X, at.Y).After(draw.Turn(degrees))
	for _, side := range []float64{1, -1} {
		var blade draw.Path
		blade.Move(-1.5, side*0.75)
		blade.Line(0, -side*0.3)
		blade.Line(8.6, -side*1.5)
		blade.Cubic(draw.Point{X: 6, Y: -side * 0.2}, draw.Point{X: 3, Y: side * 0.5}, draw.Point{X: 0, Y: side * 0.7})
		blade.Close()
		s.Fill(blade.Transform(m), steel)
		s.Stroke(blade.Transform(m), ink, lightWidth)
		var shank draw.Path
		shank.Move(0.3, 0)
		shank.Line(-3, side*1.5)
		s.Stroke(shank.Transform(m), ink, 0.9)
		ring := draw.Circle(-5.2, side*2.6, 2.1).Transform(m)
		s.Stroke(ring, ink, 0.8)
	}
	s.Fill(draw.Circle(0, 0, 0.45).Transform(m), ink)
}

// glue marks a strip of millimetres along the edge of the liner's flap part: over
// the fold or, turned down, below it. What is not glued is drawn by rest.
func (b bench) glue(s *draw.Surface, down bool, rest func(*draw.Surface)) {
	part := b.part()
	edge, bare := geom.Contour(part), geom.Contour(part.Erode(GlueStrip).Over(0, part[0].A.X, part[len(part)-1].B.X))
	if down {
		edge, bare = turnedDown(edge), turnedDown(bare)
	}
	all := b.v.closed(edge)
	s.Clipped(all, func(s *draw.Surface) { hatch(s, all.Bounds()) })
	if len(bare) > 0 {
		s.Clipped(b.v.closed(bare), rest)
	}
	s.Stroke(all, linerEdge, edgeWidth)
}

// hatch covers a box with slanting lines on a tint, which shows where lines run
// along an edge.
func hatch(s *draw.Surface, over draw.Rect) {
	const pitch, lean = 1.25, 0.45
	s.Fill(draw.Rectangle(over), glueTone)
	for x := over.MinX - lean*over.Height(); x < over.MaxX; x += pitch {
		s.Stroke(polyline([]draw.Point{{X: x, Y: over.MaxY}, {X: x + lean*over.Height(), Y: over.MinY}}), accent, 0.22)
	}
}

// verdict is a tick or a cross in a disc.
func verdict(well bool) func(*draw.Surface, draw.Point) {
	return func(s *draw.Surface, at draw.Point) {
		tone := accent
		if well {
			tone = wellTone
		}
		s.Fill(draw.Circle(at.X, at.Y, mainDisc), tone)
		lines := [][]draw.Point{{{X: -1, Y: -1}, {X: 1, Y: 1}}, {{X: -1, Y: 1}, {X: 1, Y: -1}}}
		if well {
			lines = [][]draw.Point{{{X: -1.2, Y: 0.1}, {X: -0.35, Y: 0.95}, {X: 1.2, Y: -0.95}}}
		}
		for _, l := range lines {
			s.Stroke(polyline(l).Transform(draw.Translate(at.X, at.Y)), draw.White, 0.6)
		}
	}
}

// scaled is a ruler of 100 mm, drawn in a room's width, with a printed rule lying
// along its edge that is a share of its length.
func scaled(s *draw.Surface, room draw.Rect, share float64) {
	const rim = 3.0
	k := (room.Width() - 2*rim) / 106 // the ruler is a little longer than its scale
	x0, y := room.MinX+rim+k*2, room.MinY+0.46*room.Height()
	paper := draw.Rect{MinX: room.MinX, MinY: y - 15, MaxX: room.MaxX, MaxY: y + 2}
	s.Fill(draw.Rectangle(paper), sheetTone)
	s.Stroke(draw.Rectangle(paper), sheetEdge, lightWidth)
	for i := range 10 { // the rule as sheets print it: black and white by tens
		part := draw.Rectangle(draw.Rect{MinX: x0 + k*share*float64(10*i), MinY: y - 4, MaxX: x0 + k*share*float64(10*i+10), MaxY: y - 1.6})
		tone := ink
		if i%2 == 1 {
			tone = draw.White
		}
		s.Fill(part, tone)
		s.Stroke(part, ink, lightWidth)
	}
	s.Text("0", draw.Regular, smallType, draw.Translate(x0-0.3*smallType, y-5.2), ink)
	label := "100 mm"
	s.Text(label, draw.Regular, smallType, draw.Translate(x0+k*share*100-draw.Regular.Width(label, smallType), y-5.2), ink)

	body := draw.Rectangle(draw.Rect{MinX: room.MinX + rim, MinY: y, MaxX: room.MinX + rim + k*106, MaxY: y + 11})
	s.Fill(body, steel)
	s.Stroke(body, steelEdge, lightWidth)
	for i := 0; i <= 104; i++ {
		reach := 1.4
		switch {
		case i%10 == 0:
			reach = 3.2
		case i%5 == 0:
			reach = 2.3
		}
		x := x0 + k*float64(i)
		s.Stroke(polyline([]draw.Point{{X: x, Y: y}, {X: x, Y: y + reach}}), steelEdge, 0.15)
	}
	for i := 0; i <= 100; i += 20 {
		number := strconv.Itoa(i)
		s.Text(number, draw.Regular, 2.5, draw.Translate(x0+k*float64(i)-draw.Regular.Width(number, 2.5)/2, y+6), ink)
	}
	end := x0 + k*share*100
	tone := accent
	if share == 1 {
		tone = wellTone
	}
	s.Stroke(polyline([]draw.Point{{X: end, Y: y - 4.6}, {X: end, Y: y + 3.4}}), tone, 0.4) // not through the numbers
	s.Stroke(polyline([]draw.Point{{X: end, Y: y + 11}, {X: end, Y: y + 13.5}}), tone, 0.4)
	read := strconv.Itoa(int(math.Round(100 * share)))
	s.Text(read, draw.Bold, 4, draw.Translate(end-draw.Bold.Width(read, 4)/2, y+17.3), tone)
}
