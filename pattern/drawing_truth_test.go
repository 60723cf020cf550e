package pattern

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"

	"underflap/pattern/draw/referee"
)

// librsvg draws the shipped files' own path data in rows and columns that are
// worked out here, and must come to the same picture as we do.
func TestLibrsvgDrawsTheShippedFilesTheSame(t *testing.T) {
	const side, dpi = 70.0, 300.0
	for _, name := range []string{"quatrefoil", "argyle", "ogee"} {
		data, err := files.ReadFile("files/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		var f struct {
			Width, Height float64
			Repeat        string
			Shape         []struct {
				Path         string
				Circle, Band []float64
				Ink, Line    any
				Around       int
			}
		}
		if err := toml.Unmarshal(data, &f); err != nil {
			t.Fatal(err)
		}
		var cell, bands []string // each shape
		for _, sh := range f.Shape {
			colour := "#000"
			if fmt.Sprint(sh.Ink) == "0" {
				colour = "#fff"
			}
			one := fmt.Sprintf(`<path d="%s" fill="%s"/>`, sh.Path, colour)
			switch {
			case sh.Circle != nil:
				one = fmt.Sprintf(`<circle cx="%g" cy="%g" r="%g" fill="%s"/>`, sh.Circle[0], sh.Circle[1], sh.Circle[2], colour)
			case sh.Band != nil: // long enough for the page
				far := 30.0
				x, y := sh.Band[2]-sh.Band[0], sh.Band[3]-sh.Band[1]
				one = fmt.Sprintf(`<path d="M%g,%gL%g,%g" stroke="%s" stroke-width="%v"/>`, sh.Band[0]-far*x, sh.Band[1]-far*y, sh.Band[0]+far*x, sh.Band[1]+far*y, colour, sh.Line)
			case sh.Line != nil:
				one = fmt.Sprintf(`<path d="%s" fill="none" stroke="%s" stroke-width="%v" stroke-linejoin="round" stroke-linecap="round"/>`, sh.Path, colour, sh.Line)
			}
			if sh.Band != nil {
				bands = append(bands, one)
				continue
			}
			around := ""
			for i := range max(1, sh.Around) {
				around += fmt.Sprintf(`<g transform="rotate(%g)">%s</g>`, 360*float64(i)/float64(max(1, sh.Around)), one)
			}
			cell = append(cell, around)
		}
		var b strings.Builder
		fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%[1]gmm" height="%[1]gmm" viewBox="%[2]g %[2]g %[1]g %[1]g">`, side, -side/2)
		for column := -8; column <= 8; column++ {
			for row := -8; row <= 8; row++ {
				x, y := float64(column)*f.Width, float64(row)*f.Height
				if f.Repeat == "half-drop" && column%2 != 0 {
					y += f.Height / 2
				}
				if f.Repeat == "brick" && row%2 != 0 {
					x += f.Width / 2
				}
				fmt.Fprintf(&b, `<g transform="translate(%g %g)">%s</g>`, x, y, strings.Join(cell, ""))
			}
		}
		for column := -8; column <= 8; column++ { // argyle's meet themselves two rows on, and lie over all diamonds
			for row := range 2 {
				fmt.Fprintf(&b, `<g transform="translate(%g %g)">%s</g>`, float64(column)*f.Width, float64(row)*f.Height, strings.Join(bands, ""))
			}
		}
		b.WriteString("</svg>")
		theirs := referee.SVG(t, []byte(b.String()), dpi, "")
		ours := referee.PNG(t, written(t, pageOf(Design{Name: name, Motif: settled(name), Colours: blackOnWhite, Scale: 1}, side), "png", dpi), dpi)
		edge := theirs.Width - 4
		a, c := ours.InkedShare(4, 4, edge, edge), theirs.InkedShare(4, 4, edge, edge)
		both := ours.Overlap(theirs, 128, [4]float64{1, 1, side - 1, side - 1})
		if math.Abs(a-c) > 0.004*c || both < 0.99 {
			t.Errorf("%s: inked share %.5f, librsvg %.5f; %.4f of the ink agrees", name, a, c, both)
		}
	}
}
