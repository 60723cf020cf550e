package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Pinstripes are fine upright lines, alone or a few close together; a design's
// turn lays them at any angle. The middle of the first is the centre line.
type Pinstripes struct {
	Width   float64 // of a line
	Spacing float64 // from group to group
	Lines   int     // in a group
	Gap     float64 // between the lines of a group
	Inks    []int   // one a group, in turn
}

func init() {
	register(family{"pinstripes", "fine lines, single, double or more; --turn gives their angle", func(p *params, _ *draw.Art) Motif {
		ps := &Pinstripes{}
		p.pinstripes(ps, 5, 1)
		p.inks(&ps.Inks, "inks", "1", "ink of each line, or group of lines, in turn")
		return ps
	}})
}

// pinstripes binds the lines but for their inks.
func (p *params) pinstripes(ps *Pinstripes, spacing float64, lines int) {
	p.length(&ps.Width, "width", 0.6, 0.1, 10, "width of a line")
	p.length(&ps.Spacing, "spacing", spacing, 0.3, 200, "from the middle of one line, or group of lines, to the next")
	p.count(&ps.Lines, "lines", lines, 1, 6, "lines close together in a group")
	p.length(&ps.Gap, "gap", 0.8, 0.1, 50, "between the lines of a group")
	if ps.Lines > 1 { // a group must find room in the widest spacing
		p.between("gap", ps.Gap, 0.1, (200-float64(ps.Lines)*ps.Width)/float64(ps.Lines-1))
	}
	p.between("spacing", ps.Spacing, ps.group(), 200) // nearer, and groups run into each other
}

// group is the width of the lines that stand together.
func (ps *Pinstripes) group() float64 {
	return float64(ps.Lines)*ps.Width + float64(ps.Lines-1)*ps.Gap
}

// Count implements Motif. A line weighs as much as fifty dots, as a stripe does.
func (ps *Pinstripes) Count(area draw.Rect) float64 {
	return 50 * area.Width() / ps.Spacing * float64(ps.Lines)
}

// Draw implements Motif.
func (ps *Pinstripes) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	half := ps.group() / 2
	first, last := int(math.Floor((area.MinX-half)/ps.Spacing)), int(math.Ceil((area.MaxX+half)/ps.Spacing))
	for i, ink := range ps.Inks {
		group := s.Symbol(key("pinstripes", *ps, area.MinY, area.MaxY, inks.Ink(ink)), func(s *draw.Surface) {
			for line := range ps.Lines {
				x := float64(line)*(ps.Width+ps.Gap) - half
				s.Fill(draw.Rectangle(draw.Rect{MinX: x, MinY: area.MinY, MaxX: x + ps.Width, MaxY: area.MaxY}), inks.Ink(ink))
			}
		})
		var at []draw.Matrix
		for n := first; n <= last; n++ {
			if (n-i)%len(ps.Inks) == 0 {
				at = append(at, draw.Translate(float64(n)*ps.Spacing, 0))
			}
		}
		s.Place(group, at...)
	}
}
