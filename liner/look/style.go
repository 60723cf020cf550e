package look

import "underflap/pattern/draw"

// Paper tones for the envelope, a soft green for the liner, russet for what is
// measured. Few enough that a PNG is indexed with smooth edges.
var (
	pocketTone = draw.Colour{R: 0xf4, G: 0xe9, B: 0xd6}
	insideTone = draw.Colour{R: 0xfa, G: 0xf4, B: 0xe8}
	gumTone    = draw.Colour{R: 0xf1, G: 0xdf, B: 0xba}
	linerTone  = draw.Colour{R: 0xd5, G: 0xe0, B: 0xd0}
	hiddenTone = draw.Colour{R: 0xed, G: 0xe6, B: 0xd2} // the liner through the pocket
	linerEdge  = draw.Colour{R: 0x7d, G: 0x97, B: 0x7c}
	paperEdge  = draw.Colour{R: 0x9c, G: 0x87, B: 0x68}
	seamTone   = draw.Colour{R: 0xd9, G: 0xc7, B: 0xa8}
	accent     = draw.Colour{R: 0xa8, G: 0x41, B: 0x2b}
	lightLine  = draw.Colour{R: 0xca, G: 0x8d, B: 0x80} // carries an edge to its dimension
	ink        = draw.Colour{R: 0x38, G: 0x30, B: 0x2a}
	faint      = draw.Colour{R: 0x7a, G: 0x6e, B: 0x62}
)

// Line widths in millimetres.
const (
	edgeWidth  = 0.3  // of paper
	lightWidth = 0.25 // of everything else
)

// Ems in millimetres.
const (
	titleType  = 4.4
	legendType = 3.0 // the three measurements
	smallType  = 2.7 // everything else
)

// Letter circles: radius and em.
const (
	mainDisc, mainLetter = 2.5, 3.3
	sideDisc, sideLetter = 1.9, 2.6
)

// border stays free of ink on every side of the page.
const border = 8.0

// Arrowheads are slim.
const headLength, headHalf = 2.0, 0.42
