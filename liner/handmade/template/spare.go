package template

import (
	"fmt"

	"underflap/liner/geom"
	"underflap/liner/handmade"
	"underflap/liner/ruler"
	"underflap/pattern/draw"
	"underflap/pattern/draw/setting"
)

// block is something of a size that is drawn with its top left at the origin
// of a map.
type block struct {
	width, height float64
	draw          func(s *draw.Surface, at draw.Matrix)
}

// placed is a block with its place in laid space.
type placed struct {
	block
	at draw.Matrix
}

// besideSheet is what blocks keep from the sheet's edge, in millimetres.
const besideSheet = 2.0

// spare tells whether a cell with its middle at p may hold what is no part of
// the drawing: it lies beside the sheet or on what is cut away.
func (d *drawing) spare(p geom.Point) bool {
	if !contains(d.Sheet.Grow(besideSheet+cell/2), p) {
		return d.free(p)
	}
	for _, away := range d.blank.CutAway {
		if inside(away.Shape, p) {
			return d.free(p)
		}
	}
	return false
}

// fit places the first of some blocks that finds spare room, nearest to the top
// left of the page.
func (d *drawing) fit(blocks []block) bool { return d.first(blocks, d.spare) }

func (d *drawing) first(blocks []block, free func(geom.Point) bool) bool {
	g := newGrid(0, corners(d.room), free)
	for _, b := range blocks {
		if at, ok := g.spot(b.width, b.height, geom.Point{X: d.room.MinX, Y: d.room.MinY}); ok {
			d.place(b, at)
			return true
		}
	}
	return false
}

func (d *drawing) place(b block, at draw.Matrix) {
	d.blocks = append(d.blocks, placed{b, at})
	d.taken = append(d.taken, label{width: b.width, height: b.height, at: at}.box(3))
}

// number says which page this is, where there is spare room or else beside
// the lines.
func (d *drawing) number(text string) {
	var lines []block
	for _, size := range []float64{3, 2.6, 2.2} {
		l := newLabel("", text, size, 1, ink)
		lines = append(lines, block{l.width, l.height, func(s *draw.Surface, at draw.Matrix) {
			l.at = at
			l.draw(s)
		}})
	}
	if !d.fit(lines) {
		d.first(lines, d.free)
	}
}

func pageNumber(t Tile, page, pages int) string {
	return fmt.Sprintf("page %d of %d, row %d column %d", page, pages, t.Row, t.Column)
}

// ruleBlock is a rule of 100 mm with its numbers, which reach past its ends.
func ruleBlock(upright bool) block {
	r := ruler.Rule{Scale: ruler.Millimetres, Upright: upright}
	along, across := r.Length+2*ruler.Overhang, r.Across()
	b := block{width: along, height: across}
	r.X = ruler.Overhang
	if upright {
		b.width, b.height = across, along
		r.X, r.Y = 0, ruler.Overhang
	}
	b.draw = func(s *draw.Surface, at draw.Matrix) { // only slid, since its numbers stand upright
		placed := r
		placed.X, placed.Y = r.X+at.E, r.Y+at.F
		placed.Draw(s, ink)
	}
	return b
}

// Em sizes of notes on pages that show the template, and measures in ems, the
// best first.
var noteSizes, noteMeasures = []float64{3.2, 3.0, 2.8, 2.6}, []float64{34, 29, 25, 21, 18, 16}

// noteBlocks are the notes set in every way that reads well.
func noteBlocks(notes []setting.Note, sizes []float64) []block {
	var out []block
	for _, size := range sizes {
		for _, measure := range noteMeasures {
			if set, ok := setting.Set(notes, size, measure*size); ok {
				out = append(out, block{set.Width, set.Height, func(s *draw.Surface, at draw.Matrix) { set.Draw(s, at, ink) }})
			}
		}
	}
	return out
}

// tableBlocks are the table set in every way that reads well.
func tableBlocks(b handmade.Blank, sizes []float64) []block {
	var out []block
	for _, size := range sizes {
		for _, measure := range []float64{60, 44, 34, 30} {
			if t, ok := setTable(b, size, measure*size); ok {
				out = append(out, block{t.width, t.height, t.draw})
			}
		}
	}
	return out
}
