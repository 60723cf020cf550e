package scene

import "underflap/pattern/draw"

// CardFor is a card for a pocket that it fits with some room, where none was
// named: 6 mm less each way. Common practice, no source.
func CardFor(width, height float64) (w, h float64) { return width - 6, height - 6 }

// hold is how far the panels of the back overlap a card at least.
const hold = 5.0

// cardRise is how far the card stands out of the pocket, seen from above. It
// leaves the upper part of the liner to be seen. A card so small that its foot
// would hang free in the throat stands lower, which may be below the fold.
func (sc Scene) cardRise(v View) float64 {
	held := sc.Card.Height - throat(sc.panels(), sc.Liner.Envelope.Width) - hold
	return min(0.25*sc.Card.Height, 0.24*sc.Liner.FlapHeight()*v.lift(), held)
}

// cardShape is the whole card, what the panels will cover included.
func (sc Scene) cardShape(v View) shape {
	e := sc.Liner.Envelope
	left, rise := (e.Width-sc.Card.Width)/2, sc.cardRise(v)
	return box(left, -rise, left+sc.Card.Width, min(e.Height-1, sc.Card.Height-rise))
}

// card draws the card where it shows, in front of the liner and behind the
// panels of the back.
func (sc Scene) card(s *draw.Surface, v View, p parts) {
	whole := sc.cardShape(v)
	if !sc.Flat {
		s.Clipped(together(p.pocket, p.flap.mapped(v.raise())), func(s *draw.Surface) {
			sc.soft(soft{blur: 2.2, dx: 0.8, dy: 0.4, strength: 0.4, colour: dark}).cast(s, whole)
			sc.soft(soft{blur: 0.5, dx: 0.25, dy: 0.1, strength: 0.4, colour: dark}).cast(s, whole)
		})
	}
	s.Fill(whole.closed(), sc.Card.Colour)
	if !sc.Flat {
		s.Stroke(whole.closed(), edge(sc.Card.Colour, 0.16), 0.16)
	}
}
