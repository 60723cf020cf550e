package look

import (
	"strings"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// Type and rooms of the pages that show how something is done, in page millimetres.
const (
	guideWidth   = 180.0
	guideHeading = 3.8 // ems
	guideType    = 3.1
	guideLine    = 4.2 // from one line to the next
	guideGutter  = 8.0
	guidePicture = 46.0 // height of a picture
	guideTitle   = 15.0
	tuck         = 10.0 // from the top of a text to the picture's bottom
)

// panel is one picture of a guide with its words.
type panel struct {
	mark    func(s *draw.Surface, at draw.Point) // stands before the heading; may be nil
	heading string
	words   string
	draw    func(s *draw.Surface, room draw.Rect)
}

// lay sets panels in columns, and returns where the last row ends. Every picture
// has the same height, every row as many lines as its longest text.
func lay(s *draw.Surface, panels []panel, columns int, left, top, width float64) float64 {
	each := (width - float64(columns-1)*guideGutter) / float64(columns)
	for len(panels) > 0 {
		row := panels[:min(columns, len(panels))]
		panels = panels[len(row):]
		lines := 0
		for i, p := range row {
			x := left + float64(i)*(each+guideGutter)
			p.draw(s, draw.Rect{MinX: x, MinY: top, MaxX: x + each, MaxY: top + guidePicture})
			base, indent := top+guidePicture+tuck-guideLine, 0.0
			if p.mark != nil {
				p.mark(s, draw.Point{X: x + mainDisc, Y: base - 0.34*guideHeading})
				indent = 2*mainDisc + 2
			}
			heading, em := fitted(p.heading, draw.Bold, guideHeading, smallType, each-indent)
			s.Text(heading, draw.Bold, em, draw.Translate(x+indent, base), ink)
			set := broken(p.words, draw.Regular, guideType, each)
			for n, line := range set {
				s.Text(line, draw.Regular, guideType, draw.Translate(x, base+guideLine*(float64(n)+1.25)), faint)
			}
			lines = max(lines, len(set))
		}
		top += guidePicture + tuck + guideLine*(float64(lines)+1)
	}
	return top
}

// rowsHeight is how high the rows are that lay sets.
func rowsHeight(panels []panel, columns int, width float64) float64 {
	each := (width - float64(columns-1)*guideGutter) / float64(columns)
	high := 0.0
	for len(panels) > 0 {
		row := panels[:min(columns, len(panels))]
		panels = panels[len(row):]
		lines := 0
		for _, p := range row {
			lines = max(lines, len(broken(p.words, draw.Regular, guideType, each)))
		}
		high += guidePicture + tuck + guideLine*(float64(lines)+1)
	}
	return high
}

// bound is a space that no line is broken at.
const bound = "\u00a0"

// broken breaks a text into lines no wider than width; a word wider than that
// has a line of its own.
func broken(text string, font *draw.Font, em, width float64) (lines []string) {
	line := ""
	for word := range strings.SplitSeq(text, " ") {
		word = strings.ReplaceAll(word, bound, " ")
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && font.Width(longer, em) > width {
			lines, longer = append(lines, line), word
		}
		line = longer
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// guide is a page of panels under a title.
func guide(title, subtitle string, panels []panel, columns int) *draw.Page {
	width := guideWidth - 2*border
	page := draw.NewPage(guideWidth, border+guideTitle+rowsHeight(panels, columns, width)+border-guideLine)
	page.Title = title
	page.Trim = draw.Rect{MaxX: page.Width, MaxY: page.Height}
	page.Layer(draw.Artwork, func(s *draw.Surface) {
		line, em := fitted(title, draw.Bold, 1.2*titleType, smallType, width)
		s.Text(line, draw.Bold, em, draw.Translate(border, border+5), ink)
		s.Text(subtitle, draw.Regular, guideType, draw.Translate(border, border+10.5), faint)
		lay(s, panels, columns, border, border+guideTitle, width)
	})
	return page
}

// numbered is a panel's number in its disc.
func numbered(n string) func(*draw.Surface, draw.Point) {
	return func(s *draw.Surface, at draw.Point) { disc{at: at, main: true}.draw(s, n) }
}

// bench is an envelope and its liner at a scale of a picture, to be drawn in
// parts.
type bench struct {
	*figure
	liner geom.Contour // as it lies in the envelope
	v     view
}

// newBench gives an envelope and its liner; see at.
func newBench(l liner.Liner) bench {
	if flap := &l.Envelope.Flap; flap.Shape == liner.Square && flap.CornerRadius > 0 {
		flap.TipRadius, flap.CornerRadius = flap.CornerRadius, 0
	}
	f := &figure{Liner: l, profile: l.FlapProfile()}
	f.depth = f.profile.Height()
	return bench{figure: f, liner: l.Outline(l.WantedPocketDepth()).Contour}
}

// at puts the envelope into a room, with millimetres of the envelope kept free on
// every side, over it and below it.
func (b bench) at(room draw.Rect, sides, over, below float64) bench {
	e := b.Envelope
	wide, high := e.Width+2*sides, b.depth+over+max(e.Height, b.depth)+below
	k := min(room.Width()/wide, room.Height()/high)
	b.v = view{scale: k, x: (room.MinX+room.MaxX)/2 - k*e.Width/2, y: (room.MinY+room.MaxY)/2 - k*high/2 + k*(b.depth+over)}
	return b
}

// lifted moves what is drawn next up by millimetres of the envelope.
func (b bench) lifted(up float64) bench {
	b.v.y -= b.v.scale * up
	return b
}

// turnedDown turns a shape over at the fold.
func turnedDown(c geom.Contour) geom.Contour {
	return c.Map(func(p geom.Point) geom.Point { return geom.Point{X: p.X, Y: -p.Y} }, true)
}

// upper and lower are all of the page on one side of the fold.
func (b bench) upper() draw.Path { return b.v.closed(box(-1000, 0, 2000, 1000)) }
func (b bench) lower() draw.Path { return b.v.closed(box(-1000, -1000, 2000, 0)) }

// flap draws the opened flap, its gum shown.
func (b bench) flap(s *draw.Surface) {
	flap := geom.Contour(b.profile)
	s.Fill(b.v.closed(flap), insideTone)
	if b.Envelope.Gum > 0 {
		s.Fill(b.v.closed(flap), gumTone)
		if bare := geom.Contour(b.profile.Erode(b.Envelope.Gum).Over(0, 0, b.Envelope.Width)); len(bare) > 0 {
			s.Fill(b.v.closed(bare), insideTone)
		}
	}
	s.Stroke(b.v.path(flap), paperEdge, edgeWidth)
}

// pocket draws the pocket's back, with its seams.
func (b bench) pocket(s *draw.Surface) {
	e := b.Envelope
	body := b.v.closed(box(0, -e.Height, e.Width, 0))
	s.Fill(body, pocketTone)
	for _, seam := range seams(e) {
		s.Stroke(b.v.path(seam), seamTone, lightWidth)
	}
	s.Stroke(body, paperEdge, edgeWidth)
}

// face draws a liner's printed side: dots stand for any pattern.
func (b bench) face(s *draw.Surface, c geom.Contour) {
	s.Clipped(b.v.closed(c), func(s *draw.Surface) { b.printed(s, c.Bounds()) })
	s.Stroke(b.v.closed(c), linerEdge, lightWidth)
}

// printed covers a box of the liner's space with pattern.
func (b bench) printed(s *draw.Surface, over geom.Box) {
	s.Fill(b.v.closed(box(over.MinX, over.MinY, over.MaxX, over.MaxY)), linerTone)
	const pitch = 2.6 // page millimetres
	step := pitch / b.v.scale
	for row, y := 0, over.MinY; y < over.MaxY+step; row, y = row+1, y+step {
		for x := over.MinX + float64(row%2)*step/2; x < over.MaxX+step; x += step {
			p := b.v.xy(x, y)
			s.Fill(draw.Circle(p.X, p.Y, 0.42), dotTone)
		}
	}
}

// everywhere is a window that leaves nothing out.
var everywhere = draw.Rect{MinX: -1e4, MinY: -1e4, MaxX: 1e4, MaxY: 1e4}

// hidden draws what of a liner lies in the pocket, as if through it.
func (b bench) hidden(s *draw.Surface, c geom.Contour) {
	s.Clipped(b.v.closed(box(0, -b.Envelope.Height, b.Envelope.Width, 0)), func(s *draw.Surface) {
		s.Fill(b.v.closed(c), hiddenTone)
		for _, seam := range seams(b.Envelope) {
			s.Stroke(b.v.path(seam), seamTone, lightWidth)
		}
	})
	for _, chain := range runs(b.v.chain(c), b.v.y, -1) {
		if dashes := dashed(chain, hiddenOn, hiddenOff, everywhere); len(dashes.Points) > 0 {
			s.Stroke(dashes, linerEdge, lightWidth)
		}
	}
}

// seen draws what of a liner lies on the flap.
func (b bench) seen(s *draw.Surface, c geom.Contour) {
	s.Clipped(b.upper(), func(s *draw.Surface) { b.face(s, c) })
}

// open draws the opened envelope with its liner in place.
func (b bench) open(s *draw.Surface) {
	b.flap(s)
	b.seen(s, b.liner)
	b.pocket(s)
	b.hidden(s, b.liner)
	b.fold(s)
}

// fold draws the fold between flap and pocket.
func (b bench) fold(s *draw.Surface) {
	s.Stroke(polyline([]draw.Point{b.v.xy(0, 0), b.v.xy(b.Envelope.Width, 0)}), paperEdge, edgeWidth)
}
