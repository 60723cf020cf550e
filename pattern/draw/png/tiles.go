package png

import (
	"image"
	stddraw "image/draw"
	"math"
	"sync"

	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"underflap/pattern/draw"
)

// tiles keeps pictures already brought to the page's density. Art is repeated
// many times at the same size and angle, so each is resampled once for every
// quarter pixel it may be shifted by.
type tiles struct {
	lock sync.Mutex
	made map[tileKey]*tile
}

func newTiles() *tiles { return &tiles{made: map[tileKey]*tile{}} }

type tileKey struct {
	img            *draw.Image
	a, b, c, d     float64
	phaseX, phaseY int
}

type tile struct {
	once   sync.Once
	img    *image.RGBA
	corner image.Point // of the tile, from the whole pixel of the picture's origin
}

const phases = 4

// mostTilePixels bounds a kept tile; a larger picture is resampled where it lies.
const mostTilePixels = 1 << 20

// draw lays the picture over dst; at maps the unit square to pixels.
func (t *tiles) draw(dst *image.RGBA, img *draw.Image, at draw.Matrix) {
	size := img.Bounds().Size()
	perPixel := draw.Matrix{A: 1 / float64(size.X), D: 1 / float64(size.Y)}
	box := at.Bounds(draw.Rect{MaxX: 1, MaxY: 1})
	if box.Width()*box.Height() > mostTilePixels {
		resample(dst, img, at.After(perPixel))
		return
	}
	x, phaseX := split(at.E)
	y, phaseY := split(at.F)
	key := tileKey{img, at.A, at.B, at.C, at.D, phaseX, phaseY}
	made := t.of(key)
	made.once.Do(func() {
		local := at
		local.E, local.F = float64(phaseX)/phases, float64(phaseY)/phases
		b := local.Bounds(draw.Rect{MaxX: 1, MaxY: 1})
		made.corner = image.Pt(int(math.Floor(b.MinX))-1, int(math.Floor(b.MinY))-1)
		made.img = image.NewRGBA(image.Rect(0, 0, int(math.Ceil(b.MaxX))+1-made.corner.X, int(math.Ceil(b.MaxY))+1-made.corner.Y))
		resample(made.img, img, draw.Translate(-float64(made.corner.X), -float64(made.corner.Y)).After(local).After(perPixel))
	})
	to := made.img.Rect.Add(made.corner).Add(image.Pt(x, y))
	stddraw.Draw(dst, to, made.img, image.Point{}, stddraw.Over)
}

func (t *tiles) of(key tileKey) *tile {
	t.lock.Lock()
	defer t.lock.Unlock()
	made, ok := t.made[key]
	if !ok {
		made = &tile{}
		t.made[key] = made
	}
	return made
}

func resample(dst *image.RGBA, img *draw.Image, m draw.Matrix) {
	xdraw.BiLinear.Transform(dst, f64.Aff3{m.A, m.C, m.E, m.B, m.D, m.F}, img.NRGBA, img.Bounds(), xdraw.Over, nil)
}

// split rounds v to a quarter pixel and parts it into whole pixels and quarters.
func split(v float64) (whole, phase int) {
	q := int(math.Round(v * phases))
	whole = int(math.Floor(float64(q) / phases))
	return whole, q - whole*phases
}
