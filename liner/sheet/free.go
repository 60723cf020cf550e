package sheet

import (
	"math"
	"sort"

	"underflap/liner/geom"
)

// cell is the grain, in millimetres, at which free room for notes is sought.
const cell = 0.5

// leastRoom is the narrowest room worth finding: a line of the smallest type.
const leastRoom = 2.5

// freeRoom is the printable part of a sheet as a grid of cells, each free or
// taken.
type freeRoom struct {
	x, y          float64 // the grid's top left
	columns, rows int
	taken         []bool
}

func newFreeRoom(printable geom.Box) *freeRoom {
	f := &freeRoom{x: printable.MinX, y: printable.MinY,
		columns: int(printable.Width() / cell), rows: int(printable.Height() / cell)}
	f.taken = make([]bool, f.columns*f.rows)
	return f
}

// takeBox takes every cell that b touches.
func (f *freeRoom) takeBox(b geom.Box) {
	for row := f.clamp((b.MinY-f.y)/cell, f.rows); row < f.clamp((b.MaxY-f.y)/cell+1, f.rows); row++ {
		f.takeRow(row, b.MinX, b.MaxX)
	}
}

func (f *freeRoom) clamp(v float64, most int) int {
	return int(math.Floor(math.Max(0, math.Min(v, float64(most)))))
}

func (f *freeRoom) takeRow(row int, from, to float64) {
	for column := f.clamp((from-f.x)/cell, f.columns); column < f.clamp((to-f.x)/cell+1, f.columns); column++ {
		f.taken[row*f.columns+column] = true
	}
}

// takeShape takes the cells inside a closed shape, looking along three lines
// in each row of cells.
func (f *freeRoom) takeShape(points []geom.Point) {
	for row := range f.rows {
		for _, part := range []float64{0, 0.5, 1} {
			y := f.y + (float64(row)+part)*cell
			var xs []float64
			for i := 1; i < len(points); i++ {
				a, b := points[i-1], points[i]
				if (a.Y <= y) != (b.Y <= y) {
					xs = append(xs, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
				}
			}
			sort.Float64s(xs)
			for i := 1; i < len(xs); i += 2 {
				f.takeRow(row, xs[i-1], xs[i])
			}
		}
	}
}

// clone is a copy to try something on.
func (f *freeRoom) clone() *freeRoom {
	g := *f
	g.taken = append([]bool(nil), f.taken...)
	return &g
}

// rooms lists the free rectangles that cannot grow, greatest area first: for
// every row those that stand on it.
func (f *freeRoom) rooms() []geom.Box {
	var found []geom.Box
	heights := make([]int, f.columns+1) // free cells upwards; the last stays 0
	below := make([]int, f.columns+1)   // taken cells of the next row, summed from the left
	type step struct{ from, height int }
	var stack []step
	for row := range f.rows {
		for c := range f.columns {
			if f.taken[row*f.columns+c] {
				heights[c] = 0
			} else {
				heights[c]++
			}
			below[c+1] = below[c]
			if row+1 == f.rows || f.taken[(row+1)*f.columns+c] {
				below[c+1]++
			}
		}
		stack = stack[:0]
		for c, h := range heights {
			from := c
			for len(stack) > 0 && stack[len(stack)-1].height > h {
				top := stack[len(stack)-1]
				stack = stack[:len(stack)-1]
				from = top.from
				tooNarrow := min(c-top.from, top.height) < int(leastRoom/cell)
				if growsDown := below[c] == below[top.from]; !growsDown && !tooNarrow { // else a taller one is found later
					found = append(found, geom.Box{
						MinX: f.x + float64(top.from)*cell, MaxX: f.x + float64(c)*cell,
						MinY: f.y + float64(row+1-top.height)*cell, MaxY: f.y + float64(row+1)*cell})
				}
			}
			if h > 0 && (len(stack) == 0 || stack[len(stack)-1].height < h) {
				stack = append(stack, step{from, h})
			}
		}
	}
	area := func(b geom.Box) float64 { return b.Width() * b.Height() }
	sort.SliceStable(found, func(i, j int) bool { return area(found[i]) > area(found[j]) })
	return found
}
