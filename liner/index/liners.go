package index

import (
	"context"
	"math"
	"slices"

	"underflap/pattern/draw"
)

// cards is a size of cards: the fewer, the larger.
type cards struct {
	least float64 // width of a card
	wide  float64 // room of its picture
	high  float64
	upTo  int // so many cards
}

var linerCards = []cards{
	{least: 120, wide: 62, high: 62, upTo: 1},
	{least: 78, wide: 38, high: 40, upTo: 6},
	{least: 78, wide: 30, high: 31, upTo: 18},
	{least: 54, wide: 21, high: 23, upTo: math.MaxInt},
}

// sizeOf is how large n cards are, and by so many sizes smaller.
func sizeOf(all []cards, n, smaller int) cards {
	i := slices.IndexFunc(all, func(c cards) bool { return n <= c.upTo })
	return all[min(i+smaller, len(all)-1)]
}

const besidePicture = 4.0

// liners is the part that shows every kind.
func (l layout) liners() []item {
	size := sizeOf(linerCards, len(l.Lines), l.dense.liners)
	columns, width := l.columns(size.least, len(l.Lines))
	wide := math.Min(size.wide, 0.42*width)
	high := math.Min(size.high, 0.4*l.room.Height())
	var all []item
	for _, line := range l.Lines {
		all = append(all, l.linerCard(line, width, wide, high))
	}
	if len(all) == 0 {
		return nil
	}
	return append([]item{l.heading("Liners")}, l.rows(all, columns, width)...)
}

const nameDisc = 2.6

func (l layout) linerCard(line Line, width, wide, high float64) item {
	pic := newPicture(line, wide, high)
	x := wide + besidePicture
	c := set(width-x, 0.6*l.room.Height(),
		para{text: line.Name, font: draw.Bold, size: nameType, colour: ink, left: 2*nameDisc + 1.8, most: 3},
		para{text: counted(line.Count, "liner", "liners"), font: draw.Regular, size: readType, colour: ink, before: 1.4, most: 1},
		para{text: line.Says, font: draw.Regular, size: smallType, colour: grey, before: 0.8, most: 6})
	d := func(at draw.Point) disc {
		return disc{line.Letter, draw.Point{X: at.X + x + nameDisc, Y: at.Y + rise*nameType - 0.36*nameType}, nameDisc}
	}
	return item{
		height: math.Max(pic.height, c.height),
		artwork: func(ctx context.Context, s *draw.Surface, at draw.Point) error {
			d(at).draw(s)
			return pic.draw(ctx, s, draw.Point{X: at.X + (wide-pic.width)/2, Y: at.Y})
		},
		notes: func(s *draw.Surface, at draw.Point) {
			d(at).name(s)
			c.draw(s, draw.Point{X: at.X + x, Y: at.Y})
		},
	}
}
