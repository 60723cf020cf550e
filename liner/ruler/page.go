// Package ruler draws the page a person prints to learn the printer's true
// scale and margin: rules of 100 mm and 4 in across and down, a border at the
// printer margin, and what to do. Lengths are millimetres in page space.
package ruler

import (
	"math"

	"underflap/liner"
	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
	"underflap/pattern/words"
)

var ink = draw.Colour{R: 57, G: 57, B: 57}

const (
	thick = 20.5 // a pair of rules with their numbers, across
	apart = 7.0  // between the pairs, and between them and the words
	pad   = 5.0  // from the border to what is inside
)

// Em sizes of the steps, best first, and their measure in ems. The title is
// larger by titleEms, the line under it as large as the steps. Wide paper gets
// large type: the border is at least typeShare ems wide.
var sizes = []float64{5.2, 4.8, 4.4, 4.1, 3.8, 3.5, 3.2, 3.0, 2.8, 2.6, 2.4}

const measure, titleEms, typeShare = 33, 1.7, 46

// layout is everything on the page but the border, placed.
type layout struct {
	titleAt, underAt draw.Point
	size             float64
	rules            [4]Rule // millimetres across, inches across, millimetres down, inches down
	steps            setting.Block
	stepsAt          draw.Point
	width, height    float64
}

// compose lays out the page from its top left corner for a room. Where there
// is width the rule across stands beside the one down, in a narrow room
// above it.
func compose(paper liner.Paper, margin float64, corrected string, size, room float64, narrow bool) (l layout, ok bool) {
	l.size = size
	title, under := heading(paper, margin, corrected)
	if w := draw.Bold.Width(title, titleEms*size); w > room || draw.Regular.Width(under, size) > room {
		return l, false
	}
	l.titleAt = draw.Point{Y: titleEms * size * capitals}
	l.underAt = draw.Point{Y: l.titleAt.Y + 1.7*size}
	top := l.underAt.Y + 2.6*size
	long := Inches.Length + Overhang
	across, down := draw.Point{X: thick + apart, Y: top}, draw.Point{Y: top}
	l.stepsAt = draw.Point{X: thick + apart, Y: top + thick + apart - 0.4*size}
	if narrow {
		across.X = 0
		down.Y += thick + apart
	}
	if l.steps, ok = setting.Set(steps(margin, corrected), size, min(measure*size, room-l.stepsAt.X)); !ok {
		return l, false
	}
	l.rules = [4]Rule{
		{Scale: Millimetres, X: across.X, Y: across.Y},
		{Scale: Inches, X: across.X, Y: across.Y + thick, Flipped: true},
		{Scale: Millimetres, X: down.X, Y: down.Y, Upright: true},
		{Scale: Inches, X: down.X + thick, Y: down.Y, Upright: true, Flipped: true},
	}
	l.width = max(across.X+long, l.stepsAt.X+l.steps.Width)
	l.height = max(down.Y+long, l.stepsAt.Y+l.steps.Height)
	return l, l.width <= room
}

// arrange finds the best layout for a paper and places it a little above the
// middle of its border.
func arrange(paper liner.Paper, margin float64, corrected string) (layout, error) {
	border := Border(paper, margin)
	room := border.Grow(-pad)
	for _, size := range sizes {
		if size > border.Width()/typeShare && size > sizes[len(sizes)-1] {
			continue
		}
		for _, narrow := range []bool{false, true} {
			l, ok := compose(paper, margin, corrected, size, room.Width(), narrow)
			if !ok || l.height > room.Height() {
				continue
			}
			l.shift(room.MinX+(room.Width()-l.width)/2, room.MinY+(room.Height()-l.height)/3)
			return l, nil
		}
	}
	return layout{}, &words.Refused{Field: "paper", Given: paper.Short, Why: "too small for the rules inside a printer margin of " + words.MM(margin),
		Accepts: "a paper of at least " + least(margin, corrected)}
}

// least is the smallest paper that is accepted with a margin, standing and
// lying, in whole millimetres.
func least(margin float64, corrected string) string {
	size := sizes[len(sizes)-1]
	around := 2 * (margin + pad)
	said := ""
	for _, narrow := range []bool{true, false} {
		for room := 100.0; room < 200; room++ {
			l, ok := compose(liner.Paper{}, margin, corrected, size, room, narrow)
			if !ok {
				continue
			}
			if said != "" {
				said += " or "
			}
			said += words.MMSize(math.Ceil(room+around), math.Ceil(l.height+around))
			break
		}
	}
	return said
}

func (l *layout) shift(x, y float64) {
	for _, p := range []*draw.Point{&l.titleAt, &l.underAt, &l.stepsAt} {
		p.X, p.Y = p.X+x, p.Y+y
	}
	for i := range l.rules {
		l.rules[i].X += x
		l.rules[i].Y += y
	}
}

// Rules are the four rules where Page draws them: millimetres and inches
// across, then millimetres and inches down.
func Rules(paper liner.Paper, printerMargin float64, corrected string) ([4]Rule, error) {
	l, err := arrange(paper, printerMargin, corrected)
	return l.rules, err
}

// Page draws the page. corrected says what a correction does to it ("1.3 %
// wider"), "" when it is drawn as it is. A paper too small for it is refused.
func Page(paper liner.Paper, printerMargin float64, corrected string) (*draw.Page, error) {
	l, err := arrange(paper, printerMargin, corrected)
	if err != nil {
		return nil, err
	}
	title, under := heading(paper, printerMargin, corrected)
	page := draw.NewPage(paper.Width, paper.Height)
	page.Title = "Ruler page, " + paper.Short
	page.Layer(draw.Notes, func(s *draw.Surface) {
		drawBorder(s, Border(paper, printerMargin), ink)
		s.Text(title, draw.Bold, titleEms*l.size, draw.Translate(l.titleAt.X, l.titleAt.Y), ink)
		s.Text(under, draw.Regular, l.size, draw.Translate(l.underAt.X, l.underAt.Y), ink)
		for _, r := range l.rules {
			r.Draw(s, ink)
		}
		caption(s, l.rules[0], "across: --correct-x")
		caption(s, l.rules[2], "down: --correct-y")
		l.steps.Draw(s, draw.Translate(l.stepsAt.X, l.stepsAt.Y), ink)
	})
	return page, nil
}

// caption writes along the middle of a pair of rules what they measure.
func caption(s *draw.Surface, r Rule, text string) {
	const size = 2.5
	b := r.Box()
	w := draw.Regular.Width(text, size)
	at := draw.Translate((b.MinX+b.MaxX-w)/2, b.MinY+thick/2+capitals*size/2)
	if r.Upright { // numbers of two figures on the one side, of one on the other
		figure := draw.Bold.Width("0", numerals)
		at = draw.Translate(b.MinX+(thick+figure+capitals*size)/2, (b.MinY+b.MaxY+w)/2).After(draw.Turn(270))
	}
	s.Text(text, draw.Regular, size, at, ink)
}
