package pattern

import (
	"fmt"
	"math"
	"strings"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// Fade lets a pattern fade from the fold to the foot.
type Fade struct {
	Of FadeOf
	To float64 // what is left at the foot: of the ink's strength, or of the motif's size
}

// FadeOf is what fades.
type FadeOf string

// What can fade; the zero value is nothing.
const (
	FadeInk  FadeOf = "ink"
	FadeSize FadeOf = "size"
)

const fadeAccepts = "ink or size, and if wanted how much is left at the foot, such as ink:20% or size:50%"

// ParseFade reads what fades, and how much of it is left at the foot; "" is no
// fade.
func ParseFade(field, given string) (Fade, error) {
	if strings.TrimSpace(given) == "" {
		return Fade{}, nil
	}
	what, left, said := strings.Cut(given, ":")
	f := Fade{Of: FadeOf(strings.ToLower(strings.TrimSpace(what))), To: 0.15}
	if f.Of == FadeSize {
		f.To = 0.4
	}
	if f.Of != FadeInk && f.Of != FadeSize {
		return Fade{}, &words.Refused{Field: field, Given: given, Accepts: fadeAccepts}
	}
	if said {
		percent, err := words.Number(field, strings.TrimSuffix(strings.TrimSpace(left), "%"), 0, 100)
		if err != nil || f.Of == FadeSize && percent < 5 {
			return Fade{}, &words.Refused{Field: field, Given: given, Accepts: fadeAccepts}
		}
		f.To = percent / 100
	}
	return f, nil
}

// fadeLevels is the most, of 255, that neighbouring tints of a fade differ by:
// less than the eye tells apart where they meet.
const fadeLevels = 2

// left is how much is left at a depth below the fold, of the pocket part's.
func (f Fade) left(y, depth float64) float64 {
	if depth <= 0 {
		return 1
	}
	return 1 + (f.To-1)*math.Max(0, math.Min(1, y/depth))
}

// checkFade refuses a fade that the family cannot make.
func (d Design) checkFade() error {
	if _, single := d.Motif.(recurring); d.Fade.Of == FadeSize && !single {
		return &words.Refused{Field: "fade", Given: string(d.Fade.Of), Why: d.Name + " has no single motifs to make smaller", Accepts: string(FadeInk)}
	}
	return nil
}

// drawFaded draws the motif in area, in its own space, which m carries to the
// liner's; depth is the pocket part's.
func (d Design) drawFaded(s *draw.Surface, m draw.Matrix, area draw.Rect, inks Colours) {
	single, ok := d.Motif.(recurring)
	below := func(x, y float64) float64 { return d.Fade.left(m.Apply(draw.Point{X: x, Y: y}).Y, d.Depth) }
	switch {
	case d.Fade.Of == "" || d.Depth <= 0:
		d.motifs(s, m, area, inks)
	case d.Fade.Of == FadeSize && ok:
		single.recurrence().grown = below
		d.motifs(s, m, area, inks)
		single.recurrence().grown = nil
	case d.veiled():
		d.motifs(s, m, area, inks)
		down := area
		down.MinY, down.MaxY = 0, d.Depth
		s.Place(s.Symbol(key("fade", d.Fade, inks.Ground, down), func(s *draw.Surface) {
			s.Veil(draw.Ramp{Colour: inks.Ground, To: 1 - d.Fade.To}, down, math.Max(0, area.MaxY-d.Depth))
		}), draw.Identity)
	case ok:
		d.fadeMotifs(s, m, area, inks, single.recurrence(), below)
	default:
		d.fadeBands(s, m, area, inks)
	}
}

// veiled tells whether a fade of ink lies over the motifs as a veil of the
// ground: pictures, which would have to be kept once for every tint.
func (d Design) veiled() bool {
	st, ok := d.Motif.(*StampTiles)
	return ok && (st.Art.Ink == 0 || st.Art.Cover != nil)
}

// fadeMotifs draws each motif in one tint, whole; from the foot up, so that
// motifs that overlap lie as they do without a fade.
func (d Design) fadeMotifs(s *draw.Surface, m draw.Matrix, area draw.Rect, inks Colours, r *Recurrence, below func(x, y float64) float64) {
	tints := d.tints(inks)
	for step := tints - 1; step >= 0 && !s.Stopped(); step-- {
		r.drawn = func(x, y float64) bool { return d.step(below(x, y), tints) == step }
		d.motifs(s, m, d.band(area, step, tints, 0.01), d.tinted(inks, step, tints))
	}
	r.drawn = nil
}

// bandsOverlap is how far a band of a fade runs on under the next, so that no
// edge opens: more than a pixel of the coarsest picture.
const bandsOverlap = 1

// fadeBands draws bands from the top, each over the end of the one before.
func (d Design) fadeBands(s *draw.Surface, m draw.Matrix, area draw.Rect, inks Colours) {
	tints := d.tints(inks)
	for step := range tints {
		if s.Stopped() {
			return
		}
		band := d.band(area, step, tints, 0)
		if band.MinY >= band.MaxY {
			continue
		}
		band.MaxY = math.Min(area.MaxY, band.MaxY+bandsOverlap)
		s.Clipped(draw.Rectangle(band), func(s *draw.Surface) {
			tinted := d.tinted(inks, step, tints)
			wide := band.Grow(bandsOverlap) // only the clip cuts, or what lies under would show through cut edges
			s.Fill(draw.Rectangle(wide), tinted.Ground)
			d.motifs(s, m, wide, tinted)
		})
	}
}

// band is the part of area that has a tint, and a margin above and below; the
// first reaches up over the fold, the last down past the foot. Where area has
// nothing of it, it is the nearest edge of area: a motif's middle may lie there
// outside.
func (d Design) band(area draw.Rect, step, tints int, margin float64) draw.Rect {
	inside := func(y float64) float64 { return math.Max(area.MinY, math.Min(area.MaxY, y)) }
	band := area
	if step > 0 {
		band.MinY = inside(d.Depth*float64(step)/float64(tints) - margin)
	}
	if step < tints-1 {
		band.MaxY = inside(d.Depth*float64(step+1)/float64(tints) + margin)
	}
	return band
}

// motifs draws the motif on a part of the liner.
func (d Design) motifs(s *draw.Surface, m draw.Matrix, area draw.Rect, inks Colours) {
	s.Within(m, func(s *draw.Surface) { d.Motif.Draw(s, m.Inverse().Bounds(area), inks) })
}

// tints is how many tints the strongest ink takes from the fold to the foot.
func (d Design) tints(inks Colours) int {
	var most float64
	for _, ink := range inks.Inks {
		for _, apart := range [][2]uint8{{ink.R, inks.Ground.R}, {ink.G, inks.Ground.G}, {ink.B, inks.Ground.B}} {
			most = math.Max(most, math.Abs(float64(apart[0])-float64(apart[1])))
		}
	}
	return 1 + int(math.Ceil(most*(1-d.Fade.To)/fadeLevels))
}

// step is the tint for what is left of the ink.
func (d Design) step(left float64, tints int) int {
	if tints == 1 {
		return 0
	}
	return min(tints-1, int((1-left)/(1-d.Fade.To)*float64(tints)))
}

// tinted are the inks at a step, mixed with the ground.
func (d Design) tinted(inks Colours, step, tints int) Colours {
	left := 1.0
	if tints > 1 {
		left += (d.Fade.To - 1) * float64(step) / float64(tints-1)
	}
	out := inks
	out.Name = fmt.Sprint(inks.Name, step)
	out.Inks = nil
	for _, ink := range inks.Inks {
		out.Inks = append(out.Inks, draw.Mix(inks.Ground, ink, left))
	}
	return out
}
