package pattern

import (
	"math"
	"slices"

	"underflap/pattern/draw"
)

// Plaid is a sett of bands, woven both ways. As in tartan the sett is given from
// one pivot to the other and read back again, so that the plaid mirrors itself;
// the middle of the first band is the centre line. Where warp and weft cross
// their colours are mixed half and half, flat, as cloth looks from arm's length
// and as prints evenly from a small file. A twill instead draws every other
// slant of the weft over the warp, which shows from near by.
type Plaid struct {
	Warp, Weft []Band // read back already
	Twill      float64
}

func init() {
	register(family{"plaid", "a sett of bands, woven both ways as in tartan", func(p *params, _ *draw.Art) Motif {
		const sett = "9:1,2:0,1.5:2,2:0,4:3,7:0,1:1"
		pl := &Plaid{}
		p.bands(&pl.Warp, "sett", sett, "width and ink of each band from one pivot to the other, then back")
		_, warp := p.word("sett", sett)
		p.bands(&pl.Weft, "weft", warp, "the sett across; unsaid it is the same")
		p.length(&pl.Twill, "twill", 0, 0, 10, "from slant to slant where warp and weft cross; 0 is a flat mixed colour")
		if pl.Twill > 0 {
			p.between("twill", pl.Twill, 0.3, 10)
		}
		pl.Warp, pl.Weft = back(pl.Warp), back(pl.Weft)
		return pl
	}})
}

// back is the whole sequence of a sett: from the first pivot to the last and
// back, each pivot once.
func back(sett []Band) []Band {
	if len(sett) < 3 {
		return sett
	}
	again := slices.Clone(sett[1 : len(sett)-1])
	slices.Reverse(again)
	return slices.Concat(sett, again)
}

// Count implements Motif.
func (pl *Plaid) Count(area draw.Rect) float64 {
	if pl.Twill > 0 { // slants and bands as stripes count theirs
		return 50 * ((area.Width()+area.Height())/pl.Twill + area.Width()/period(pl.Warp)*float64(len(pl.Warp)) + area.Height()/period(pl.Weft)*float64(len(pl.Weft)))
	}
	return cells(area, period(pl.Warp), period(pl.Weft)) * float64(len(pl.Warp)*len(pl.Weft))
}

// Draw implements Motif.
func (pl *Plaid) Draw(s *draw.Surface, area draw.Rect, inks Colours) {
	if pl.Twill > 0 {
		pl.twilled(s, area, inks)
	} else {
		pl.mixed(s, area, inks)
	}
}

// twilled draws the warp whole, and over it the slants of each band of the weft.
func (pl *Plaid) twilled(s *draw.Surface, area draw.Rect, inks Colours) {
	const on = 0.1 // slants run on under those of the band below
	warp := Stripes{pl.Warp}
	warp.Draw(s, area, inks)
	step := pl.Twill * math.Sqrt2 // along a band; they go down to the left at 45 degrees
	first, last := math.Floor(area.MinX/step), math.Ceil(area.MaxX/step)
	for y, i := pl.top(area.MinY), 0; y <= area.MaxY; i++ {
		band := cycle(pl.Weft, i)
		height := band.Width + on
		slants := s.Symbol(key("slants", band, step, first, last, inks.Ink(band.Ink)), func(s *draw.Surface) {
			var p draw.Path
			for x := first * step; x <= last*step+height+step; x += step {
				p.Move(x, 0)
				p.Line(x+step/2, 0)
				p.Line(x+step/2-height, height)
				p.Line(x-height, height)
				p.Close()
			}
			s.Fill(p, inks.Ink(band.Ink))
		})
		s.Place(slants, draw.Translate(-y-step*math.Floor(-y/step)-step, y))
		y += band.Width
	}
}

// top is where the sequence of the weft begins that y is in.
func (pl *Plaid) top(y float64) float64 {
	dy, middle := period(pl.Weft), pl.Weft[0].Width/2
	return math.Floor((y+middle)/dy)*dy - middle
}

// mixed draws the rectangles where a band of the warp crosses one of the weft,
// column by column. Each runs on under those right of it and below, which are
// drawn after it, and so does each sequence as a whole. What runs on below slants
// away from the left edge, which would be softened twice.
func (pl *Plaid) mixed(s *draw.Surface, area draw.Rect, inks Colours) {
	const on = 2
	dx, dy := period(pl.Warp), period(pl.Weft)
	left, top := -pl.Warp[0].Width/2, pl.top(area.MinY)
	sequence := s.Symbol(key("plaid", *pl, inks), func(s *draw.Surface) {
		x := 0.0
		for _, upright := range pl.Warp {
			y := 0.0
			right := x + upright.Width + on
			for _, across := range pl.Weft {
				foot := y + across.Width
				var p draw.Path
				p.Move(x, y)
				for _, q := range []draw.Point{{X: right, Y: y}, {X: right, Y: foot + on}, {X: x + on, Y: foot + on}, {X: x, Y: foot}} {
					p.Line(q.X, q.Y)
				}
				p.Close()
				s.Fill(p, draw.Mix(inks.Ink(upright.Ink), inks.Ink(across.Ink), 0.5))
				y = foot
			}
			x += upright.Width
		}
	})
	var at []draw.Matrix
	for column := math.Floor((area.MinX - left) / dx); column*dx+left <= area.MaxX; column++ {
		for y := top; y <= area.MaxY; y += dy {
			at = append(at, draw.Translate(column*dx+left, y))
		}
	}
	s.Place(sequence, at...)
}
