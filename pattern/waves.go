package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Waves are bands that rise and fall as a sine does, a crest on the centre line.
type Waves struct{ Ribbons }

func init() {
	register(family{"waves", "bands that rise and fall gently, a crest on the centre line", func(p *params, _ *draw.Art) Motif {
		w := &Waves{}
		p.length(&w.Length, "length", 40, 1, 300, "from crest to crest")
		p.length(&w.Rise, "rise", 8, 0.2, 200, "how far a crest is above the troughs")
		p.bands(&w.Bands, "bands", "2.2:1,5.8:0", "height and ink of each band from the top, then again from the first")
		return w
	}})
}

// wavePieces is how many Bézier pieces draw a wave: sixteen keep within 4
// hundred-thousandths of its rise.
const wavePieces = 16

// Draw implements Motif.
func (w *Waves) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	w.draw(s, area, inks, "waves", func(p *draw.Path, x, y float64) {
		step := w.Length / wavePieces
		third := step / 3
		at := func(i int) (q draw.Point, slope float64) {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / wavePieces)
			return draw.Point{X: x + float64(i)*step, Y: y + w.Rise/2*(1-cos)}, math.Pi * w.Rise / w.Length * sin
		}
		for i := range wavePieces {
			a, sa := at(i)
			b, sb := at(i + 1)
			p.Cubic(draw.Point{X: a.X + third, Y: a.Y + sa*third}, draw.Point{X: b.X - third, Y: b.Y - sb*third}, b)
		}
	})
}
