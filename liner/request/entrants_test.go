//go:build unix

package request

import (
	"context"
	"image"
	"image/color"
	"image/png"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"underflap/pattern/draw"
)

// entrants are the designs that race: sheets as people ask for them. A new one is
// a line.
var entrants = []entrant{
	{"dots", sheetOf(Words{})},
	{"stripes", sheetOf(Words{Pattern: "stripes", Turn: "45"})},
	{"scallops", sheetOf(Words{Pattern: "scallops"})},
	{"plaid", sheetOf(Words{Pattern: "plaid"})},
	{"toss of 5000 stars", sheetOf(Words{Pattern: "stars", Repeat: "toss", Set: []string{"size=2.1", "spacing=0.4"}})},
	{"stamp", func(stamp string) ([]*draw.Page, error) { return sheetOf(Words{Stamp: stamp})(stamp) }},
}

func sheetOf(w Words) func(string) ([]*draw.Page, error) {
	return func(string) ([]*draw.Page, error) {
		r, err := Resolve(context.Background(), w)
		if err != nil {
			return nil, err
		}
		made, err := r.Make(context.Background())
		return made.Pages, err
	}
}

// art is a picture like a painted one: an apple of soft, grainy colours on a
// transparent ground.
func art(b *testing.B, dir string) string {
	const side = 700
	chance := rand.New(rand.NewPCG(7, 700))
	img := image.NewNRGBA(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			dx, dy := float64(x)-side/2, float64(y)-side/2
			edge := 300 + 20*math.Cos(3*math.Atan2(dy, dx)) - math.Hypot(dx, dy)
			light := 0.6 + 0.4*math.Cos(math.Hypot(dx+100, dy+100)/200) + 0.02*chance.NormFloat64()
			tone := func(v float64) uint8 { return uint8(max(0, min(255, v*light))) }
			img.SetNRGBA(x, y, color.NRGBA{R: tone(200), G: tone(70 + 0.1*dx), B: tone(60), A: uint8(255 * max(0, min(1, edge+0.5)))})
		}
	}
	path := filepath.Join(dir, "stamp.png")
	f, err := os.Create(path)
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	if err := png.Encode(f, img); err != nil {
		b.Fatal(err)
	}
	return path
}
