package pattern

import (
	"math"

	"underflap/pattern/draw"
)

// Gingham is cloth woven of equal bands of ground and ink both ways. Where a
// band crosses the ground it shows in half tone, where two bands cross in full.
// The half tones are flat mixed colours, which print evenly and keep files
// small; a hatching fine enough not to be seen would only be more to draw.
type Gingham struct {
	Size float64 // width of a band
	Tone float64 // percent of ink where a band crosses the ground
	Inks []int   // of the upright bands, then of those across
}

func init() {
	register(family{"gingham", "woven checks: ground, half tone and full ink", func(p *params, _ *draw.Art) Motif {
		g := &Gingham{}
		p.length(&g.Size, "size", 6, 0.5, 100, "side of a check; the pattern recurs at twice that")
		p.number(&g.Tone, "tone", 45, 5, 95, "percent of ink in the half tone")
		p.inks(&g.Inks, "inks", "1", "ink of the upright bands, then of those across")
		return g
	}})
}

// Count implements Motif: the checks, and the bands as stripes count theirs.
func (g *Gingham) Count(area draw.Rect) float64 {
	return cells(area, 2*g.Size, 2*g.Size) + 50*(area.Width()+area.Height())/(2*g.Size)
}

// Draw implements Motif: bands whole, one set over the other, and the checks
// where they cross on top.
func (g *Gingham) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	half := g.Size / 2
	upright, across := inks.Ink(cycle(g.Inks, 0)), inks.Ink(cycle(g.Inks, 1))
	band := func(r draw.Rect, ink draw.Colour) *draw.Symbol {
		return s.Symbol(key("gingham", r, ink), func(s *draw.Surface) { s.Fill(draw.Rectangle(r), ink) })
	}
	numbers := func(from, to float64) (first, last float64) {
		return math.Floor((from - half) / (2 * g.Size)), math.Ceil((to + half) / (2 * g.Size))
	}
	left, right := numbers(area.MinX, area.MaxX)
	top, bottom := numbers(area.MinY, area.MaxY)
	var columns, rows, checks []draw.Matrix
	for x := left; x <= right; x++ {
		columns = append(columns, draw.Translate(2*g.Size*x, 0))
	}
	for y := top; y <= bottom; y++ {
		rows = append(rows, draw.Translate(0, 2*g.Size*y))
		for x := left; x <= right; x++ {
			checks = append(checks, draw.Translate(2*g.Size*x, 2*g.Size*y))
		}
	}
	s.Place(band(draw.Rect{MinX: -half, MinY: area.MinY, MaxX: half, MaxY: area.MaxY}, draw.Mix(inks.Ground, upright, g.Tone/100)), columns...)
	s.Place(band(draw.Rect{MinX: area.MinX, MinY: -half, MaxX: area.MaxX, MaxY: half}, draw.Mix(inks.Ground, across, g.Tone/100)), rows...)
	s.Place(band(draw.Rect{MinX: -half, MinY: -half, MaxX: half, MaxY: half}, draw.Mix(upright, across, 0.5)), checks...)
}
