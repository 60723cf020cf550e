// Package clean turns a photo or scan of a stamped or drawn impression into
// clean art: uneven light is levelled, ink parted from paper, dust removed, and
// what is left is cropped to the ink. Lengths are pixels; densities are shares,
// 0 bare paper and 1 full ink.
package clean

import (
	"context"
	"errors"
	"image"
	"image/color"
	"math"
)

// Errors that say why there is nothing to clean.
var (
	ErrNoInk   = errors.New("no ink to be told from its paper")
	ErrNoPaper = errors.New("no plain paper all round the art")
)

// Kind is what a picture shows.
type Kind int

// The kinds.
const (
	Other    Kind = iota // no plain paper around it
	OneInk               // one ink on paper
	Coloured             // several colours on paper
	Shaded               // one colour in many tones, such as a grey photo, on paper
)

// Picture is a photo or scan with its light levelled.
type Picture struct {
	ctx   context.Context
	level *image.NRGBA // paper is paperLevel in every channel
	ink   [3]float64   // how much each channel tells of the ink; the squares add up to 1
	full  float64      // density of full ink, along ink
	noise float64      // standard deviation of the paper's density
	paper bool         // paper all round
}

// New levels a picture's light. It fails with ErrNoInk and, as all that is asked
// of the picture later, with the context's error once that has ended.
func New(ctx context.Context, img *image.NRGBA) (*Picture, error) {
	p := &Picture{ctx: ctx, level: levelled(ctx, img), ink: [3]float64{0.577, 0.577, 0.577}}
	if err := p.measure(); err != nil { // as grey
		return nil, err
	}
	p.ink = p.inkColour(p.density(), p.full)
	return p, p.measure() // along the ink's own colour
}

// measure finds how dense full ink is, and how restless the paper.
func (p *Picture) measure() error {
	if err := p.ctx.Err(); err != nil {
		return err
	}
	density := p.density()
	parting := otsu(histogram(density))
	p.full = meanAbove(density, parting)
	p.noise = noiseBelow(density, parting)
	p.paper = p.paperAround(p.full / 4)
	if err := p.ctx.Err(); err != nil { // what was measured is of no use
		return err
	}
	if parting == 0 || p.full < max(leastContrast, 4*p.noise) {
		return ErrNoInk
	}
	return nil
}

// leastContrast of ink on paper: below it, dirt and shadows look alike.
const leastContrast = 0.12

// density of every pixel along the ink's colour.
func (p *Picture) density() *field {
	f := newField(p.level.Rect.Dx(), p.level.Rect.Dy())
	var part [3][256]float32
	for c := range part {
		for v := range 256 {
			part[c][v] = float32(p.ink[c] * (1 - float64(v)/paperLevel))
		}
	}
	for y := range f.h {
		if p.ctx.Err() != nil {
			break
		}
		row := p.level.Pix[y*p.level.Stride:]
		for x := range f.w {
			f.v[y*f.w+x] = part[0][row[4*x]] + part[1][row[4*x+1]] + part[2][row[4*x+2]]
		}
	}
	return f
}

// inkColour is the direction in which ink leaves the paper's colour: that of the
// mean of the pixels denser than least.
func (p *Picture) inkColour(density *field, least float64) [3]float64 {
	var sum [3]float64
	for at, v := range density.v {
		if float64(v) < least {
			continue
		}
		if p.ctx.Err() != nil {
			break
		}
		for c, d := range p.channels(at%density.w, at/density.w) {
			sum[c] += max(d, 0)
		}
	}
	length := math.Sqrt(dot(sum, sum))
	if length == 0 {
		return p.ink
	}
	for c := range sum {
		sum[c] /= length
	}
	return sum
}

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// paperAround tells whether nearly all of the picture's edge is bare paper.
func (p *Picture) paperAround(most float64) bool {
	b := p.level.Rect
	band := max(1, min(b.Dx(), b.Dy())/50)
	bare, all := 0, 0
	for y := range b.Dy() {
		if p.ctx.Err() != nil {
			break
		}
		for x := range b.Dx() {
			if x >= band && x < b.Dx()-band && y >= band && y < b.Dy()-band {
				continue
			}
			all++
			if p.strength(x, y) < math.Sqrt(3)*most {
				bare++
			}
		}
	}
	return bare >= all*9/10
}

// strength is how far a pixel is from paper in any direction of colour.
func (p *Picture) strength(x, y int) float64 {
	d := p.channels(x, y)
	return math.Sqrt(dot(d, d))
}

// Kind tells what the picture shows. One ink mixed with its paper gives colours
// on one line between the two. Several colours are seen when more than a
// twentieth of the inked area lies more than 9 degrees off the line; ink that
// varies in thickness stays within 5. It is of no use once the context has ended.
func (p *Picture) Kind() Kind {
	const offLine, another, manyTones = 0.0245, 0.05, 0.3 // 0.0245: the square of the sine of 9 degrees
	if !p.paper {
		return Other
	}
	density := p.density()
	if on, off := p.hues(density, offLine); float64(off) > another*float64(on+off) {
		return Coloured
	}
	density = smooth(density)
	inked, toned := 0, 0
	for at, v := range density.v {
		if at%4096 == 0 && p.ctx.Err() != nil {
			break
		}
		if float64(v) < p.full/4 {
			continue
		}
		inked++
		if float64(v) < 0.75*p.full && flat(density, at, p.full/8) {
			toned++
		}
	}
	if float64(toned) > manyTones*float64(inked) {
		return Shaded
	}
	return OneInk
}

// hues counts the squares of three by three inked pixels whose mean colour lies
// on the line from the paper to the ink, and those that do not.
func (p *Picture) hues(density *field, offLine float64) (on, off int) {
	least := float32(p.full / 2)
	for y := 1; y < density.h-1 && p.ctx.Err() == nil; y += 3 {
		for x := 1; x < density.w-1; x += 3 {
			var sum [3]float64
			inked := true
			for i := range 9 {
				nx, ny := x+i%3-1, y+i/3-1
				inked = inked && density.v[ny*density.w+nx] >= least
				d := p.channels(nx, ny)
				for c := range sum {
					sum[c] += d[c]
				}
			}
			along, all := dot(sum, p.ink), dot(sum, sum)
			switch {
			case !inked:
			case all-along*along > offLine*all:
				off++
			default:
				on++
			}
		}
	}
	return on, off
}

// channels is the density of a pixel in each channel.
func (p *Picture) channels(x, y int) (d [3]float64) {
	i := p.level.PixOffset(x, y)
	for c := range d {
		d[c] = 1 - float64(p.level.Pix[i+c])/paperLevel
	}
	return d
}

// flat tells whether a pixel's neighbours two away are as dense as it is, so
// that it lies in a tone and not on an edge.
func flat(f *field, at int, within float64) bool {
	x, y := at%f.w, at/f.w
	if x < 2 || y < 2 || x >= f.w-2 || y >= f.h-2 {
		return false
	}
	for _, by := range []int{-2, 2, -2 * f.w, 2 * f.w} {
		if math.Abs(float64(f.v[at+by]-f.v[at])) > within {
			return false
		}
	}
	return true
}

// Ink is the coverage of one ink, cropped to it, where it lies in the picture:
// 255 on the ink and soft at its edge. It fails with ErrNoInk when nothing but specks is found.
func (p *Picture) Ink() (*image.Alpha, error) {
	density := p.density()
	if p.noise > 0.03*p.full {
		density = smooth(density)
	}
	if p.noise > 0.1*p.full && p.ctx.Err() == nil {
		density = smooth(smooth(density))
	}
	if err := p.ctx.Err(); err != nil {
		return nil, err
	}
	inkAmounts(p.ctx, density, p.full) // now 1 is full ink as it is nearby
	mask := newMask(density, 0.5)
	mask.despeckle(p.ctx, 1)
	if err := p.ctx.Err(); err != nil {
		return nil, err
	}
	box, err := mask.box()
	if err != nil {
		return nil, err
	}
	near := mask.grown()
	out := image.NewAlpha(box)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			switch at := y*density.w + x; {
			case mask.filled[at]:
				out.SetAlpha(x, y, color.Alpha{A: 255})
			case near[at]:
				out.SetAlpha(x, y, color.Alpha{A: share(float64(density.v[at]), 0.2, 0.8)})
			}
		}
	}
	return out, nil
}

// share is 0 up to from, 255 from to on, and straight between them.
func share(v, from, to float64) uint8 {
	return uint8(math.Round(255 * min(max((v-from)/(to-from), 0), 1)))
}

// Colours is the art in its own colours on no ground, cropped to it, where it
// lies in the picture. It fails
// with ErrNoPaper, or with ErrNoInk when nothing but specks is found.
func (p *Picture) Colours() (*image.NRGBA, error) {
	if !p.paper {
		return nil, ErrNoPaper
	}
	w, h := p.level.Rect.Dx(), p.level.Rect.Dy()
	strength := newField(w, h)
	for y := range h {
		if err := p.ctx.Err(); err != nil {
			return nil, err
		}
		for x := range w {
			strength.v[y*w+x] = float32(p.strength(x, y))
		}
	}
	bare := max(0.07, 5*p.noise) // and from twice as much on, a colour of its own
	mask := newMask(smooth(strength), float32(1.5*bare))
	mask.despeckle(p.ctx, 4) // the faintest edge of a speck is seen too
	if err := p.ctx.Err(); err != nil {
		return nil, err
	}
	box, err := mask.box()
	if err != nil {
		return nil, err
	}
	near := mask.grown()
	out := image.NewNRGBA(box)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		if err := p.ctx.Err(); err != nil {
			return nil, err
		}
		for x := box.Min.X; x < box.Max.X; x++ {
			at := y*w + x
			var alpha uint8
			switch {
			case mask.filled[at]:
				alpha = 255
			case near[at]:
				alpha = share(float64(strength.v[at]), bare, 2*bare)
			}
			out.SetNRGBA(x, y, p.withoutPaper(x, y, alpha))
		}
	}
	return out, nil
}

// withoutPaper is a pixel's colour in white light, without the paper that shows
// through it.
func (p *Picture) withoutPaper(x, y int, alpha uint8) color.NRGBA {
	if alpha == 0 {
		return color.NRGBA{}
	}
	i := p.level.PixOffset(x, y)
	var c [3]uint8
	for k := range c {
		light := float64(p.level.Pix[i+k]) / paperLevel
		light = 1 - (1-light)*255/float64(alpha)
		c[k] = uint8(math.Round(255 * min(max(light, 0), 1)))
	}
	return color.NRGBA{c[0], c[1], c[2], alpha}
}
