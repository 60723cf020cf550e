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

// fadeSteps is how many tints an ink fades in: neighbours differ by less than
// the eye tells apart on paper.
const fadeSteps = 48

// left is how much is left at a depth below the fold, of the pocket part's.
func (f Fade) left(y, depth float64) float64 {
	if depth <= 0 {
		return 1
	}
	return 1 + (f.To-1)*math.Max(0, math.Min(1, y/depth))
}

// checkFade refuses a fade that the family cannot make.
func (d Design) checkFade() error {
	if d.Fade.Of == FadeSize {
		if _, ok := d.Motif.(recurring); !ok {
			return &words.Refused{Field: "fade", Given: string(d.Fade.Of), Why: d.Name + " has no single motifs to make smaller", Accepts: string(FadeInk)}
		}
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
	case ok: // each motif in one tint, whole
		for step := range fadeSteps {
			single.recurrence().drawn = func(x, y float64) bool { return d.step(below(x, y)) == step }
			d.motifs(s, m, area, d.tinted(inks, step))
		}
		single.recurrence().drawn = nil
	default: // in bands from the top, each drawn on over the next, so that no edge opens
		for step := range fadeSteps {
			band := area
			if step > 0 {
				band.MinY = d.Depth * float64(step) / fadeSteps
			}
			if step < fadeSteps-1 {
				band.MaxY = math.Min(area.MaxY, d.Depth*float64(step+1)/fadeSteps+1)
			}
			if band.MinY >= band.MaxY {
				continue
			}
			s.Clipped(draw.Rectangle(band), func(s *draw.Surface) {
				tinted := d.tinted(inks, step)
				wide := band.Grow(1) // only the clip cuts, or what lies under would show through cut edges
				s.Fill(draw.Rectangle(wide), tinted.Ground)
				d.motifs(s, m, wide, tinted)
			})
		}
	}
}

// motifs draws the motif on a part of the liner.
func (d Design) motifs(s *draw.Surface, m draw.Matrix, area draw.Rect, inks Colours) {
	s.Within(m, func(s *draw.Surface) { d.Motif.Draw(s, m.Inverse().Bounds(area), inks) })
}

// step is the tint for what is left of the ink.
func (d Design) step(left float64) int {
	if d.Fade.To >= 1 {
		return 0
	}
	return min(fadeSteps-1, int((1-left)/(1-d.Fade.To)*fadeSteps))
}

// tinted are the inks at a step, mixed with the ground.
func (d Design) tinted(inks Colours, step int) Colours {
	left := 1 + (d.Fade.To-1)*float64(step)/(fadeSteps-1)
	out := inks
	out.Name = fmt.Sprint(inks.Name, step)
	out.Inks = nil
	for _, ink := range inks.Inks {
		out.Inks = append(out.Inks, draw.Mix(inks.Ground, ink, left))
	}
	return out
}
