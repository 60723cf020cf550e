package png

import (
	"encoding/binary"
	"image"
	"math"
	"sync"

	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"underflap/pattern/draw"
)

// tiles keeps pictures already brought to the page's density, for all goroutines.
// Art is repeated many times at the same size and angle, so each is resampled once
// and then shifted by every fraction of a pixel it comes at.
type tiles struct {
	phases int // to a pixel, each way
	share  int // of the pixels kept, for one picture
	lock   sync.Mutex
	made   map[tileKey]*tile
	pixels int // in made
}

// newTiles is for a page with scale pixels to the millimetre. A picture is laid
// within an eighth of a pixel of its place or, where pixels are finer, within
// about 0.005 mm; a large one within half a pixel at most. What is kept is shared
// by all the pictures on the page, or every band would make them all again.
func newTiles(page *draw.Page, scale float64) *tiles {
	met := map[*draw.Image]bool{}
	draw.Walk(page.Nodes(), func(n draw.Node) {
		if p, ok := n.(*draw.Picture); ok {
			met[p.Image] = true
		}
	})
	return &tiles{phases: int(max(1, min(4, math.Round(100/scale)))), share: mostTilesPixels / max(1, len(met)), made: map[tileKey]*tile{}}
}

type tileKey struct {
	img            *draw.Image
	a, b, c, d     float64
	phaseX, phaseY int
}

type tile struct {
	once   sync.Once
	img    *image.RGBA
	rows   []tileRow
	corner image.Point // of the tile, from the whole pixel of the picture's origin
}

// tileRow is where a row of a tile is not clear, and its first solid run.
type tileRow struct{ start, solid, soft, end int }

// A picture of more pixels than mostTilePixels is resampled where it lies, and no
// more than mostTilesPixels are kept: 4 bytes each.
const (
	mostTilePixels  = 1 << 20
	mostTilesPixels = 6 << 20
)

// draw lays the picture over dst, which is opaque; at maps the unit square to
// pixels.
func (t *tiles) draw(dst *image.RGBA, img *draw.Image, at draw.Matrix) {
	box := at.Bounds(draw.Rect{MaxX: 1, MaxY: 1})
	pixels := int((box.Width() + 4) * (box.Height() + 4))
	if pixels > min(mostTilePixels, t.share) {
		resample(dst, img, at)
		return
	}
	phases := t.phases
	for phases > 1 && phases*phases*pixels > t.share { // all of one picture's are to be kept
		phases--
	}
	x, phaseX := split(at.E, phases)
	y, phaseY := split(at.F, phases)
	key := tileKey{img: img, a: at.A, b: at.B, c: at.C, d: at.D}
	whole := t.of(key, pixels)
	whole.once.Do(func() { whole.make(img, at) })
	made := whole
	if phaseX+phaseY > 0 {
		key.phaseX, key.phaseY = phaseX, phaseY
		made = t.of(key, pixels)
		made.once.Do(func() { made.shift(whole, uint32(256*phaseX/phases), uint32(256*phaseY/phases)) })
	}
	made.over(dst, made.corner.Add(image.Pt(x, y)))
}

// of is the tile kept under a key, or an empty one.
func (t *tiles) of(key tileKey, pixels int) *tile {
	t.lock.Lock()
	defer t.lock.Unlock()
	made, ok := t.made[key]
	if !ok {
		if t.pixels += pixels; t.pixels > mostTilesPixels {
			clear(t.made)
			t.pixels = pixels
		}
		made = &tile{}
		t.made[key] = made
	}
	return made
}

// make resamples the picture with its origin at a whole pixel.
func (t *tile) make(img *draw.Image, at draw.Matrix) {
	at.E, at.F = 0, 0
	b := at.Bounds(draw.Rect{MaxX: 1, MaxY: 1})
	t.corner = image.Pt(int(math.Floor(b.MinX))-1, int(math.Floor(b.MinY))-1)
	t.img = image.NewRGBA(image.Rect(0, 0, int(math.Ceil(b.MaxX))+2-t.corner.X, int(math.Ceil(b.MaxY))+2-t.corner.Y))
	resample(t.img, img, draw.Translate(-float64(t.corner.X), -float64(t.corner.Y)).After(at))
	t.scan()
}

// shift moves a tile, whose first and last rows and columns are clear, right and
// down by 256ths of a pixel.
func (t *tile) shift(whole *tile, right, down uint32) {
	t.corner, t.img = whole.corner, image.NewRGBA(whole.img.Rect)
	stride := t.img.Stride
	for y := 1; y < t.img.Rect.Dy(); y++ {
		from, to := whole.img.Pix[(y-1)*stride:(y+1)*stride], t.img.Pix[y*stride:(y+1)*stride]
		var left uint32
		for i := 0; i < stride; i += 4 {
			here := mix(binary.LittleEndian.Uint32(from[stride+i:]), binary.LittleEndian.Uint32(from[i:]), down)
			binary.LittleEndian.PutUint32(to[i:], mix(here, left, right))
			left = here
		}
	}
	t.scan()
}

// mix is w 256ths of the way from pixel p to q.
func mix(p, q, w uint32) uint32 {
	const odd, half = 0x00ff00ff, 0x00800080
	even := (p>>8&odd)*(256-w) + (q>>8&odd)*w + half
	return ((p&odd)*(256-w)+(q&odd)*w+half)>>8&odd | even&^odd
}

// scan notes where every row is clear and solid.
func (t *tile) scan() {
	width := t.img.Rect.Dx()
	for y := range t.img.Rect.Dy() {
		alpha := func(x int) uint8 { return t.img.Pix[t.img.PixOffset(x, y)+3] }
		r := tileRow{end: width}
		for r.start < width && alpha(r.start) == 0 {
			r.start++
		}
		for r.end > r.start && alpha(r.end-1) == 0 {
			r.end--
		}
		for r.solid = r.start; r.solid < r.end && alpha(r.solid) < 255; r.solid++ {
		}
		for r.soft = r.solid; r.soft < r.end && alpha(r.soft) == 255; r.soft++ {
		}
		t.rows = append(t.rows, r)
	}
}

// over lays the tile's corner at a pixel of dst.
func (t *tile) over(dst *image.RGBA, corner image.Point) {
	seen := t.img.Rect.Add(corner).Intersect(dst.Rect)
	for y := seen.Min.Y; y < seen.Max.Y; y++ {
		part := func(from, to int) (under, over []byte) {
			from, to = max(from+corner.X, seen.Min.X), min(to+corner.X, seen.Max.X)
			if from >= to {
				return nil, nil
			}
			at := t.img.PixOffset(from-corner.X, y-corner.Y)
			return dst.Pix[dst.PixOffset(from, y):][:4*(to-from)], t.img.Pix[at:][:4*(to-from)]
		}
		r := t.rows[y-corner.Y]
		blend(part(r.start, r.solid))
		under, over := part(r.solid, r.soft)
		copy(under, over)
		blend(part(r.soft, r.end))
	}
}

// blend lays pixels multiplied by their alpha over opaque ones.
func blend(under, over []byte) {
	for i := 0; i+4 <= len(over); i += 4 {
		p, q := under[i:i+4:i+4], over[i:i+4:i+4]
		switch a := 255 - uint32(q[3]); a {
		case 0:
			copy(p, q)
		case 255:
		default:
			p[0] = q[0] + uint8((uint32(p[0])*a+127)/255)
			p[1] = q[1] + uint8((uint32(p[1])*a+127)/255)
			p[2] = q[2] + uint8((uint32(p[2])*a+127)/255)
		}
	}
}

// resample draws the picture; at maps the unit square to pixels. Where it grows,
// the quick way between four pixels is the same as the thorough one.
func resample(dst *image.RGBA, img *draw.Image, at draw.Matrix) {
	size := img.Bounds().Size()
	m := at.After(draw.Matrix{A: 1 / float64(size.X), D: 1 / float64(size.Y)})
	var by xdraw.Transformer = xdraw.BiLinear
	if math.Hypot(m.A, m.B) >= 1 && math.Hypot(m.C, m.D) >= 1 {
		by = xdraw.ApproxBiLinear
	}
	by.Transform(dst, f64.Aff3{m.A, m.C, m.E, m.B, m.D, m.F}, img.NRGBA, img.Bounds(), xdraw.Over, nil)
}

// split rounds v to a phase and parts it into whole pixels and phases.
func split(v float64, phases int) (whole, phase int) {
	q := int(math.Round(v * float64(phases)))
	whole = int(math.Floor(float64(q) / float64(phases)))
	return whole, q - whole*phases
}
