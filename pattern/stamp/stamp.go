// Package stamp reads people's own art for the pattern of stamps.
package stamp

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	_ "image/jpeg" // registers the decoder
	_ "image/png"  // registers the decoder
	"io/fs"
	"math"
	"os"

	xdraw "golang.org/x/image/draw"

	canvas "underflap/pattern/draw"
	"underflap/pattern/words"
)

// Limits, checked before anything is decoded: the file's bytes, and the pixels
// that its header promises.
const (
	MostBytes  = 64 << 20
	MostPixels = 40_000_000
	MostSide   = 20_000
)

const accepts = "a PNG or JPEG file of up to 40 megapixels"

// Read reads the art in a file, going by its content and not by its name. It
// refuses, naming the field, what is missing, no picture, broken or too large.
func Read(field, path string) (*canvas.Image, error) {
	refuse := func(why string) error { return &words.Refused{Field: field, Given: path, Why: why, Accepts: accepts} }
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, refuse("no such file")
	case err != nil:
		return nil, refuse("cannot be read")
	case !info.Mode().IsRegular():
		return nil, refuse("not a file")
	case info.Size() > MostBytes:
		return nil, refuse(fmt.Sprintf("%d MB, and the most is %d", info.Size()>>20, MostBytes>>20))
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, refuse("cannot be read")
	}
	img, why := decode(data)
	if why != "" {
		return nil, refuse(why)
	}
	return img, nil
}

func decode(data []byte) (*canvas.Image, string) {
	if !bytes.HasPrefix(data, []byte("\x89PNG")) && !bytes.HasPrefix(data, []byte("\xff\xd8")) {
		return nil, "neither PNG nor JPEG inside"
	}
	head, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return nil, "broken or cut short"
	}
	if head.Width < 1 || head.Height < 1 || head.Width > MostSide || head.Height > MostSide || head.Width*head.Height > MostPixels {
		return nil, fmt.Sprintf("%d by %d pixels is too large", head.Width, head.Height)
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, "broken or cut short"
	}
	out := &canvas.Image{NRGBA: image.NewNRGBA(image.Rect(0, 0, img.Bounds().Dx(), img.Bounds().Dy()))}
	draw.Draw(out.NRGBA, out.Rect, img, img.Bounds().Min, draw.Src)
	if kind == "jpeg" && (head.ColorModel == color.YCbCrModel || head.ColorModel == color.GrayModel) {
		out.JPEG = bare(data)
	}
	return out, ""
}

// mostPerInch is more pixels to the inch than home printers set dots; leastHigh
// keeps the shape of very wide art.
const mostPerInch, leastHigh = 1200, 16

// Reduce gives the art with no more pixels than printing needs when it is width
// millimetres wide. Art that has fewer is returned as it is.
func Reduce(art *canvas.Image, width float64) *canvas.Image {
	size := art.Bounds().Size()
	most := int(math.Ceil(width / words.MillimetresPerInch * mostPerInch))
	height := int(math.Round(float64(size.Y) * float64(most) / float64(size.X)))
	if size.X <= most || height < leastHigh {
		return art
	}
	small := image.NewNRGBA(image.Rect(0, 0, most, height))
	xdraw.BiLinear.Scale(small, small.Rect, art.NRGBA, art.Bounds(), xdraw.Src, nil)
	return &canvas.Image{NRGBA: small}
}
