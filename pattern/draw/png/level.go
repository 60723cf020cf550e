package png

import (
	"image"
	"math"

	"underflap/pattern/draw"
)

// level resamples a picture that is neither turned nor mirrored, across and then
// down, which is many times quicker than both at once: between two pixels where it
// grows, with a triangle as wide as a new pixel on either side where it shrinks.
// at maps the unit square to pixels; to is clear. shade tells that all of the picture is of
// one colour, as shadows are, so that only its alpha is looked at.
func level(to *image.RGBA, img *draw.Image, at draw.Matrix, shade bool) {
	size := img.Bounds().Size()
	across := tapsOf(at.A/float64(size.X), at.E, to.Rect.Min.X, to.Rect.Max.X, size.X)
	down := tapsOf(at.D/float64(size.Y), at.F, to.Rect.Min.Y, to.Rect.Max.Y, size.Y)
	if len(across.of) == 0 || len(down.of) == 0 {
		return
	}
	channels := 4
	if shade {
		channels = 1
	}
	width := len(across.of) * channels
	rows := make([][]float32, down.most+1) // the latest of the picture's, made narrow or wide
	held := make([]int, len(rows))         // which of them, and one more
	sum := make([]float32, width)
	for i, t := range down.of {
		clear(sum)
		for k, w := range t.weights {
			y := t.first + k
			slot := y % len(rows)
			if held[slot] != y+1 {
				if rows[slot] == nil {
					rows[slot] = make([]float32, width)
				}
				across.row(rows[slot], img.Pix[img.PixOffset(img.Rect.Min.X, img.Rect.Min.Y+y):], shade)
				held[slot] = y + 1
			}
			for x, v := range rows[slot] {
				sum[x] += float32(w * v) // rounded here, so that no machine fuses the two
			}
		}
		out := to.Pix[to.PixOffset(across.start, down.start+i):]
		if shade {
			shadeRow(out, sum, img.Pix[:3])
			continue
		}
		for x, v := range sum {
			out[x] = uint8(v + 0.5)
		}
	}
}

// shadeRow turns alphas into pixels of a colour.
func shadeRow(to []byte, alphas []float32, colour []byte) {
	r, g, b := uint32(colour[0]), uint32(colour[1]), uint32(colour[2])
	for x, v := range alphas {
		a := uint32(v + 0.5)
		p := to[4*x : 4*x+4 : 4*x+4]
		p[0], p[1], p[2], p[3] = uint8((r*a+127)/255), uint8((g*a+127)/255), uint8((b*a+127)/255), uint8(a)
	}
}

// taps are, for a run of new pixels, the old ones that each is mixed of.
type taps struct {
	start int // the first new pixel
	most  int // old pixels in one
	of    []tap
}

type tap struct {
	first   int
	weights []float32 // together 1
}

// tapsOf is for new pixels from lo to hi, where count old ones, each scale new ones
// long, begin at offset. New pixels whose middle lies outside are left out.
func tapsOf(scale, offset float64, lo, hi, count int) taps {
	t := taps{start: hi}
	reach := max(1, 1/scale)
	for p := lo; p < hi; p++ {
		middle := (float64(p) + 0.5 - offset) / scale
		if middle < 0 || middle >= float64(count) {
			continue
		}
		t.start = min(t.start, p)
		first := max(0, int(math.Ceil(middle-0.5-reach)))
		last := min(count-1, int(math.Floor(middle-0.5+reach)))
		one, all := tap{first: first, weights: make([]float32, last-first+1)}, 0.0
		for i := range one.weights {
			all += 1 - math.Abs(float64(first+i)+0.5-middle)/reach
		}
		for i := range one.weights {
			one.weights[i] = float32((1 - math.Abs(float64(first+i)+0.5-middle)/reach) / all)
		}
		t.of = append(t.of, one)
		t.most = max(t.most, len(one.weights))
	}
	return t
}

// row mixes a row of the picture: its alpha alone, or colours times alpha and alpha.
func (t taps) row(to []float32, from []byte, shade bool) {
	for x, one := range t.of {
		if shade {
			var sum float32
			for k, w := range one.weights {
				sum += float32(w * float32(from[4*(one.first+k)+3]))
			}
			to[x] = sum
			continue
		}
		var r, g, b, a float32
		for k, w := range one.weights {
			p := from[4*(one.first+k):][:4]
			alpha := float32(w * float32(p[3]))
			part := float32(alpha / 255)
			r += float32(part * float32(p[0]))
			g += float32(part * float32(p[1]))
			b += float32(part * float32(p[2]))
			a += alpha
		}
		to[4*x], to[4*x+1], to[4*x+2], to[4*x+3] = min(r, a), min(g, a), min(b, a), min(a, 255)
	}
}

// oneColour tells whether a picture differs in its alpha alone.
func oneColour(img *draw.Image) bool {
	first := img.Pix[:3]
	for y := range img.Rect.Dy() {
		row := img.Pix[y*img.Stride:][:4*img.Rect.Dx()]
		for i := 0; i < len(row); i += 4 {
			if row[i] != first[0] || row[i+1] != first[1] || row[i+2] != first[2] {
				return false
			}
		}
	}
	return true
}
