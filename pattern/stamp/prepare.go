package stamp

import (
	"context"
	"fmt"
	"image"
	"math"
	"strconv"
	"strings"

	xdraw "golang.org/x/image/draw"

	"underflap/pattern/draw"
	"underflap/pattern/stamp/clean"
	"underflap/pattern/stamp/trace"
	"underflap/pattern/stamp/vector"
	"underflap/pattern/words"
)

// Wish is how a person wants art prepared, in their words.
type Wish struct {
	Colour string // "ink" or the number of one, "keep", or "" for what suits the art
	Trace  bool   // to paths, in one ink
}

// ColourWords are the words for a wish's colour, beside numbers.
var ColourWords = []string{"ink", "keep"}

// MostInk is the highest number of an ink: palettes have up to 12, and numbers
// past a palette's last begin again at its first.
const MostInk = 12

// settled is a wish with its word read: an ink, or the art's own colours, or
// neither said.
type settled struct {
	ink         int
	keep, trace bool
}

func (w Wish) settle() (s settled, err error) {
	s.trace = w.Trace
	switch word := strings.ToLower(strings.TrimSpace(w.Colour)); word {
	case "":
	case "keep":
		s.keep = true
		if w.Trace {
			return s, &words.Refused{Field: "stamp-trace", Why: "art is traced in one ink, and --stamp-colour is keep", Accepts: "without one of them"}
		}
	case "ink":
		s.ink = 1
	default:
		n, bad := strconv.Atoi(word)
		if bad != nil || n < 1 || n > MostInk {
			return s, &words.Refused{Field: "stamp-colour", Given: w.Colour, Accepts: fmt.Sprintf("ink, keep, or the number of an ink, 1 to %d", MostInk)}
		}
		s.ink = n
	}
	return s, nil
}

// mostCleaned is the pixels that are cleaned. A larger picture is reduced first:
// this many print art as wide as a liner at 300 to the inch, and more would only
// take longer.
const mostCleaned = 8_000_000

// prepare makes art of a picture and says what was done. Unless told otherwise
// it goes by what it sees: one ink on paper is cleaned, everything else stays as
// it is.
func prepare(ctx context.Context, img *draw.Image, want settled) (art *draw.Art, said string, err error) {
	through := transparent(img.NRGBA)
	if through && want.ink == 0 && !want.trace {
		return asItIs(img), "", nil
	}
	small := reduced(ctx, img.NRGBA, mostCleaned)
	if through {
		if cover := oneTone(small); cover != nil {
			return inInk(ctx, cover, want, "printed")
		}
		small = onWhite(small)
	}
	p, err := clean.New(ctx, small)
	switch {
	case want.keep:
		return ownColours(ctx, img, p, err)
	case want.ink == 0 && !want.trace:
		if why := stays(p, err); why != "" {
			return asItIs(img), why + ", so it is placed as it is; --stamp-colour keep takes its paper away, ink prints it in one ink", nil
		}
	}
	if err != nil {
		return nil, "", err
	}
	cover, err := p.Ink()
	if err != nil {
		return nil, "", err
	}
	return inInk(ctx, cover, want, "cleaned of its paper and printed")
}

// stays says why a picture is not cleaned unasked; "" when it is.
func stays(p *clean.Picture, err error) string {
	if err != nil {
		return err.Error()
	}
	switch p.Kind() {
	case clean.Other:
		return clean.ErrNoPaper.Error()
	case clean.Coloured:
		return "in several colours"
	case clean.Shaded:
		return "in many tones"
	}
	return ""
}

// ownColours is the art in its own colours without its paper, where it has some.
func ownColours(ctx context.Context, img *draw.Image, p *clean.Picture, err error) (*draw.Art, string, error) {
	if err == nil {
		var colours *image.NRGBA
		if colours, err = p.Colours(); err == nil {
			return asItIs(&draw.Image{NRGBA: atOrigin(colours)}), "cleaned of its paper, in its own colours", nil
		}
	}
	return asItIs(img), err.Error() + ", so it is placed as it is", nil
}

func asItIs(img *draw.Image) *draw.Art {
	return &draw.Art{Width: float64(img.Rect.Dx()), Height: float64(img.Rect.Dy()), Image: img}
}

var errRough = fmt.Errorf("too rough to trace: more than %d lines and curves", vector.MostSteps)

// inInk is art in one ink.
func inInk(ctx context.Context, cover *image.Alpha, want settled, how string) (*draw.Art, string, error) {
	art := &draw.Art{Width: float64(cover.Rect.Dx()), Height: float64(cover.Rect.Dy()), Ink: max(want.ink, 1)}
	said := fmt.Sprintf("%s in ink %d of the palette", how, art.Ink)
	if !want.trace {
		art.Cover = &draw.Cover{Alpha: cover}
		return art, said + "; --stamp-colour takes another, or keeps its own colours", nil
	}
	path, err := trace.Outline(ctx, cover)
	if err != nil {
		return nil, "", err
	}
	if len(path.Verbs) > vector.MostSteps {
		return nil, "", errRough
	}
	if len(path.Verbs) == 0 {
		return nil, "", clean.ErrNoInk
	}
	art.Shapes = []draw.Shape{{Path: path}}
	return art, fmt.Sprintf("%s, traced to %d lines and curves", said, len(path.Verbs)), nil
}

// transparent tells whether a ground shows through a picture: through at least
// one pixel in a hundred.
func transparent(img *image.NRGBA) bool {
	n := 0
	for i := 3; i < len(img.Pix); i += 4 {
		if img.Pix[i] < 128 {
			n++
		}
	}
	return 100*n >= len(img.Pix)/4
}

// blank tells whether nothing of a picture shows.
func blank(img *image.NRGBA) bool {
	for i := 3; i < len(img.Pix); i += 4 {
		if img.Pix[i] > 0 {
			return false
		}
	}
	return true
}

// oneTone is the coverage of transparent art whose ink is everywhere about as
// dark, cropped to it; nil when it has light parts within, as on paper.
func oneTone(img *image.NRGBA) *image.Alpha {
	const spread = 64 // of 255, between the lightest and the darkest twentieth
	var counts [256]int
	all := 0
	box := image.Rectangle{}
	cover := image.NewAlpha(img.Rect)
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			c := img.NRGBAAt(x, y)
			cover.Pix[y*cover.Stride+x] = c.A
			if c.A > 0 {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
			if c.A >= 128 {
				counts[(299*int(c.R)+587*int(c.G)+114*int(c.B))/1000]++
				all++
			}
		}
	}
	darkest, lightest, seen := -1, 0, 0
	for v, n := range counts {
		seen += n
		if darkest < 0 && 20*seen > all {
			darkest = v
		}
		if n > 0 && 20*(seen-n) < 19*all {
			lightest = v
		}
	}
	if all == 0 || lightest-darkest > spread {
		return nil
	}
	return cover.SubImage(box).(*image.Alpha)
}

// onWhite is the picture on white paper.
func onWhite(img *image.NRGBA) *image.NRGBA {
	out := image.NewNRGBA(img.Rect)
	xdraw.Draw(out, out.Rect, image.White, image.Point{}, xdraw.Src)
	xdraw.Draw(out, out.Rect, img, img.Rect.Min, xdraw.Over)
	return out
}

// reduced is the picture in no more than so many pixels.
func reduced(ctx context.Context, img *image.NRGBA, most int) *image.NRGBA {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	if w*h <= most {
		return img
	}
	k := math.Sqrt(float64(most) / float64(w*h))
	return scaled(ctx, img, max(1, int(float64(w)*k)), max(1, int(float64(h)*k)))
}

// atOrigin is the picture with its corner at the origin.
func atOrigin(img *image.NRGBA) *image.NRGBA {
	return &image.NRGBA{Pix: img.Pix, Stride: img.Stride, Rect: img.Rect.Sub(img.Rect.Min)}
}
