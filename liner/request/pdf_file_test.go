package request

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"

	"underflap/pattern/draw/referee"
)

// What a PDF has to say so that viewers and printers keep it at true size:
// ISO 32000-1, 12.2 (viewer preferences) and 14.11.2 (page boundaries).

func TestPDFAsksForPrintingAtActualSize(t *testing.T) {
	ctx := referee.Opened(t, pdfOf(t, Words{}))
	root, err := ctx.Catalog()
	if err != nil {
		t.Fatal(err)
	}
	preferences, err := ctx.DereferenceDict(root["ViewerPreferences"])
	if err != nil || preferences == nil {
		t.Fatalf("no viewer preferences (%v)", err)
	}
	if got := preferences.NameEntry("PrintScaling"); got == nil || *got != "None" {
		t.Error("PrintScaling is not None")
	}
	if got := preferences.BooleanEntry("DisplayDocTitle"); got == nil || !*got {
		t.Error("DisplayDocTitle is not true")
	}
	if *ctx.HeaderVersion != model.V17 {
		t.Errorf("header version %v", *ctx.HeaderVersion)
	}
}

func TestPDFBoxesAreThePaperTheBleedAndTheTrim(t *testing.T) {
	const points = 72 / 25.4
	for _, paper := range []struct {
		name          string
		width, height float64
	}{{"a4", 210, 297}, {"a3", 297, 420}, {"letter", 215.9, 279.4}, {"legal", 215.9, 355.6}, {"300x260", 300, 260}} {
		made := makeOf(t, Words{Paper: paper.name})
		ctx := referee.Opened(t, encode(t, made, "pdf"))
		page, _, _, err := ctx.PageDict(1, false)
		if err != nil {
			t.Fatal(err)
		}
		media, bleed, trim := numbers(t, page, "MediaBox"), numbers(t, page, "BleedBox"), numbers(t, page, "TrimBox")
		for i, want := range []float64{0, 0, paper.width * points, paper.height * points} {
			if math.Abs(media[i]-want) > 1e-6 {
				t.Errorf("%s: MediaBox %v, want %.6f at %d", paper.name, media, want, i)
			}
		}
		cut := made.Plan.CutLine(made.Plan.Placements[0]).Bounds()
		for _, pl := range made.Plan.Placements[1:] {
			cut = cut.Union(made.Plan.CutLine(pl).Bounds())
		}
		want := []float64{cut.MinX, paper.height - cut.MaxY, cut.MaxX, paper.height - cut.MinY}
		for i := range want {
			out := made.Plan.Bleed // the bleed box lies this much further out
			if i < 2 {
				out = -out
			}
			if math.Abs(trim[i]/points-want[i]) > 0.005 || math.Abs(bleed[i]/points-want[i]-out) > 0.005 {
				t.Errorf("%s: TrimBox %v, BleedBox %v, want the cut lines' box %v mm and the bleed around it", paper.name, trim, bleed, want)
				break
			}
		}
	}
}

func TestPDFIsCleanForQpdfAndPdfcpu(t *testing.T) {
	for name, file := range pdfs(t) {
		path := filepath.Join(t.TempDir(), "sheet.pdf")
		if err := os.WriteFile(path, file, 0o600); err != nil {
			t.Fatal(err)
		}
		if say := string(referee.Run(t, "qpdf", "--check", path)); !strings.Contains(say, "No syntax or stream encoding errors") || strings.Contains(say, "WARNING") {
			t.Errorf("%s: qpdf: %s", name, say)
		}
		conf := model.NewDefaultConfiguration()
		conf.ValidationMode = model.ValidationStrict
		if err := api.Validate(bytes.NewReader(file), conf); err != nil {
			t.Errorf("%s: pdfcpu: %v", name, err)
		}
	}
}

func TestPDFIsVectorWithFormsAndEmbeddedFonts(t *testing.T) {
	for name, file := range pdfs(t) {
		ctx := referee.Opened(t, file)
		forms, images := 0, 0
		masks := map[types.Object]bool{} // of pictures, which may be grey as masks are
		for _, entry := range ctx.Table {
			if stream, ok := entry.Object.(types.StreamDict); ok && stream.Dict["SMask"] != nil {
				masks[stream.Dict["SMask"]] = true
			}
		}
		for number, entry := range ctx.Table {
			stream, ok := entry.Object.(types.StreamDict)
			if !ok || stream.Subtype() == nil {
				continue
			}
			switch *stream.Subtype() {
			case "Form":
				forms++
			case "Image":
				if !masks[*types.NewIndirectRef(number, 0)] {
					images++
				}
			}
		}
		wantImages := 0
		if name == "stamps" {
			wantImages = 1
		}
		if forms == 0 || images != wantImages {
			t.Errorf("%s: %d forms, %d images; want some and %d", name, forms, images, wantImages)
		}
		path := filepath.Join(t.TempDir(), "sheet.pdf")
		if err := os.WriteFile(path, file, 0o600); err != nil {
			t.Fatal(err)
		}
		fonts := strings.Split(strings.TrimSpace(string(referee.Run(t, "pdffonts", path))), "\n")[2:]
		embedded := regexp.MustCompile(`\byes \w+ +yes\b`) // embedded, and with a map to Unicode
		for _, font := range fonts {
			if !embedded.MatchString(font) {
				t.Errorf("%s: %s", name, font)
			}
		}
		if len(fonts) != 2 {
			t.Errorf("%s: %d fonts, want regular and bold", name, len(fonts))
		}
	}
}

func TestPDFOfManyLinersStoresEachSheetOnce(t *testing.T) {
	one, many := pdfOf(t, Words{Count: "2"}), pdfOf(t, Words{Count: "201"})
	if pages := referee.Opened(t, many).PageCount; pages != 101 {
		t.Errorf("%d pages for 201 liners, two on a sheet", pages)
	}
	if len(many) > 2*len(one)+101*400 { // a full sheet, the last one, and a page entry for each
		t.Errorf("%d bytes for 101 sheets, %d for one", len(many), len(one))
	}
	path := filepath.Join(t.TempDir(), "many.pdf")
	if err := os.WriteFile(path, many, 0o600); err != nil {
		t.Fatal(err)
	}
	referee.Run(t, "qpdf", "--check", path)
	// the first sheet and one that comes again look the same
	first := string(referee.Run(t, "pdftoppm", "-r", "40", "-f", "1", "-l", "1", path))
	again := string(referee.Run(t, "pdftoppm", "-r", "40", "-f", "57", "-l", "57", path))
	last := string(referee.Run(t, "pdftoppm", "-r", "40", "-f", "101", "-l", "101", path))
	if first != again || first == last {
		t.Error("sheet 57 should look like sheet 1, and the last one, with a single liner, should not")
	}
}

func TestSameWordsGiveTheSameBytes(t *testing.T) {
	for _, format := range Formats {
		for name, words := range designs(t) {
			var files [2]bytes.Buffer
			for i := range files {
				if err := (Output{Format: format, DPI: 150}).Encode(t.Context(), &files[i], makeOf(t, words).Pages); err != nil {
					t.Fatal(err)
				}
			}
			if !bytes.Equal(files[0].Bytes(), files[1].Bytes()) {
				t.Errorf("%s as %s differs from one run to the next", name, format)
			}
		}
	}
}

func TestPDFCarriesNoTimeButTheOneAskedFor(t *testing.T) {
	if file := pdfOf(t, Words{}); bytes.Contains(file, []byte("Date")) {
		t.Error("a date in a file that was not asked to have one")
	}
	t.Setenv("SOURCE_DATE_EPOCH", "1796000000")
	file := pdfOf(t, Words{})
	if !bytes.Contains(file, []byte("/CreationDate(D:20261130005320Z")) {
		t.Error("SOURCE_DATE_EPOCH is not the creation date")
	}
	referee.Opened(t, file)
}

// designs are one of each family.
func designs(t *testing.T) map[string]Words {
	return map[string]Words{
		"dots":     {},
		"stripes":  {Pattern: "stripes", Turn: "45"},
		"scallops": {Pattern: "scallops", Palette: "hop-garden"},
		"stamps":   {Stamp: blot(t)},
	}
}

func pdfs(t *testing.T) map[string][]byte {
	files := map[string][]byte{}
	for name, words := range designs(t) {
		files[name] = pdfOf(t, words)
	}
	return files
}

func pdfOf(t *testing.T, w Words) []byte { return encode(t, makeOf(t, w), "pdf") }

func numbers(t *testing.T, page types.Dict, name string) []float64 {
	t.Helper()
	var out []float64
	for _, v := range page.ArrayEntry(name) {
		switch v := v.(type) {
		case types.Integer:
			out = append(out, float64(v.Value()))
		case types.Float:
			out = append(out, v.Value())
		}
	}
	if len(out) != 4 {
		t.Fatalf("%s: %v", name, page[name])
	}
	return out
}
