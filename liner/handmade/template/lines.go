package template

import (
	"math"

	"underflap/liner/geom"
	"underflap/liner/handmade"
	"underflap/pattern/draw"
)

// Colours and widths of lines, in millimetres. Hatching and joins are light,
// so that words on them can be read.
var ink, faint, hatched = draw.Colour{R: 57, G: 57, B: 57}, draw.Colour{R: 139, G: 139, B: 139}, draw.Colour{R: 189, G: 189, B: 189}

const (
	cutWidth   = 0.25
	foldWidth  = 0.25
	faintWidth = 0.12
	hatchWidth = 0.15
	dash       = 4.0
	dashGap    = 2.0
)

// linesOf are a blank's cut lines and folds.
func linesOf(b handmade.Blank) []segment {
	lines := sides(b.Outline)
	for _, p := range b.Panels {
		if p.Fold != nil {
			lines = append(lines, segment{p.Fold.A, p.Fold.B})
		}
	}
	return lines
}

// cutPaths is the cut line inside a window: one closed path where all of it
// is, else open ones.
func cutPaths(outline []geom.Point, window geom.Box) []draw.Path {
	whole := true
	for _, p := range outline {
		whole = whole && contains(window.Grow(1e-6), p)
	}
	if whole {
		return []draw.Path{closed(outline)}
	}
	var paths []draw.Path
	var last geom.Point
	for _, s := range sides(outline) {
		part, ok := s.within(window)
		if !ok {
			continue
		}
		if n := len(paths); n > 0 && last == part.a {
			paths[n-1].Line(part.b.X, part.b.Y)
		} else {
			paths = append(paths, path(part))
		}
		last = part.b
	}
	return paths
}

// closed is a shape's edge.
func closed(shape []geom.Point) draw.Path {
	var p draw.Path
	p.Move(shape[0].X, shape[0].Y)
	for _, q := range shape[1:] {
		p.Line(q.X, q.Y)
	}
	p.Close()
	return p
}

// path is segments as one path.
func path(segments ...segment) draw.Path {
	var p draw.Path
	for _, s := range segments {
		p.Move(s.a.X, s.a.Y)
		p.Line(s.b.X, s.b.Y)
	}
	return p
}

// dashes parts a fold so that it begins and ends with a whole dash, whose
// round ends lie on the fold's.
func dashes(f handmade.Fold) []segment {
	s := segment{f.A, f.B}
	long := s.length()
	n := max(1, math.Round((long-dash)/(dash+dashGap)))
	each := (long - n*dashGap) / (n + 1)
	if each < dashGap {
		return []segment{s}
	}
	var out []segment
	for i := 0.0; i <= n; i++ {
		from := i * (each + dashGap)
		out = append(out, segment{s.at((from + foldWidth/2) / long), s.at((from + each - foldWidth/2) / long)})
	}
	return out
}

// inWindow keeps what of the segments lies in a window.
func inWindow(segments []segment, window geom.Box) []segment {
	var out []segment
	for _, s := range segments {
		if part, ok := s.within(window); ok {
			out = append(out, part)
		}
	}
	return out
}

// sheetEdges are the sides of the sheet that are not the paper's own, where no
// cut line runs along them.
func (l Layout) sheetEdges(outline []geom.Point) []segment {
	var out []segment
	for i, edge := range sides(corners(l.Sheet)) { // top, right, bottom, left
		if level := i%2 == 0; level && l.wholeY || !level && l.wholeX {
			continue
		}
		bare := []float64{0, 1}
		for _, s := range sides(outline) {
			if from, to, along := edge.beside(s); along {
				bare = without(bare, []float64{from, to})
			}
		}
		for k := 0; k+1 < len(bare); k += 2 {
			out = append(out, segment{edge.at(bare[k]), edge.at(bare[k+1])})
		}
	}
	return out
}

// hatchStep is the distance between hatching lines.
const hatchStep = 2.6

// hatch draws lines at 45 degrees through an area, clear of its edge and of
// the holes that words stand in.
func hatch(area []geom.Point, holes [][]geom.Point) []segment {
	const clear = 0.4 // of the edge, along a line
	b := bounds(area)
	rise := hatchStep * math.Sqrt2
	var out []segment
	for k := math.Ceil((b.MinX + b.MinY) / rise); k*rise < b.MaxX+b.MaxY; k++ {
		c := k * rise // the line x + y = c, through the box around the area
		s := segment{geom.Point{X: c - b.MaxY, Y: b.MaxY}, geom.Point{X: c - b.MinY, Y: b.MinY}}
		cut := clear / s.length()
		free := shrink(s.crossings(area), cut)
		for _, hole := range holes {
			free = without(free, s.crossings(hole))
		}
		for i := 0; i+1 < len(free); i += 2 {
			if free[i+1] > free[i] {
				out = append(out, segment{s.at(free[i]), s.at(free[i+1])})
			}
		}
	}
	return out
}

// shrink moves the ends of intervals inwards.
func shrink(intervals []float64, by float64) []float64 {
	var out []float64
	for i := 0; i+1 < len(intervals); i += 2 {
		if from, to := intervals[i]+by, intervals[i+1]-by; to > from {
			out = append(out, from, to)
		}
	}
	return out
}

// without takes a hole's intervals out of others.
func without(intervals, hole []float64) []float64 {
	for h := 0; h+1 < len(hole); h += 2 {
		var out []float64
		for i := 0; i+1 < len(intervals); i += 2 {
			if from, to := intervals[i], min(intervals[i+1], hole[h]); to > from {
				out = append(out, from, to)
			}
			if from, to := max(intervals[i], hole[h+1]), intervals[i+1]; to > from {
				out = append(out, from, to)
			}
		}
		intervals = out
	}
	return intervals
}
