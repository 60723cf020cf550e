package draw

import (
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Font is a typeface that every output has: writers embed it or draw its
// outlines, so a page looks the same on a machine without fonts.
type Font struct {
	Name string
	TTF  []byte
	face *sfnt.Font
	em   fixed.Int26_6

	latin func() *[256]float64 // advances in ems: setting notes asks again and again
}

// Regular and Bold are the Go typefaces of golang.org/x/image (BSD licence).
var (
	Regular = newFont("Go", goregular.TTF)
	Bold    = newFont("Go Bold", gobold.TTF)
)

func newFont(name string, ttf []byte) *Font {
	face, err := sfnt.Parse(ttf)
	if err != nil {
		panic(err)
	}
	f := &Font{Name: name, TTF: ttf, face: face, em: fixed.I(int(face.UnitsPerEm()))}
	f.latin = sync.OnceValue(func() *[256]float64 {
		var table [256]float64
		for r := range table {
			table[r] = f.measure(rune(r))
		}
		return &table
	})
	return f
}

// Width is the advance of a line set at size (the em), without kerning.
func (f *Font) Width(line string, size float64) float64 {
	sum, latin := 0.0, f.latin()
	for _, r := range line {
		if int(r) < len(latin) {
			sum += latin[r]
		} else {
			sum += f.measure(r)
		}
	}
	return sum * size
}

// measure is a letter's advance in ems.
func (f *Font) measure(r rune) (ems float64) {
	f.glyphs(string(r), func(_ *sfnt.Buffer, _ sfnt.GlyphIndex, advance fixed.Int26_6) { ems = float64(advance) / float64(f.em) })
	return ems
}

// Has tells whether the typeface draws a letter; those it has not are empty boxes.
func (f *Font) Has(r rune) bool {
	var buf sfnt.Buffer
	glyph, err := f.face.GlyphIndex(&buf, r)
	return err == nil && glyph != 0
}

// Outlines is the line as filled paths, its baseline from the origin along x.
func (f *Font) Outlines(line string, size float64) Path {
	var p Path
	k := size / float64(f.em)
	at := fixed.Int26_6(0)
	f.glyphs(line, func(buf *sfnt.Buffer, glyph sfnt.GlyphIndex, advance fixed.Int26_6) {
		segments, err := f.face.LoadGlyph(buf, glyph, f.em, nil)
		if err == nil {
			p.glyph(segments, float64(at), k)
		}
		at += advance
	})
	return p
}

// glyph appends one glyph's outline, quadratic curves raised to cubic ones.
func (p *Path) glyph(segments sfnt.Segments, x, k float64) {
	place := func(q fixed.Point26_6) Point { return Point{(float64(q.X) + x) * k, float64(q.Y) * k} }
	mix := func(a, b Point, t float64) Point { return Point{a.X + (b.X-a.X)*t, a.Y + (b.Y-a.Y)*t} }
	open := false
	for _, s := range segments {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if open {
				p.Close()
			}
			open = true
			p.add(Move, place(s.Args[0]))
		case sfnt.SegmentOpLineTo:
			p.add(Line, place(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			c, end := place(s.Args[0]), place(s.Args[1])
			p.Cubic(mix(p.last(), c, 2.0/3), mix(end, c, 2.0/3), end)
		case sfnt.SegmentOpCubeTo:
			p.Cubic(place(s.Args[0]), place(s.Args[1]), place(s.Args[2]))
		}
	}
	if open {
		p.Close()
	}
}

func (f *Font) glyphs(line string, each func(*sfnt.Buffer, sfnt.GlyphIndex, fixed.Int26_6)) {
	var buf sfnt.Buffer
	for _, r := range line {
		glyph, err := f.face.GlyphIndex(&buf, r)
		if err != nil {
			continue
		}
		advance, err := f.face.GlyphAdvance(&buf, glyph, f.em, font.HintingNone)
		if err == nil {
			each(&buf, glyph, advance)
		}
	}
}
