package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Guilloche are bands of fine interlaced waves, as banks print inside their
// envelopes. The waves of a band are the same one moved along, and all of them
// swell and sink together.
type Guilloche struct {
	Height float64 // of a band where it swells
	Rise   float64 // from band to band
	Wave   float64 // length of a wave
	Waves  int     // waves to one swelling
	Swell  float64 // how far bands sink between swellings, as a part of the height
	Lines  int     // in a band
	Line   float64 // thickness
	Inks   []int   // one a band, in turn
}

func init() {
	register(family{"guilloche", "bands of fine interlaced waves, as inside bank envelopes", func(p *params, _ *draw.Art) Motif {
		g := &Guilloche{}
		p.length(&g.Height, "height", 16, 1, 120, "height of a band where it swells")
		p.length(&g.Rise, "rise", 0, 0, 200, "from the middle of a band to the next; less than the height interlaces them; 0 is two thirds of it")
		p.length(&g.Wave, "wave", 22, 1, 200, "length of a wave")
		p.count(&g.Waves, "waves", 2, 1, 12, "waves from one swelling to the next")
		p.number(&g.Swell, "swell", 0.6, 0, 1, "how far bands sink between swellings: 0 not at all, 1 to a point")
		p.count(&g.Lines, "lines", 6, 1, 24, "lines in a band")
		p.length(&g.Line, "line", 0.4, 0.1, 10, "thickness of the lines")
		p.inks(&g.Inks, "inks", "1", "ink of each band in turn")
		if g.Rise == 0 {
			g.Rise = g.Height * 2 / 3
		}
		p.between("rise", g.Rise, g.Height/8, 200)
		return g
	}})
}

// pieces is how many curves draw one wave: they keep within a thousandth of its
// height.
const pieces = 12

// Count implements Motif: waves of single lines. A wave is twelve curves with
// two sides and weighs as much as three dots, of eight pieces each; a steep one
// costs more, since every row of pixels crosses all its flanks.
func (g *Guilloche) Count(area draw.Rect) float64 {
	return 3 * math.Max(1, g.Height/g.Wave) * float64(g.Lines) * cells(area, g.Wave, g.Rise)
}

// line is one line of a band from x0 to x1, given in pieces, for the waves moved
// along by a part of their length. Every next band swells where this one sinks.
func (g *Guilloche) line(moved float64, from, to int) draw.Path {
	step := g.Wave / pieces
	at := func(i int) (p draw.Point, slope float64) {
		x := float64(i) * step
		k, q := 2*math.Pi/g.Wave, 2*math.Pi/(g.Wave*float64(g.Waves))
		swell := 1 - g.Swell*(1-math.Cos(q*x))/2
		u := k*x + 2*math.Pi*moved
		y := g.Height / 2 * swell * math.Cos(u)
		return draw.Point{X: x, Y: y}, -g.Height / 2 * (swell*k*math.Sin(u) + g.Swell*q*math.Sin(q*x)/2*math.Cos(u))
	}
	var path draw.Path
	a, slope := at(from)
	path.Move(a.X, a.Y)
	for i := from + 1; i <= to; i++ {
		b, next := at(i)
		path.Cubic(draw.Point{X: a.X + step/3, Y: a.Y + slope*step/3}, draw.Point{X: b.X - step/3, Y: b.Y - next*step/3}, b)
		a, slope = b, next
	}
	return path
}

// Draw implements Motif. A line runs on over the whole area, so that its pieces
// never part.
func (g *Guilloche) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	swelling := g.Wave * float64(g.Waves)
	area = area.Grow(g.Line)
	from, to := int(math.Floor((area.MinX-swelling/2)/g.Wave)), int(math.Ceil((area.MaxX+swelling/2)/g.Wave))
	at := map[int][]draw.Matrix{}
	for row := int(math.Floor((area.MinY - g.Height/2) / g.Rise)); float64(row)*g.Rise <= area.MaxY+g.Height/2; row++ {
		moved := 0.0
		if row%2 != 0 { // swells where its neighbours sink
			moved = swelling / 2
		}
		ink := cycle(g.Inks, row)
		at[ink] = append(at[ink], draw.Translate(moved, float64(row)*g.Rise))
	}
	placeInks(s, at, func(ink int) *draw.Symbol {
		return s.Symbol(key("guilloche", *g, from, to, ink, inks), func(s *draw.Surface) {
			for i := range g.Lines {
				s.Stroke(g.line(float64(i)/float64(g.Lines), from*pieces, to*pieces), inks.Ink(ink), g.Line)
			}
		})
	})
}
