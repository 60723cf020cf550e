package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// fieldRepeats are those that leave every cell upright where bands run through.
var fieldRepeats = []Repeat{Straight, Brick, HalfDrop}

// Field is a drawing from a file in which bands run on from cell to cell. Each
// shape is drawn all over before the next, and each band in one piece across the
// area, so that nothing shows where cells meet.
type Field struct{ look }

// Count implements Motif. A band weighs as much as one of Stripes.
func (f *Field) Count(area draw.Rect) float64 {
	sum := cells(area, f.width*f.size, f.height*f.size) * f.weight()
	for i := range f.shapes {
		if b := f.shapes[i].band; b != nil {
			_, apart := f.course(b)
			sum += 50 * math.Hypot(area.Width(), area.Height()) / apart
		}
	}
	return sum
}

// Draw implements Motif.
func (f *Field) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	grid := Recurrence{Repeat: f.repeat, DX: f.width * f.size, DY: f.height * f.size, Step: 0.5}
	for i := range f.shapes {
		sh := &f.shapes[i]
		if sh.band != nil {
			f.strips(s, area, sh, f.colour(sh, inks))
			continue
		}
		one := s.Symbol(f.key(1+i, inks), func(s *draw.Surface) { f.draw(s, sh, inks) })
		grid.place(s, area, sh.reach(f.size, f.line), []int{0}, func(int) *draw.Symbol { return one })
	}
}

// course is which way a band runs, one millimetre long, and how far it is from
// one of its repeats to the next: a cell's area over the way in which it meets
// itself.
func (f *Field) course(b *band) (along draw.Point, apart float64) {
	w, h := f.width*f.size, f.height*f.size
	x, y := float64(b.across)*w, float64(b.down)*h
	long := math.Hypot(x, y)
	return draw.Point{X: x / long, Y: y / long}, w * h / long
}

// strips draws a band with all its repeats.
func (f *Field) strips(s *draw.Surface, area draw.Rect, sh *shape, c draw.Colour) {
	along, apart := f.course(sh.band)
	// to the band's own space: x along it, y across
	turn := draw.Matrix{A: along.X, B: along.Y, C: -along.Y, D: along.X}
	box := turn.Inverse().Bounds(area)
	first := turn.Inverse().Apply(draw.Point{X: sh.band.from.X * f.size, Y: sh.band.from.Y * f.size}).Y
	half := sh.line * f.size * f.line / 2
	for i := math.Ceil((box.MinY - half - first) / apart); i <= math.Floor((box.MaxY+half-first)/apart); i++ {
		y := first + i*apart
		s.Fill(draw.Rectangle(draw.Rect{MinX: box.MinX - 1, MinY: y - half, MaxX: box.MaxX + 1, MaxY: y + half}).Transform(turn), c)
	}
}
