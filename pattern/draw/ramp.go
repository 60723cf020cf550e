package draw

import (
	"image"
	"math"
)

// Ramp is a veil of one colour over what is drawn already: it begins clear at
// the top of a box and grows downwards to a strength at the box's foot.
type Ramp struct {
	Colour Colour
	To     float64 // strength at the foot, 0 clear to 1 covering
	Soft   bool    // eased at both ends, so that the eye finds neither
}

// rampRows is enough that no two rows differ by more than the eye tells apart;
// rampColumns and rampSide keep what a viewer makes of a picture's rim outside
// the box.
const (
	rampRows    = 256
	rampColumns = 12
	rampSide    = 2
)

// Veil draws the ramp over a box, and goes on at its full strength for a way
// below it.
func (s *Surface) Veil(r Ramp, box Rect, below float64) {
	height := box.Height()
	if height <= 0 || box.Width() <= 0 || r.To <= 0 {
		return
	}
	rows := rampRows + int(math.Ceil(rampRows*below/height))
	img := image.NewNRGBA(image.Rect(0, 0, rampColumns, rows))
	for y := range rows {
		t := math.Min(1, (float64(y)+0.5)/rampRows)
		if r.Soft {
			t = t * t * (3 - 2*t)
		}
		a := uint8(math.Round(255 * r.To * t))
		if y >= rampRows {
			a = uint8(math.Round(255 * r.To))
		}
		for x := range rampColumns {
			copy(img.Pix[y*img.Stride+4*x:], []byte{r.Colour.R, r.Colour.G, r.Colour.B, a})
		}
	}
	pixel := box.Width() / (rampColumns - 2*rampSide)
	s.Picture(&Image{NRGBA: img}, Matrix{
		A: rampColumns * pixel, E: box.MinX - rampSide*pixel,
		D: height / rampRows * float64(rows), F: box.MinY,
	})
}
