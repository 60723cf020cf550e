package trace

import (
	"image"
	"image/color"
	"math"
	"testing"

	"golang.org/x/image/vector"

	"underflap/pattern/draw"
)

// covered draws a shape with soft edges: 64 samples a pixel.
func covered(w, h int, inside func(x, y float64) bool) *image.Alpha {
	img := image.NewAlpha(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			n := 0
			for i := range 64 {
				if inside(float64(x)+(float64(i%8)+0.5)/8, float64(y)+(float64(i/8)+0.5)/8) {
					n++
				}
			}
			img.SetAlpha(x, y, color.Alpha{A: uint8(n * 255 / 64)})
		}
	}
	return img
}

// drawn fills a path by another program's means: the rasterizer of
// golang.org/x/image.
func drawn(p draw.Path, w, h int, scale float64) *image.Alpha {
	r := vector.NewRasterizer(int(float64(w)*scale), int(float64(h)*scale))
	at := func(q draw.Point) (float32, float32) { return float32(q.X * scale), float32(q.Y * scale) }
	p.Steps(func(v draw.Verb, q []draw.Point) {
		switch v {
		case draw.Move:
			r.MoveTo(at(q[0]))
		case draw.Line:
			r.LineTo(at(q[0]))
		case draw.Cubic:
			x1, y1 := at(q[0])
			x2, y2 := at(q[1])
			x3, y3 := at(q[2])
			r.CubeTo(x1, y1, x2, y2, x3, y3)
		case draw.Close:
			r.ClosePath()
		}
	})
	out := image.NewAlpha(image.Rect(0, 0, int(float64(w)*scale), int(float64(h)*scale)))
	r.Draw(out, out.Rect, image.Opaque, image.Point{})
	return out
}

// shapes are what stamps hold: rounds, corners, holes, thin lines, two that
// touch at a corner.
var shapes = map[string]struct {
	inside func(x, y float64) bool
	most   int // steps of the path
}{
	"disc":      {func(x, y float64) bool { return math.Hypot(x-50, y-50) < 37 }, 14},
	"small dot": {func(x, y float64) bool { return math.Hypot(x-50.3, y-50.1) < 3 }, 10},
	"ring":      {func(x, y float64) bool { d := math.Hypot(x-50, y-50); return d < 40 && d > 34 }, 28},
	"turned square": {func(x, y float64) bool {
		return math.Abs(0.8*(x-50)+0.6*(y-50)) < 25 && math.Abs(0.8*(y-50)-0.6*(x-50)) < 25
	}, 6},
	"leaf":           {func(x, y float64) bool { return math.Hypot(x-50, y-80) < 45 && math.Hypot(x-50, y-20) < 45 }, 12},
	"wave":           {func(x, y float64) bool { return math.Abs(y-50-18*math.Sin(x/9)) < 4 && x > 5 && x < 95 }, 70},
	"hatching":       {func(x, y float64) bool { return math.Mod(x+y, 9) < 5 && x > 10 && x < 90 && y > 10 && y < 90 }, 160},
	"touching":       {func(x, y float64) bool { return x > 10 && y > 10 && x < 90 && y < 90 && (x < 50) == (y < 50) }, 14},
	"to the edges":   {func(x, y float64) bool { return x < 60 }, 6},
	"all of it":      {func(x, y float64) bool { return true }, 6},
	"nothing at all": {func(x, y float64) bool { return false }, 0},
}

func outlined(t *testing.T, cover *image.Alpha) draw.Path {
	t.Helper()
	path, err := Outline(t.Context(), cover)
	if err != nil {
		t.Fatal(err)
	}
	return path
}

func TestOutlineIsTheEdgeOfTheInk(t *testing.T) {
	const side, scale = 100, 4
	for name, shape := range shapes {
		path := outlined(t, covered(side, side, shape.inside))
		if len(path.Verbs) > shape.most {
			t.Errorf("%s: %d steps, want %d at most", name, len(path.Verbs), shape.most)
		}
		// against the shape itself, four times as large: what differs is a seam
		// along the edge, and narrow
		got := drawn(path, side, side, scale)
		wrong, edge := 0, 0
		want := func(x, y int) bool { return shape.inside((float64(x)+0.5)/scale, (float64(y)+0.5)/scale) }
		for y := 2; y < side*scale-2; y++ {
			for x := 2; x < side*scale-2; x++ {
				in := want(x, y)
				if in != (got.AlphaAt(x, y).A >= 128) {
					wrong++
				}
				if in != want(x+1, y) || in != want(x, y+1) {
					edge++
				}
			}
		}
		off := float64(wrong) / float64(max(edge, 1)) / scale
		t.Logf("%-15s %3d steps, %.3f pixels off", name, len(path.Verbs), off)
		if off > 0.2 {
			t.Errorf("%s: the outline is %.2f pixels off on the mean", name, off)
		}
	}
}

func TestCornersStaySharpAndRoundsRound(t *testing.T) {
	square := outlined(t, covered(100, 100, shapes["turned square"].inside))
	for _, want := range []draw.Point{{X: 85, Y: 45}, {X: 55, Y: 85}, {X: 15, Y: 55}, {X: 45, Y: 15}} {
		near := math.Inf(1)
		for _, p := range square.Points {
			near = min(near, distance(p, want))
		}
		if near > 0.3 {
			t.Errorf("no corner within %.2f of %v", near, want)
		}
	}
	disc := outlined(t, covered(100, 100, shapes["disc"].inside))
	at := disc.Points[0]
	disc.Steps(func(v draw.Verb, q []draw.Point) {
		if v != draw.Cubic {
			return
		}
		for i := range 21 {
			p := curve{at, q[0], q[1], q[2]}.at(float64(i) / 20)
			if r := math.Hypot(p.X-50, p.Y-50); math.Abs(r-37) > 0.25 {
				t.Errorf("%v is %.2f from the middle of a disc of 37", p, r)
			}
		}
		at = q[2]
	})
}

// A hole runs the other way round, so that the non-zero rule leaves it free.
func TestHolesStayFree(t *testing.T) {
	got := drawn(outlined(t, covered(100, 100, shapes["ring"].inside)), 100, 100, 1)
	for at, want := range map[image.Point]uint8{{50, 50}: 0, {80, 50}: 0, {87, 50}: 255, {50, 13}: 255, {95, 50}: 0} {
		if a := got.AlphaAt(at.X, at.Y).A; a != want {
			t.Errorf("%v is covered by %d, want %d", at, a, want)
		}
	}
}
