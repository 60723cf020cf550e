package stamp

import (
	"context"
	"image"

	"underflap/pattern/draw"
	"underflap/pattern/stamp/vector"
	"underflap/pattern/words"
	"underflap/pattern/words/filed"
)

// Picture reads the picture in a file of a source, the way up it was taken, for its colours
// alone: nothing is cleaned. When ctx ends it stops and gives the context's error. Sizes are read from the header before anything is
// decoded. It refuses, naming the field, what is missing, no picture, broken or
// too large.
func Picture(ctx context.Context, from filed.Source, field, path string) (*image.NRGBA, error) {
	data, why := load(from, path)
	switch {
	case why != "":
	case len(data) == 0:
		why = "an empty file"
	case vector.Is(data):
		why = "a drawing, and no photo"
	default:
		f, ok := formatOf(data)
		if !ok {
			why = "no PNG, JPEG, WebP or TIFF inside"
			break
		}
		var img *draw.Image
		if img, why = f.read(ctx, data); why == "" {
			return img.NRGBA, nil
		}
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return nil, &words.Refused{Field: field, Given: path, Why: why, Accepts: "a PNG, JPEG, WebP or TIFF file of up to 40 megapixels"}
}
