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

// fit is stamp.Fit of art that was read.
func (m *Memory) fit(ctx context.Context, of prepared, width float64) (*draw.Art, string, error) {
	make := func() (p prepared, weight int64, err error) {
		var remark string
		p.art, remark = stamp.Fit(ctx, of.art, width)
		p.remarks = []string{remark}
		if p.art != of.art {
			weight = weightOf(p.art)
		}
		return p, weight, ctx.Err()
	}
	if m == nil {
		p, _, err := make()
		return p.art, p.remarks[0], err
	}
	p, err := m.art.Of(ctx, digestOf([]any{"fitted", of.key, width}), make)
	if err != nil {
		return nil, "", err
	}
	return p.art, p.remarks[0], nil
}

// weightOf is about how many bytes art takes, in one ink too.
func weightOf(a *draw.Art) (bytes int64) {
	if a == nil {
		return 0
	}
	if a.Image != nil {
		bytes += int64(len(a.Image.Pix) + len(a.Image.JPEG))
	}
	if a.Cover != nil {
		bytes += int64(a.Cover.Rect.Dx()) * int64(a.Cover.Rect.Dy()) * 5
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
