package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Herringbone is interlocking bricks that lean left and right by turns, as
// parquet is laid. Bricks of any proportion interlock; they mirror each other
// but for a step of half a brick, and a ridge is on the centre line.
type Herringbone struct {
	Length, Width float64 // of a brick's place, from the middle of one joint to the next
	Gap           float64 // of the joints, where the ground shows
	Inks          []int   // of each upright row of bricks, in turn
}

func init() {
	register(family{"herringbone", "interlocking bricks, leaning left and right by turns", func(p *params, _ *draw.Art) Motif {
		h := &Herringbone{}
		p.length(&h.Length, "length", 16, 1, 200, "length of a brick with its joint")
		p.length(&h.Width, "width", 4, 0.5, 100, "width of a brick with its joint")
		p.length(&h.Gap, "gap", 0.8, 0, 30, "width of the joints, where the ground shows")
		p.inks(&h.Inks, "inks", "1", "ink of each upright row of bricks, in turn")
		p.between("width", h.Width, 0.5, h.Length)
		p.between("gap", h.Gap, 0, 0.8*h.Width)
		return h
	}})
}

// pitch is how far rows of bricks lie apart, two by two, and bricks in a row.
func (h *Herringbone) pitch() (dx, dy float64) { return math.Sqrt2 * h.Length, math.Sqrt2 * h.Width }

// Count implements Motif.
func (h *Herringbone) Count(area draw.Rect) float64 {
	dx, dy := h.pitch()
	return 2 * cells(area, dx, dy)
}

// bricks are the outlines of one brick of each lean as they lie before the
// pattern is turned by 45 degrees: along x from the origin, and upright to the
// right of its end. Without a gap each runs on, by half a width, under those
// of its neighbours that are drawn after it.
func (h *Herringbone) bricks() (lying, standing draw.Path) {
	l, w := h.Length, h.Width
	upright := draw.Rect{MinX: l, MinY: w - l, MaxX: l + w, MaxY: w}
	if h.Gap > 0 {
		return draw.Rectangle(draw.Rect{MaxX: l, MaxY: w}.Grow(-h.Gap / 2)), draw.Rectangle(upright.Grow(-h.Gap / 2))
	}
	on := w / 2
	lying.Move(0, 0)
	for _, p := range []draw.Point{{X: l - w, Y: 0}, {X: l - w, Y: -on}, {X: l + on, Y: -on}, {X: l + on, Y: w + on}, {X: w, Y: w + on}, {X: w, Y: w}, {X: 0, Y: w}} {
		lying.Line(p.X, p.Y)
	}
	lying.Close()
	upright.MaxX += on
	upright.MinY -= on
	return lying, draw.Rectangle(upright)
}

// Draw implements Motif: row after row from the left, each from the top.
func (h *Herringbone) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	dx, dy := h.pitch()
	lying, standing := h.bricks()
	turned := draw.Translate(-(h.Length-h.Width/2)/math.Sqrt2, 0).After(draw.Turn(45)) // the ridge between the two to the centre line
	brick := func(name string, p draw.Path, ink int) *draw.Symbol {
		return s.Symbol(key(name, h.Length, h.Width, h.Gap, inks.Ink(ink)), func(s *draw.Surface) {
			s.Fill(p.Transform(turned), inks.Ink(ink))
		})
	}
	reach := dx + dy
	for column := int(math.Floor((area.MinX - reach) / dx)); column <= int(math.Ceil((area.MaxX+reach)/dx)); column++ {
		var at []draw.Matrix
		for row := math.Floor((area.MinY - reach) / dy); row <= math.Ceil((area.MaxY+reach)/dy); row++ {
			at = append(at, draw.Translate(float64(column)*dx, row*dy))
		}
		s.Place(brick("lying brick", lying, cycle(h.Inks, 2*column)), at...)
		s.Place(brick("standing brick", standing, cycle(h.Inks, 2*column+1)), at...)
	}
}
