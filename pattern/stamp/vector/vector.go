// Package vector reads SVG art as plain filled shapes, strokes as their
// outlines. It draws what SVG 1.1 says about shapes in plain colours, with
// transforms, style rules and reuse, and refuses by name what it cannot draw.
package vector

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"underflap/pattern/draw"
)

// Limits on a drawing.
const (
	MostBytes = 16 << 20
	MostSteps = 250_000 // lines and curves, strokes as their outlines
)

const (
	mostElements = 100_000  // drawn, those of clones again each time
	mostDepth    = 64       // of elements in one another
	mostRules    = 2_000    // of style
	mostLetters  = 24 << 20 // of attributes and rules, those of clones again each time
)

var errNothing = errors.New("nothing that is drawn")

// Read reads an SVG file as art cropped to what it draws. Shapes that lie
// outside its page are left out. Errors say what is in the way.
func Read(data []byte) (*draw.Art, error) {
	if len(data) > MostBytes {
		return nil, fmt.Errorf("%d MB of SVG, and the most is %d", len(data)>>20, MostBytes>>20)
	}
	root, err := parse(data)
	if err != nil {
		return nil, err
	}
	r := &reader{ids: map[string]*element{}}
	if err := r.prepare(root); err != nil {
		return nil, err
	}
	page, err := pageOf(root)
	if err != nil {
		return nil, err
	}
	shapes, err := r.element(root, place{draw.Identity, initial(), 0})
	if err != nil {
		return nil, err
	}
	return cropped(shapes, page)
}

// cropped moves the shapes that touch the page to the origin.
func cropped(shapes []draw.Shape, page *draw.Rect) (*draw.Art, error) {
	var kept []draw.Shape
	var box draw.Rect
	for _, s := range shapes {
		b := s.Path.Bounds()
		if len(s.Path.Points) == 0 || page != nil && (b.MaxX < page.MinX || b.MinX > page.MaxX || b.MaxY < page.MinY || b.MinY > page.MaxY) {
			continue
		}
		if b = extent(s.Path); len(kept) > 0 {
			b = b.Union(box)
		}
		box = b
		kept = append(kept, s)
	}
	if len(kept) == 0 || !(box.Width() > 0 && box.Height() > 0) || box.Width() > 1e9 || box.Height() > 1e9 {
		return nil, errNothing
	}
	for i := range kept {
		kept[i].Path = kept[i].Path.Transform(draw.Translate(-box.MinX, -box.MinY))
	}
	return &draw.Art{Width: box.Width(), Height: box.Height(), Shapes: kept}, nil
}

// pageOf is the part of the drawing that a viewer shows, nil when it does not say.
func pageOf(root *element) (*draw.Rect, error) {
	if strings.HasPrefix(strings.TrimSpace(root.attrs["preserveAspectRatio"]), "none") {
		return nil, errors.New("preserveAspectRatio=none, which cannot be drawn")
	}
	if word := root.attrs["viewBox"]; word != "" {
		v, err := numbers(word)
		if err != nil || len(v) != 4 {
			return nil, fmt.Errorf("a broken viewBox %q", short(word))
		}
		return &draw.Rect{MinX: v[0], MinY: v[1], MaxX: v[0] + v[2], MaxY: v[1] + v[3]}, nil
	}
	w, errW := length(root.attrs["width"], 0)
	h, errH := length(root.attrs["height"], 0)
	if errW != nil || errH != nil || w <= 0 || h <= 0 {
		return nil, nil
	}
	return &draw.Rect{MaxX: w, MaxY: h}, nil
}

// reader walks the tree.
type reader struct {
	ids      map[string]*element
	rules    []rule
	elements int
	steps    int
	letters  int
}

// place is where and how an element is drawn.
type place struct {
	m     draw.Matrix
	style style
	depth int
}

// prepare collects names and style rules.
func (r *reader) prepare(e *element) error {
	if id := e.attrs["id"]; id != "" && r.ids[id] == nil {
		r.ids[id] = e
	}
	if e.name == "style" {
		if err := r.addRules(string(e.text)); err != nil {
			return err
		}
	}
	for _, child := range e.children {
		if err := r.prepare(child); err != nil {
			return err
		}
	}
	return nil
}

// only by name: drawn where something else points to them.
var asides = map[string]bool{"defs": true, "symbol": true, "clipPath": true, "mask": true, "marker": true, "linearGradient": true,
	"radialGradient": true, "pattern": true, "filter": true, "style": true, "title": true, "desc": true, "metadata": true, "view": true}

// undrawn are elements that cannot be drawn, as a person would call them.
var undrawn = map[string]string{"text": "text", "image": "an embedded picture", "script": "a script", "foreignObject": "a foreign object",
	"animate": "an animation", "animateTransform": "an animation", "animateMotion": "an animation", "set": "an animation", "svg": "a drawing in the drawing",
	"switch": "a switch"}

// element gives the shapes of an element.
func (r *reader) element(e *element, at place) ([]draw.Shape, error) {
	if asides[e.name] {
		return nil, nil
	}
	if r.elements++; r.elements > mostElements || at.depth > mostDepth {
		return nil, fmt.Errorf("more than %d elements, or deeper than %d in one another", mostElements, mostDepth)
	}
	if err := r.count(e); err != nil {
		return nil, err
	}
	s, err := r.styled(e, at.style)
	if err != nil {
		return nil, err
	}
	if s.own["display"] == "none" || s.own["opacity"] == "0" {
		return nil, nil
	}
	if err := s.drawable(); err != nil {
		return nil, fmt.Errorf("%w, on <%s>", err, e.name)
	}
	m, err := transform(e.attrs["transform"])
	if err != nil {
		return nil, err
	}
	at = place{at.m.After(m), s, at.depth + 1}
	shapes, err := r.content(e, at)
	if err != nil {
		return nil, err
	}
	if clip := s.own["clip-path"]; clip != "" && clip != "none" {
		return r.clipped(shapes, clip, at.m)
	}
	return shapes, nil
}

// count bounds what is read again with every clone: a few clones of an element of
// many megabytes would take for ever.
func (r *reader) count(e *element) error {
	for name, value := range e.attrs {
		r.letters += len(name) + len(value)
	}
	for _, rule := range r.rules {
		if rule.fits(e) {
			r.letters += rule.letters
		}
	}
	if r.letters > mostLetters {
		return fmt.Errorf("more than %d MB, with every clone and every rule", mostLetters>>20)
	}
	return nil
}

// content gives the shapes of an element whose place is settled.
func (r *reader) content(e *element, at place) ([]draw.Shape, error) {
	switch {
	case e.name == "g" || e.name == "a" || at.depth == 1 && e.name == "svg":
		return r.children(e, at)
	case e.name == "use":
		return r.clone(e, at)
	case undrawn[e.name] != "":
		return nil, fmt.Errorf("%s (<%s>), which cannot be drawn", undrawn[e.name], e.name)
	}
	path, known, err := outline(e)
	switch {
	case err != nil:
		return nil, fmt.Errorf("%w, in <%s>", err, e.name)
	case !known:
		return nil, fmt.Errorf("<%s>, which cannot be drawn", short(e.name))
	}
	return r.painted(path, at)
}

func (r *reader) children(e *element, at place) (all []draw.Shape, err error) {
	for _, child := range e.children {
		shapes, err := r.element(child, at)
		if err != nil {
			return nil, err
		}
		all = append(all, shapes...)
	}
	return all, nil
}

// clone gives the shapes of what a use element points to.
func (r *reader) clone(e *element, at place) ([]draw.Shape, error) {
	to := r.ids[strings.TrimPrefix(strings.TrimSpace(e.attrs["href"]), "#")]
	if to == nil {
		return nil, fmt.Errorf("a clone of %q, which is not in it", short(e.attrs["href"]))
	}
	x, errX := length(e.attrs["x"], 0)
	y, errY := length(e.attrs["y"], 0)
	if err := cmp.Or(errX, errY); err != nil {
		return nil, fmt.Errorf("%w, in <use>", err)
	}
	at.m = at.m.After(draw.Translate(x, y))
	if to.name != "symbol" {
		return r.element(to, at)
	}
	if to.attrs["viewBox"] != "" {
		return nil, errors.New("a symbol with a viewBox, which cannot be drawn")
	}
	group := *to
	group.name = "g"
	return r.element(&group, at)
}

// clipped passes shapes that a clip leaves whole: the frame that drawing
// programs put around a page.
func (r *reader) clipped(shapes []draw.Shape, clip string, m draw.Matrix) ([]draw.Shape, error) {
	e := r.ids[referred(clip)]
	refused := errors.New("a clip that cuts shapes (clip-path), which cannot be drawn")
	if e == nil || len(e.children) != 1 || e.children[0].name != "rect" || e.attrs["clipPathUnits"] == "objectBoundingBox" {
		return nil, refused
	}
	if err := r.count(e.children[0]); err != nil {
		return nil, err
	}
	frame, _, err := outline(e.children[0])
	if err != nil {
		return nil, err
	}
	for _, word := range []string{e.attrs["transform"], e.children[0].attrs["transform"]} {
		inner, err := transform(word)
		if err != nil {
			return nil, err
		}
		m = m.After(inner)
	}
	if m.B != 0 || m.C != 0 {
		return nil, refused
	}
	box := frame.Transform(m).Bounds()
	box = box.Grow(1e-3 * (box.Width() + box.Height()))
	for _, s := range shapes {
		if b := extent(s.Path); b.Union(box) != box {
			return nil, refused
		}
	}
	return shapes, nil
}

// painted gives a path's fill and stroke.
func (r *reader) painted(path draw.Path, at place) (shapes []draw.Shape, err error) {
	if r.steps += len(path.Verbs); r.steps > MostSteps { // also of what shows nothing: it was read
		return nil, errSteps
	}
	if at.style.visibility != "visible" || len(path.Points) == 0 {
		return nil, nil
	}
	fill, err := at.style.paint(at.style.fill, at.style.fillOpacity)
	if err != nil {
		return nil, err
	}
	if fill != nil {
		shapes = append(shapes, shape(path.Transform(at.m), *fill, at.style.evenOdd))
	}
	ink, err := at.style.paint(at.style.stroke, at.style.strokeOpacity)
	if err != nil {
		return nil, err
	}
	if ink != nil && at.style.pen.width > 0 {
		line, made, err := at.style.pen.outline(path, MostSteps-r.steps)
		if err != nil {
			return nil, err
		}
		shapes = append(shapes, shape(line.Transform(at.m), *ink, false))
		r.steps += made
	}
	if r.steps > MostSteps {
		return nil, errSteps
	}
	if at.style.strokeFirst && len(shapes) == 2 {
		shapes[0], shapes[1] = shapes[1], shapes[0]
	}
	return shapes, nil
}

var errSteps = fmt.Errorf("more than %d lines and curves", MostSteps)

// light is the luma from which a colour is paper and no ink.
const light = 0.9

func shape(p draw.Path, c draw.Colour, evenOdd bool) draw.Shape {
	luma := (299*float64(c.R) + 587*float64(c.G) + 114*float64(c.B)) / 255000
	return draw.Shape{Path: p, EvenOdd: evenOdd, Colour: c, Ground: luma >= light}
}

// short keeps a word from a file on one readable line.
func short(word string) string {
	word = strings.Join(strings.Fields(word), " ")
	if r := []rune(word); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return word
}
