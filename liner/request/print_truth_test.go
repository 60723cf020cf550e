package request

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// True size is the promise: three PDF renderers and one SVG renderer draw our
// page, and the cut lines and the rule lie where fit says.
//
// Referees: poppler (pdftoppm), MuPDF (mutool), Ghostscript and librsvg
// (rsvg-convert), all from Debian.

const (
	truthDPI = 600
	pixel    = 25.4 / truthDPI
	// 0.05 mm, and half a pixel for where a renderer puts its grid
	truth = 0.05 + pixel/2
)

var truthCases = map[string]Words{
	"C6 pointed on A4":     {},
	"A7 square on Letter":  {Envelope: "a7", Flap: "square", Paper: "letter", Palette: "barn-lantern", Pattern: "scallops"},
	"DL pointed, turned":   {Envelope: "dl", Pattern: "stripes", Turn: "30"},
	"measured, own margin": {Pocket: "150x110", FlapDepth: "60", Gum: "0", TipRadius: "25", Paper: "250x300", PrinterMargin: "8"},
}

func TestCutLinesAndRulePrintWhereFitSays(t *testing.T) {
	for name, words := range truthCases {
		t.Run(name, func(t *testing.T) {
			made := makeOf(t, words)
			fit := Report(made.Plan.Settle()) // as the command fit does
			pdf, svg := encode(t, made, "pdf"), encode(t, made, "svg")
			for layer, check := range map[string]func(*testing.T, Fit, *referee.Raster){draw.Cut: checkCutLines, draw.Notes: checkRule} {
				alone := referee.OnlyLayer(t, pdf, layer)
				for renderer, render := range referee.Renderers {
					t.Run(renderer+" "+layer, func(t *testing.T) { check(t, fit, render(t, alone, truthDPI)) })
				}
				t.Run("librsvg "+layer, func(t *testing.T) { check(t, fit, referee.SVG(t, svg, truthDPI, onlyGroup(layer))) })
			}
		})
	}
}

// onlyGroup hides every layer of our SVG but one.
func onlyGroup(layer string) string {
	css := ""
	for _, name := range []string{draw.Artwork, draw.Cut, draw.Fold, draw.Notes} {
		if name != layer {
			css += fmt.Sprintf("#%s { display: none }\n", name)
		}
	}
	return css
}

// checkCutLines looks across every straight stretch of every placed outline
// for the printed line, and compares its middle with the outline.
func checkCutLines(t *testing.T, fit Fit, page *referee.Raster) {
	looked, worst := 0, 0.0
	for _, placement := range fit.Placements {
		for i := 1; i < len(placement.Outline); i++ {
			a, b := placement.Outline[i-1], placement.Outline[i]
			dx, dy := b[0]-a[0], b[1]-a[1]
			length := math.Hypot(dx, dy)
			if length < 6 { // chords of the corners
				continue
			}
			nx, ny := -dy/length, dx/length
			for along := 2.5; along <= length-2.5; along += 4 {
				x, y := a[0]+dx*along/length, a[1]+dy*along/length
				off, ink := lineAcross(page, x, y, nx, ny)
				looked++
				if ink < 0.05 {
					t.Fatalf("no cut line at %.2f, %.2f", x, y)
				}
				worst = max(worst, math.Abs(off))
			}
		}
	}
	if looked < 50 {
		t.Fatalf("looked at %d places only", looked)
	}
	if worst > truth {
		t.Errorf("a cut line is %.3f mm away from where fit says; %.3f allowed", worst, truth)
	}
	t.Logf("%d places, worst %.4f mm", looked, worst)
}

// lineAcross is where the darkness within 0.6 mm across a line has its middle,
// and how many millimetres of full ink it amounts to.
func lineAcross(page *referee.Raster, x, y, nx, ny float64) (off, ink float64) {
	const reach, step = 0.6, 0.01
	sum, moment := 0.0, 0.0
	for d := -reach; d <= reach; d += step {
		dark := 1 - page.At(x+d*nx, y+d*ny)/255
		sum += dark
		moment += dark * d
	}
	return moment / sum, sum * step
}

// checkRule wants the rule where fit says, 100 mm long.
func checkRule(t *testing.T, fit Fit, page *referee.Raster) { checkRuleOf(t, fit, page, 100) }

// checkRuleOf finds the box of solid ink around the rule and compares its
// corners and its length.
func checkRuleOf(t *testing.T, fit Fit, page *referee.Raster, length float64) {
	if fit.Rule == nil {
		t.Fatal("the sheet has no rule")
	}
	want := fit.Rule.Outline
	const around = 0.4 // nearer than the words below the bar
	toPixel := func(mm float64) int { return int(math.Floor(mm / pixel)) }
	minX, minY, maxX, maxY := math.MaxInt, math.MaxInt, -1, -1
	for y := toPixel(want[0][1] - around); y <= toPixel(want[2][1]+around); y++ {
		for x := toPixel(want[0][0] - around); x <= toPixel(want[2][0]+around); x++ {
			if page.Pixel(x, y, 140) {
				minX, minY, maxX, maxY = min(minX, x), min(minY, y), max(maxX, x+1), max(maxY, y+1)
			}
		}
	}
	if maxX < 0 {
		t.Fatal("no rule printed")
	}
	got := [4]float64{float64(minX) * pixel, float64(minY) * pixel, float64(maxX) * pixel, float64(maxY) * pixel}
	for i, w := range []float64{want[0][0], want[0][1], want[2][0], want[2][1]} {
		if math.Abs(got[i]-w) > truth {
			t.Errorf("rule's corner at %.3f, fit says %.3f", got[i], w)
		}
	}
	long := max(got[2]-got[0], got[3]-got[1])
	if math.Abs(long-length) > truth {
		t.Errorf("the 100 mm rule is %.3f mm long, want %.3f", long, length)
	}
}

func makeOf(t *testing.T, w Words) Made {
	t.Helper()
	r, err := Resolve(t.Context(), w)
	if err != nil {
		t.Fatal(err)
	}
	made, err := r.Make(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return made
}

func encode(t *testing.T, made Made, format string) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := (Output{Format: format, DPI: truthDPI}).Encode(t.Context(), &b, made.Pages); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
