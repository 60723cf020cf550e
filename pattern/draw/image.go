package draw

import (
	"bytes"
	"image"
	"image/png"
)

// Image is people's own art, decoded. Writers embed it once however often it
// is placed.
type Image struct {
	*image.NRGBA
	JPEG []byte // a plain colour or grey JPEG of the same picture, to embed as it is
}

// File is the picture as a file to embed, "jpeg" or "png".
func (img *Image) File() (kind string, data []byte) {
	if img.JPEG != nil {
		return "jpeg", img.JPEG
	}
	var b bytes.Buffer
	png.Encode(&b, img.NRGBA) // writing to memory: cannot fail on a non-empty picture
	return "png", b.Bytes()
}
