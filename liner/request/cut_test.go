package request

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"underflap/liner/cutfile"
	"underflap/liner/sheet"
	"underflap/pattern/draw/referee"
)

// cutCases are sheets to cut: every shape of flap, every turn, from one liner to
// many, with and without marks.
func cutCases(t *testing.T) map[string]Words {
	flap := filepath.Join(t.TempDir(), "flap.csv")
	if err := os.WriteFile(flap, []byte("0,0\n20,30\n60,55\n81,30\n110,60\n150,20\n162,0\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	return map[string]Words{
		"usual":         {},
		"marked":        {Registration: "all"},
		"three marks":   {Envelope: "a7", Paper: "letter", Flap: "contour", Registration: "three", RegistrationInset: "12.5", RegistrationArm: "1in", RegistrationLine: "1"},
		"square":        {Envelope: "dl", Flap: "square", Registration: "top-left, bottom-right"},
		"rounded":       {Envelope: "no.10", Paper: "letter", Flap: "rounded"},
		"many":          {Envelope: "c7", Flap: "contour", PerSheet: "most"},
		"straight":      {Envelope: "c7", PerSheet: "most", Layout: "straight", Registration: "all"},
		"traced":        {Pocket: "162x114", Profile: flap, Gum: "4", Registration: "all"},
		"handmade":      {Handmade: "four-corner", Card: "a6"},
		"sharp corners": {Envelope: "c5", Paper: "a3", CornerRadius: "0", Gum: "0"},
		"to trace":      {Blank: true, Registration: "all"},
		"rescaled":      {Registration: "all", CorrectX: "98.7", CorrectY: "99.2"},
	}
}

// cutPlan is the settled plan of words.
func cutPlan(t *testing.T, w Words) sheet.Plan {
	t.Helper()
	r, err := ResolveFit(t.Context(), w)
	if err != nil {
		t.Fatal(err)
	}
	p, err := sheet.Arrange(r.Task)
	if err != nil {
		t.Fatal(err)
	}
	settled, _ := p.Settle()
	return settled
}

func cutBytes(t *testing.T, p sheet.Plan, format string) []byte {
	t.Helper()
	var b, again bytes.Buffer
	for _, to := range []*bytes.Buffer{&b, &again} {
		if err := cutfile.Of(p).Write(to, format); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Error("the same plan gives other bytes")
	}
	return b.Bytes()
}

// chordsOff is how far ezdxf's chords lie from arcs at most, in millimetres.
const chordsOff = 1e-5

func closeTo(a, b, most float64) bool { return math.Abs(a-b) <= most }

// TestDXFAsEzdxfReadsIt lets ezdxf, a general library, read the DXF back: format
// and layers, closed contours, areas, boxes, creases and marks; GEOS measures how
// far apart the contours lie. The format is Autodesk's DXF Reference, release 12.
func TestDXFAsEzdxfReadsIt(t *testing.T) {
	for name, w := range cutCases(t) {
		t.Run(name, func(t *testing.T) {
			p := cutPlan(t, w)
			got := referee.DXF(t, cutBytes(t, p, "dxf"))
			fit := Report(p, sheet.Marks{})
			if got.Version != "AC1009" || len(got.Errors) > 0 {
				t.Errorf("version %s, errors %q", got.Version, got.Errors)
			}
			for _, layer := range []string{"cut", "fold", "registration"} {
				if !slices.Contains(got.Layers, layer) {
					t.Errorf("no layer %q among %q", layer, got.Layers)
				}
			}
			for _, kind := range got.Types {
				if kind != "LINE" && kind != "ARC" {
					t.Errorf("an entity %s", kind)
				}
			}
			if got.Worst > 1e-9 {
				t.Errorf("two lines that follow each other are %g apart", got.Worst)
			}
			if len(got.Rings) != len(p.Placements) {
				t.Fatalf("%d closed contours, want %d", len(got.Rings), len(p.Placements))
			}
			page := func(x, y float64) (float64, float64) { return x, fit.Paper.Height - y } // and back
			for i, pl := range p.Placements {
				line := p.CutLine(pl)
				edge := edgeOf(fit.Placements[i].Outline)
				if want := math.Abs(line.Area()); !closeTo(got.Areas[i], want, chordsOff*edge) {
					t.Errorf("contour %d has %f mm², want %f", i, got.Areas[i], want)
				}
				// what fit tells programs is within a hundredth of its arcs
				if told := ringArea(fit.Placements[i].Outline); !closeTo(got.Areas[i], told, 0.01*edge) {
					t.Errorf("contour %d has %f mm², fit says %f", i, got.Areas[i], told)
				}
				far := 0.0 // each corner of what fit says lies on the contour
				for _, q := range fit.Placements[i].Outline {
					x, y := page(q[0], q[1])
					far = max(far, fromRing(got.Rings[i], x, y))
				}
				if far > 2*chordsOff {
					t.Errorf("contour %d lies %g from where fit says", i, far)
				}
				checkCreases(t, p, got, i)
			}
			box := got.Box
			if !closeTo(got.ExtMin[0], box[0], 2*chordsOff) || !closeTo(got.ExtMin[1], box[1], 2*chordsOff) || !closeTo(got.ExtMax[0], box[2], 2*chordsOff) || !closeTo(got.ExtMax[1], box[3], 2*chordsOff) {
				t.Errorf("the header says %v to %v, the lines have %v", got.ExtMin, got.ExtMax, box)
			}
			checkMarks(t, fit, got)
			checkApart(t, got.Rings, p.Gap)
		})
	}
}

// checkCreases looks for creases of a liner: in line with its fold, both ends on the
// cut line, the middle inside it.
func checkCreases(t *testing.T, p sheet.Plan, got referee.DXFRead, i int) {
	t.Helper()
	pl, found := p.Placements[i], 0
	for _, f := range got.Fold {
		mid := [2]float64{(f[0] + f[2]) / 2, (f[1] + f[3]) / 2}
		if !insideRing(got.Rings[i], mid[0], mid[1]) {
			continue
		}
		found++
		for _, end := range [][2]float64{{f[0], f[1]}, {f[2], f[3]}} {
			if off := fromRing(got.Rings[i], end[0], end[1]); off > 2*chordsOff {
				t.Errorf("a crease of contour %d ends %g from the cut line", i, off)
			}
			across := end[0] - pl.DX // of the fold
			if pl.Turn%180 == 0 {
				across = p.Paper.Height - end[1] - pl.DY
			}
			if !closeTo(across, 0, 1e-9) {
				t.Errorf("a crease of contour %d lies %g off the fold", i, across)
			}
		}
		for k := 1; k < 50; k++ { // and never along it
			at := float64(k) / 50
			if off := fromRing(got.Rings[i], f[0]+at*(f[2]-f[0]), f[1]+at*(f[3]-f[1])); off < 0.01 {
				t.Errorf("a crease of contour %d runs %g from the cut line", i, off)
				break
			}
		}
	}
	if found == 0 {
		t.Errorf("contour %d has no crease", i)
	}
}

// checkMarks compares the marks with what fit tells programs: an L each.
func checkMarks(t *testing.T, fit Fit, got referee.DXFRead) {
	t.Helper()
	if len(got.Registration) != 2*len(fit.Registration) {
		t.Fatalf("%d lines for %d marks", len(got.Registration), len(fit.Registration))
	}
	for i, m := range fit.Registration {
		level, up := got.Registration[2*i], got.Registration[2*i+1]
		at := [2]float64{m.X, fit.Paper.Height - m.Y}
		if [2]float64{level[2], level[3]} != [2]float64{up[0], up[1]} || !closeTo(level[2], at[0], 1e-6) || !closeTo(level[3], at[1], 1e-6) {
			t.Errorf("the arms %v and %v do not meet at %v", level, up, at)
		}
		if !closeTo(math.Abs(level[0]-level[2]), m.Arm, 1e-6) || level[1] != level[3] || !closeTo(math.Abs(up[3]-up[1]), m.Arm, 1e-6) || up[0] != up[2] {
			t.Errorf("the arms %v and %v are not %v long", level, up, m.Arm)
		}
	}
}

// checkApart lets GEOS measure the distance of every two contours.
func checkApart(t *testing.T, rings [][][2]float64, gap float64) {
	t.Helper()
	var all []string
	for _, ring := range rings {
		var at []string
		for _, q := range ring {
			at = append(at, fmt.Sprintf("%.9f %.9f", q[0], q[1]))
		}
		all = append(all, "POLYGON(("+strings.Join(at, ",")+"))")
	}
	for i := 1; i < len(all); i++ {
		dir := t.TempDir()
		before, one := filepath.Join(dir, "before.wkt"), filepath.Join(dir, "one.wkt")
		for path, text := range map[string]string{before: "GEOMETRYCOLLECTION(" + strings.Join(all[:i], ",") + ")\n", one: all[i] + "\n"} {
			if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		said := strings.TrimSpace(string(referee.Run(t, "geosop", "-a", before, "-b", one, "-f", "txt", "-p", "9", "distance")))
		if apart, err := strconv.ParseFloat(said, 64); err != nil || apart < gap-3*chordsOff {
			t.Errorf("contour %d is %s from another, want %v", i, said, gap)
		}
	}
}

// TestCutSVGAsLibrsvgDrawsIt fills the cut lines and compares what they cover with
// the contours' area; then draws the marks alone and looks for their arms.
func TestCutSVGAsLibrsvgDrawsIt(t *testing.T) {
	const dpi = 120.0
	mm := dpi / 25.4
	for name, w := range cutCases(t) {
		t.Run(name, func(t *testing.T) {
			p := cutPlan(t, w)
			file := cutBytes(t, p, "svg")
			drawn := referee.SVG(t, file, dpi, "#cut { fill: #000; stroke: none } #fold, #registration { display: none }")
			if !closeTo(float64(drawn.Width), p.Paper.Width*mm, 1) || !closeTo(float64(drawn.Height), p.Paper.Height*mm, 1) {
				t.Errorf("%d by %d pixels, want %.1f by %.1f", drawn.Width, drawn.Height, p.Paper.Width*mm, p.Paper.Height*mm)
			}
			want, edge := 0.0, 0.0
			for _, pl := range p.Placements {
				want += math.Abs(p.CutLine(pl).Area())
				for _, s := range p.CutLine(pl) {
					edge += s.Length()
				}
			}
			got := drawn.InkedShare(0, 0, drawn.Width, drawn.Height) * float64(drawn.Width*drawn.Height) / (mm * mm)
			// a pixel's coverage is told to one of 255 steps; at an edge that is a hundredth of a pixel
			if !closeTo(got, want, 0.02*edge/mm+1e-4*want) {
				t.Errorf("librsvg covers %.3f mm², want %.3f", got, want)
			}
			marks := referee.SVG(t, file, dpi, "#registration { stroke: #000; stroke-width: 0.5 } #cut, #fold { display: none }")
			for _, m := range Report(p, sheet.Marks{}).Registration {
				toMiddle := func(v, side float64) float64 { return math.Copysign(1, side/2-v) }
				dx, dy := toMiddle(m.X, p.Paper.Width), toMiddle(m.Y, p.Paper.Height)
				for _, at := range []struct {
					x, y float64
					ink  bool
				}{
					{m.X, m.Y, true}, {m.X + dx*(m.Arm-0.3), m.Y, true}, {m.X, m.Y + dy*(m.Arm-0.3), true},
					{m.X + dx*(m.Arm+0.3), m.Y, false}, {m.X, m.Y + dy*(m.Arm+0.3), false}, {m.X - dx*0.6, m.Y - dy*0.6, false}, {m.X + dx*0.6, m.Y + dy*0.6, false},
				} {
					if marks.Pixel(int(at.x*mm), int(at.y*mm), 128) != at.ink {
						t.Errorf("%s: at %.1f, %.1f the ink is not %v", m.Corner, at.x, at.y, at.ink)
					}
				}
			}
		})
	}
}

// ringArea is the area of a closed chain of points.
func ringArea(ring [][2]float64) float64 {
	sum := 0.0
	for i := 1; i < len(ring); i++ {
		sum += (ring[i-1][0]*ring[i][1] - ring[i][0]*ring[i-1][1]) / 2
	}
	return math.Abs(sum)
}

// edgeOf is the length of a chain of points.
func edgeOf(ring [][2]float64) (sum float64) {
	for i := 1; i < len(ring); i++ {
		sum += math.Hypot(ring[i][0]-ring[i-1][0], ring[i][1]-ring[i-1][1])
	}
	return sum
}

// fromRing is the distance of a point from a closed chain.
func fromRing(ring [][2]float64, x, y float64) float64 {
	best := math.Inf(1)
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		dx, dy := b[0]-a[0], b[1]-a[1]
		along := 0.0
		if d := dx*dx + dy*dy; d > 0 {
			along = max(0, min(1, ((x-a[0])*dx+(y-a[1])*dy)/d))
		}
		best = min(best, math.Hypot(a[0]+along*dx-x, a[1]+along*dy-y))
	}
	return best
}

// insideRing tells whether a point lies inside a closed chain.
func insideRing(ring [][2]float64, x, y float64) bool {
	inside := false
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		if (a[1] <= y) != (b[1] <= y) && x < a[0]+(y-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
			inside = !inside
		}
	}
	return inside
}
