package pattern

import (
	"math"
	"testing"

	"underflap/pattern/draw"
)

// The repeats in rows and columns, against closed forms in whole numbers: a step
// is counted in hundredths.
func TestRepeatsAreTheirClosedForms(t *testing.T) {
	const dx, dy = 7.5, 4.25
	area, reach := draw.Rect{MinX: -40, MinY: -460, MaxX: 55, MaxY: 435}, 2.0
	for _, repeat := range []Repeat{Straight, Brick, HalfDrop, Mirror} {
		for _, step := range []int{0, 1, 25, 29, 33, 50, 57, 58, 90, 100} {
			r := Recurrence{Repeat: repeat, DX: dx, DY: dy, Step: float64(step) / 100}
			moved := func(i int) float64 { return float64(((i*step)%100+100)%100) / 100 }
			drawn := map[[2]int]bool{}
			for _, p := range placesOf(&r, area, reach) {
				at := [2]int{p.Column, p.Row}
				if drawn[at] {
					t.Fatalf("%s: %v twice", repeat, at)
				}
				drawn[at] = true
				want := draw.Translate(float64(p.Column)*dx, float64(p.Row)*dy)
				switch repeat {
				case Brick:
					want.E += moved(p.Row) * dx
				case HalfDrop:
					want.F += moved(p.Column) * dy
				case Mirror: // (-1)^n
					want.A, want.D = math.Cos(math.Pi*float64(p.Column)), math.Cos(math.Pi*float64(p.Row))
				}
				if !same(p.At, want, 1e-6) {
					t.Fatalf("%s, step %d: %v lies at %v, want %v", repeat, step, at, p.At, want)
				}
			}
			// none of those that touch the area is missing
			for row := -130; row <= 130; row++ {
				for column := -20; column <= 20; column++ {
					x, y := float64(column)*dx, float64(row)*dy
					switch repeat {
					case Brick:
						x += moved(row) * dx
					case HalfDrop:
						y += moved(column) * dy
					}
					const hair = 1e-6
					inside := x >= area.MinX-reach+hair && x <= area.MaxX+reach-hair && y >= area.MinY-reach+hair && y <= area.MaxY+reach-hair
					if inside && !drawn[[2]int{column, row}] {
						t.Fatalf("%s, step %d: none at column %d, row %d", repeat, step, column, row)
					}
				}
			}
		}
	}
}

// Mirror repeats are p2mm with its mirrors halfway between motifs: what lies at
// one place is the mirror image of its neighbours'.
func TestMirrorRepeatsMirrorInEveryLineBetweenMotifs(t *testing.T) {
	r := Recurrence{Repeat: Mirror, DX: 7, DY: 5, Alternate: 0}
	at := map[[2]int]draw.Matrix{}
	for _, p := range placesOf(&r, box(70), 2) {
		at[[2]int{p.Column, p.Row}] = p.At
	}
	for i, m := range at {
		across := draw.Matrix{A: -1, D: 1, E: 2 * (float64(i[0]) + 0.5) * 7}
		down := draw.Matrix{A: 1, D: -1, F: 2 * (float64(i[1]) + 0.5) * 5}
		if right, ok := at[[2]int{i[0] + 1, i[1]}]; ok && !same(right, across.After(m), 1e-9) {
			t.Errorf("right of %v lies no mirror image", i)
		}
		if below, ok := at[[2]int{i[0], i[1] + 1}]; ok && !same(below, down.After(m), 1e-9) {
			t.Errorf("below %v lies no mirror image", i)
		}
	}
}

// Every other motif is turned, along rows and along columns, about its own
// middle.
func TestEveryOtherMotifIsTurned(t *testing.T) {
	for _, repeat := range []Repeat{Straight, Brick, HalfDrop, Mirror} {
		plain := Recurrence{Repeat: repeat, DX: 7, DY: 5, Step: 0.5}
		turned := plain
		turned.Alternate = 30
		before, after := placesOf(&plain, box(60), 2), placesOf(&turned, box(60), 2)
		if len(before) != len(after) {
			t.Fatalf("%s: %d motifs become %d", repeat, len(before), len(after))
		}
		isTurned := map[[2]int]bool{}
		for i, p := range after {
			switch {
			case same(p.At, before[i].At, 1e-12):
			case same(p.At, before[i].At.After(draw.Turn(30)), 1e-12):
				isTurned[[2]int{p.Column, p.Row}] = true
			default:
				t.Fatalf("%s: %v is turned to %v", repeat, before[i], p)
			}
		}
		for _, p := range after {
			if isTurned[[2]int{p.Column, p.Row}] != ((p.Column+p.Row)&1 == 1) {
				t.Errorf("%s: column %d of row %d breaks the alternation", repeat, p.Column, p.Row)
			}
		}
	}
}

// Rows and columns take their pitch from the motif and the free space about it.
func TestSpacingIsFreeSpaceAndRowsMayHaveTheirOwn(t *testing.T) {
	for _, c := range []struct {
		words  map[string]string
		dx, dy float64
	}{
		{nil, 12, 8},
		{map[string]string{"spacing": "3.5"}, 13.5, 9.5},
		{map[string]string{"row-spacing": "7"}, 12, 13},
		{map[string]string{"spacing": "0", "row-spacing": "0.25in"}, 10, 12.35},
	} {
		p := params{given: map[string]Setting{}}
		for name, word := range c.words {
			p.given[name] = Setting{name, word}
		}
		var r Recurrence
		p.recurrence(&r, 10, 6, 2, Straight)
		if p.err != nil || math.Abs(r.DX-c.dx) > 1e-9 || math.Abs(r.DY-c.dy) > 1e-9 {
			t.Errorf("%v: %g by %g, want %g by %g (%v)", c.words, r.DX, r.DY, c.dx, c.dy, p.err)
		}
	}
}

// Dots were square or staggered before there were other repeats.
func TestRepeatsAreKnownByTheirOlderNames(t *testing.T) {
	for given, want := range map[string]Repeat{"square": Straight, "Staggered": Brick, " half-drop": HalfDrop, "MIRROR": Mirror, "toss": Toss} {
		if got, err := ParseRepeat("repeat", given); got != want {
			t.Errorf("%q is read as %q (%v)", given, got, err)
		}
	}
	if got, err := ParseRepeat("repeat", "diagonal"); err == nil {
		t.Errorf("diagonal is read as %q", got)
	}
}
