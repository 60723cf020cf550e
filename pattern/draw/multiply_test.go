package draw_test

import (
	"bytes"
	"fmt"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// librsvg paints squares of ink with mix-blend-mode: multiply (W3C Compositing and
// Blending Level 1, 10.1.2) on squares of paper, and MuPDF the same with the blend
// mode Multiply of ISO 32000-1, 11.3.5.2. librsvg rounds once; MuPDF,
// which counts in 256ths, may be off by two.
func TestMultiplyIsWhatOtherProgramsMake(t *testing.T) {
	chance := rand.New(rand.NewPCG(6, 1))
	colour := func() draw.Colour {
		return draw.Colour{R: uint8(chance.UintN(256)), G: uint8(chance.UintN(256)), B: uint8(chance.UintN(256))}
	}
	const n, side = 60, 10
	pairs := [][2]draw.Colour{{draw.White, draw.White}, {draw.White, {}}, {{R: 201, G: 167, B: 124}, {R: 180, G: 71, B: 46}}}
	for len(pairs) < n {
		pairs = append(pairs, [2]draw.Colour{colour(), colour()})
	}
	var svg, content strings.Builder
	fmt.Fprintf(&svg, `<svg xmlns="http://www.w3.org/2000/svg" width="%dpx" height="%dpx">`, n*side, side)
	operands := func(c draw.Colour) string {
		return fmt.Sprintf("%.6f %.6f %.6f rg", float64(c.R)/255, float64(c.G)/255, float64(c.B)/255)
	}
	for i, p := range pairs {
		fmt.Fprintf(&svg, `<rect x="%d" width="%d" height="%d" fill="%s"/>`, i*side, side, side, p[0].Hex())
		fmt.Fprintf(&svg, `<rect x="%d" width="%d" height="%d" fill="%s" style="mix-blend-mode:multiply"/>`, i*side, side, side, p[1].Hex())
		fmt.Fprintf(&content, "/Normal gs %s %d 0 %d %d re f /Multiply gs %s %d 0 %d %d re f\n", operands(p[0]), i*side, side, side, operands(p[1]), i*side, side, side)
	}
	svg.WriteString("</svg>")
	folder := t.TempDir()
	write := func(name, data string) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(data), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	page := filepath.Join(folder, "page.png")
	referee.Run(t, "mutool", "draw", "-q", "-r", "72", "-o", page, write("page.pdf", onePage(n*side, side, content.String())))
	fromPDF, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	for name, drawn := range map[string]struct {
		picture []byte
		off     int
	}{"librsvg": {referee.Run(t, "rsvg-convert", write("page.svg", svg.String())), 1}, "MuPDF": {fromPDF, 2}} {
		img, err := png.Decode(bytes.NewReader(drawn.picture))
		if err != nil {
			t.Fatal(name, err)
		}
		for i, p := range pairs {
			r, g, b, _ := img.At(i*side+side/2, side/2).RGBA()
			got, want := [3]int{int(r >> 8), int(g >> 8), int(b >> 8)}, draw.Multiply(p[0], p[1])
			for k, v := range [3]uint8{want.R, want.G, want.B} {
				if got[k]-int(v) > drawn.off || int(v)-got[k] > drawn.off {
					t.Errorf("%s: %s on %s is %v; ours %s", name, p[1].Hex(), p[0].Hex(), got, want.Hex())
				}
			}
		}
	}
}

// onePage is a PDF of one page with the blend modes Normal and Multiply; readers
// rebuild the missing cross-reference table.
func onePage(width, height int, content string) string {
	return fmt.Sprintf(`%%PDF-1.4
1 0 obj <</Type/Catalog/Pages 2 0 R>> endobj
2 0 obj <</Type/Pages/Kids[3 0 R]/Count 1>> endobj
3 0 obj <</Type/Page/Parent 2 0 R/MediaBox[0 0 %d %d]/Contents 4 0 R/Group<</S/Transparency/CS/DeviceRGB/I true>>/Resources<</ExtGState<</Normal<</BM/Normal>>/Multiply<</BM/Multiply>>>>>>>> endobj
4 0 obj <</Length %d>> stream
%s
endstream endobj
trailer <</Root 1 0 R>>
`, width, height, len(content), content)
}
