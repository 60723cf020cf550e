package request

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	stdpng "image/png"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"underflap/liner"
	"underflap/liner/scene"
	"underflap/liner/sheet"
	"underflap/palettes"
	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// ppm reads a page in colour from the portable pixmap that poppler prints.
func ppm(t *testing.T, data []byte) *image.NRGBA {
	t.Helper()
	var width, height, most int
	if _, err := fmt.Sscanf(string(data[:min(len(data), 40)]), "P6\n%d %d\n%d\n", &width, &height, &most); err != nil || most != 255 {
		t.Fatalf("not a pixmap: %q (%v)", data[:20], err)
	}
	img := image.NewNRGBA(image.Rect(0, 0, width, height))
	for i, from := 0, data[len(data)-3*width*height:]; i < width*height; i++ {
		copy(img.Pix[4*i:], from[3*i:3*i+3])
		img.Pix[4*i+3] = 255
	}
	return img
}

// rendered is the sheet's PDF drawn by poppler and its SVG drawn by librsvg.
func rendered(t *testing.T, made Made, dpi float64) map[string]image.Image {
	t.Helper()
	folder := t.TempDir()
	keep := func(format string) string {
		path := filepath.Join(folder, "sheet."+format)
		if err := os.WriteFile(path, encode(t, made, format), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	fromSVG, err := stdpng.Decode(bytes.NewReader(referee.Run(t, "rsvg-convert", "--unlimited", "-b", "white", "-d", fmt.Sprint(dpi), "-p", fmt.Sprint(dpi), keep("svg"))))
	if err != nil {
		t.Fatal(err)
	}
	return map[string]image.Image{
		"poppler": ppm(t, referee.Run(t, "pdftoppm", "-r", fmt.Sprint(dpi), "-f", "1", "-l", "1", keep("pdf"))),
		"librsvg": fromSVG,
	}
}

func resolved(t *testing.T, w Words) (Request, Made) {
	t.Helper()
	r, err := Resolve(t.Context(), w)
	if err != nil {
		t.Fatal(err)
	}
	made, err := r.Make(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return r, made
}

// A sheet with one of its colours black and all others white is as dark, drawn by
// MuPDF and by librsvg, as the estimate says of that colour, to 0.3 % of what is
// printed; the darkness of the marks alone, all colours white, is taken off.
func TestTheEstimateIsWhatRefereesPrint(t *testing.T) {
	const dpi = 100
	for _, w := range []Words{
		{Pattern: "stripes", Turn: "33", Palette: "rowan-jelly"},
		{Pattern: "dots", Set: []string{"inks=1,2", "size=5"}, Envelope: "dl", InkSaver: "30", Fade: "ink"},
		{Pattern: "terrazzo", Envelope: "c7", PerSheet: "1", Seed: "4", Palette: "barn-lantern"},
		{Pattern: "scallops", Paper: "letter", Gap: "1", Bleed: "3"}, // bleeds that lie on the next liner
	} {
		w.Notes = "none"
		r, made := resolved(t, w)
		use := inkOf(t, r, made.Plan).Sheet
		margin := int(math.Ceil(made.Plan.PrinterMargin / 25.4 * dpi))
		dark := func(black int) map[string]float64 { // cm2
			one := r
			one.Design.Colours.Ground = draw.White
			one.Design.Colours.Inks = make([]draw.Colour, len(r.Design.Colours.Inks))
			for i := range one.Design.Colours.Inks {
				one.Design.Colours.Inks[i] = draw.White
			}
			switch {
			case black == 0:
				one.Design.Colours.Ground = draw.Colour{}
			case black > 0:
				one.Design.Colours.Inks[black-1] = draw.Colour{}
			}
			made, err := one.Make(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			cm2 := map[string]float64{}
			for name, page := range map[string]*referee.Raster{"mupdf": referee.Renderers["mupdf"](t, encode(t, made, "pdf"), dpi), "librsvg": referee.SVG(t, encode(t, made, "svg"), dpi, "")} {
				w, h := page.Width-2*margin, page.Height-2*margin
				cm2[name] = page.InkedShare(margin, margin, margin+w, margin+h) * float64(w*h) * math.Pow(2.54/dpi, 2)
			}
			return cm2
		}
		marks := dark(-1)
		for i, row := range use.Rows {
			if row.Share < 0.001 {
				continue
			}
			for name, cm2 := range dark(i) {
				if got := cm2 - marks[name]; math.Abs(got-row.Area) > 0.003*use.Inked() {
					t.Errorf("%s, %s: colour %d covers %.2f cm2 of %.1f; the estimate says %.2f", w.Pattern, name, i, got, use.Inked(), row.Area)
				}
			}
		}
	}
}

func rgbOf(c color.Color) draw.Colour {
	r, g, b, _ := c.RGBA()
	return draw.Colour{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)}
}

// Of 5 liners two on a sheet, the last sheet has one; all is the sum of its parts,
// and a liner alone is inside its cut line.
func TestTheEstimateOfAllSheetsIsTheirSum(t *testing.T) {
	r, made := resolved(t, Words{Pattern: "gingham", Count: "5"})
	u := inkOf(t, r, made.Plan)
	if made.Plan.Sheets != 3 {
		t.Fatalf("%d sheets", made.Plan.Sheets)
	}
	if ratio := u.All.Inked() / u.Sheet.Inked(); math.Abs(ratio-2.5) > 0.005 {
		t.Errorf("all is %.3f sheets; want 2.5", ratio)
	}
	area := made.Plan.Pieces[0].Outline.Area() / 100
	if math.Abs(u.Liner.Region-area) > 1e-9 || math.Abs(u.Liner.Inked()-area) > 0.002*area {
		t.Errorf("%.3f of %.3f cm2 inked; want all of %.3f", u.Liner.Inked(), u.Liner.Region, area)
	}
	// the bleed of 2 mm lies around each, less the light line of 0.39 mm at the cut
	if got, want := u.Sheet.Inked(), 2*bleedArea(made)/100; got > want || got < 0.96*want {
		t.Errorf("a sheet: %.1f cm2; want a little less than %.1f", got, want)
	}
}

func bleedArea(made Made) float64 {
	return made.Plan.Pieces[0].Outline.Bleed(made.Plan.Bleed).Area()
}

// photoOfColours is a JPEG file without one grey pixel.
func photoOfColours(t *testing.T, folder string) string {
	t.Helper()
	img := image.NewNRGBA(image.Rect(0, 0, 400, 300))
	for y := range 300 {
		for x := range 400 {
			img.SetNRGBA(x, y, color.NRGBA{R: uint8(x / 2), G: uint8(200 - y/2), B: 240, A: 255})
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(folder, "card.jpg")
	if err := os.WriteFile(path, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// coloured are the PDF operators that set a colour and are not those of grey
// (ISO 32000-1, table 74).
var coloured = regexp.MustCompile(`(?m)(^|[0-9] )(rg|RG|k|K)( |$)|(^| )(cs|CS|sc|SC|scn|SCN)( |$)`)

// A sheet for one black ink has only greys in every file: in the operators, pictures
// and blending of its PDF (ISO 32000-1, 8.6.8 and 11.6.6), so that Ghostscript
// finds no cyan, magenta or yellow on it, and in the pixels of the others. In
// colour the same sheets have some.
func TestGreySheetsTakeBlackInkAlone(t *testing.T) {
	folder := t.TempDir()
	drawing := filepath.Join(folder, "flag.svg")
	if err := os.WriteFile(drawing, []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 30 20"><rect width="15" height="20" fill="#c33"/><rect x="15" width="15" height="20" fill="#39c"/></svg>`), 0o600); err != nil {
		t.Fatal(err)
	}
	photo := photoOfColours(t, folder)
	for name, w := range map[string]Words{
		"plaid":            {Pattern: "plaid", Palette: "barn-lantern", InkSaver: "20"},
		"photo":            {Stamp: photo},
		"photo fading":     {Stamp: photo, Fade: "ink", InkSaver: "usual"},
		"drawing":          {Stamp: drawing, Fade: "ink"},
		"leaves that fade": {Pattern: "leaves", Fade: "ink", Palette: "hop-garden"},
	} {
		for _, grey := range []bool{false, true} {
			w.Grey = grey
			_, made := resolved(t, w)
			path := filepath.Join(folder, "sheet.pdf")
			if err := os.WriteFile(path, encode(t, made, "pdf"), 0o600); err != nil {
				t.Fatal(err)
			}
			var c, m, y, k float64
			if _, err := fmt.Sscan(string(referee.Run(t, "gs", "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", "-o", "-", "-sDEVICE=inkcov", path)), &c, &m, &y, &k); err != nil {
				t.Fatal(err)
			}
			if (c+m+y == 0) != grey || k == 0 {
				t.Errorf("%s, grey %v: inks %g %g %g %g", name, grey, c, m, y, k)
			}
			plain := string(referee.Run(t, "qpdf", "--qdf", "--object-streams=disable", "--decode-level=generalized", path, "-"))
			if found := coloured.FindString(plain); (found == "" && !strings.Contains(plain, "/DeviceRGB")) != grey {
				t.Errorf("%s, grey %v: %q", name, grey, found)
			}
			if !grey {
				continue
			}
			for _, line := range strings.Split(string(referee.Run(t, "pdfimages", "-list", path)), "\n")[2:] {
				if f := strings.Fields(line); len(f) > 5 && f[5] != "gray" {
					t.Errorf("%s: a picture in %s", name, f[5])
				}
			}
			for program, img := range rendered(t, made, 60) {
				if at, c := firstColour(img); c != (draw.Colour{}) {
					t.Errorf("%s, %s: %s at %v", name, program, c.Hex(), at)
				}
			}
			var file bytes.Buffer
			if err := (Output{Format: "png", DPI: 72}).Encode(t.Context(), &file, made.Pages); err != nil {
				t.Fatal(err)
			}
			own, err := stdpng.Decode(&file)
			if err != nil {
				t.Fatal(err)
			}
			if at, c := firstColour(own); c != (draw.Colour{}) {
				t.Errorf("%s, PNG: %s at %v", name, c.Hex(), at)
			}
		}
	}
}

// firstColour finds a pixel that is no grey.
func firstColour(img image.Image) (image.Point, draw.Colour) {
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
			if c := rgbOf(img.At(x, y)); c.R != c.G || c.G != c.B {
				return image.Pt(x, y), c
			}
		}
	}
	return image.Point{}, draw.Colour{}
}

func TestASheetOnColouredPaperIsPrintedAsOnWhite(t *testing.T) {
	_, white := resolved(t, Words{Pattern: "scallops"})
	r, kraft := resolved(t, Words{Pattern: "scallops", PaperColour: "#c9a77c"})
	if !bytes.Equal(encode(t, white, "pdf"), encode(t, kraft, "pdf")) {
		t.Error("the paper's colour is in the file; the paper itself brings it")
	}
	if len(r.Found.Remarks) == 0 {
		t.Error("nothing is said of a cream ground on kraft")
	}
}

// Inks that the pattern does not show are not spoken of: dots take the first.
func TestOnlyInksThatShowAreSpokenOf(t *testing.T) {
	for _, c := range []struct {
		pattern string
		inks    []string
	}{{"dots", []string{"ink 1 "}}, {"terrazzo", []string{"ink 1 ", "ink 2 "}}} {
		r, _ := resolved(t, Words{Pattern: c.pattern, PaperColour: "black"})
		said := strings.Join(r.Found.Remarks, "\n")
		for n := 1; n <= 2; n++ {
			want := n <= len(c.inks)
			if strings.Contains(said, fmt.Sprintf("ink %d ", n)) != want {
				t.Errorf("%s: ink %d, want %v: %q", c.pattern, n, want, said)
			}
		}
	}
}

func TestSwatchesShowThePaper(t *testing.T) {
	kraft := draw.Colour{R: 201, G: 167, B: 124}
	pages, _, err := Swatch(t.Context(), Words{PaperColour: kraft.Hex(), Palette: palettes.Default}, false)
	if err != nil {
		t.Fatal(err)
	}
	p, err := palettes.Named("palette", palettes.Default)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[draw.Colour]bool{}
	draw.Walk(pages[0].Nodes(), func(n draw.Node) {
		if f, ok := n.(*draw.Fill); ok {
			seen[f.Colour] = true
		}
	})
	if on := palettes.OnPaper(p.Colours, kraft); !seen[on.Ground] || !seen[on.Inks[0]] || seen[p.Ground] || seen[p.Inks[0]] {
		t.Errorf("%v", seen)
	}
	if !strings.HasSuffix(pages[0].Title, "on paper #c9a77c") {
		t.Error(pages[0].Title)
	}
}

// What the usual depth keeps is all that shows in the throat of every envelope of
// the table, as its picture draws the back's panels.
func TestTheUsualSaverKeepsWhatTheThroatShows(t *testing.T) {
	for _, name := range liner.EnvelopeNames() {
		w := Words{Envelope: name, InkSaver: SaverWord}
		found, err := ResolveEnvelope(w)
		if err != nil {
			t.Fatal(err)
		}
		saver, err := resolveSaver(w)
		if err != nil {
			t.Fatal(err)
		}
		panels := scene.UsualPanels(found.Envelope)
		for x := 0.5; x < found.Envelope.Width; x++ {
			shows := found.Envelope.Height
			for _, panel := range panels {
				edge := panel.Flatten(0.05)
				for i := range edge[1:] {
					if a, b := edge[i], edge[i+1]; (a.X-x)*(b.X-x) < 0 {
						shows = min(shows, -(a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)))
					}
				}
			}
			if shows > saver.Depth {
				t.Errorf("%s: %.1f mm below the fold show %g from the left, and ink is kept for %.1f", name, shows, x, saver.Depth)
				break
			}
		}
	}
}

func inkOf(t *testing.T, r Request, p sheet.Plan) InkUse {
	t.Helper()
	use, err := r.Ink(t.Context(), p)
	if err != nil {
		t.Fatal(err)
	}
	return use
}
