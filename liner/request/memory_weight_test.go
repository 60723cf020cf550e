package request

import (
	"context"
	"image"
	"testing"

	"underflap/pattern/draw"
	"underflap/pattern/stamp"
)

// A slider asks for one width after another: what is kept stays bounded also
// where art fits as it is, and what is kept of that does not hold the art.
func TestArtThatFitsIsNotKeptForEver(t *testing.T) {
	const room = 200 << 10
	m := memoryOf(float64(room) / mostArt)
	of := prepared{art: &draw.Art{Width: 20, Height: 20, Image: &draw.Image{NRGBA: image.NewNRGBA(image.Rect(0, 0, 20, 20))}}}
	const widths = 2000
	for i := range widths {
		if art, _, err := m.fit(t.Context(), of, 20+float64(i)/10); err != nil || art != of.art {
			t.Fatalf("%v, %v", art, err)
		}
	}
	made := m.art.Made()
	for i := range widths {
		_, _, _ = m.fit(t.Context(), of, 20+float64(widths-1-i)/10)
	}
	if kept := widths - (m.art.Made() - made); kept == 0 || kept > room/leastWeight {
		t.Errorf("%d of %d widths are kept, where there is room for %d", kept, widths, room/leastWeight)
	}
	bare, _ := stamp.Fit(context.Background(), of.art, 20)
	if p, err := m.art.Of(t.Context(), digestOf([]any{"fitted", of.key, 20.0}), nil); err != nil || p.art != nil || bare != of.art {
		t.Errorf("the art itself is kept with its width: %v, %v", p.art, err)
	}
}
