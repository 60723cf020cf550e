package stamp

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"io"

	"github.com/bep/imagemeta"
	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"

	canvas "underflap/pattern/draw"
)

// format is a kind of picture file, known by how it begins.
type format struct {
	begins func(data []byte) bool
	size   func(r io.Reader) (image.Config, error)
	decode func(r io.Reader) (image.Image, error)
	notes  imagemeta.ImageFormat
}

func begins(with ...string) func([]byte) bool {
	return func(data []byte) bool {
		for _, w := range with {
			if bytes.HasPrefix(data, []byte(w)) {
				return true
			}
		}
		return false
	}
}

var formats = []format{
	{begins("\x89PNG"), png.DecodeConfig, png.Decode, imagemeta.PNG},
	{begins("\xff\xd8"), jpeg.DecodeConfig, jpeg.Decode, imagemeta.JPEG},
	{begins("II*\x00", "MM\x00*"), tiff.DecodeConfig, tiff.Decode, imagemeta.TIFF},
	{func(d []byte) bool { return len(d) > 12 && string(d[:4]) == "RIFF" && string(d[8:12]) == "WEBP" },
		webp.DecodeConfig, webp.Decode, imagemeta.WebP},
}

// decode reads a picture the way up it was taken, or says why it cannot. The
// notes in the file, such as where a photo was taken, go no further. When ctx ends
// it stops.
func decode(ctx context.Context, data []byte) (*canvas.Image, string) {
	if f, ok := formatOf(data); ok {
		return f.read(ctx, data)
	}
	return nil, "no PNG, JPEG, WebP, TIFF or SVG inside"
}

// formatOf tells a picture's format from its beginning.
func formatOf(data []byte) (format, bool) {
	for _, f := range formats {
		if f.begins(data) {
			return f, true
		}
	}
	return format{}, false
}

func (f format) read(ctx context.Context, data []byte) (*canvas.Image, string) {
	head, err := f.size(bytes.NewReader(data))
	if err != nil {
		return nil, undecoded(err)
	}
	if head.Width < 1 || head.Height < 1 || head.Width > MostSide || head.Height > MostSide || head.Width*head.Height > MostPixels {
		return nil, fmt.Sprintf("%d by %d pixels is too large", head.Width, head.Height)
	}
	img, err := f.decode(&lasting{ctx, bytes.NewReader(data)})
	if err != nil {
		return nil, undecoded(err)
	}
	out := &canvas.Image{NRGBA: image.NewNRGBA(image.Rect(0, 0, img.Bounds().Dx(), img.Bounds().Dy()))}
	const rows = 64 // at a time
	for top := 0; top < out.Rect.Dy() && ctx.Err() == nil; top += rows {
		part := image.Rect(0, top, out.Rect.Dx(), min(top+rows, out.Rect.Dy()))
		draw.Draw(out.NRGBA, part, img, img.Bounds().Min.Add(part.Min), draw.Src)
	}
	switch up := orientation(data, f.notes); {
	case ctx.Err() != nil:
	case up != 1:
		out.NRGBA = upright(out.NRGBA, up)
	case f.notes == imagemeta.JPEG && (head.ColorModel == color.YCbCrModel || head.ColorModel == color.GrayModel):
		out.JPEG = bare(data)
	}
	return out, ""
}

// lasting is a file that can be read for as long as its context lasts.
type lasting struct {
	ctx  context.Context
	file *bytes.Reader
}

func (l *lasting) Read(p []byte) (int, error) {
	if err := l.ctx.Err(); err != nil {
		return 0, err
	}
	return l.file.Read(p)
}

// ReadAt is for TIFF, whose parts lie anywhere.
func (l *lasting) ReadAt(p []byte, at int64) (int, error) {
	if err := l.ctx.Err(); err != nil {
		return 0, err
	}
	return l.file.ReadAt(p, at)
}

// undecoded says why a picture could not be read: a kind that the decoder knows
// of but cannot read is no broken file.
func undecoded(err error) string {
	switch err.(type) {
	case tiff.UnsupportedError, jpeg.UnsupportedError, png.UnsupportedError:
		return "of a kind that cannot be read (" + err.Error() + ")"
	}
	return "broken or cut short"
}

// orientation is the number in a picture's notes that says which way up it was
// taken (Exif 2.3, 4.6.4, tag 274), 1 when they do not say.
func orientation(data []byte, kind imagemeta.ImageFormat) int {
	up := 1
	_, err := imagemeta.Decode(imagemeta.Options{
		R: bytes.NewReader(data), ImageFormat: kind, Sources: imagemeta.EXIF,
		ShouldHandleTag: func(tag imagemeta.TagInfo) bool { return tag.Tag == "Orientation" && tag.Namespace == "IFD0" },
		HandleTag: func(tag imagemeta.TagInfo) error {
			if v, ok := tag.Value.(uint16); ok && v >= 1 && v <= 8 {
				up = int(v)
			}
			return imagemeta.ErrStopWalking
		},
		Warnf: func(string, ...any) {},
	})
	if err != nil {
		return 1 // notes that cannot be read say nothing
	}
	return up
}

// upright turns and mirrors a picture as its orientation asks: the number tells
// which of its sides the first row and the first column are.
func upright(img *image.NRGBA, up int) *image.NRGBA {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	out := image.NewNRGBA(image.Rect(0, 0, w, h))
	if up >= 5 {
		out = image.NewNRGBA(image.Rect(0, 0, h, w))
	}
	for y := range h {
		for x := range w {
			var tx, ty int
			switch up {
			case 1: // top, left
				tx, ty = x, y
			case 2: // top, right
				tx, ty = w-1-x, y
			case 3: // bottom, right
				tx, ty = w-1-x, h-1-y
			case 4: // bottom, left
				tx, ty = x, h-1-y
			case 5: // left, top
				tx, ty = y, x
			case 6: // right, top
				tx, ty = h-1-y, x
			case 7: // right, bottom
				tx, ty = h-1-y, w-1-x
			case 8: // left, bottom
				tx, ty = y, w-1-x
			}
			copy(out.Pix[ty*out.Stride+4*tx:][:4], img.Pix[y*img.Stride+4*x:])
		}
	}
	return out
}
