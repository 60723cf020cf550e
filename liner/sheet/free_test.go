package sheet

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"underflap/liner/geom"
)

// someRoom is a grid of a few dozen cells a side with some boxes taken.
func someRoom(t *rapid.T) *freeRoom {
	cellsWide := func(name string) float64 { return cell * float64(rapid.IntRange(6, 30).Draw(t, name)) }
	f := newFreeRoom(geom.Box{MinX: 5, MinY: 7, MaxX: 5 + cellsWide("columns"), MaxY: 7 + cellsWide("rows")})
	for range rapid.IntRange(0, 5).Draw(t, "boxes") {
		f.takeBox(someBox(t))
	}
	return f
}

func someBox(t *rapid.T) geom.Box {
	b := geom.Box{MinX: rapid.Float64Range(0, 20).Draw(t, "x"), MinY: rapid.Float64Range(0, 20).Draw(t, "y")}
	b.MaxX, b.MaxY = b.MinX+rapid.Float64Range(0, 6).Draw(t, "w"), b.MinY+rapid.Float64Range(0, 6).Draw(t, "h")
	return b
}

// isFree looks at every cell.
func (f *freeRoom) isFree(r cells) bool {
	if r.left < 0 || r.top < 0 || r.right > f.columns || r.bottom > f.rows {
		return false
	}
	for row := r.top; row < r.bottom; row++ {
		if slices.Contains(f.row(row)[r.left:r.right], 0) {
			return false
		}
	}
	return true
}

// Rooms are what their definition says, tried on every rectangle there is.
func TestRoomsAreTheFreeRectanglesThatCannotGrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := someRoom(t)
		found := f.rooms()
		want := 0
		for left := range f.columns {
			for top := range f.rows {
				for right := left + 1; right <= f.columns && f.isFree(cells{left, top, right, top + 1}); right++ {
					for bottom := top + 1; bottom <= f.rows && f.isFree(cells{left, top, right, bottom}); bottom++ {
						r := cells{left, top, right, bottom}
						grows := f.isFree(cells{left - 1, top, right, bottom}) || f.isFree(cells{left, top - 1, right, bottom}) ||
							f.isFree(cells{left, top, right + 1, bottom}) || f.isFree(cells{left, top, right, bottom + 1})
						if grows || !r.worthFinding() {
							continue
						}
						want++
						if !slices.Contains(found, r) {
							t.Fatalf("%v was not found among %v", r, found)
						}
					}
				}
			}
		}
		if len(found) != want || !slices.IsSortedFunc(found, func(a, b cells) int { return b.area() - a.area() }) {
			t.Fatalf("found %v, of which %d are rooms", found, want)
		}
	})
}

// What is left of the rooms beside a box holds all that looking again finds,
// and nothing that is not free.
func TestRoomsBesideABoxAreThoseFoundAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, b := someRoom(t), someBox(t)
		left := without(f.rooms(), f.touched(b), 0)
		f.takeBox(b)
		for _, r := range f.rooms() {
			if !slices.Contains(left, r) {
				t.Fatalf("%v was not found among %v", r, left)
			}
		}
		for _, r := range left {
			if !f.isFree(r) {
				t.Fatalf("%v is not free", r)
			}
		}
	})
}

// A shape takes no cell well outside it, and every cell that it holds.
func TestAShapeTakesTheCellsItHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var corners []geom.Point
		for _, way := range []geom.Point{{X: 1}, {Y: 1}, {X: -1}, {Y: -1}} { // around the middle, so that it is convex enough
			far := rapid.Float64Range(2, 12).Draw(t, "far")
			corners = append(corners, geom.Point{X: 10 + far*way.X, Y: 10 + far*way.Y})
		}
		chain := append(corners, corners[0])
		f := newFreeRoom(geom.Box{MaxX: 20, MaxY: 20})
		f.takeShape(chain)
		for row := range f.rows {
			for c, free := range f.row(row) {
				box := f.box(cells{c, row, c + 1, row + 1})
				if free == 1 && touches(chain, box.Grow(-0.49*cell)) {
					t.Fatalf("the cell at %v has its middle in %v and is free", box, corners)
				}
				if free == 0 && !touches(chain, box.Grow(cell)) {
					t.Fatalf("the cell at %v is taken, %v lies elsewhere", box, corners)
				}
			}
		}
	})
}
