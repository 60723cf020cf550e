package scene

import (
	"fmt"
	"math"

	"underflap/liner/geom"
	"underflap/pattern/draw"
)

// parts are the envelope's shapes in scene space.
type parts struct {
	flap, pocket shape   // flap with its ends on the fold
	bare, gummed shape   // the flap's gum lies between these two; none without gum
	liner        shape   // its outline
	panels       []shape // of the back
}

func (sc Scene) parts() parts {
	e := sc.Liner.Envelope
	profile := sc.Liner.FlapProfile()
	p := parts{flap: turned(geom.Contour(profile)), liner: turned(sc.Liner.Outline(sc.Depth).Contour)}
	// the two corners at the fold are bends, the two at the foot are folded sharp
	p.pocket = shape{{X: 0, Y: 0}, {X: e.Width, Y: 0}}
	foot := box(0, 0, e.Width, e.Height).eased(0.7)
	for _, q := range foot {
		if q.Y > e.Height/2 {
			p.pocket = append(p.pocket, q)
		}
	}
	if e.Gum > 0 {
		const rim = 0.8 // of the flap's edge that gum leaves free
		if outer := profile.Erode(min(rim, e.Gum/4)).Over(0, 0, e.Width); len(outer) > 0 {
			p.gummed = turned(geom.Contour(outer))
		}
		if inner := profile.Erode(e.Gum).Over(0, 0, e.Width); len(inner) > 0 {
			p.bare = turned(geom.Contour(inner))
		}
	}
	p.panels = sc.panels()
	return p
}

// panels are those of the back, the lowest first.
func (sc Scene) panels() (out []shape) {
	panels := sc.Panels
	if panels == nil {
		panels = UsualPanels(sc.Liner.Envelope)
	}
	for _, c := range panels {
		out = append(out, turned(c))
	}
	return out
}

// draw draws the envelope in a view. What does not depend on the design is made
// once a page, however often it is drawn.
func (sc Scene) draw(s *draw.Surface, v View) {
	p := sc.parts()
	once := func(name string, f func(*draw.Surface)) {
		s.Place(s.Symbol(fmt.Sprintf("scene %s %s %+v %v %v", v, name, sc.Liner.Envelope, sc.Envelope, sc.Card), f), draw.Identity)
	}
	if !sc.Flat {
		once("on the table", func(s *draw.Surface) { sc.onTable(s, v, p) })
	}
	if v.lift() < 0 {
		once("shut", func(s *draw.Surface) { sc.shut(s, v, p) })
		return
	}
	raise := v.raise()
	once("inside", func(s *draw.Surface) { sc.insideOf(s, p, raise) })
	lowest := throat(p.panels, sc.Liner.Envelope.Width) + 4
	sc.lining(s, p, raise, p.liner.over(0))
	sc.lining(s, p, draw.Identity, p.liner.under(0).over(lowest))
	once("over the liner", func(s *draw.Surface) {
		if !sc.Flat {
			sc.crease(s, v, p)
		}
		if sc.Card != nil {
			sc.card(s, v, p)
		}
		lit := []shape{p.flap.mapped(raise), p.pocket}
		if sc.Card != nil {
			lit = append(lit, sc.cardShape(v))
		}
		sc.back(s, p, together(lit...))
		if !sc.Flat {
			sc.light(s, v, lit...)
		}
	})
}

// throat is how far below the fold the pocket's opening reaches: the lowest
// place that no panel covers, looked for every half millimetre.
func throat(panels []shape, width float64) float64 {
	deepest := 0.0
	for x := 0.25; x < width; x += 0.5 {
		top := math.Inf(1)
		for _, panel := range panels {
			for i, a := range panel {
				b := panel[(i+1)%len(panel)]
				if (a.X <= x) != (b.X <= x) {
					top = min(top, a.Y+(b.Y-a.Y)*(x-a.X)/(b.X-a.X))
				}
			}
		}
		deepest = max(deepest, top)
	}
	return deepest
}

// onTable draws the shadows of the envelope on the table: a wide one of the
// room, and a narrow one where paper lies on it.
func (sc Scene) onTable(s *draw.Surface, v View, p parts) {
	outlines := []shape{p.pocket}
	switch v {
	case Open:
		outlines = append(outlines, p.flap)
	case Half: // what stands up throws its shadow farther, and softer
		sc.soft(soft{blur: 6, dx: 7, dy: 2, strength: 0.26, colour: dark}).cast(s, p.flap.mapped(v.raise()))
	}
	if sc.Card != nil && v.lift() > 0 {
		sc.soft(soft{blur: 1.6, dx: 0.7, dy: 0.9, strength: 0.4, colour: dark}).cast(s, sc.cardShape(v))
	}
	sc.soft(soft{blur: 6.5, dx: 2, dy: 5, strength: 0.30, colour: dark}).cast(s, outlines...)
	sc.soft(soft{blur: 1.1, dx: 0.5, dy: 0.9, strength: 0.42, colour: dark}).cast(s, outlines...)
}

// insideOf draws the flap's inside with its gum, and the inside of the front
// that shows in the throat.
func (sc Scene) insideOf(s *draw.Surface, p parts, raise draw.Matrix) {
	paper := inside(sc.Envelope)
	s.Fill(p.pocket.closed(), paper)
	s.Within(raise, func(s *draw.Surface) {
		s.Fill(p.flap.closed(), paper)
		if len(p.gummed) > 0 {
			strip := p.gummed.closed()
			strip.Append(p.bare.closed())
			s.FillEvenOdd(strip, gum(paper))
			if !sc.Flat {
				s.Clipped(p.gummed.closed(), func(s *draw.Surface) { sc.sheen(s, p) })
				if len(p.bare) > 0 {
					s.Fill(p.bare.closed(), paper)
				}
			}
		}
		if !sc.Flat {
			s.Stroke(p.flap.open(), edge(sc.Envelope, 0.22), 0.16)
		}
	})
}

// sheen is light on the gum's gloss, one broad slanting glint.
func (sc Scene) sheen(s *draw.Surface, p parts) {
	w := sc.Liner.Envelope.Width
	much := 0.42
	if grey(sc.Envelope) < 0.45 {
		much = 0.16
	}
	sc.soft(soft{blur: 0.5, strength: much, colour: draw.White}).castBy(s, varied{func(q draw.Point) float64 {
		t := (q.X - 0.5*q.Y - 0.36*w) / (0.24 * w)
		return math.Exp(-t * t)
	}, fmt.Sprint("sheen ", w)}, p.gummed)
}

// lining draws the liner's paper and pattern inside a part of its outline.
func (sc Scene) lining(s *draw.Surface, p parts, raise draw.Matrix, part shape) {
	if len(part) < 3 {
		return
	}
	half := sc.Liner.Envelope.Width / 2
	design := sc.Design
	design.Depth = sc.Depth
	s.Within(raise.After(draw.Translate(half, 0)), func(s *draw.Surface) {
		if !sc.Flat {
			s.Within(draw.Translate(-half, 0), func(s *draw.Surface) {
				s.Clipped(box(0, -sc.Liner.FlapProfile().Height(), 2*half, sc.Liner.Envelope.Height).closed(), func(s *draw.Surface) {
					s.Place(s.Symbol(fmt.Sprintf("liner's shadow %v %v", part[0], len(part)), func(s *draw.Surface) {
						sc.soft(soft{blur: 0.45, dx: 0.18, dy: 0.28, strength: 0.42, colour: dark}).cast(s, part)
					}), draw.Identity)
				})
			})
		}
		own := part.mapped(draw.Translate(-half, 0))
		s.Clipped(own.closed(), func(s *draw.Surface) {
			s.Fill(draw.Rectangle(sc.area()), sc.Paper)
			design.Draw(s, sc.area())
		})
	})
}

// crease draws the fold: paper bends down into it from both sides.
func (sc Scene) crease(s *draw.Surface, v View, p parts) {
	e := sc.Liner.Envelope
	s.Clipped(together(p.pocket, p.flap.mapped(v.raise())), func(s *draw.Surface) {
		deep := 0.15
		if v == Half {
			deep = 0.22
		}
		sc.soft(soft{blur: 2.6, strength: deep, colour: dark}).cast(s, box(-10, -1.8*sc.size(), e.Width+10, 1.8*sc.size()))
		sc.soft(soft{blur: 0.22, strength: 0.26, colour: dark}).cast(s, box(-10, -0.12, e.Width+10, 0.12))
		sc.soft(soft{blur: 0.3, dy: 0.5, strength: 0.3, colour: draw.White}).cast(s, box(-10, -0.12, e.Width+10, 0.12))
		if v == Half {
			sc.underFlap(s, v, p)
		}
	})
}

// underFlap is the shade of a raised flap: on its own inside, more towards the
// edge, which leans over, and on the pocket under it.
func (sc Scene) underFlap(s *draw.Surface, v View, p parts) {
	up := p.flap.mapped(v.raise())
	top := up.closed().Bounds().MinY
	s.Clipped(up.closed(), func(s *draw.Surface) {
		sc.soft(soft{blur: 0.6, strength: 1, colour: dark}).castBy(s, varied{func(q draw.Point) float64 {
			t := min(1, max(0, q.Y/top))
			return 0.02 + 0.13*t
		}, fmt.Sprint("under flap ", top)}, box(-4, top-4, sc.Liner.Envelope.Width+4, 0))
	})
}

// back draws the panels of the back, each with its shadow on what it covers:
// nothing outside on.
func (sc Scene) back(s *draw.Surface, p parts, on draw.Path) {
	s.Clipped(on, func(s *draw.Surface) {
		if !sc.Flat {
			sc.soft(soft{blur: 2.4, dx: 0.5, dy: 0.3, strength: 0.62, colour: dark}).cast(s, p.panels...)
		}
		for i, panel := range p.panels {
			if !sc.Flat {
				strength := 0.34
				if i == 0 {
					strength = 0.22
				}
				sc.soft(soft{blur: 0.7, dx: 0.15, dy: 0.1, strength: strength, colour: dark}).cast(s, panel)
			}
			s.Fill(panel.closed(), sc.Envelope)
			if !sc.Flat {
				s.Stroke(panel.closed(), edge(sc.Envelope, 0.15), 0.14)
			}
		}
	})
	if !sc.Flat {
		s.Stroke(p.pocket[1:].open(), edge(sc.Envelope, 0.2), 0.14)
	}
}

// shut draws the closed envelope from its back or its front.
func (sc Scene) shut(s *draw.Surface, v View, p parts) {
	s.Fill(p.pocket.closed(), sc.Envelope)
	if v == Closed {
		sc.back(s, p, p.pocket.closed())
		down := p.flap.mapped(v.raise())
		if !sc.Flat {
			s.Clipped(p.pocket.closed(), func(s *draw.Surface) {
				sc.soft(soft{blur: 2.2, dx: 0.6, dy: 1.2, strength: 0.34, colour: dark}).cast(s, down)
				sc.soft(soft{blur: 0.6, dx: 0.2, dy: 0.4, strength: 0.4, colour: dark}).cast(s, down)
			})
		}
		s.Fill(down.closed(), draw.Mix(sc.Envelope, draw.White, 0.04))
		if !sc.Flat {
			s.Stroke(down.open(), edge(sc.Envelope, 0.2), 0.14)
		}
	}
	if sc.Flat {
		return
	}
	s.Clipped(p.pocket.closed(), func(s *draw.Surface) { // it bends away at the fold
		sc.soft(soft{blur: 0.7, strength: 0.32, colour: dark}).cast(s, box(-10, -2, sc.Liner.Envelope.Width+10, 0.1))
		sc.soft(soft{blur: 0.5, dy: 1.4, strength: 0.4, colour: draw.White}).cast(s, box(-10, -0.3, sc.Liner.Envelope.Width+10, 0.3))
	})
	sc.light(s, v, p.pocket)
	s.Stroke(p.pocket.closed(), edge(sc.Envelope, 0.2), 0.14)
}

// light lets the envelope be a little brighter towards the window, at the upper
// left, than away from it.
func (sc Scene) light(s *draw.Surface, v View, over ...shape) {
	b := sc.bounds(v)
	along := func(q draw.Point) float64 { return ((q.X-b.MinX)/b.Width() + 1.4*(q.Y-b.MinY)/b.Height()) / 2.4 }
	s.Clipped(together(over...), func(s *draw.Surface) {
		whole := box(b.MinX-9, b.MinY-9, b.MaxX+9, b.MaxY+9)
		sc.soft(soft{blur: 2, strength: 0.10, colour: draw.White}).castBy(s, varied{func(q draw.Point) float64 { return max(0, 1-2*along(q)) }, fmt.Sprint("light ", b)}, whole)
		sc.soft(soft{blur: 2, strength: 0.10, colour: dark}).castBy(s, varied{func(q draw.Point) float64 { return max(0, 2*along(q)-1) }, fmt.Sprint("shade ", b)}, whole)
	})
}
