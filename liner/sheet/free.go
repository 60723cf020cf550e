package sheet

import (
	"bytes"
	"cmp"
	"math"
	"slices"

	"underflap/liner/geom"
)

// cell is the grain, in millimetres, at which free room for notes is sought.
const cell = 0.5

// leastRoom is the narrowest room worth finding: a line of the smallest type.
const leastRoom = 2.5

// freeRoom is the printable part of a sheet as a grid of cells, each free (1) or
// taken (0).
type freeRoom struct {
	x, y          float64 // the grid's top left
	columns, rows int
	free          []byte
}

func newFreeRoom(printable geom.Box) *freeRoom {
	f := &freeRoom{x: printable.MinX, y: printable.MinY,
		columns: int(printable.Width() / cell), rows: int(printable.Height() / cell)}
	f.free = bytes.Repeat([]byte{1}, f.columns*f.rows)
	return f
}

func (f *freeRoom) row(i int) []byte { return f.free[i*f.columns : (i+1)*f.columns] }

// takeBox takes every cell that b touches.
func (f *freeRoom) takeBox(b geom.Box) {
	for c := f.touched(b); c.top < c.bottom; c.top++ {
		f.takeRow(c.top, b.MinX, b.MaxX)
	}
}

func (f *freeRoom) takeRow(i int, from, to float64) {
	if first, end := touched(from-f.x, to-f.x, f.columns); first < end {
		clear(f.row(i)[first:end])
	}
}

// touched gives the first of n cells that a stretch touches and the one after
// the last.
func touched(from, to float64, n int) (first, end int) {
	within := func(v float64) int { return int(math.Max(0, math.Min(v, float64(n)))) }
	return within(from / cell), within(to/cell + 1)
}

// takeShape takes the cells inside a closed shape, looking along three lines
// in each row of cells: its middle, and its edges, which the next rows share.
func (f *freeRoom) takeShape(points []geom.Point) {
	const apart = cell / 2
	crossings := make([][]float64, 2*f.rows+1) // of the shape with each line
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		first := math.Floor((math.Min(a.Y, b.Y) - f.y) / apart)
		last := math.Ceil((math.Max(a.Y, b.Y) - f.y) / apart)
		for k := max(0, int(first)); k <= min(int(last), 2*f.rows); k++ {
			if y := f.y + float64(k)*apart; (a.Y <= y) != (b.Y <= y) {
				crossings[k] = append(crossings[k], a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
			}
		}
	}
	for k, xs := range crossings {
		slices.Sort(xs)
		for i := 1; i < len(xs); i += 2 {
			for row := max(0, (k-1)/2); row <= min(k/2, f.rows-1); row++ {
				f.takeRow(row, xs[i-1], xs[i])
			}
		}
	}
}

// cells is a rectangle of them: from a column and a row up to others, these not
// included.
type cells struct{ left, top, right, bottom int }

// touched are the cells that b touches.
func (f *freeRoom) touched(b geom.Box) (c cells) {
	c.left, c.right = touched(b.MinX-f.x, b.MaxX-f.x, f.columns)
	c.top, c.bottom = touched(b.MinY-f.y, b.MaxY-f.y, f.rows)
	return c
}

// box is the rectangle on the page, in millimetres.
func (f *freeRoom) box(c cells) geom.Box {
	return geom.Box{MinX: f.x + float64(c.left)*cell, MaxX: f.x + float64(c.right)*cell,
		MinY: f.y + float64(c.top)*cell, MaxY: f.y + float64(c.bottom)*cell}
}

func (c cells) area() int { return (c.right - c.left) * (c.bottom - c.top) }

// worthFinding tells whether a line of type may go into the cells.
func (c cells) worthFinding() bool {
	return min(c.right-c.left, c.bottom-c.top) >= int(leastRoom/cell)
}

func (c cells) clearOf(o cells) bool {
	return c.left >= o.right || c.right <= o.left || c.top >= o.bottom || c.bottom <= o.top
}

// greatestFirst sorts by area.
func greatestFirst(rooms []cells) {
	slices.SortStableFunc(rooms, func(a, b cells) int { return cmp.Compare(b.area(), a.area()) })
}

// rooms lists the free rectangles that cannot grow, greatest first: for every
// row those that stand on it.
func (f *freeRoom) rooms() []cells {
	var found []cells
	heights := make([]int32, f.columns+1) // free cells upwards; the last stays 0
	under := make([]int32, f.columns+1)   // free cells of the next row, summed from the left
	edge := make([]byte, f.columns)       // after the last row: nothing free
	type step struct{ from, height int32 }
	stack := []step{{}} // of rising heights, on a step of none
	for i := range f.rows {
		row, next := f.row(i), edge
		if i+1 < f.rows {
			next = f.row(i + 1)
		}
		for c, free := range row {
			heights[c] = (heights[c] + 1) * int32(free)
		}
		if bytes.Equal(row, next) {
			continue // whatever stands on this row grows down
		}
		for c, free := range next {
			under[c+1] = under[c] + int32(free)
		}
		top := stack[0]
		for c, h := range heights {
			from := int32(c)
			for top.height > h {
				from = top.from
				growsDown := under[c]-under[from] == int32(c)-from // a taller one is found later
				r := cells{int(from), i + 1 - int(top.height), c, i + 1}
				if !growsDown && r.worthFinding() {
					found = append(found, r)
				}
				stack = stack[:len(stack)-1]
				top = stack[len(stack)-1]
			}
			if top.height < h {
				top = step{from, h}
				stack = append(stack, top)
			}
		}
	}
	greatestFirst(found)
	return found
}

// without lists what of some rooms is left when a rectangle is taken too: the
// rooms clear of it and those parts of the others, on one side of it, that have
// at least an area, in square millimetres. Of all rooms this leaves all that
// looking again would find.
func without(rooms []cells, taken cells, least float64) []cells {
	var left []cells
	for _, r := range rooms {
		if r.clearOf(taken) {
			left = append(left, r)
			continue
		}
		for _, part := range []cells{
			{r.left, r.top, taken.left, r.bottom}, {taken.right, r.top, r.right, r.bottom},
			{r.left, r.top, r.right, taken.top}, {r.left, taken.bottom, r.right, r.bottom},
		} {
			if part.worthFinding() && float64(part.area())*cell*cell >= least {
				left = append(left, part)
			}
		}
	}
	greatestFirst(left)
	return left
}
