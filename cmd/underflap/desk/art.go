package desk

import (
	"bytes"
	"context"
	"image"
	"image/png"
	"math"
	"net/http"

	xdraw "golang.org/x/image/draw"

	"underflap/liner/request"
	"underflap/palettes/derived"
	"underflap/pattern/draw"
	"underflap/pattern/stamp"
	"underflap/pattern/words"
)

// artWide is the longer side of a picture of art on the page, in pixels.
const artWide = 640

// art is what the page is told of a file that was added.
type art struct {
	Stamp  string `json:"stamp"`
	Name   string `json:"name"`
	Width  int    `json:"width"`
	Height int    `json:"height"`
	Kind   string `json:"kind"` // picture or drawing
}

// addArt keeps a picture or drawing, once it is known to be one.
func (d *Desk) addArt(w http.ResponseWriter, r *http.Request) error {
	data, _, done, err := d.uploadToDecode(w, r, d.limits.UploadBytes)
	if err != nil {
		return err
	}
	defer done()
	added, err := d.keepArt("stamp", r.URL.Query().Get("name"), data)
	if err != nil {
		return err
	}
	answerJSON(w, http.StatusOK, added)
	return nil
}

// keepArt keeps a picture or drawing for a field.
func (d *Desk) keepArt(field, name string, data []byte) (art, error) {
	name = fileName(name)
	facts, err := stamp.Inspect(field, name, data, d.limits.UploadPixels)
	if err != nil {
		return art{}, err
	}
	kind := "picture"
	if facts.Drawing {
		kind = "drawing"
	}
	return art{Stamp: d.uploads.add(name, data), Name: name, Width: int(math.Ceil(facts.Width)), Height: int(math.Ceil(facts.Height)), Kind: kind}, nil
}

// showArt answers with a picture of art.
func (d *Desk) showArt(encode func(context.Context, form, *bytes.Buffer) error) action {
	return func(w http.ResponseWriter, r *http.Request) error {
		f, err := d.fromQuery(r)
		if err != nil {
			return err
		}
		ctx, done, err := d.decoding.within(r.Context(), d.limits.PreviewTime)
		if err != nil {
			return err
		}
		defer done()
		var b bytes.Buffer
		if err := encode(ctx, f, &b); err != nil {
			return err
		}
		tagged(w, r, "image/png", tagOf(b.Bytes()), b.Bytes())
		return nil
	}
}

// originalArt is what was added, reduced.
func (d *Desk) originalArt(ctx context.Context, f form, b *bytes.Buffer) error {
	data, err := d.uploads.Read(f.Stamp, d.limits.UploadBytes)
	if err != nil {
		return &words.Refused{Field: "stamp", Given: f.Stamp, Why: err.Error()}
	}
	facts, err := stamp.Inspect("stamp", f.Stamp, data, d.limits.UploadPixels)
	if err != nil {
		return err
	}
	if facts.Drawing { // drawn as every other, so that nothing in the file gets to act
		f.StampColour, f.StampTrace = "keep", false
		f.Ground = "white"
		f.Palette, f.Inks = "", ""
		return cleanedArt(ctx, f, b)
	}
	img, err := stamp.Picture(ctx, d.uploads, "stamp", f.Stamp)
	if err != nil {
		return err
	}
	return png.Encode(b, fitted(img))
}

// fitted is a picture reduced to the size that the page shows.
func fitted(img *image.NRGBA) image.Image {
	k := artWide / float64(max(img.Rect.Dx(), img.Rect.Dy()))
	if k >= 1 {
		return img
	}
	side := func(n int) int { return max(1, int(math.Round(k*float64(n)))) }
	out := image.NewNRGBA(image.Rect(0, 0, side(img.Rect.Dx()), side(img.Rect.Dy())))
	xdraw.ApproxBiLinear.Scale(out, out.Rect, img, img.Rect, xdraw.Src, nil)
	return out
}

// cleanedArt is what becomes of it.
func cleanedArt(ctx context.Context, f form, b *bytes.Buffer) error {
	page, _, err := request.Art(ctx, f.Words)
	if err != nil {
		return err
	}
	dpi := artWide * words.MillimetresPerInch / max(page.Width, page.Height)
	return (request.Output{Format: "png", DPI: dpi}).Encode(ctx, b, []*draw.Page{page})
}

// warm reads a person's own pictures while nobody else decodes any, since a large
// one takes much memory for a moment; what draws them afterwards finds them read.
func (d *Desk) warm(ctx context.Context, l request.Look) error {
	photo := derived.Photo(l.Palette) != ""
	if l.Stamp == "" && !photo {
		return nil
	}
	leave, err := d.decoding.take(ctx)
	if err != nil {
		return err
	}
	defer leave()
	if photo {
		if _, _, err := request.ResolvePalette(ctx, l.Words); err != nil {
			return err
		}
	}
	if l.Stamp == "" {
		return nil
	}
	w := l.Words
	w.Grey, w.PaperColour, w.InkSaver = false, "", "" // done to it when it is drawn
	_, _, err = request.Art(ctx, w)
	return err
}
