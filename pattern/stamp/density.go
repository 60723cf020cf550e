package stamp

import (
	"fmt"
	"image"
	"math"

	xdraw "golang.org/x/image/draw"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// mostPerInch is more pixels to the inch than home printers set dots; leastHigh
// keeps the shape of very wide art. leastPerInch is where pixels begin to show:
// half of the 300 that printers of pictures ask for.
const mostPerInch, leastHigh, leastPerInch = 1200, 16, 150

// Fit gives the art with no more pixels than printing needs when it is width
// millimetres wide, and a remark when it has too few. Art that has no more is
// returned as it is.
func Fit(art *draw.Art, width float64) (fitted *draw.Art, remark string) {
	if len(art.Shapes) > 0 {
		return art, ""
	}
	if perInch := art.Width / width * words.MillimetresPerInch; perInch < leastPerInch {
		remark = fmt.Sprintf("the art has %.0f pixels to the inch at %s wide, and looks coarse below %d", perInch, words.MM(width), leastPerInch)
		if most := math.Floor(art.Width / leastPerInch * words.MillimetresPerInch); most >= 2 {
			remark += fmt.Sprintf("; it is fine up to %s", words.MM(most))
		}
		if art.Cover != nil {
			remark += "; --stamp-trace gives it sharp edges"
		}
	}
	most := int(math.Ceil(width / words.MillimetresPerInch * mostPerInch))
	high := int(math.Round(art.Height * float64(most) / art.Width))
	if int(art.Width) <= most || high < leastHigh {
		return art, remark
	}
	out := &draw.Art{Width: float64(most), Height: float64(high), Ink: art.Ink}
	size := image.Rect(0, 0, most, high)
	if art.Cover != nil {
		small := image.NewAlpha(size)
		xdraw.BiLinear.Scale(small, size, art.Cover, art.Cover.Rect, xdraw.Src, nil)
		out.Cover = &draw.Cover{Alpha: small}
	} else {
		small := image.NewNRGBA(size)
		xdraw.BiLinear.Scale(small, size, art.Image.NRGBA, art.Image.Rect, xdraw.Src, nil)
		out.Image = &draw.Image{NRGBA: small}
	}
	return out, remark
}
