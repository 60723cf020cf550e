// Package look draws envelopes for the people who line them. Explain is the
// measuring diagram: the opened envelope on the table, with every measurement
// marked and named. Lengths are millimetres; the page is the drawing's own and
// the envelope on it is not to scale.
package look

import (
	"fmt"

	"underflap/liner"
	"underflap/pattern/draw"
)

// Extent says how much Explain shows.
type Extent int

const (
	Three   Extent = iota // the three measurements a maker takes with a ruler
	All                   // and every further one, with its flag
	Letters               // the three again, close and large, for a page that says in words what they are
)

// Labels tells where things lie on an explained page, in page millimetres, so
// that another page can point at them and a test can look for them.
type Labels struct {
	Words  []Label    // every word, number and letter
	Lines  []Line     // every dimension, extension and leader line
	Pocket draw.Rect  // the drawn pocket's edges
	Tip    draw.Point // the flap's farthest point
	Scale  float64    // drawn millimetres to a millimetre of the envelope
	Detail draw.Rect  // around the enlarged detail; empty when there is none
	Larger int        // how many times larger the detail is than the drawing
	Corner draw.Point // the left end of the fold in the detail
}

// Label is a word, a number or a letter in its circle.
type Label struct {
	Of   string // the measurement it names, or "title", "legend", "part", "detail"
	Text string
	Box  draw.Rect
}

// Line is a straight stroke that belongs to a measurement.
type Line struct {
	Of   string
	Kind Kind
	A, B draw.Point
}

// Kind tells what a line is for.
type Kind int

const (
	Dimension Kind = iota // ends in the arrows that measure
	Extension             // carries an edge out to a dimension
	Leader                // points at what is too small or too round to measure
)

// Letters gives the letter that stands for each measurement on the page.
func (l Labels) Letters() map[string]string {
	out := map[string]string{}
	for _, w := range l.Words {
		if len(w.Text) == 1 && w.Of != "legend" {
			out[w.Of] = w.Text
		}
	}
	return out
}

// Explain draws the opened envelope of l with its liner, pocket below and flap
// up, as it lies on the table, with lettered measurements and their legend.
func Explain(l liner.Liner, extent Extent) (*draw.Page, Labels) {
	if flap := &l.Envelope.Flap; flap.Shape == liner.Square && flap.CornerRadius > 0 { // its corners are its tip
		flap.TipRadius, flap.CornerRadius = flap.CornerRadius, 0
	}
	f := &figure{Liner: l, extent: extent, profile: l.FlapProfile()}
	f.depth = f.profile.Height()
	f.settle()

	b := &board{within: f.paper()}
	if f.larger > 0 {
		b.glass = f.glass
	}
	title, subtitle := f.title()
	heading, em := fitted(title, draw.Bold, titleType, smallType, f.paper().Width())
	if extent != Letters {
		b.text("title", heading, draw.Bold, em, draw.Point{X: border, Y: border + 4}, ink)
		b.text("title", subtitle, draw.Regular, smallType, draw.Point{X: border, Y: border + 9}, faint)
	}
	b.three(f)
	if extent == All {
		b.inside(f)
		b.atTheFold(f)
		b.along(f)
	}
	b.parts(f)
	b.letter(f)
	if extent != Letters {
		b.legend(f)
	}

	page := draw.NewPage(f.width, f.height)
	page.Title = title
	page.Trim = draw.Rect{MaxX: f.width, MaxY: f.height}
	page.Layer(draw.Artwork, func(s *draw.Surface) { f.picture(s) })
	page.Layer(draw.Notes, b.draw)
	return page, b.found(f)
}

// title is what is drawn and how it lies.
func (f *figure) title() (title, subtitle string) {
	e := f.Envelope
	return fmt.Sprintf("%s envelope, %s flap", e.Short, e.Flap.Shape), "Open on the table, seen from the back. Not to scale."
}

// fitted sets a line smaller, down to the least em, until it is no wider than
// width, and then cuts it short.
func fitted(line string, font *draw.Font, em, least, width float64) (string, float64) {
	if wide := font.Width(line, 1); em*wide > width {
		em = max(least, width/wide)
	}
	if font.Width(line, em) <= width+1e-9 {
		return line, em
	}
	letters := []rune(line)
	for len(letters) > 0 && font.Width(string(letters)+"…", em) > width {
		letters = letters[:len(letters)-1]
	}
	return string(letters) + "…", em
}

// found is what the board knows, for the caller.
func (b *board) found(f *figure) Labels {
	l := Labels{Words: b.labels, Lines: b.lines, Tip: f.main.at(f.tip()), Scale: f.main.scale, Larger: f.larger}
	top, bottom := f.main.xy(0, 0), f.main.xy(f.Envelope.Width, -f.Envelope.Height)
	l.Pocket = draw.Rect{MinX: top.X, MinY: top.Y, MaxX: bottom.X, MaxY: bottom.Y}
	if f.larger > 0 {
		l.Detail, l.Corner = f.glass.box(), f.near.xy(0, 0)
	}
	return l
}
