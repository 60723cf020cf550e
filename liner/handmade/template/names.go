package template

import (
	"strconv"

	"underflap/liner/geom"
	"underflap/liner/handmade"
	"underflap/pattern/draw"
)

// Words keep this far from cut lines and folds, in millimetres.
const clearance = 1.2

// drawing is one tile's page as it comes together, in laid space.
type drawing struct {
	Layout
	tile      Tile
	blank     handmade.Blank // laid
	lines     []segment      // cut lines, folds and the sheet's edges
	glueEdges []segment
	room      geom.Box // where words may stand
	labels    []label
	blocks    []placed
	taken     [][]geom.Point // boxes of all that stands on the page
}

func newDrawing(l Layout, t Tile, laid handmade.Blank) *drawing {
	d := &drawing{Layout: l, tile: t, blank: laid, room: l.own(t)}
	for _, s := range append(linesOf(laid), l.sheetEdges(laid.Outline)...) {
		if part, ok := s.within(d.room.Grow(5)); ok {
			d.lines = append(d.lines, part)
		}
	}
	for _, g := range laid.Glue {
		d.glueEdges = append(d.glueEdges, sides(g.Shape)...)
	}
	return d
}

// free tells whether a cell with its middle at p is free for words.
func (d *drawing) free(p geom.Point) bool {
	if !contains(d.room, p) {
		return false
	}
	for _, s := range d.lines {
		if s.near(p, clearance+cell*0.75) {
			return false
		}
	}
	for _, box := range d.taken {
		if inside(box, p) {
			return false
		}
	}
	return true
}

// glued tells whether a point lies on a glue area or near to one.
func (d *drawing) glued(p geom.Point) bool {
	for _, g := range d.blank.Glue {
		if inside(g.Shape, p) {
			return true
		}
	}
	for _, s := range d.glueEdges {
		if s.near(p, cell) {
			return true
		}
	}
	return false
}

// apart is what labels keep from each other, in millimetres.
const apart = 2.2

// put takes a place for a label.
func (d *drawing) put(l label) {
	d.labels = append(d.labels, l)
	d.taken = append(d.taken, l.box(apart+cell/2))
}

// try is a way to set a label: how large, and whether it may stand on a glue
// area.
type try struct {
	size   float64
	onGlue bool
}

// key tells grids apart while one name is placed.
type key struct {
	turn   float64
	onGlue bool
}

// name finds room for words in a shape, along a direction or else across it,
// large rather than small and beside glue rather than on it. It reports false
// when there is none.
func (d *drawing) name(number, text string, shape []geom.Point, turns []float64, near geom.Point, tries []try, colour draw.Colour) bool {
	grids := map[key]*grid{}
	look := func(k key) *grid {
		if grids[k] == nil {
			grids[k] = newGrid(k.turn, shape, func(p geom.Point) bool {
				return inside(shape, p) && d.free(p) && (k.onGlue || !d.glued(p))
			})
		}
		return grids[k]
	}
	for _, t := range tries {
		for n := 1; n <= max(1, mostLines(text)); n++ {
			l := newLabel(number, text, t.size, n, colour)
			for _, turn := range turns {
				var ok bool
				if l.at, ok = look(key{turn, t.onGlue}).spot(l.width, l.height, near); ok {
					d.put(l)
					return true
				}
			}
		}
	}
	return false
}

// folds numbers the folds in their order, beside the part of each that the
// page shows, on the panel that turns over.
func (d *drawing) folds() {
	for i, p := range d.blank.Panels {
		if p.Fold == nil {
			continue
		}
		seen, ok := segment{p.Fold.A, p.Fold.B}.within(d.room)
		if !ok || seen.length() < 2*dash {
			continue
		}
		number, turns := strconv.Itoa(i), []float64{seen.readable()}
		tries := []try{{3, false}, {2.6, false}, {3, true}, {2.6, true}, {2.2, true}}
		if !d.name(number, p.Fold.Name, p.Shape, turns, seen.at(0.5), tries, ink) &&
			!d.name(number, "", p.Shape, turns, seen.at(0.5), tries, ink) {
			d.name(number, "", d.blank.Panels[0].Shape, turns, seen.at(0.5), tries, ink)
		}
	}
}

// panels names the panels, read along the longest fold of the envelope or
// across it.
func (d *drawing) panels() {
	along := d.along()
	tries := []try{{5, false}, {4.2, false}, {3.6, false}, {3, false}, {3.6, true}, {3, true}, {2.6, true}, {2.2, true}}
	for i, p := range d.blank.Panels {
		text := p.Name
		if i == 0 {
			text += ": address side outside"
		}
		d.name("", text, p.Shape, []float64{along, across(along)}, d.middle(p.Shape), tries, ink)
	}
}

// cutAways names what is cut off, where the words find room.
func (d *drawing) cutAways() {
	for _, p := range d.blank.CutAway {
		long := segment{}
		for _, s := range sides(p.Shape) {
			if s.length() > long.length() {
				long = s
			}
		}
		turns := []float64{0, -90}
		if turn := long.readable(); turn != 0 && turn != -90 {
			turns = append(turns, turn)
		}
		d.name("", "cut away", p.Shape, turns, d.middle(p.Shape), []try{{3, false}, {2.6, false}, {2.2, false}}, faint)
	}
}

// glue names the hatched areas.
func (d *drawing) glue() {
	along := d.along()
	for _, p := range d.blank.Glue {
		d.name("", "glue", p.Shape, []float64{along, across(along), 0}, d.middle(p.Shape), []try{{3, true}, {2.6, true}}, ink)
	}
}

// along is the direction in which the panels' names are read: along the flap's
// fold, which is the last one to turn.
func (d *drawing) along() float64 {
	for i := len(d.blank.Panels) - 1; i >= 0; i-- {
		if f := d.blank.Panels[i].Fold; f != nil {
			return segment{f.A, f.B}.readable()
		}
	}
	return 0
}

// across is square to a direction, and as readable.
func across(turn float64) float64 {
	if turn >= 0 {
		return turn - 90
	}
	return turn + 90
}

// middle is the centre of gravity of what the page shows of a shape.
func (d *drawing) middle(shape []geom.Point) geom.Point {
	const grain = 2
	b := bounds(shape).Within(d.room)
	sum, n := geom.Point{}, 0.0
	for x := b.MinX + grain/2; x < b.MaxX; x += grain {
		for y := b.MinY + grain/2; y < b.MaxY; y += grain {
			if inside(shape, geom.Point{X: x, Y: y}) {
				sum.X, sum.Y, n = sum.X+x, sum.Y+y, n+1
			}
		}
	}
	if n == 0 {
		return geom.Point{X: (b.MinX + b.MaxX) / 2, Y: (b.MinY + b.MaxY) / 2}
	}
	return geom.Point{X: sum.X / n, Y: sum.Y / n}
}
