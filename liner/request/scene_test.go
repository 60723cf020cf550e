package request

import (
	"bytes"
	"image/png"
	"math"
	"strings"
	"testing"

	"underflap/liner/scene"
	"underflap/palettes"
	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// five are palettes there always are.
const five = "barn-lantern,hop-garden,orchard-table,rowan-jelly,stubble-field"

func sees(t *testing.T, l Look) Seen {
	t.Helper()
	seen, err := See(t.Context(), l)
	if err != nil {
		t.Fatal(err)
	}
	return seen
}

// Soft shadows are pictures with alpha: every writer's are drawn alike, by four
// programs that are not ours.
func TestEveryOutputShowsTheSamePicture(t *testing.T) {
	const dpi = 100.0
	seen := sees(t, Look{Words: Words{Pattern: "petals"}, View: "open,half", EnvelopeColour: "tan", ShowCard: "white"})
	file := func(format string) []byte {
		var b bytes.Buffer
		if err := (Output{Format: format, DPI: dpi}).Encode(t.Context(), &b, seen.Pages()); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	ours := referee.PNG(t, file("png"), dpi)
	pdf := file("pdf")
	others := map[string]*referee.Raster{"librsvg": referee.SVG(t, file("svg"), dpi, "")}
	for name, renders := range referee.Renderers {
		others[name] = renders(t, pdf, dpi)
	}
	for name, other := range others {
		sum, far, n := 0.0, 0, 0
		for y := range min(ours.Height, other.Height) {
			for x := range min(ours.Width, other.Width) {
				d := math.Abs(float64(ours.Grey[y*ours.Width+x]) - float64(other.Grey[y*other.Width+x]))
				sum += d
				n++
				if d > 12 { // edges, softened in another way
					far++
				}
			}
		}
		if mean, share := sum/float64(n), float64(far)/float64(n); n < 1_000_000 || mean > 1.6 || share > 0.006 {
			t.Errorf("%s: %d pixels differ by %.2f levels, %.2f %% by more than 12", name, n, mean, 100*share)
		}
	}
}

// A shadow is soft where it can be seen: from the envelope's foot outwards every
// pixel is as light as the one before or a little lighter, with no step.
func TestShadowsHaveNoSteps(t *testing.T) {
	for _, table := range []string{"", "white", "#8a5a3c"} {
		seen := sees(t, Look{Table: table})
		r := referee.PNG(t, coded(t, seen.Page, "png"), seenAt)
		fold := seen.Folds[0]
		for _, x := range []float64{30, 81, 130} {
			column := int((fold.X + x) * seenAt / 25.4)
			from := int((fold.Y + 114 + 3.5) * seenAt / 25.4)
			first, last := -1, -1
			for y := from; y < r.Height-2; y++ {
				here, next := int(r.Grey[y*r.Width+column]), int(r.Grey[(y+1)*r.Width+column])
				if next < here-1 || next > here+3 {
					t.Fatalf("table %q, %g mm along: from %d to %d at row %d", table, x, here, next, y)
				}
				if first < 0 {
					first = here
				}
				last = next
			}
			if last-first < 10 {
				t.Errorf("table %q: the shadow goes from %d to %d", table, first, last)
			}
		}
	}
}

func TestThePictureIsTheSameEveryTime(t *testing.T) {
	for _, format := range Formats {
		l := Look{Words: Words{Pattern: "leaves", Repeat: "toss"}, View: "half", ShowCard: "ivory"}
		if first, again := coded(t, sees(t, l).Page, format), coded(t, sees(t, l).Page, format); !bytes.Equal(first, again) {
			t.Errorf("%s: %d bytes, then %d others", format, len(first), len(again))
		}
	}
}

func TestThePictureIsAbout1600PixelsWide(t *testing.T) {
	for _, l := range []Look{{}, {View: "open,half,closed,front"}, {Words: Words{Envelope: "c4"}}, {Palettes: "all"}} {
		seen := sees(t, l)
		to, err := ResolveOutput("look.png", seen.UsualDPI())
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := to.Encode(t.Context(), &b, seen.Pages()); err != nil {
			t.Fatal(err)
		}
		config, err := png.DecodeConfig(&b)
		if err != nil {
			t.Fatal(err)
		}
		if config.Width < 1580 || config.Width > 1620 && seen.UsualDPI() != "72" {
			t.Errorf("%s: %d pixels wide", seen.Says, config.Width)
		}
	}
}

// A sheet and a picture of the same words have the same depth, also where two
// nest only because the sheet shortened them.
func TestThePictureIsAsDeepAsTheSheet(t *testing.T) {
	for _, w := range []Words{{}, {PerSheet: "1"}, {Envelope: "c5", Paper: "a3"}, {Envelope: "c7", PerSheet: "most"}, {PocketDepth: "70"}} {
		if got, want := sees(t, Look{Words: w}).Scene.Depth, makeOf(t, w).Plan.Depth; got != want {
			t.Errorf("%+v: %g, and the sheet's is %g", w, got, want)
		}
	}
	// no usual paper takes it, and one may still want to see it
	if got := sees(t, Look{Words: Words{Pocket: "330x330", FlapDepth: "150"}}).Scene.Depth; got != 325 {
		t.Errorf("a large one is %g deep", got)
	}
}

// Every name stands under its envelope, clear of all envelopes, names and the
// page's edge.
func TestNamesInAGridTouchNothing(t *testing.T) {
	for _, l := range []Look{
		{Patterns: "all"}, {Palettes: "all"}, {Patterns: "dots,waves,plaid", Palettes: five},
		{Words: Words{Envelope: "c7", Flap: "square"}, Patterns: "all", View: "half"},
		{Palettes: "triad:lightgoldenrodyellow,envelope:mediumspringgreen,complement:darkolivegreen", Patterns: "houndstooth,basketweave"},
		{Words: Words{Envelope: "dl"}, Patterns: "houndstooth,herringbone", Palettes: five, View: "closed"},
	} {
		seen := sees(t, l)
		e, k := seen.Scene.Liner.Envelope, seen.Scale
		var boxes []draw.Rect
		for _, f := range seen.Folds {
			top := seen.Scene.Liner.FlapProfile().Height()
			if l.View == "half" {
				top /= 2
			} else if l.View == "closed" {
				top = 0
			}
			boxes = append(boxes, draw.Rect{MinX: f.X, MinY: f.Y - k*top, MaxX: f.X + k*e.Width, MaxY: f.Y + k*e.Height})
		}
		cells := len(boxes)
		draw.Walk(seen.Nodes(), func(n draw.Node) {
			if text, ok := n.(*draw.Text); ok {
				boxes = append(boxes, text.Bounds())
			}
		})
		if len(boxes) != 2*cells {
			t.Errorf("%s: %d names", seen.Says, len(boxes)-cells)
		}
		page := draw.Rect{MaxX: seen.Width, MaxY: seen.Height}.Grow(-1)
		for i, a := range boxes {
			if a.MinX < page.MinX || a.MinY < page.MinY || a.MaxX > page.MaxX || a.MaxY > page.MaxY {
				t.Errorf("%s: %v is at the page's edge", seen.Says, a)
			}
			for _, b := range boxes[:i] {
				if b := b.Grow(0.5); a.MinX < b.MaxX && a.MaxX > b.MinX && a.MinY < b.MaxY && a.MaxY > b.MinY {
					t.Errorf("%s: %v meets %v", seen.Says, a, b)
				}
			}
		}
	}
}

// Each cell is in its own colours: the middle of a plain part of its flap is the
// palette's ground.
func TestCellsShowTheirPalette(t *testing.T) {
	seen := sees(t, Look{Words: Words{Pattern: "dots"}, Palettes: five})
	var cells []scene.Cell
	cells, _, _, err := resolveCells(t.Context(), Look{Words: Words{Pattern: "dots"}, Palettes: five})
	if err != nil || len(cells) != 5 || len(cells) != len(seen.Folds) {
		t.Fatalf("%d cells: %v", len(cells), err)
	}
	img, err := png.Decode(bytes.NewReader(coded(t, seen.Page, "png")))
	if err != nil {
		t.Fatal(err)
	}
	for i, name := range strings.Split(five, ",") {
		palette, err := palettes.Named("palette", name)
		if err != nil {
			t.Fatal(err)
		}
		if want := strings.ReplaceAll(name, "-", " "); cells[i].Name != want {
			t.Errorf("cell %d is called %q, want %q", i, cells[i].Name, want)
		}
		k := seen.Scale
		near := 0 // pixels of the flap within a few levels of the ground
		for y := 8.0; y < 40; y++ {
			for x := 70.0; x < 92; x++ {
				r, g, b, _ := img.At(int((seen.Folds[i].X+k*x)*seenAt/25.4), int((seen.Folds[i].Y-k*y)*seenAt/25.4)).RGBA()
				d := max(math.Abs(float64(r>>8)-float64(palette.Ground.R)), math.Abs(float64(g>>8)-float64(palette.Ground.G)), math.Abs(float64(b>>8)-float64(palette.Ground.B)))
				if d <= 22 { // light and shade
					near++
				}
			}
		}
		if near < 300 {
			t.Errorf("%s: %d of 704 places have its ground", name, near)
		}
	}
}

// A colour of the paper shows through every ink by the blend mode multiply (W3C
// Compositing and Blending Level 1): the ground in the picture is ground times
// paper.
func TestThePictureShowsColouredPaper(t *testing.T) {
	palette, err := palettes.Named("palette", "hop-garden")
	if err != nil {
		t.Fatal(err)
	}
	kraft := draw.Colour{R: 0xc9, G: 0xa7, B: 0x7c}
	seen := sees(t, Look{Words: Words{Palette: "hop-garden", PaperColour: kraft.Hex()}})
	if !strings.HasSuffix(seen.Title, ", on paper #c9a77c") {
		t.Errorf("called %q", seen.Title)
	}
	sc := seen.Scene
	sc.Flat = true
	placed := picturedAs(t, sc, []scene.View{scene.Open})
	img, err := png.Decode(bytes.NewReader(coded(t, placed.Page, "png")))
	if err != nil {
		t.Fatal(err)
	}
	want := draw.Multiply(kraft, palette.Ground)
	found := 0
	for y := 10.0; y < 50; y++ {
		r, g, b, _ := img.At(int((placed.Folds[0].X+79)*seenAt/25.4), int((placed.Folds[0].Y-y)*seenAt/25.4)).RGBA()
		if (draw.Colour{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)}) == want {
			found++
		}
	}
	if found < 20 {
		t.Errorf("%d of 40 places are %s", found, want.Hex())
	}
}
