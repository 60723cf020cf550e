package look_test

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"underflap/liner"
	"underflap/liner/geom"
	"underflap/liner/look"
	"underflap/pattern/draw"
	"underflap/pattern/draw/pdf"
	"underflap/pattern/draw/referee"
)

// guided are liners of every shape of flap, wide and upright, with gum and
// without, and one with a flap nearly as deep as its pocket.
func guided(t *testing.T) map[string]liner.Liner {
	t.Helper()
	out := map[string]liner.Liner{}
	for _, shape := range []liner.Shape{liner.Pointed, liner.Square, liner.Rounded, liner.Contour} {
		for name, e := range map[string]liner.Envelope{
			"wide":    {Short: "C6", Width: 162, Height: 114, Flap: liner.UsualFlap(shape, 60, 162), Gum: 12},
			"upright": {Short: "C6", Width: 114, Height: 162, Flap: liner.UsualFlap(shape, 55, 114), Gum: 12},
			"no gum":  {Short: "DL", Width: 220, Height: 110, Flap: liner.UsualFlap(shape, 50, 220)},
			"deep":    {Short: "odd", Width: 200, Height: 60, Flap: liner.UsualFlap(shape, 58, 200), Gum: 10},
		} {
			out[string(shape)+" "+name] = made(t, e)
		}
	}
	points := []geom.Point{{X: 0, Y: 5}, {X: 40, Y: 40}, {X: 80, Y: 66}, {X: 120, Y: 40}, {X: 160, Y: 5}}
	out["traced"] = made(t, liner.Envelope{Short: "160 × 115 mm", Width: 160, Height: 115, Flap: liner.TracedFlap(points), Gum: 12})
	return out
}

func made(t *testing.T, e liner.Envelope) liner.Liner {
	t.Helper()
	l, err := liner.New(e, liner.Clearances{SideGap: 3, GumClearance: 1.5, Border: 5, CornerRadius: 4})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// printedWord is one that poppler finds on a page, in points.
var printedWord = regexp.MustCompile(`<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)</word>`)

// read writes a page as PDF and lets poppler (pdftotext -bbox) read its words:
// all lie within the page's border, and no two on each other.
func read(t *testing.T, page *draw.Page) string {
	t.Helper()
	var b bytes.Buffer
	if err := pdf.Write(t.Context(), &b, []*draw.Page{page}, time.Time{}); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "guide.pdf")
	if err := os.WriteFile(path, b.Bytes(), 0o666); err != nil {
		t.Fatal(err)
	}
	const point = 25.4 / 72
	var boxes []draw.Rect
	var words []string
	for _, found := range printedWord.FindAllStringSubmatch(string(referee.Run(t, "pdftotext", "-bbox", path, "-")), -1) {
		var v [4]float64
		for i := range v {
			v[i], _ = strconv.ParseFloat(found[i+1], 64)
			v[i] *= point
		}
		box := draw.Rect{MinX: v[0], MinY: v[1], MaxX: v[2], MaxY: v[3]}
		if box.MinX < 7.9 || box.MaxX > page.Width-7.9 || box.MinY < 5 || box.MaxY > page.Height-5 {
			t.Errorf("%q lies at %.1f, beyond the border of a page of %.0f × %.0f mm", found[5], box, page.Width, page.Height)
		}
		high := 0.25 * box.Height() // poppler's boxes are of the font, not of the ink
		inner := draw.Rect{MinX: box.MinX + 0.1, MinY: box.MinY + high, MaxX: box.MaxX - 0.1, MaxY: box.MaxY - high}
		for i, other := range boxes {
			if inner.MinX < other.MaxX && other.MinX < inner.MaxX && inner.MinY < other.MaxY && other.MinY < inner.MaxY {
				t.Errorf("%q lies on %q", found[5], words[i])
			}
		}
		boxes, words = append(boxes, inner), append(words, found[5])
	}
	return strings.Join(words, " ")
}

func TestStepsAreReadInOrder(t *testing.T) {
	for name, l := range guided(t) {
		t.Run(name, func(t *testing.T) {
			text := read(t, look.Steps(l))
			for _, heading := range []string{"1 Score", "2 Cut", "3 Fold", "4 Slide in", "5 Glue the flap part", "6 Close"} {
				if !strings.Contains(text, heading) {
					t.Errorf("poppler reads no %q in %q", heading, text)
				}
			}
		})
	}
}

func TestTroublesAreReadBesideWhatIsRight(t *testing.T) {
	for name, l := range guided(t) {
		t.Run(name, func(t *testing.T) {
			text := read(t, look.Troubles(l))
			want := []string{"Printed too small", "Printed at actual size", "Liner too wide", "Room at both sides", "Liner over the gum", "Gum left free", "Glued in the pocket as well", "Glued to the flap only"}
			if l.Envelope.Gum == 0 {
				want[4], want[5] = "Liner up to the edge", "Border left free"
				if strings.Contains(text, "gum") {
					t.Errorf("an envelope without gum is told of gum: %q", text)
				}
			}
			for _, heading := range want {
				if !strings.Contains(text, heading) {
					t.Errorf("poppler reads no %q in %q", heading, text)
				}
			}
		})
	}
}

// All pictures lie on the page, whatever the envelope: as poppler draws it, the
// border is white.
func TestGuidesKeepTheirBorder(t *testing.T) {
	const coarse, free = 50.0, 6.0
	for name, l := range guided(t) {
		for which, page := range map[string]*draw.Page{"steps": look.Steps(l), "troubles": look.Troubles(l)} {
			var b bytes.Buffer
			if err := pdf.Write(t.Context(), &b, []*draw.Page{page}, time.Time{}); err != nil {
				t.Fatal(err)
			}
			raster := referee.Renderers["poppler"](t, b.Bytes(), coarse)
			dark, inked := 0, 0
			for y := range raster.Height {
				for x := range raster.Width {
					if !raster.Pixel(x, y, 250) {
						continue
					}
					inked++
					mx, my := float64(x)*25.4/coarse, float64(y)*25.4/coarse
					if mx < free || my < free || mx > page.Width-free || my > page.Height-free {
						dark++
					}
				}
			}
			if dark > 0 || inked < raster.Width*raster.Height/20 {
				t.Errorf("%s of %s: %d pixels of the border are inked, and %d in all", which, name, dark, inked)
			}
		}
	}
}

// The rule of a page that was printed at 97 % is 97 hundredths of the one beside
// it, as poppler draws both.
func TestTheRulesAreDrawnAtTheirScale(t *testing.T) {
	page := look.Troubles(made(t, liner.Envelope{Short: "C6", Width: 162, Height: 114, Flap: liner.UsualFlap(liner.Pointed, 60, 162), Gum: 12}))
	var b bytes.Buffer
	if err := pdf.Write(t.Context(), &b, []*draw.Page{page}, time.Time{}); err != nil {
		t.Fatal(err)
	}
	raster := referee.Renderers["poppler"](t, b.Bytes(), dpi)
	long := func(from, to float64) float64 { // of the longest row of dark marks between two places
		longest := 0.0
		for y := 25.0; y < 50; y += 0.5 {
			first, last, dark := 0.0, 0.0, 0
			for x := from; x < to; x += pixel {
				if raster.At(x, y) < 90 {
					if dark++; dark == 1 {
						first = x
					}
					last = x
				}
			}
			if dark > 200 { // half of a rule is black
				longest = max(longest, last-first)
			}
		}
		return longest
	}
	wrong, right := long(9, 89), long(95, 171)
	if right < 50 || wrong < 0.967*right || wrong > 0.973*right {
		t.Errorf("rules are %.2f mm and %.2f mm long, %.4f of one another, want 0.97", wrong, right, wrong/right)
	}
}
