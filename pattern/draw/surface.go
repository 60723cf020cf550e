package draw

import (
	"context"
	"fmt"
)

// Colour is an opaque sRGB colour.
type Colour struct{ R, G, B uint8 }

// White is bare paper.
var White = Colour{255, 255, 255}

// Hex is the colour as CSS writes it.
func (c Colour) Hex() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// Surface is what patterns and marks draw on. It records; nothing is computed
// until a writer replays the record. Later things lie over earlier ones.
type Surface struct {
	*record
	nodes  []Node
	window *window
}

// record is what all surfaces of a page share.
type record struct {
	symbols map[string]*Symbol
	ctx     context.Context // nil: no end
}

// Until lets the page of a surface record for as long as ctx lasts; what is drawn
// afterwards is dropped, so that whoever asked for the page must ask ctx too.
func (s *Surface) Until(ctx context.Context) { s.ctx = ctx }

// Stopped tells whether nothing more is recorded. Drawing that takes long asks
// now and then, and gives up.
func (s *Surface) Stopped() bool { return s.ctx != nil && s.ctx.Err() != nil }

// windowMargin is more than a pixel of the coarsest picture, to which a writer
// may round a place.
const windowMargin = 0.5

// window is the box of the nearest clip around a surface, with a margin, and the
// map into the clip's space; what lies wholly outside is not recorded.
type window struct {
	box  Rect
	into Matrix
}

func (w *window) hides(box Rect) bool {
	if w == nil {
		return false
	}
	seen := w.into.Bounds(box)
	return seen.MinX > w.box.MaxX || seen.MaxX < w.box.MinX || seen.MinY > w.box.MaxY || seen.MaxY < w.box.MinY
}

// NewSurface is a bare one.
func NewSurface() *Surface { return &Surface{record: &record{symbols: map[string]*Symbol{}}} }

// Node is one recorded thing: Fill, Stroke, Group, Use, Picture, Text or Layer.
type Node interface {
	// Bounds is a rectangle around what is drawn, in the node's own space.
	Bounds() Rect
}

// Fill paints inside a path: by the non-zero rule, or by the even-odd rule, as
// people's own art may ask for.
type Fill struct {
	Path    Path
	Colour  Colour
	EvenOdd bool
	box     Rect
}

// Stroke paints along a path, with round joins and ends.
type Stroke struct {
	Path   Path
	Colour Colour
	Width  float64
	box    Rect
}

// Group draws its nodes through Matrix, inside Clip (in the group's space, mapped too) when
// that is not empty.
type Group struct {
	Matrix Matrix
	Clip   Path
	Nodes  []Node
	box    Rect
}

// Symbol is a drawing made once and placed often.
type Symbol struct {
	Nodes []Node
	box   Rect
}

// Use places a symbol, in order.
type Use struct {
	Symbol *Symbol
	At     []Matrix
	box    Rect
}

// Picture places an image: At maps the unit square, y down, to where it goes.
type Picture struct {
	Image *Image
	At    Matrix
}

// Text is one line that starts at the origin of At, its baseline along x.
type Text struct {
	String string
	Font   *Font
	Size   float64 // of the em
	At     Matrix
	Colour Colour
}

// Layer is a named part of the page that viewers and cutting machines can pick.
type Layer struct {
	Name  string
	Nodes []Node
	box   Rect
}

// The layers of a sheet.
const (
	Artwork = "artwork"
	Cut     = "cut"
	Fold    = "fold"
	Notes   = "notes"
)

// Bounds implements Node.
func (n *Fill) Bounds() Rect { return n.box }

// Bounds implements Node.
func (n *Stroke) Bounds() Rect { return n.box }

// Bounds implements Node.
func (n *Group) Bounds() Rect { return n.box }

// Bounds implements Node.
func (n *Use) Bounds() Rect { return n.box }

// Bounds implements Node.
func (n *Layer) Bounds() Rect { return n.box }

// Bounds implements Node.
func (n *Picture) Bounds() Rect { return n.At.Bounds(Rect{0, 0, 1, 1}) }

// Bounds implements Node.
func (n *Text) Bounds() Rect {
	return n.At.Bounds(Rect{0, -n.Size, n.Font.Width(n.String, n.Size), n.Size / 2})
}

// Bounds is a rectangle around the symbol.
func (s *Symbol) Bounds() Rect { return s.box }

// Nodes is the record, first drawn first.
func (s *Surface) Nodes() []Node { return s.nodes }

func boundsOf(nodes []Node) Rect {
	r := empty
	for _, n := range nodes {
		r = r.Union(n.Bounds())
	}
	return r
}

func (s *Surface) add(n Node) { s.nodes = append(s.nodes, n) }

// Fill paints inside p.
func (s *Surface) Fill(p Path, c Colour) { s.fill(p, c, false) }

// FillEvenOdd paints what p goes around an odd number of times.
func (s *Surface) FillEvenOdd(p Path, c Colour) { s.fill(p, c, true) }

func (s *Surface) fill(p Path, c Colour, evenOdd bool) {
	if s.Stopped() {
		return
	}
	if box := p.Bounds(); len(p.Points) > 0 && !s.window.hides(box) {
		s.add(&Fill{Path: p, Colour: c, EvenOdd: evenOdd, box: box})
	}
}

// Stroke paints a line of a width along p, with round joins and ends.
func (s *Surface) Stroke(p Path, c Colour, width float64) {
	if s.Stopped() {
		return
	}
	if box := p.Bounds().Grow(width / 2); !s.window.hides(box) {
		s.add(&Stroke{Path: p, Colour: c, Width: width, box: box})
	}
}

// Within records what f draws as one group, mapped by m.
func (s *Surface) Within(m Matrix, f func(*Surface)) { s.group(m, Path{}, f) }

// Clipped records what f draws as one group, cut at clip's edge. What lies
// wholly outside the box around clip is left out.
func (s *Surface) Clipped(clip Path, f func(*Surface)) { s.group(Identity, clip, f) }

func (s *Surface) group(m Matrix, clip Path, f func(*Surface)) {
	if s.Stopped() {
		return
	}
	inner := &Surface{record: s.record}
	switch {
	case len(clip.Points) > 0:
		inner.window = &window{clip.Bounds().Grow(windowMargin), Identity}
	case s.window != nil:
		inner.window = &window{s.window.box, s.window.into.After(m)}
	}
	f(inner)
	if len(inner.nodes) == 0 {
		return
	}
	box := boundsOf(inner.nodes)
	if len(clip.Points) > 0 {
		box = clip.Bounds()
	}
	s.add(&Group{Matrix: m, Clip: clip, Nodes: inner.nodes, box: m.Bounds(box)})
}

// Symbol makes what f draws into a symbol. A key already used on this page
// gives the symbol made then, so name everything that shapes it.
func (s *Surface) Symbol(key string, f func(*Surface)) *Symbol {
	if made, ok := s.symbols[key]; ok {
		return made
	}
	if s.Stopped() {
		return &Symbol{} // and nobody takes a half-made one for whole
	}
	inner := &Surface{record: s.record}
	f(inner)
	made := &Symbol{Nodes: inner.nodes, box: boundsOf(inner.nodes)}
	s.symbols[key] = made
	return made
}

// Place draws the symbol at every matrix, in order.
func (s *Surface) Place(symbol *Symbol, at ...Matrix) {
	if len(symbol.Nodes) == 0 || s.Stopped() {
		return
	}
	box, seen := empty, make([]Matrix, 0, len(at))
	for _, m := range at {
		if one := m.Bounds(symbol.box); !s.window.hides(one) {
			box, seen = box.Union(one), append(seen, m)
		}
	}
	if len(seen) > 0 {
		s.add(&Use{Symbol: symbol, At: seen, box: box})
	}
}

// Picture places an image so that it fills the unit square mapped by at.
func (s *Surface) Picture(img *Image, at Matrix) { s.add(&Picture{Image: img, At: at}) }

// Text writes one line.
func (s *Surface) Text(line string, font *Font, size float64, at Matrix, c Colour) {
	if line != "" {
		s.add(&Text{String: line, Font: font, Size: size, At: at, Colour: c})
	}
}

// Layer records what f draws under a name.
func (s *Surface) Layer(name string, f func(*Surface)) {
	inner := &Surface{record: s.record}
	f(inner)
	s.add(&Layer{Name: name, Nodes: inner.nodes, box: boundsOf(inner.nodes)})
}

// Page is a surface with the sheet it is for.
type Page struct {
	Width, Height float64
	Title         string
	About         string  // what is to be seen, for those who cannot see it; may be empty
	Trim          Rect    // around every cut line
	Bleed         float64 // how far artwork passes the cut lines
	*Surface
}

// NewPage is an empty sheet.
func NewPage(width, height float64) *Page {
	return &Page{Width: width, Height: height, Surface: NewSurface()}
}

// Whole is a rectangle over all of the page. It goes on a little past the edge,
// over which the last pixels of a picture may stand half.
func (p *Page) Whole() Path { return Rectangle(Rect{MaxX: p.Width, MaxY: p.Height}.Grow(1)) }

// Walk calls f for every node and, once each, for those inside symbols.
func Walk(nodes []Node, f func(Node)) { walk(nodes, map[*Symbol]bool{}, f) }

func walk(nodes []Node, seen map[*Symbol]bool, f func(Node)) {
	for _, n := range nodes {
		f(n)
		switch n := n.(type) {
		case *Group:
			walk(n.Nodes, seen, f)
		case *Layer:
			walk(n.Nodes, seen, f)
		case *Use:
			if !seen[n.Symbol] {
				seen[n.Symbol] = true
				walk(n.Symbol.Nodes, seen, f)
			}
		}
	}
}

// Mix is the colour t of the way from a to b, in sRGB values, as a half
// covered pixel shows it.
func Mix(a, b Colour, t float64) Colour {
	m := func(x, y uint8) uint8 { return uint8(float64(x) + (float64(y)-float64(x))*t + 0.5) }
	return Colour{m(a.R, b.R), m(a.G, b.G), m(a.B, b.B)}
}

// Multiply is the colour that ink shows on paper of a colour: each channel of
// one times that of the other, as the blend mode multiply of W3C Compositing
// and Blending Level 1 has it on sRGB values.
func Multiply(paper, ink Colour) Colour {
	m := func(x, y uint8) uint8 { return uint8((int(x)*int(y) + 127) / 255) }
	return Colour{m(paper.R, ink.R), m(paper.G, ink.G), m(paper.B, ink.B)}
}
