// Package stamp reads people's own art for the pattern of stamps: pictures, used
// as they are or cleaned of their paper, and SVG drawings.
package stamp

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"underflap/pattern/draw"
	"underflap/pattern/stamp/vector"
	"underflap/pattern/words"
)

// Limits, checked before anything is decoded: the file's bytes, and the pixels
// that its header promises.
const (
	MostBytes  = 64 << 20
	MostPixels = 40_000_000
	MostSide   = 20_000
)

const accepts = "a PNG, JPEG, WebP, TIFF or SVG file of up to 40 megapixels"

// Read reads the art in a file, going by its content and not by its name, and
// prepares it as wished. The remarks say what a person should know of that, a
// line each. It refuses, naming the field, what is missing, no art, broken, too
// large or not to be drawn.
func Read(field, path string, wish Wish) (art *draw.Art, remarks []string, err error) {
	refuse := func(why string) error { return &words.Refused{Field: field, Given: path, Why: why, Accepts: accepts} }
	want, err := wish.settle()
	if err != nil {
		return nil, nil, err
	}
	data, why := load(path)
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
	img, why := decode(data)
	if why != "" {
		return nil, nil, refuse(why)
	}
	if blank(img.NRGBA) {
		return nil, nil, refuse("nothing on its transparent ground")
	}
	art, said, err := prepare(img, want)
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
func load(path string) (data []byte, why string) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, "no such file"
	case err != nil:
		return nil, "cannot be read"
	case !info.Mode().IsRegular():
		return nil, "not a file"
	case info.Size() > MostBytes:
		return nil, fmt.Sprintf("%d MB, and the most is %d", info.Size()>>20, MostBytes>>20)
	}
	if data, err = os.ReadFile(path); err != nil {
		return nil, "cannot be read"
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
