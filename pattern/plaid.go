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
	register(family{"plaid", "a sett of bands, woven both ways as in tartan", func(p *params, _ *draw.Image) Motif {
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
	if pl.Twill == 0 {
		pl.mixed(s, area, inks)
		return
	}
	warp, weft := Stripes{pl.Warp}, Stripes{pl.Weft}
	warp.Draw(s, area, inks)
	s.Clipped(pl.slants(area), func(s *draw.Surface) {
		across := draw.Matrix{B: 1, C: 1} // x and y change places
		s.Within(across, func(s *draw.Surface) { weft.Draw(s, across.Bounds(area), inks) })
	})
}

// slants are where the weft lies over the warp: half of the plane, in bands at
// 45 degrees.
func (pl *Plaid) slants(area draw.Rect) draw.Path {
	var p draw.Path
	step := pl.Twill * math.Sqrt2 // along x
	height := area.Height()
	for i := math.Floor((area.MinX + area.MinY) / step); i*step <= area.MaxX+area.MaxY; i++ {
		x := i*step - area.MinY // at the top; each goes down to the left
		p.Move(x, area.MinY)
		p.Line(x+step/2, area.MinY)
		p.Line(x+step/2-height, area.MaxY)
		p.Line(x-height, area.MaxY)
		p.Close()
	}
	return p
}

// mixed draws the rectangles where a band of the warp crosses one of the weft.
// Each runs on a little under those right of it and below, which are drawn
// after it, and so does each sequence as a whole.
func (pl *Plaid) mixed(s *draw.Surface, area draw.Rect, inks Colours) {
	on := math.Inf(1)
	for _, b := range slices.Concat(pl.Warp, pl.Weft) {
		on = math.Min(on, b.Width/2)
	}
	left, top := -pl.Warp[0].Width/2, -pl.Weft[0].Width/2
	sequence := s.Symbol(key("plaid", *pl, inks), func(s *draw.Surface) {
		y := top
		for _, across := range pl.Weft {
			x := left
			for _, upright := range pl.Warp {
				r := draw.Rect{MinX: x, MinY: y, MaxX: x + upright.Width + on, MaxY: y + across.Width + on}
				s.Fill(draw.Rectangle(r), draw.Mix(inks.Ink(upright.Ink), inks.Ink(across.Ink), 0.5))
				x += upright.Width
			}
			y += across.Width
		}
	})
	dx, dy := period(pl.Warp), period(pl.Weft)
	var at []draw.Matrix
	for row := math.Floor((area.MinY - top) / dy); row*dy+top <= area.MaxY; row++ {
		for column := math.Floor((area.MinX - left) / dx); column*dx+left <= area.MaxX; column++ {
			at = append(at, draw.Translate(column*dx, row*dy))
		}
	}
	s.Place(sequence, at...)
}
