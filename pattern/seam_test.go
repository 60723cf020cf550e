package pattern

import (
	"fmt"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// Motifs that meet must leave no hairline. Drawn in one ink, a pattern that
// covers the paper has to come out solid: any paler pixel is a seam.
func TestMotifsThatMeetLeaveNoHairline(t *testing.T) {
	// the ground is white on purpose: it would show
	black := draw.Colour{}
	one := Colours{Name: "one ink", Ground: draw.White, Inks: []draw.Colour{black, black, black}}
	motifs := map[string]Motif{
		"stripes":       &Stripes{Bands: []Band{{3.3, 1}, {1.7, 2}, {0.9, 3}}},
		"scallops":      &Scallops{Size: 7.3, Rise: 3.65, Rings: 3, Inks: []int{1, 2, 3}},
		"flat scallops": &Scallops{Size: 9, Rise: 2.1, Rings: 2, Inks: []int{1, 2}},
		"chevron":       settled("chevron", "width=7.3", "rise=3.1", "bands=3.3:1,1.7:2,0.9:3"),
		"waves":         settled("waves", "length=9.1", "rise=3.1", "bands=3.3:1,1.7:2,0.9:3"),
		"plaid":         settled("plaid", "sett=3.3:1,1.7:2,0.9:3"),
		"twilled plaid": settled("plaid", "sett=3.3:1,1.7:2,0.9:3", "twill=1.3"),
		"checks":        settled("checks", "size=3.3", "height=2.1", "inks=1,2", "between=3"),
		"basketweave":   settled("basketweave", "width=1.7", "strands=2", "gap=0", "inks=1,2"),
		"herringbone":   settled("herringbone", "length=7.3", "width=2.3", "gap=0", "inks=1,2,3"),
		"short bricks":  settled("herringbone", "length=3.1", "width=3.1", "gap=0", "inks=1,2,3"),
		"houndstooth":   settled("houndstooth", "size=7.3", "between=2"),
	}
	// bands that overlap by a pixel of the coarsest page, aslant and along the cell
	bands, err := Parse("bands", []byte("width=11\nheight=7\n[[shape]]\nband=[0,0,11,7]\nline=4.2\nink=1\n[[shape]]\nband=[5.5,0,16.5,7]\nline=4.2\nink=2\n[[shape]]\nband=[0,1,1,1]\nline=2\nink=3"))
	if err != nil {
		t.Fatal(err)
	}
	if motifs["bands from a file"], err = bands.New(nil); err != nil {
		t.Fatal(err)
	}
	for name, motif := range motifs {
		for i, turn := range []float64{0, 17, 45} {
			for k, scale := range []float64{0.37, 1, 2.9} {
				dpi := []float64{72, 150, 333}[(i+k)%3] // any two of turn, scale and density meet once
				t.Run(fmt.Sprintf("%s turned %g, scaled %g, %g DPI", name, turn, scale, dpi), func(t *testing.T) {
					page := pageOf(Design{Name: name, Motif: motif, Colours: one, Scale: scale, Turn: turn}, 40)
					for renderer, render := range referee.Renderers {
						solid(t, renderer, render(t, written(t, page, "pdf", dpi), dpi))
					}
					solid(t, "png", referee.PNG(t, written(t, page, "png", dpi), dpi))
					solid(t, "librsvg", referee.SVG(t, written(t, page, "svg", dpi), dpi, ""))
				})
			}
		}
	}
}

// solid wants every pixel black but for those at the page's edge, where the
// page itself ends inside a pixel.
func solid(t *testing.T, renderer string, page *referee.Raster) {
	t.Helper()
	for y := 2; y < page.Height-2; y++ {
		for x := 2; x < page.Width-2; x++ {
			if page.Grey[y*page.Width+x] > 1 {
				t.Errorf("%s at %g DPI: a seam at %d, %d (grey %d)", renderer, page.DPI, x, y, page.Grey[y*page.Width+x])
				return
			}
		}
	}
}
