package ruler

import (
	"underflap/liner"
	"underflap/pattern/draw"
)

const (
	borderLine = 0.2
	// CornerArm is the length of both arms of the squares in the corners, in
	// millimetres, measured along their outer edges.
	CornerArm  = 10.0
	cornerLine = 0.8
)

// Border is the rectangle inside the printer margin. The thin border lies
// within it, its outer edge exactly on it.
func Border(paper liner.Paper, printerMargin float64) draw.Rect {
	return draw.Rect{MinX: printerMargin, MinY: printerMargin, MaxX: paper.Width - printerMargin, MaxY: paper.Height - printerMargin}
}

// Corners are the boxes of the four squares: CornerArm wide and high, in the
// corners of the border, from the top left clockwise.
func Corners(border draw.Rect) [4]draw.Rect {
	b, a := border, CornerArm
	return [4]draw.Rect{
		{MinX: b.MinX, MinY: b.MinY, MaxX: b.MinX + a, MaxY: b.MinY + a},
		{MinX: b.MaxX - a, MinY: b.MinY, MaxX: b.MaxX, MaxY: b.MinY + a},
		{MinX: b.MaxX - a, MinY: b.MaxY - a, MaxX: b.MaxX, MaxY: b.MaxY},
		{MinX: b.MinX, MinY: b.MaxY - a, MaxX: b.MinX + a, MaxY: b.MaxY},
	}
}

// drawBorder draws the border and its corners from fills.
func drawBorder(s *draw.Surface, b draw.Rect, c draw.Colour) {
	fill := func(x0, y0, x1, y1 float64) {
		s.Fill(draw.Rectangle(draw.Rect{MinX: x0, MinY: y0, MaxX: x1, MaxY: y1}), c)
	}
	frame := func(r draw.Rect, line float64, top, right, bottom, left bool) {
		if top {
			fill(r.MinX, r.MinY, r.MaxX, r.MinY+line)
		}
		if right {
			fill(r.MaxX-line, r.MinY, r.MaxX, r.MaxY)
		}
		if bottom {
			fill(r.MinX, r.MaxY-line, r.MaxX, r.MaxY)
		}
		if left {
			fill(r.MinX, r.MinY, r.MinX+line, r.MaxY)
		}
	}
	frame(b, borderLine, true, true, true, true)
	for i, corner := range Corners(b) {
		frame(corner, cornerLine, i < 2, i == 1 || i == 2, i > 1, i == 0 || i == 3)
	}
}
