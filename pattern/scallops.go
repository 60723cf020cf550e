package pattern

import (
	"underflap/pattern/draw"
)

// Scallops are rows of overlapping scales like a fish's, round end down, each
// made of concentric rings. A row lies over the one below it, half a scale
// aside.
type Scallops struct {
	Size  float64 // width of a scale
	Rise  float64 // from row to row
	Rings int
	Inks  []int // of the rings from the outside in, in turn
}

func init() {
	register(family{"scallops", "overlapping fish-scale rows of concentric rings", func(p *params, _ *draw.Art) Motif {
		sc := &Scallops{}
		p.length(&sc.Size, "size", 24, 1, 120, "width of a scale")
		p.length(&sc.Rise, "rise", 0, 0, 60, "from row to row, up to half the size; 0 is a quarter of it")
		p.count(&sc.Rings, "rings", 6, 1, 12, "concentric rings in a scale")
		p.inks(&sc.Inks, "inks", "1,0", "ink of each ring from the outside in, in turn")
		sc.settle(p)
		return sc
	}})
}

// settle fills in the rise and keeps it where scales cover everything.
func (sc *Scallops) settle(p *params) {
	if sc.Rise == 0 {
		sc.Rise = sc.Size / 4
	}
	p.between("rise", sc.Rise, sc.Size/10, sc.Size/2)
}

// Count implements Motif.
func (sc *Scallops) Count(area draw.Rect) float64 {
	return cells(area, sc.Size, sc.Rise)
}

// Radius is the outer radius of ring i, counted from the outside.
func (sc *Scallops) Radius(i int) float64 {
	return sc.Size / 2 * float64(sc.Rings-i) / float64(sc.Rings)
}

// Draw implements Motif.
func (sc *Scallops) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	// four scales meet in single points, where a hairline of ground could show
	s.Fill(draw.Rectangle(area), inks.Ink(sc.Inks[0]))
	scale := s.Symbol(key("scallop", *sc, inks), func(s *draw.Surface) {
		for i := range sc.Rings {
			s.Fill(draw.Circle(0, 0, sc.Radius(i)), inks.Ink(cycle(sc.Inks, i)))
		}
	})
	var at []draw.Matrix
	rows := Recurrence{Repeat: Brick, DX: sc.Size, DY: sc.Rise, Step: 0.5}
	rows.each(area, sc.Size/2, func(p Place) { at = append(at, p.At) })
	s.Place(scale, at...)
}
