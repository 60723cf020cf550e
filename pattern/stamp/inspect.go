package stamp

import (
	"bytes"
	"fmt"

	"underflap/pattern/stamp/vector"
	"underflap/pattern/words"
)

// Facts are what a file of art says of itself.
type Facts struct {
	Drawing       bool    // an SVG drawing, or else a picture
	Width, Height float64 // in pixels, or in a drawing's own units, without its margin
}

// Inspect tells what the file is without decoding a picture: its size is read from
// the header. It refuses, naming the field, what Read would refuse for what it is
// or for its size, and pictures of more than mostPixels.
func Inspect(field, name string, data []byte, mostPixels int) (f Facts, err error) {
	refuse := func(why string) (Facts, error) {
		return Facts{}, &words.Refused{Field: field, Given: name, Why: why, Accepts: fmt.Sprintf("a PNG, JPEG, WebP, TIFF or SVG file of up to %d megapixels", mostPixels/1_000_000)}
	}
	if vector.Is(data) {
		art, err := vector.Read(data)
		if err != nil {
			return refuse("it holds " + err.Error())
		}
		return Facts{Drawing: true, Width: art.Width, Height: art.Height}, nil
	}
	kind, ok := formatOf(data)
	if !ok {
		return refuse("no PNG, JPEG, WebP, TIFF or SVG inside")
	}
	head, err := kind.size(bytes.NewReader(data))
	if err != nil {
		return refuse(undecoded(err))
	}
	if head.Width < 1 || head.Height < 1 || head.Width > MostSide || head.Height > MostSide || head.Width*head.Height > min(mostPixels, MostPixels) {
		return refuse(fmt.Sprintf("%d by %d pixels is too large", head.Width, head.Height))
	}
	if orientation(data, kind.notes) >= 5 { // lying on its side
		head.Width, head.Height = head.Height, head.Width
	}
	return Facts{Width: float64(head.Width), Height: float64(head.Height)}, nil
}
