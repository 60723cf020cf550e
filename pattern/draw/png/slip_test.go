package png

import (
	"io"
	"testing"

	"underflap/pattern/draw"
)

// A slip of ours while bands are drawn comes out where the caller can catch it, and
// ends no other work of the program.
func TestASlipInABandReachesTheCaller(t *testing.T) {
	page := draw.NewPage(200, 200)
	page.Surface.Picture(nil, draw.Identity)
	page.Surface.Fill(draw.Circle(100, 100, 50), draw.Colour{R: 200})
	defer func() {
		if recover() == nil {
			t.Error("nothing came out")
		}
	}()
	_ = Write(t.Context(), io.Discard, page, 300)
}
