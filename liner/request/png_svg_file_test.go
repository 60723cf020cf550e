package request

import (
	"bytes"
	"encoding/binary"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

func TestPNGRecordsItsDensityAndIsTheNearestPixelToThePaper(t *testing.T) {
	for _, paper := range []struct {
		name          string
		width, height float64
	}{{"a4", 210, 297}, {"letter", 215.9, 279.4}, {"200x170", 200, 170}} {
		for _, dpi := range []float64{72, 96, 300} {
			made := makeOf(t, Words{Paper: paper.name, Envelope: "c7"})
			var file bytes.Buffer
			if err := (Output{Format: "png", DPI: dpi}).Encode(t.Context(), &file, made.Pages); err != nil {
				t.Fatal(err)
			}
			config, err := png.DecodeConfig(bytes.NewReader(file.Bytes()))
			if err != nil {
				t.Fatal(err)
			}
			width, height := int(math.Round(paper.width/25.4*dpi)), int(math.Round(paper.height/25.4*dpi))
			if config.Width != width || config.Height != height {
				t.Errorf("%s at %g: %d by %d, want %d by %d", paper.name, dpi, config.Width, config.Height, width, height)
			}
			// PNG specification, 11.3.4.3: pHYs is four bytes each way and the unit, 1 for the metre
			chunk := file.Bytes()[bytes.Index(file.Bytes(), []byte("pHYs")):]
			x, y, unit := binary.BigEndian.Uint32(chunk[4:]), binary.BigEndian.Uint32(chunk[8:]), chunk[12]
			if want := uint32(math.Round(dpi / 0.0254)); x != want || y != want || unit != 1 {
				t.Errorf("%g DPI: pHYs %d, %d, unit %d; want %d", dpi, x, y, unit, want)
			}
		}
	}
}

func TestPNGTooLargeForItsPaperIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "large.png")
	made := makeOf(t, Words{Paper: "1300x1300", Envelope: "c7"})
	err := (Output{Path: path, Format: "png", DPI: 1200}).Write(t.Context(), made.Pages)
	var refused *words.Refused
	if !errors.As(err, &refused) || refused.Field != "dpi" || !strings.Contains(refused.Accepts, "390") {
		t.Errorf("%v; want a refusal that names the density that would do", err)
	}
	if _, err := os.Stat(path); err == nil {
		t.Error("a file was left")
	}
}

func TestFlatDesignsAreWrittenInIndexedColour(t *testing.T) {
	const colourType = 25 // its place in the file: signature, chunk head, width, height, depth
	for name, words := range designs(t) {
		file := encode(t, makeOf(t, words), "png")
		want := byte(3) // indexed
		if name == "stamps" {
			want = 2 // true colour
		}
		if file[colourType] != want {
			t.Errorf("%s: colour type %d, want %d", name, file[colourType], want)
		}
	}
}

// svgFile is as much of our SVG as the checks need.
type svgFile struct {
	Width   string     `xml:"width,attr"`
	Height  string     `xml:"height,attr"`
	ViewBox string     `xml:"viewBox,attr"`
	Groups  []svgGroup `xml:"g"`
}

type svgGroup struct {
	ID    string     `xml:"id,attr"`
	Paths []struct{} `xml:"path"`
	Other []struct{} `xml:",any"`
}

func TestSVGIsInMillimetresWithCutLinesInAGroupOfTheirOwn(t *testing.T) {
	for name, words := range designs(t) {
		var file svgFile
		if err := xml.Unmarshal(encode(t, makeOf(t, words), "svg"), &file); err != nil {
			t.Fatal(err)
		}
		if file.Width != "210mm" || file.Height != "297mm" || file.ViewBox != "0 0 210 297" {
			t.Errorf("%s: %s by %s, viewBox %s", name, file.Width, file.Height, file.ViewBox)
		}
		var ids []string
		for _, g := range file.Groups {
			ids = append(ids, g.ID)
			if g.ID == draw.Cut && (len(g.Paths) != 2 || len(g.Other) != 0) {
				t.Errorf("%s: the cut group has %d paths and %d other things, want two cut lines", name, len(g.Paths), len(g.Other))
			}
		}
		if got := fmt.Sprint(ids); got != "[artwork cut fold notes]" {
			t.Errorf("%s: groups %s", name, got)
		}
	}
}

func TestSVGEmbedsAStampOnce(t *testing.T) {
	file := string(encode(t, makeOf(t, Words{Stamp: blot(t)}), "svg"))
	if n := strings.Count(file, "data:image/"); n != 1 {
		t.Errorf("the stamp is embedded %d times", n)
	}
	if n := strings.Count(file, `xlink:href="#motif-1"`); n < 40 {
		t.Errorf("the stamp is placed %d times", n)
	}
}

// Steps on the sheet: a liner is left loose in the pocket, so that it slides as
// the flap opens (common practice, no source). Nothing may tell anyone to glue
// below the fold, and blade and adhesive come with their caution.
func TestWorkingStepsGlueTheFlapPartOnly(t *testing.T) {
	for name, words := range truthCases {
		said := ""
		draw.Walk(makeOf(t, words).Pages[0].Nodes(), func(n draw.Node) {
			if text, ok := n.(*draw.Text); ok {
				said += " " + text.String
			}
		})
		if !strings.Contains(said, "flap part only") || !strings.Contains(strings.ToLower(said), "blade") || !strings.Contains(said, "100 mm") {
			t.Errorf("%s: the steps say %q", name, said)
		}
		for _, sentence := range strings.Split(said, ".") {
			if low := strings.ToLower(sentence); strings.Contains(low, "glue") && strings.Contains(low, "pocket") && !strings.Contains(low, "slide") {
				t.Errorf("%s: %q", name, sentence)
			}
		}
	}
}
