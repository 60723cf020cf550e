// Package stamp reads people's own art for the pattern of stamps: pictures, used
// as they are or cleaned of their paper, and SVG drawings.
package stamp

import (
	"context"
	"fmt"
	"path/filepath"

	"underflap/pattern/draw"
	"underflap/pattern/draw/progress"
	"underflap/pattern/stamp/vector"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// Limits, checked before anything is decoded: the file's bytes, and the pixels
// that its header promises.
const (
	MostBytes  = 64 << 20
	MostPixels = 40_000_000
	MostSide   = 20_000
)

const accepts = "a PNG, JPEG, WebP, TIFF or SVG file of up to 40 megapixels"

// Read reads the art in a file of a source, going by its content and not by its name, and
// prepares it as wished. The remarks say what a person should know of that, a
// line each. When ctx ends it stops and gives the context's error. It refuses, naming the field, what is missing, no art, broken, too
// large or not to be drawn.
func Read(ctx context.Context, from filed.Source, field, path string, wish Wish) (art *draw.Art, remarks []string, err error) {
	refuse := func(why string) error { return &words.Refused{Field: field, Given: path, Why: why, Accepts: accepts} }
	want, err := wish.settle()
	if err != nil {
		return nil, nil, err
	}
	data, why := load(from, path)
	if why != "" {
		return nil, nil, refuse(why)
	}
	name := filepath.Base(path)
	if vector.Is(data) {
		if art, err = vector.Read(data); err != nil {
			return nil, nil, refuse("it holds " + err.Error())
		}
		inOneInk(art, want.ink)
		if wish.Trace {
			remarks = append(remarks, name+" is drawn in paths already; there is nothing to trace")
		}
		return art, remarks, nil
	}
	steps := progress.Begin(ctx, "step of reading the art", 2) // decode, clean
	defer steps.End()
	img, why := decode(ctx, data)
	if err := ctx.Err(); err != nil {
		return nil, nil, err
	}
	if why != "" {
		return nil, nil, refuse(why)
	}
	if blank(img.NRGBA) {
		return nil, nil, refuse("nothing on its transparent ground")
	}
	steps.Done(1)
	art, said, err := prepare(ctx, img, want)
	if ctx.Err() != nil {
		return nil, nil, ctx.Err()
	}
	if err != nil {
		instead := "dark ink on plain light paper, or --stamp-colour keep"
		if want.trace {
			instead = "dark ink on plain light paper, or without --stamp-trace"
		}
		return nil, nil, &words.Refused{Field: field, Given: path, Why: err.Error(), Accepts: instead}
	}
	if said != "" {
		remarks = append(remarks, name+": "+said)
	}
	return art, remarks, nil
}

// load reads a file of a size that may be decoded, or says why not.
func load(from filed.Source, path string) (data []byte, why string) {
	data, err := from.Read(path, MostBytes)
	switch {
	case err != nil:
		return nil, err.Error()
	case len(data) > MostBytes:
		return nil, fmt.Sprintf("longer than %d MB", MostBytes>>20)
	}
	return data, ""
}

// inOneInk makes vector art print in an ink of the palette; 0 leaves its
// colours. What is as light as paper becomes ground, unless all of it is.
func inOneInk(art *draw.Art, ink int) {
	art.Ink = ink
	for _, s := range art.Shapes {
		if !s.Ground {
			return
		}
	}
	for i := range art.Shapes {
		art.Shapes[i].Ground = false
	}
}
