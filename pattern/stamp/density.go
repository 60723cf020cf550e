package stamp

import (
	"context"
	"fmt"
	"math"

	"underflap/pattern/draw"
	"underflap/pattern/words"
)

// mostPerInch is more pixels to the inch than home printers set dots; leastHigh
// keeps the shape of very wide art. leastPerInch is where pixels begin to show:
// half of the 300 that printers of pictures ask for.
const mostPerInch, leastHigh, leastPerInch = 1200, 16, 150

// Fit gives the art with no more pixels than printing needs when it is width
// millimetres wide, and a remark when it has too few. Art that has no more is
// returned as it is. When ctx ends it stops, and the art is of no use.
func Fit(ctx context.Context, art *draw.Art, width float64) (fitted *draw.Art, remark string) {
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
	if art.Cover != nil {
		out.Cover = &draw.Cover{Alpha: scaled(ctx, art.Cover.Alpha, most, high)}
	} else {
		out.Image = &draw.Image{NRGBA: scaled(ctx, art.Image.NRGBA, most, high)}
	}
	return out, remark
}
