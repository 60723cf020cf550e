package template

import (
	"fmt"
	"math"

	"underflap/liner/geom"
	"underflap/liner/handmade"
	"underflap/pattern/draw"
)

// Join is where two pages meet: the middle of what both show, and the marks on
// it. All is in laid space, in millimetres.
type Join struct {
	A, B  Tile // the one before and the one after
	Line  [2]geom.Point
	Marks []Mark
}

// Mark is a joining mark: a crossed diamond about At with its letter on both
// sides.
type Mark struct {
	At     geom.Point
	Letter string
	Level  bool // the join runs across the page
}

const (
	markReach  = 2.0 // from its middle to its tips
	markType   = 2.6
	markBeside = 3.2 // from its middle to a letter's
	markLong   = 6.0 // along the join
)

// Joins lists where the pages of a blank meet, left to right and then down.
func (l Layout) Joins(b handmade.Blank) []Join {
	var joins []Join
	next, lines := 0, linesOf(l.blank(b))
	for i, t := range l.Tiles {
		if t.Column < l.Columns {
			joins = append(joins, l.join(t, l.Tiles[i+1], lines, &next))
		}
		if t.Row < l.Rows {
			joins = append(joins, l.join(t, l.Tiles[i+l.Columns], lines, &next))
		}
	}
	return joins
}

// join runs down the middle of what two pages share, and has two marks, or
// one where it is short.
func (l Layout) join(a, b Tile, lines []segment, next *int) Join {
	both := a.Window.Within(b.Window).Within(l.Sheet)
	j := Join{A: a, B: b}
	level := a.Column == b.Column
	place := func(along float64) geom.Point { return geom.Point{X: (a.Window.MaxX + b.Window.MinX) / 2, Y: along} }
	from, to := both.MinY, both.MaxY
	if level {
		place = func(along float64) geom.Point { return geom.Point{X: along, Y: (a.Window.MaxY + b.Window.MinY) / 2} }
		from, to = both.MinX, both.MaxX
	}
	j.Line = [2]geom.Point{place(from), place(to)}
	low, high := from+markLong, to-markLong
	// clear of what four pages share
	if level && a.Column > 1 || !level && a.Row > 1 {
		low += Overlap
	}
	if level && a.Column < l.Columns || !level && a.Row < l.Rows {
		high -= Overlap
	}
	shares := []float64{0.12, 0.88}
	if high-low < 4*markLong {
		shares = []float64{0.5}
	}
	for _, share := range shares {
		m := Mark{At: clearOf(lines, place, low, high, low+(high-low)*share), Letter: letter(*next), Level: level}
		j.Marks = append(j.Marks, m)
		*next++
	}
	return j
}

// clearOf is the place nearest to wanted between low and high whose mark keeps
// clear of the lines, or wanted itself where there is none.
func clearOf(lines []segment, place func(float64) geom.Point, low, high, wanted float64) geom.Point {
	best, found := wanted, math.Inf(1)
	for at := low; at <= high; at += 0.5 {
		if math.Abs(at-wanted) >= found {
			continue
		}
		clear := true
		for _, s := range lines {
			if s.distance(place(at)) < Overlap/2+0.6 {
				clear = false
				break
			}
		}
		if clear {
			best, found = at, math.Abs(at-wanted)
		}
	}
	return place(best)
}

// letter names marks A to Z, then A2 to Z2 and so on.
func letter(i int) string {
	name := string(rune('A' + i%26))
	if i >= 26 {
		name += fmt.Sprint(i/26 + 1)
	}
	return name
}

// draw draws the join as both pages show it.
func (j Join) draw(s *draw.Surface) {
	s.Stroke(path(segment{j.Line[0], j.Line[1]}), faint, faintWidth)
	for _, m := range j.Marks {
		var diamond draw.Path
		x, y, r := m.At.X, m.At.Y, markReach
		diamond.Move(x-r, y)
		diamond.Line(x, y-r)
		diamond.Line(x+r, y)
		diamond.Line(x, y+r)
		diamond.Close()
		diamond.Move(x-r, y)
		diamond.Line(x+r, y)
		diamond.Move(x, y-r)
		diamond.Line(x, y+r)
		s.Stroke(diamond, ink, 0.2)
		size := markType
		if len(m.Letter) > 1 {
			size *= 0.7
		}
		w := draw.Bold.Width(m.Letter, size)
		for _, side := range []float64{-1, 1} {
			dx, dy := side*markBeside, 0.0
			if m.Level {
				dx, dy = 0, side*markBeside
			}
			s.Text(m.Letter, draw.Bold, size, draw.Translate(x+dx-w/2, y+dy+0.36*size), ink)
		}
	}
}
