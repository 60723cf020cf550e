package pattern

import "underflap/pattern/draw"

// Chevron is a zigzag of bands; a peak is on the centre line, as the flap's is.
type Chevron struct{ Ribbons }

func init() {
	register(family{"chevron", "zigzag bands of any width and ink, a peak on the centre line", func(p *params, _ *draw.Art) Motif {
		c := &Chevron{}
		p.length(&c.Length, "width", 24, 1, 300, "from peak to peak")
		p.length(&c.Rise, "rise", 10, 0.2, 200, "how far a peak is above the valleys")
		p.bands(&c.Bands, "bands", "3:1,2:0,1:2,5:0", "height and ink of each band from the top, then again from the first")
		return c
	}})
}

// Draw implements Motif.
func (c *Chevron) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	c.draw(s, area, inks, "chevron", func(p *draw.Path, x, y float64) {
		p.Line(x+c.Length/2, y+c.Rise)
		p.Line(x+c.Length, y)
	})
}
