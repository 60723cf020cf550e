package draw

import "image"

// Image is people's own art, decoded. Writers embed it once however often it
// is placed.
type Image struct {
	*image.NRGBA
	JPEG []byte // the file it came from when that is a plain colour or grey JPEG, to embed as it is
}
