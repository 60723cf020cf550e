package request

import (
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"underflap/pattern"
	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// The same page from the same drawing calls: our PNG against what poppler,
// MuPDF, Ghostscript (our PDF) and librsvg (our SVG) make of them at 600 DPI.
//
// The page is drawn on a mid-grey ground in black ink, so that one rendering
// answers two questions: darker than inked is anything printed, darker than
// motif is a motif or a mark.
const (
	groundGrey   = 150
	inked        = (255 + groundGrey) / 2
	motif        = groundGrey / 2
	leastOverlap = 0.995
	leastMotifs  = 0.955 // of small motifs and words, whatever the referees do
)

func TestOurPNGOverlapsWhatTheRefereesDraw(t *testing.T) {
	cases := map[string]Words{
		"dots":     {},
		"stripes":  {Pattern: "stripes", Turn: "33", Envelope: "dl", Flap: "square"},
		"scallops": {Pattern: "scallops", Set: []string{"inks=0,1"}, Paper: "letter", Envelope: "a2", Turn: "10"},
		"stamps":   {Stamp: blot(t), Set: []string{"lean=15", "size=24"}, Repeat: "half-drop"},
		// a printer that shrinks across and stretches down
		"corrected stamps": {Stamp: blot(t), Set: []string{"lean=15", "size=24"}, CorrectX: "97", CorrectY: "102"},
	}
	for name, words := range cases {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			r, err := Resolve(t.Context(), words)
			if err != nil {
				t.Fatal(err)
			}
			r.Design.Colours = pattern.Colours{Name: "grey proof", Ground: draw.Colour{R: groundGrey, G: groundGrey, B: groundGrey}, Inks: []draw.Colour{{}}}
			made, err := r.Make(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			ours, theirs := drawnByAll(t, made)
			page := made.Pages[0]
			art := page.Trim.Grow(page.Bleed)
			checkInked(t, ours, theirs, [4]float64{art.MinX, art.MinY, art.MaxX, art.MaxY})
			checkMotifs(t, ours, theirs, [4]float64{0, 0, page.Width, page.Height})
		})
	}
}

// checkInked wants the printed area of the liners to agree with every referee.
func checkInked(t *testing.T, ours *referee.Raster, theirs map[string]*referee.Raster, box [4]float64) {
	for renderer, page := range theirs {
		got := ours.Overlap(page, inked, box)
		t.Logf("%s: inked area %.5f", renderer, got)
		if got < leastOverlap {
			t.Errorf("%s: overlap of inked area %.5f, at least %.3f wanted", renderer, got, leastOverlap)
		}
	}
}

// checkMotifs looks at motifs and words alone, which are nearly all edge. Renderers
// differ by an eighth of a pixel in how much of an edge they ink, so no two of
// the PDF referees share 0.995 here: our PNG has to agree with each at least as
// well as the worst two of them agree, and fully with librsvg, whose coverage
// is exact.
func checkMotifs(t *testing.T, ours *referee.Raster, theirs map[string]*referee.Raster, box [4]float64) {
	among := 1.0
	for name, page := range theirs {
		for other, otherPage := range theirs {
			if name < other {
				among = min(among, page.Overlap(otherPage, motif, box))
			}
		}
	}
	for renderer, page := range theirs {
		got, least := ours.Overlap(page, motif, box), max(among, leastMotifs)
		if renderer == "librsvg" {
			least = leastOverlap
		}
		t.Logf("%s: motifs %.5f", renderer, got)
		if got < least {
			t.Errorf("%s: overlap of motifs %.5f, at least %.5f wanted", renderer, got, least)
		}
	}
}

// drawnByAll is a page drawn by us as PNG and by each referee from our PDF or
// SVG.
func drawnByAll(t *testing.T, made Made) (ours *referee.Raster, theirs map[string]*referee.Raster) {
	t.Helper()
	ours = referee.PNG(t, encode(t, made, "png"), truthDPI)
	theirs = map[string]*referee.Raster{"librsvg": referee.SVG(t, encode(t, made, "svg"), truthDPI, "")}
	pdf := encode(t, made, "pdf")
	for renderer, render := range referee.Renderers {
		theirs[renderer] = render(t, pdf, truthDPI)
	}
	return ours, theirs
}

// blot makes a black stamp with a soft edge and a transparent ground.
func blot(t *testing.T) string {
	t.Helper()
	const side = 600
	img := image.NewNRGBA(image.Rect(0, 0, side, side*2/3))
	for y := range side * 2 / 3 {
		for x := range side {
			dx, dy := float64(x)-side/2, float64(y)-side/3
			edge := 150 + 40*math.Cos(5*math.Atan2(dy, dx)) - math.Hypot(dx, dy)
			img.SetNRGBA(x, y, color.NRGBA{A: uint8(255 * math.Max(0, math.Min(1, edge+0.5)))})
		}
	}
	path := filepath.Join(t.TempDir(), "blot.png")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	return path
}
