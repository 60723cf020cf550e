package png

import (
	"context"
	"encoding/binary"
	"image"
	"math"
	"sync"
	"weak"

	xdraw "golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"underflap/pattern/draw"
)

// tiles keeps pictures already brought to the page's density, for all goroutines.
// Art is repeated many times at the same size and angle, so each is resampled once
// and then shifted by every fraction of a pixel it comes at.
type tiles struct {
	ctx    context.Context
	phases int // to a pixel, each way
	share  int // of the pixels kept, for one picture
	keeper *Keeper
	across bool     // the keeper is for many pages
	shades sync.Map // pictures, and whether each is of one colour
}

// newTiles is for a page with scale pixels to the millimetre. A picture is laid
// within an eighth of a pixel of its place or, where pixels are finer, within
// about 0.005 mm; a large one within half a pixel at most. What is kept is shared
// by all the pictures on the page, or every band would make them all again.
func newTiles(ctx context.Context, page *draw.Page, scale float64, keeper *Keeper) *tiles {
	met := map[*draw.Image]bool{}
	draw.Walk(page.Nodes(), func(n draw.Node) {
		if p, ok := n.(*draw.Picture); ok {
			met[p.Image] = true
		}
	})
	t := &tiles{ctx: ctx, phases: int(max(1, min(4, math.Round(100/scale)))), share: mostTilesPixels / max(1, len(met)), keeper: keeper, across: keeper != nil}
	if keeper == nil {
		t.keeper = NewKeeper(mostTilesPixels * 4)
	}
	return t
}

// tileKey is everything that shapes a tile: a picture mapped to a density and
// either shifted by a phase from a whole pixel, or, with no phases, where it lies.
// A tile does not keep its picture alive, which may be many times as large; a weak
// pointer is never equal to that of a later picture in the same place.
type tileKey struct {
	img                    weak.Pointer[draw.Image]
	at                     draw.Matrix
	phases, phaseX, phaseY int
}

type tile struct {
	img    *image.RGBA
	rows   []tileRow
	corner image.Point // of the tile, from the whole pixel of the picture's origin
}

// tileRow is where a row of a tile is not clear, and its first solid run.
type tileRow struct{ start, solid, soft, end int }

const tileRowBytes = 32

// A picture of more pixels than mostTilePixels is resampled where it lies, and no
// more than mostTilesPixels are kept for one page: 4 bytes each. Across pages
// pictures of up to mostPlacedPixels are kept as they lie.
const (
	mostTilePixels   = 1 << 20
	mostTilesPixels  = 6 << 20
	mostPlacedPixels = 4 << 20
)

// draw lays the picture over dst, which is opaque and whose first row is row top
// of the page; at maps the unit square to pixels of the page. strip is to work on.
func (t *tiles) draw(dst *image.RGBA, top int, img *draw.Image, at draw.Matrix, strip *strip) {
	box := at.Bounds(draw.Rect{MaxX: 1, MaxY: 1})
	pixels := int((box.Width() + 4) * (box.Height() + 4))
	if pixels > min(mostTilePixels, t.share) {
		t.placed(dst, top, img, at, pixels, strip)
		return
	}
	phases := t.phases
	for phases > 1 && phases*phases*pixels > t.share { // all of one picture's are to be kept
		phases--
	}
	x, phaseX := split(at.E, phases)
	y, phaseY := split(at.F, phases)
	key := tileKey{img: weak.Make(img), at: at, phases: 1}
	key.at.E, key.at.F = 0, 0
	made := t.of(key, func() *tile { return t.tileOf(img, key.at) })
	if phaseX+phaseY > 0 && made != nil {
		whole := made
		key.phases, key.phaseX, key.phaseY = phases, phaseX, phaseY
		made = t.of(key, func() *tile { return whole.shifted(uint32(256*phaseX/phases), uint32(256*phaseY/phases)) })
	}
	if made != nil {
		made.over(dst, made.corner.Add(image.Pt(x, y-top)))
	}
}

// placed resamples a large picture where it lies: what the band needs of it or,
// where later pages may show it again, all of it.
func (t *tiles) placed(dst *image.RGBA, top int, img *draw.Image, at draw.Matrix, pixels int, strip *strip) {
	if !t.across || pixels > mostPlacedPixels {
		strip.over(t, dst, top, img, at)
		return
	}
	if made := t.of(tileKey{img: weak.Make(img), at: at}, func() *tile { return t.tileOf(img, at) }); made != nil {
		made.over(dst, made.corner.Sub(image.Pt(0, top)))
	}
}

// of is the tile under a key, nil once the context has ended.
func (t *tiles) of(key tileKey, make func() *tile) *tile {
	made, err := t.keeper.store.Of(t.ctx, key, func() (*tile, int64, error) {
		made := make()
		return made, int64(len(made.img.Pix)) + tileRowBytes*int64(len(made.rows)), nil
	})
	if err != nil {
		return nil
	}
	return made
}

// around is the box of the unit square mapped by at, with a pixel to spare.
func around(at draw.Matrix) image.Rectangle {
	b := at.Bounds(draw.Rect{MaxX: 1, MaxY: 1})
	return image.Rect(int(math.Floor(b.MinX))-1, int(math.Floor(b.MinY))-1, int(math.Ceil(b.MaxX))+2, int(math.Ceil(b.MaxY))+2)
}

// tileOf resamples the picture mapped by at.
func (t *tiles) tileOf(img *draw.Image, at draw.Matrix) *tile {
	box := around(at)
	made := &tile{corner: box.Min, img: image.NewRGBA(box)}
	t.resample(made.img, img, at)
	made.img.Rect = box.Sub(box.Min)
	made.scan()
	return made
}

// strip is a canvas's to resample large pictures on, a band at a time.
type strip struct{ pix []byte }

// over lays the part of a picture that dst shows; see tiles.draw. Its pixels are
// those of a whole tile.
func (s *strip) over(t *tiles, dst *image.RGBA, top int, img *draw.Image, at draw.Matrix) {
	seen := around(at).Intersect(dst.Rect.Add(image.Pt(0, top)))
	if seen.Empty() {
		return
	}
	need := 4 * seen.Dx() * seen.Dy()
	if cap(s.pix) < need {
		s.pix = make([]byte, need)
	}
	part := &image.RGBA{Pix: s.pix[:need], Stride: 4 * seen.Dx(), Rect: seen}
	clear(part.Pix)
	t.resample(part, img, at)
	for y := seen.Min.Y; y < seen.Max.Y; y++ {
		blend(dst.Pix[dst.PixOffset(seen.Min.X, y-top):][:part.Stride], part.Pix[part.PixOffset(seen.Min.X, y):][:part.Stride])
	}
}

// shifted is a tile, whose first and last rows and columns are clear, moved right
// and down by 256ths of a pixel.
func (whole *tile) shifted(right, down uint32) *tile {
	t := &tile{corner: whole.corner, img: image.NewRGBA(whole.img.Rect)}
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
	return t
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

// resample draws the picture on a clear ground; at maps the unit square to pixels.
// Where a turned one grows, the quick way between four pixels is the same as the
// thorough one.
func (t *tiles) resample(dst *image.RGBA, img *draw.Image, at draw.Matrix) {
	if at.B == 0 && at.C == 0 && at.A > 0 && at.D > 0 {
		shade, ok := t.shades.Load(img)
		if !ok {
			shade = oneColour(img)
			t.shades.Store(img, shade)
		}
		level(dst, img, at, shade.(bool))
		return
	}
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
