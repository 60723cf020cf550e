package scene

import (
	"context"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"

	"underflap/pattern/draw"
	"underflap/pattern/draw/recall"
)

// Shadows keeps the pictures of shadows for scenes of the same envelope: they
// do not depend on the design. A nil one keeps nothing.
type Shadows struct {
	store *recall.Store[shadowKey, *draw.Image]
}

// NewShadows keeps pictures of so many bytes together at most.
func NewShadows(bytes int64) *Shadows {
	return &Shadows{recall.New[shadowKey, *draw.Image](bytes)}
}

// Weight is how many bytes are kept.
func (k *Shadows) Weight() int64 {
	if k == nil {
		return 0
	}
	return k.store.Weight()
}

// varied is how a shadow's strength changes from place to place.
type varied struct {
	at   func(p draw.Point) float64 // in the shapes' space; nil: it does not
	name string                     // everything that shapes it
}

// shadowKey stands for everything that shapes a shadow's picture. Where it lies
// does not.
type shadowKey [sha256.Size]byte

func shadowOf(k soft, by varied, shapes []shape) (key shadowKey) {
	if k.kept == nil {
		return key
	}
	h := sha256.New()
	fmt.Fprintf(h, "%v %v %v %q", k.blur, k.strength, k.colour, by.name)
	var b []byte
	for _, one := range shapes {
		b = binary.LittleEndian.AppendUint64(b[:0], uint64(len(one)))
		for _, p := range one {
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(p.X))
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(p.Y))
		}
		h.Write(b)
	}
	return shadowKey(h.Sum(nil))
}

func (k *Shadows) of(key shadowKey, make func() *draw.Image) *draw.Image {
	if k == nil {
		return make()
	}
	img, _ := k.store.Of(context.Background(), key, func() (*draw.Image, int64, error) { // making takes milliseconds, and cannot fail
		img := make()
		return img, int64(len(img.Pix)), nil
	})
	return img
}
