package pattern

import (
	"bytes"
	"sync"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/draw/svg"
)

// Designs that share a motif are drawn at once, each with its seed, as one after
// another: the race detector watches, and every drawing is compared.
func TestDesignsAreDrawnAtOnce(t *testing.T) {
	for name, motif := range asItComes(t) {
		const n = 6
		drawn := func(d Design) []byte {
			page := draw.NewPage(60, 60)
			page.Layer(draw.Artwork, func(s *draw.Surface) { d.Draw(s, draw.Rect{MinX: 0, MinY: 0, MaxX: 60, MaxY: 60}) })
			var b bytes.Buffer
			if err := svg.Write(t.Context(), &b, page); err != nil {
				t.Error(err)
			}
			return b.Bytes()
		}
		design := func(i int) Design {
			return Design{Name: name, Motif: motif, Colours: greys, Scale: 1, Turn: float64(20 * i), Seed: uint64(i)}
		}
		var want, got [n][]byte
		for i := range n {
			want[i] = drawn(design(i))
		}
		var all sync.WaitGroup
		for i := range n {
			all.Go(func() { got[i] = drawn(design(i).Apart()) })
		}
		all.Wait()
		for i := range n {
			if !bytes.Equal(want[i], got[i]) {
				t.Errorf("%s: drawn at once, drawing %d is another", name, i)
			}
		}
	}
}
