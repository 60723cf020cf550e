package pattern

import (
	"context"
	"math"

	"underflap/pattern/draw"
)

// Saver prints a design only where it shows: over the fold and down to a depth
// below it. From there it fades out, ground and all, to bare paper.
type Saver struct {
	Depth float64     // below the fold; 0: artwork everywhere
	Bare  draw.Colour // what is not printed on: white, or the paper's colour in a picture
}

// SaverRun is how far the artwork takes to fade out. Common practice, no source:
// long enough that no edge shows when a card is pulled out.
const SaverRun = 10.0

// saverPast is how far the veil goes on past the last of the artwork: more than
// a pixel of the coarsest picture.
const saverPast = 0.5

// saved draws what is over the saver's end, and the veil over its last part.
func (d Design) saved(s *draw.Surface, area draw.Rect) {
	end := d.Saver.Depth + SaverRun
	kept := area
	kept.MaxY = math.Min(area.MaxY, end)
	if kept.MaxY <= kept.MinY {
		return // nothing of it shows
	}
	whole := d
	whole.Saver = Saver{}
	if area.MaxY <= d.Saver.Depth {
		whole.Draw(s, area)
		return
	}
	s.Clipped(draw.Rectangle(kept), func(s *draw.Surface) { whole.Draw(s, kept) })
	veil := draw.Rect{MinX: area.MinX, MinY: d.Saver.Depth, MaxX: area.MaxX, MaxY: end}
	s.Place(s.Symbol(key("saver", d.Saver, veil), func(s *draw.Surface) {
		s.Veil(draw.Ramp{Colour: d.Saver.Bare, To: 1, Soft: true}, veil, saverPast)
	}), draw.Identity)
}

// ownColours is art that no ink of the palette colours, or nil.
func (d Design) ownColours() *StampTiles {
	if st, ok := d.Motif.(*StampTiles); ok && st.Art != nil && st.Art.Ink == 0 && st.Art.Cover == nil {
		return st
	}
	return nil
}

// OwnColours tells whether the design shows art in colours of its own.
func (d Design) OwnColours() bool { return d.ownColours() != nil }

// RecolourArt is the design with the colours that its art has of its own passed
// through f. When ctx ends it stops, and the design is of no use.
func (d Design) RecolourArt(ctx context.Context, f func(draw.Colour) draw.Colour) Design {
	if st := d.ownColours(); st != nil {
		tiles := *st
		tiles.Art = st.Art.Recoloured(ctx, f)
		d.Motif = &tiles
	}
	return d
}

// OnPaper is the design as it shows once it is printed on paper of a colour:
// ground, inks, art and bare places all multiplied with it; see RecolourArt for ctx.
func (d Design) OnPaper(ctx context.Context, paper draw.Colour) Design {
	on := func(c draw.Colour) draw.Colour { return draw.Multiply(paper, c) }
	d = d.RecolourArt(ctx, on)
	inks := make([]draw.Colour, len(d.Colours.Inks))
	for i, ink := range d.Colours.Inks {
		inks[i] = on(ink)
	}
	d.Colours.Ground, d.Colours.Inks = on(d.Colours.Ground), inks
	d.Saver.Bare = on(d.Saver.Bare)
	return d
}
