package request

import (
	"context"
	"crypto/sha256"
	"path/filepath"
	"slices"

	"underflap/palettes"
	"underflap/palettes/derived"
	"underflap/pattern/draw"
	"underflap/pattern/stamp"
	"underflap/pattern/words/filed"
)

// prepared is a person's art, and what is to be said of it.
type prepared struct {
	art     *draw.Art
	remarks []string
	key     digest // of all that shaped it, where it is kept
}

// ofPhoto are the colours of a photo, and what is to be said of them.
type ofPhoto struct {
	palette palettes.Palette
	remarks []string
}

// held is the content of a file that was read already.
type held []byte

func (h held) Read(string, int64) ([]byte, error) { return h, nil }

// read is stamp.Read of a file that is kept by what it holds, so that one that
// was edited is read anew.
func (m *Memory) read(ctx context.Context, from filed.Source, path string, wish stamp.Wish) (p prepared, err error) {
	if m != nil {
		data, err := from.Read(path, stamp.MostBytes)
		if err == nil {
			key := digestOf([]any{"art", sha256.Sum256(data), filepath.Base(path), wish})
			return m.art.Of(ctx, key, func() (prepared, int64, error) {
				p := prepared{key: key}
				p.art, p.remarks, err = stamp.Read(ctx, held(data), "stamp", path, wish)
				return p, weightOf(p.art), err
			})
		}
	}
	p.art, p.remarks, err = stamp.Read(ctx, from, "stamp", path, wish)
	return p, err
}

// fit is stamp.Fit of art that was read. Art that needs no fitting is not kept again:
// it would stay after it has been forgotten where it was read.
func (m *Memory) fit(ctx context.Context, of prepared, width float64) (*draw.Art, string, error) {
	make := func() (p prepared, weight int64, err error) {
		art, remark := stamp.Fit(ctx, of.art, width)
		if art != of.art {
			p.art = art
		}
		p.remarks = []string{remark}
		return p, weightOf(p.art), ctx.Err()
	}
	var p prepared
	var err error
	if m == nil {
		p, _, err = make()
	} else {
		p, err = m.art.Of(ctx, digestOf([]any{"fitted", of.key, width}), make)
	}
	switch {
	case err != nil:
		return nil, "", err
	case p.art == nil:
		return of.art, p.remarks[0], nil
	}
	return p.art, p.remarks[0], nil
}

// leastWeight is about what keeping anything takes, in bytes: its key and remarks.
const leastWeight = 1 << 10

// weightOf is about how many bytes it takes to keep art, nil too.
func weightOf(a *draw.Art) int64 {
	bytes := int64(leastWeight)
	if a == nil {
		return bytes
	}
	if a.Image != nil {
		bytes += int64(len(a.Image.Pix) + len(a.Image.JPEG))
	}
	if a.Cover != nil {
		bytes += a.Cover.Bytes()
	}
	for _, s := range a.Shapes {
		bytes += int64(len(s.Path.Verbs) + 16*len(s.Path.Points))
	}
	return bytes
}

// derive is derived.Resolve; a photo's colours are kept by what its file holds.
func (m *Memory) derive(ctx context.Context, from filed.Source, word string) (palettes.Palette, []string, error) {
	if file := derived.Photo(word); m != nil && file != "" {
		data, err := from.Read(file, stamp.MostBytes)
		if err == nil {
			p, err := m.photos.Of(ctx, digestOf([]any{sha256.Sum256(data), word}), func() (p ofPhoto, weight int64, err error) {
				p.palette, p.remarks, err = derived.Resolve(ctx, held(data), "palette", word)
				return p, 1, err
			})
			return p.palette, slices.Clip(p.remarks), err
		}
	}
	return derived.Resolve(ctx, from, "palette", word)
}
