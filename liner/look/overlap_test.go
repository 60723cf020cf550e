package look_test

import (
	"fmt"
	"math"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner"
	"underflap/liner/look"
	"underflap/pattern/draw"
)

// The border that no ink may reach, and the least em that reads well.
const (
	border    = 7.0
	leastType = 2.6
)

var usual = liner.Clearances{SideGap: 3, GumClearance: 1.5, CornerRadius: 4}

// drawing is an envelope explained.
type drawing struct {
	name   string
	liner  liner.Liner
	extent look.Extent
	page   *draw.Page
	found  look.Labels
}

// refused counts the envelopes that take no liner.
var refused int

// drawings explains each envelope of the table with each shape of flap, on the
// side where its flap usually is and on the other one, in all extents.
var drawings = sync.OnceValue(func() (out []drawing) {
	for _, entry := range liner.Entries() {
		for _, e := range []liner.Entry{entry, entry.Turned()} {
			for _, shape := range liner.Shapes {
				l, err := liner.New(e.Envelope(shape), usual)
				if err != nil {
					refused++
					continue
				}
				for _, extent := range []look.Extent{look.Three, look.All, look.Letters} {
					page, found := look.Explain(l, extent)
					out = append(out, drawing{fmt.Sprintf("%s %s, %v wide", e.Name, shape, e.Width), l, extent, page, found})
				}
			}
		}
	}
	return out
})

func TestNoLabelMeetsAnotherLabelOrAnotherMeasurementOnAnyEnvelopeOfTheTable(t *testing.T) {
	for _, d := range drawings() {
		for _, fault := range faults(d.page, d.found) {
			t.Errorf("%s: %s", d.name, fault)
		}
	}
	t.Logf("%d envelopes drawn, %d take no liner", len(drawings())/2, refused)
	if all := 2 * len(liner.Shapes) * len(liner.Entries()); refused > all/10 {
		t.Errorf("%d of %d envelopes take no liner", refused, all)
	}
}

func TestNoLabelMeetsAnotherOnMeasuredEnvelopes(t *testing.T) {
	drawn := 0
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.OneOf(rapid.Float64Range(30, 260), rapid.Float64Range(30, 700))
		width, height := side.Draw(t, "width"), side.Draw(t, "height")
		shape := rapid.SampledFrom(liner.Shapes).Draw(t, "shape")
		flap := liner.UsualFlap(shape, height*rapid.Float64Range(0.15, 1).Draw(t, "flap"), width)
		if rapid.Bool().Draw(t, "own flap") {
			flap.Shoulder = rapid.Float64Range(0, flap.Depth/2).Draw(t, "shoulder")
			flap.Taper = rapid.Float64Range(0, width/6).Draw(t, "taper")
			flap.BaseGap = rapid.Float64Range(0, width/8).Draw(t, "base gap")
			flap.CornerRadius = rapid.Float64Range(0, 8).Draw(t, "flap corner radius")
			flap.TipRadius = rapid.Float64Range(0, 30).Draw(t, "tip radius")
		}
		e := liner.Envelope{Name: liner.Measured, Short: "measured", Width: width, Height: height, Flap: flap, Gum: rapid.Float64Range(0, 20).Draw(t, "gum")}
		c := liner.Clearances{
			SideGap:      rapid.Float64Range(0, 12).Draw(t, "side gap"),
			GumClearance: rapid.Float64Range(0, 6).Draw(t, "gum clearance"),
			CornerRadius: rapid.Float64Range(0, 10).Draw(t, "corner radius"),
		}
		l, err := liner.New(e, c)
		if err != nil {
			return
		}
		drawn++
		for _, extent := range []look.Extent{look.Three, look.All, look.Letters} {
			for _, fault := range faults(look.Explain(l, extent)) {
				t.Errorf("%s", fault)
			}
		}
	})
	if drawn < 20 {
		t.Errorf("only %d drawn", drawn)
	}
}

// faults lists what lies where it may not.
func faults(page *draw.Page, found look.Labels) (out []string) {
	fault := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	paper := draw.Rect{MinX: border, MinY: border, MaxX: page.Width - border, MaxY: page.Height - border}
	for _, n := range page.Nodes() {
		if !within(n.Bounds(), paper) {
			fault("layer %s reaches %v", n.(*draw.Layer).Name, n.Bounds())
		}
	}
	draw.Walk(page.Nodes(), func(n draw.Node) {
		if text, ok := n.(*draw.Text); ok && text.Size < leastType {
			fault("%q is set at %v", text.String, text.Size)
		}
	})
	envelope := found.Pocket
	envelope.MinY = found.Tip.Y
	for i, w := range found.Words {
		if w.Text == "" {
			fault("%s has no letter", w.Of)
		}
		if !within(w.Box, paper) {
			fault("%s %q leaves the page: %v", w.Of, w.Text, w.Box)
		}
		for _, o := range found.Words[:i] {
			if overlap(w.Box, o.Box) {
				fault("%s %q lies on %s %q", w.Of, w.Text, o.Of, o.Text)
			}
		}
		for _, l := range found.Lines {
			if l.Of != w.Of && passes(l, w.Box) {
				fault("%s %q lies on a line of %s", w.Of, w.Text, l.Of)
			}
		}
		switch w.Of {
		case "title", "legend", "detail", "width", "height", "flap depth":
			if overlap(w.Box, envelope) {
				fault("%s %q lies on the envelope", w.Of, w.Text)
			}
		}
		if found.Larger > 0 && overlap(w.Box, found.Detail) && !inDisc(w.Box, found.Detail) {
			fault("%s %q lies on the edge of the detail", w.Of, w.Text)
		}
	}
	if found.Larger > 0 && overlap(found.Detail, envelope) {
		fault("the detail lies on the envelope")
	}
	for i, l := range found.Lines {
		for _, o := range found.Lines[:i] {
			if l.Of != o.Of && (l.Kind != look.Extension || o.Kind != look.Extension) && cross(l, o) {
				fault("lines of %s and %s cross", l.Of, o.Of)
			}
		}
	}
	return out
}

func within(a, b draw.Rect) bool {
	return a.MinX >= b.MinX && a.MaxX <= b.MaxX && a.MinY >= b.MinY && a.MaxY <= b.MaxY
}

func overlap(a, b draw.Rect) bool {
	return a.MinX < b.MaxX && b.MinX < a.MaxX && a.MinY < b.MaxY && b.MinY < a.MaxY
}

// inDisc tells whether the middle of a letter's circle lies in the disc that
// fills a box by at least its own radius.
func inDisc(letter, disc draw.Rect) bool {
	x, y := (letter.MinX+letter.MaxX-disc.MinX-disc.MaxX)/2, (letter.MinY+letter.MaxY-disc.MinY-disc.MaxY)/2
	return math.Hypot(x, y)+letter.Width()/2 <= disc.Width()/2
}

// passes looks along a line in fine steps.
func passes(l look.Line, box draw.Rect) bool {
	const steps = 400
	for i := range steps + 1 {
		t := float64(i) / steps
		x, y := l.A.X+(l.B.X-l.A.X)*t, l.A.Y+(l.B.Y-l.A.Y)*t
		if x > box.MinX && x < box.MaxX && y > box.MinY && y < box.MaxY {
			return true
		}
	}
	return false
}

// cross tells whether two lines cross, a hair off their ends.
func cross(l, o look.Line) bool {
	dx, dy, ex, ey := l.B.X-l.A.X, l.B.Y-l.A.Y, o.B.X-o.A.X, o.B.Y-o.A.Y
	det := dx*ey - dy*ex
	if math.Abs(det) < 1e-9 {
		return false
	}
	s := ((o.A.X-l.A.X)*ey - (o.A.Y-l.A.Y)*ex) / det
	t := ((o.A.X-l.A.X)*dy - (o.A.Y-l.A.Y)*dx) / det
	const hair = 0.01
	a, b := hair/math.Hypot(dx, dy), hair/math.Hypot(ex, ey)
	return s > a && s < 1-a && t > b && t < 1-b
}
