package index

import (
	"context"
	"fmt"
	"math"

	"underflap/pattern/draw"
)

var (
	ink    = draw.Colour{R: 57, G: 57, B: 57}
	grey   = draw.Colour{R: 112, G: 110, B: 113}
	pale   = draw.Colour{R: 205, G: 203, B: 206}
	accent = draw.Colour{R: 0xa8, G: 0x41, B: 0x2b}
)

// Ems in millimetres: 9 points to read by, names larger.
const (
	titleType   = 7.4
	headingType = 4.6
	nameType    = 3.7
	readType    = 3.2
	smallType   = 2.8
)

const (
	footRoom = 7.0 // under everything, for the page number
	gutter   = 8.0 // between cards
	hairline = 0.2
)

// item is a row of the index, as wide as the page's room.
type item struct {
	height, before float64 // before: room over it, but at the top of a page
	keep           bool    // on the page of the next one
	artwork        func(ctx context.Context, s *draw.Surface, at draw.Point) error
	notes          func(s *draw.Surface, at draw.Point)
}

// placed is an item on a page, and its top left.
type placed struct {
	item
	at draw.Point
}

// layout is an index on its paper.
type layout struct {
	Occasion
	room  draw.Rect // without the foot
	foot  float64   // baseline of the page number
	dense density
}

// density is by how many sizes the cards of each part are smaller than where there
// is room.
type density struct{ liners, sheets int }

// densities from the roomiest on.
var densities = []density{{0, 0}, {0, 1}, {1, 0}, {1, 1}, {1, 2}, {2, 1}, {2, 2}}

// Room between parts and between rows of cards, by the denser part.
var overs, beneaths = [...]float64{10, 8.5, 7}, [...]float64{6, 5, 4}

func (l layout) over() float64    { return overs[max(l.dense.liners, l.dense.sheets)] }
func (l layout) beneath() float64 { return beneaths[max(l.dense.liners, l.dense.sheets)] }

func newLayout(o Occasion, within draw.Rect) layout {
	pad := math.Max(2, math.Min(9, 0.04*math.Min(within.Width(), within.Height())))
	room := within.Grow(-pad)
	l := layout{Occasion: o, room: room, foot: room.MaxY - tails*smallType}
	l.room.MaxY -= footRoom
	return l
}

// arranged is the roomiest layout of those that take the fewest pages.
func arranged(o Occasion, within draw.Rect) (best layout, pages [][]placed) {
	for _, dense := range densities {
		l := newLayout(o, within)
		l.dense = dense
		if all := l.paged(l.items(0)); pages == nil || len(all) < len(pages) {
			best, pages = l, all
		}
	}
	return best, pages
}

// items are all rows of the index, with so many pages before the first sheet's.
func (l layout) items(ahead int) []item {
	all := l.head()
	all = append(all, l.liners()...)
	all = append(all, l.sheets(ahead)...)
	return append(all, l.closing()...)
}

// head is the title over a fine line.
func (l layout) head() []item {
	c := set(l.room.Width(), l.room.Height()/2,
		para{text: l.Title, font: draw.Bold, size: titleType, colour: ink, most: 2},
		para{text: "Index: " + l.about(), font: draw.Regular, size: readType, colour: grey, before: 1.2, most: 2})
	const below = 2.6
	return []item{{
		height: c.height + below, notes: c.draw,
		artwork: func(_ context.Context, s *draw.Surface, at draw.Point) error {
			s.Fill(draw.Rectangle(draw.Rect{MinX: at.X, MaxX: at.X + l.room.Width(), MinY: at.Y + c.height + below - hairline, MaxY: at.Y + c.height + below}), pale)
			return nil
		},
	}}
}

// heading stands over a part and never at the foot of a page.
func (l layout) heading(title string) item {
	c := set(l.room.Width(), l.room.Height(), para{text: title, font: draw.Bold, size: headingType, colour: ink, most: 1})
	return item{height: c.height + 2.4, before: l.over(), keep: true, notes: c.draw}
}

// rows lays cards out in columns, a row as high as its highest.
func (l layout) rows(cards []item, columns int, width float64) []item {
	var all []item
	for len(cards) > 0 {
		n := min(columns, len(cards))
		row := item{before: l.beneath()}
		mine := cards[:n]
		for _, c := range mine {
			row.height = math.Max(row.height, c.height)
		}
		place := func(i int, at draw.Point) draw.Point { return draw.Point{X: at.X + float64(i)*(width+gutter), Y: at.Y} }
		row.artwork = func(ctx context.Context, s *draw.Surface, at draw.Point) error {
			for i, c := range mine {
				if err := c.artwork(ctx, s, place(i, at)); err != nil {
					return err
				}
			}
			return nil
		}
		row.notes = func(s *draw.Surface, at draw.Point) {
			for i, c := range mine {
				c.notes(s, place(i, at))
			}
		}
		if len(all) == 0 {
			row.before = 0
		}
		all, cards = append(all, row), cards[n:]
	}
	return all
}

// columns is how many cards of at least a width go side by side, and how wide
// they are then.
func (l layout) columns(least float64, cards int) (n int, width float64) {
	n = max(1, min(cards, int((l.room.Width()+gutter)/(least+gutter))))
	return n, (l.room.Width()+gutter)/float64(n) - gutter
}

// paged parts the items into pages.
func (l layout) paged(items []item) (pages [][]placed) {
	y := math.Inf(1)
	for i, it := range items {
		need := it.height
		for k := i; items[k].keep && k+1 < len(items); k++ {
			need += items[k+1].before + items[k+1].height
		}
		before := it.before
		if y+before+need > l.room.MaxY {
			pages = append(pages, nil)
			y, before = l.room.MinY, 0
		}
		last := len(pages) - 1
		pages[last] = append(pages[last], placed{it, draw.Point{X: l.room.MinX, Y: y + before}})
		y += before + it.height
	}
	return pages
}

// page draws one page of so many.
func (l layout) page(ctx context.Context, items []placed, i, of int) (*draw.Page, error) {
	page := draw.NewPage(l.Paper.Width, l.Paper.Height)
	page.Until(ctx)
	page.Title = written(l.Title, draw.Regular) + ", index"
	page.About = l.about()
	page.Trim = draw.Rect{MaxX: l.Paper.Width, MaxY: l.Paper.Height}.Grow(-l.PrinterMargin)
	var err error
	page.Layer(draw.Artwork, func(s *draw.Surface) {
		for _, it := range items {
			if it.artwork != nil && err == nil {
				err = it.artwork(ctx, s, it.at)
			}
		}
	})
	if err != nil {
		return nil, err
	}
	page.Layer(draw.Notes, func(s *draw.Surface) {
		for _, it := range items {
			if it.notes != nil {
				it.notes(s, it.at)
			}
		}
		number := fmt.Sprintf("index, page %d of %d", i+1, of)
		wide := draw.Regular.Width(number, smallType)
		s.Text(number, draw.Regular, smallType, draw.Translate(l.room.MaxX-wide, l.foot), grey)
		if i > 0 {
			for _, title := range lines(l.Title, draw.Regular, smallType, l.room.Width()-wide-gutter, 1) {
				s.Text(title, draw.Regular, smallType, draw.Translate(l.room.MinX, l.foot), grey)
			}
		}
	})
	return page, ctx.Err()
}

// disc is a kind's letter on its round ground; r is its radius.
type disc struct {
	letter string
	at     draw.Point
	r      float64
}

func (d disc) draw(s *draw.Surface) { s.Fill(draw.Circle(d.at.X, d.at.Y, d.r), accent) }

func (d disc) name(s *draw.Surface) {
	letter := written(d.letter, draw.Bold)
	em := 1.35 * d.r
	if w := draw.Bold.Width(letter, em); w > 1.5*d.r {
		em *= 1.5 * d.r / w
	}
	s.Text(letter, draw.Bold, em, draw.Translate(d.at.X-draw.Bold.Width(letter, em)/2, d.at.Y+0.36*em), draw.White)
}
