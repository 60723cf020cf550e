package stamp

import (
	"context"
	"image"
	"image/draw"

	xdraw "golang.org/x/image/draw"
)

// scaled is a picture in another size. It is made in strips, first across and then
// down: all at once the library would hold 32 bytes for every pixel, and could not
// be stopped. When ctx ends it stops.
func scaled[P interface {
	*image.NRGBA | *image.Alpha
	draw.Image
	SubImage(image.Rectangle) image.Image
}](ctx context.Context, img P, width, height int) P {
	from := img.Bounds()
	narrow := blankLike(img, image.Rect(0, 0, width, from.Dy()))
	const lines = 64 // at a time
	for top := 0; top < from.Dy() && ctx.Err() == nil; top += lines {
		to := image.Rect(0, top, width, min(top+lines, from.Dy()))
		part := image.Rect(from.Min.X, from.Min.Y+to.Min.Y, from.Max.X, from.Min.Y+to.Max.Y)
		xdraw.BiLinear.Scale(narrow, to, img, part, xdraw.Src, nil)
	}
	out := blankLike(img, image.Rect(0, 0, width, height))
	for left := 0; left < width && ctx.Err() == nil; left += lines {
		part := image.Rect(left, 0, min(left+lines, width), from.Dy())
		to := image.Rect(part.Min.X, 0, part.Max.X, height)
		xdraw.BiLinear.Scale(out, to, narrow, part, xdraw.Src, nil)
	}
	return out
}

func blankLike[P any](img P, size image.Rectangle) P {
	if _, ok := any(img).(*image.Alpha); ok {
		return any(image.NewAlpha(size)).(P)
	}
	return any(image.NewNRGBA(size)).(P)
}
