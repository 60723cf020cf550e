// Package ink estimates how much of a liner, or of a printed sheet, each colour
// of a design covers.
//
// The design is drawn with three of its colours at a time as pure red, green and
// blue (art in colours of its own always as blue) and everything else black. A soft edge mixes its two colours in each
// channel by the part of the pixel that each covers, so that the mean of a channel
// is the area of that colour: what is seen of it, not what lies under others.
//
// A tint counts by its strength, as the area that the full colour would cover: one
// half of an ink over the ground is half of the ink and half of the ground. Art in
// colours of its own counts as covered, however light, unless it is white. White
// takes no ink.
package ink

import (
	"context"
	"math"

	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/draw/png"
	"underflap/pattern/words"
)

// Row is one colour's part.
type Row struct {
	Ink    int         // its number in the palette; 0 is the ground, Own art in colours of its own
	Colour draw.Colour // not of own art
	Area   float64     // cm2
	Share  float64     // of the whole region
	Bare   bool        // white, for which no ink is used
}

// Own stands for all the colours of a person's own art.
const Own = -1

// Use is what the colours of a design cover of a region.
type Use struct {
	Region float64 // cm2
	Rows   []Row   // the ground, the inks of the palette that show, own art
}

// Inked is the area in cm2 that takes ink.
func (u Use) Inked() float64 {
	sum := 0.0
	for _, r := range u.Rows {
		if !r.Bare {
			sum += r.Area
		}
	}
	return sum
}

// Times is the use of so many regions alike.
func (u Use) Times(n int) Use {
	out := Use{Region: u.Region * float64(n)}
	for _, r := range u.Rows {
		r.Area *= float64(n)
		out.Rows = append(out.Rows, r)
	}
	return out
}

// Plus is the use of two regions of one design together.
func (u Use) Plus(o Use) Use {
	if o.Region == 0 {
		return u
	}
	out := Use{Region: u.Region + o.Region}
	for i, r := range u.Rows {
		r.Area += o.Rows[i].Area
		r.Share = r.Area / out.Region
		out.Rows = append(out.Rows, r)
	}
	return out
}

// DPI is the density at which areas are measured: edges are exact within a pixel,
// so that it need not be fine.
const DPI = 100

// white is how light, in every channel, art counts as bare: a scan's white is
// never quite 255.
const white = 250

// Measure finds what each colour covers. draws draws the design on a ground of a
// colour, as a page in millimetres; region is the area in mm2 that shares are of,
// or 0 for all that is covered, bare places of the design left out. When ctx ends it
// stops, and what it gives is of no use.
func Measure(ctx context.Context, d pattern.Design, region float64, draws func(d pattern.Design, bare draw.Colour) *draw.Page) Use {
	colours := 1 + len(d.Colours.Inks)
	covered := make([]float64, colours, colours+1) // mm2
	at := 3                                        // colours at a time
	own := d.OwnColours()
	if own {
		at = 2 // and blue for the art
		d = d.RecolourArt(ctx, stencil)
		covered = covered[:colours+1]
	}
	for first := 0; first < colours; first += at {
		sum := channels(ctx, draws(lit(d, first, at), draw.Colour{}))
		copy(covered[first:colours], sum[:at])
		if own {
			covered[colours] = sum[2]
		}
	}
	u := Use{Region: region / 100}
	if region == 0 {
		for _, mm2 := range covered {
			u.Region += mm2 / 100
		}
	}
	for i, mm2 := range covered {
		r := Row{Ink: i, Area: mm2 / 100}
		if i == colours {
			r.Ink = Own
		} else {
			r.Colour = d.Colours.Ink(i)
			r.Bare = r.Colour == draw.White
		}
		if u.Region > 0 {
			r.Share = r.Area / u.Region
		}
		u.Rows = append(u.Rows, r)
	}
	return u
}

// full stands for the full strength of a colour: halves, quarters and every twentieth
// of it are whole numbers, so that mixed colours of woven cloth add up to one.
const full = 240

// stencil is the art in blue where it is not white.
func stencil(c draw.Colour) draw.Colour {
	if min(c.R, c.G, c.B) >= white {
		return draw.Colour{}
	}
	return draw.Colour{B: full}
}

// lit is the design in black, but for some colours from first on, and its art.
func lit(d pattern.Design, first, count int) pattern.Design {
	light := func(i int) draw.Colour {
		lights := []draw.Colour{{R: full}, {G: full}, {B: full}}[:count]
		if i < first || i >= first+count {
			return draw.Colour{}
		}
		return lights[i-first]
	}
	inks := make([]draw.Colour, len(d.Colours.Inks))
	for i := range inks {
		inks[i] = light(i + 1)
	}
	d.Colours.Ground, d.Colours.Inks = light(0), inks
	d.Saver.Bare = draw.Colour{}
	return d
}

// channels is how many mm2 of a page red, green and blue cover.
func channels(ctx context.Context, page *draw.Page) (mm2 [3]float64) {
	var sum [3]uint64
	png.Rows(ctx, page, DPI, func(row []byte) {
		for i := 0; i < len(row); i += 4 {
			sum[0] += uint64(row[i])
			sum[1] += uint64(row[i+1])
			sum[2] += uint64(row[i+2])
		}
	})
	for i, v := range sum {
		mm2[i] = float64(v) / full * math.Pow(words.MillimetresPerInch/DPI, 2)
	}
	return mm2
}
