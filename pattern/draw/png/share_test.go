package png

import (
	"image"
	"testing"

	"underflap/pattern/draw"
)

// Many large pictures on a page: what one band made of them is there for the
// next, and no more is kept than allowed.
func TestManyPicturesAreMadeOnce(t *testing.T) {
	for _, side := range []float64{100, 500, 700, 900} { // pixels
		const n = 14
		page := draw.NewPage(2000, 2000)
		for i := range n {
			img := image.NewNRGBA(image.Rect(0, 0, 20, 20))
			for j := 3; j < len(img.Pix); j += 4 {
				img.Pix[j] = 200
			}
			art := &draw.Image{NRGBA: img}
			for j := range 3 { // each at other fractions of a pixel
				page.Picture(art, draw.Matrix{A: side, D: side, E: 40.3 * float64(i), F: 71.7 * float64(j)})
			}
		}
		made := newTiles(t.Context(), page, 1, nil)
		band := func() (madeNow int) {
			before := made.keeper.store.Made()
			dst := image.NewRGBA(image.Rect(0, 0, 2000, 16))
			for _, node := range page.Nodes() {
				p := node.(*draw.Picture)
				made.draw(dst, 0, p.Image, p.At, &strip{})
			}
			return made.keeper.store.Made() - before
		}
		first := band()
		if again := band(); again != 0 || first == 0 && side*side < mostTilesPixels/n {
			t.Errorf("%d pictures of %g pixels square: %d made, then %d again", 3*n, side, first, again)
		}
		if kept := made.keeper.Weight(); kept > 4*mostTilesPixels {
			t.Errorf("%g: %d bytes are kept", side, kept)
		}
	}
}
