package request

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"underflap/liner/scene"
	"underflap/liner/sheet"
	"underflap/pattern/draw"
	"underflap/pattern/draw/referee"
)

// The liner and the flap in the picture are measured on its pixels, as drawn by
// librsvg and by us, and compared with what fit --json tells: another way from
// the same words to the same edge.

const seenAt = 200.0 // dots per inch

// loud draws a scene in black and white, without shading: the liner black on
// white paper, or all of the envelope black.
func loud(t *testing.T, l Look, view scene.View, whole bool) scene.Placed {
	t.Helper()
	l.View = string(view)
	seen, err := See(t.Context(), l)
	if err != nil {
		t.Fatal(err)
	}
	sc := seen.Scene
	sc.Flat = true
	sc.Envelope, sc.Table = draw.White, draw.White
	if whole {
		sc.Envelope = draw.Colour{}
	}
	sc.Design.Colours.Ground = draw.Colour{}
	sc.Design.Colours.Inks = make([]draw.Colour, len(sc.Design.Colours.Inks)) // all black
	return picturedAs(t, sc, []scene.View{view})
}

func fitted(t *testing.T, w Words) Fit {
	t.Helper()
	r, err := ResolveFit(t.Context(), w)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := sheet.Arrange(r.Task)
	if err != nil {
		t.Fatal(err)
	}
	data, err := Report(plan.Settle()).JSON()
	if err != nil {
		t.Fatal(err)
	}
	var fit Fit
	if err := json.Unmarshal(data, &fit); err != nil {
		t.Fatal(err)
	}
	return fit
}

func drawnBy(t *testing.T, page *draw.Page) map[string]*referee.Raster {
	t.Helper()
	return map[string]*referee.Raster{
		"our PNG": referee.PNG(t, coded(t, page, "png"), seenAt),
		"librsvg": referee.SVG(t, coded(t, page, "svg"), seenAt, ""),
	}
}

func coded(t *testing.T, page *draw.Page, format string) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := (Output{Format: format, DPI: seenAt}).Encode(t.Context(), &b, []*draw.Page{page}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// edges are the places, in liner space, where a row or a column of pixels of the
// flap passes half grey.
func edges(r *referee.Raster, p scene.Placed, lift, left, right, top float64) [][2]float64 {
	var out [][2]float64
	fold, k := p.Folds[0], 25.4/r.DPI
	place := func(px, py float64) [2]float64 {
		return [2]float64{(px+0.5)*k - fold.X, (fold.Y - (py+0.5)*k) / lift}
	}
	const half = 128
	grey := func(x, y int) float64 { return float64(r.Grey[y*r.Width+x]) }
	for y := range r.Height - 1 {
		for x := range r.Width - 1 {
			here := grey(x, y)
			if across := grey(x+1, y); (here < half) != (across < half) {
				out = append(out, place(float64(x)+(half-here)/(across-here), float64(y)))
			}
			if down := grey(x, y+1); (here < half) != (down < half) {
				out = append(out, place(float64(x), float64(y)+(half-here)/(down-here)))
			}
		}
	}
	kept := out[:0]
	for _, q := range out {
		if q[1] > 0.6 && q[1] < top && q[0] > left && q[0] < right {
			kept = append(kept, q)
		}
	}
	return kept
}

// away is how far a place is from a chain.
func away(p [2]float64, chain [][2]float64) float64 {
	nearest := math.Inf(1)
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		dx, dy := b[0]-a[0], b[1]-a[1]
		t := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			t = max(0, min(1, ((p[0]-a[0])*dx+(p[1]-a[1])*dy)/l))
		}
		nearest = min(nearest, math.Hypot(p[0]-a[0]-t*dx, p[1]-a[1]-t*dy))
	}
	return nearest
}

// samples are places along a chain over the fold, not farther apart than step.
func samples(chain [][2]float64, step float64) [][2]float64 {
	var out [][2]float64
	for i := 1; i < len(chain); i++ {
		a, b := chain[i-1], chain[i]
		n := math.Ceil(math.Hypot(b[0]-a[0], b[1]-a[1]) / step)
		for j := 0.0; j < n; j++ {
			if y := a[1] + (b[1]-a[1])*j/n; y > 1 {
				out = append(out, [2]float64{a[0] + (b[0]-a[0])*j/n, y})
			}
		}
	}
	return out
}

func TestTheEdgesInThePictureAreThoseThatAreCut(t *testing.T) {
	for _, c := range []struct {
		name string
		Words
	}{
		{"c6", Words{}},
		{"dl square", Words{Envelope: "dl", Flap: "square"}},
		{"contour", Words{Envelope: "a7", Paper: "letter", Flap: "contour"}},
		{"rounded, small", Words{Envelope: "c7", Flap: "rounded"}},
		{"side gap and gum", Words{Pocket: "160x115", FlapDepth: "70", Gum: "8", GumClearance: "3", SideGap: "7"}},
		{"handmade", Words{Handmade: "four-corner", Card: "a6", From: "210x210"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			fit := fitted(t, c.Words)
			for _, v := range []struct {
				view scene.View
				lift float64
			}{{scene.Open, 1}, {scene.Half, math.Cos(60 * math.Pi / 180)}} {
				for what, chain := range map[string][][2]float64{"liner": fit.Outline, "flap": fit.Flap.Profile} {
					page := loud(t, Look{Words: c.Words}, v.view, what == "flap")
					for by, raster := range drawnBy(t, page.Page) {
						if by == "librsvg" && v.view == scene.Half && what == "flap" {
							continue // as the other three, and each takes its time
						}
						found := edges(raster, page, v.lift, -2, fit.Envelope.Width+2, fit.Flap.Depth+2)
						worst := 0.0
						for _, q := range found {
							worst = max(worst, away(q, chain))
						}
						if worst > 0.15 || len(found) < 80 {
							t.Errorf("%s, %s, %s: an edge %.3f mm from where it is cut, of %d found", v.view, what, by, worst, len(found))
						}
						missing := 0
						for _, q := range samples(chain, 1) {
							near := false
							for _, f := range found {
								if math.Abs(f[0]-q[0]) < 0.3 && math.Abs(f[1]-q[1]) < 0.3 {
									near = true
									break
								}
							}
							if !near {
								missing++
							}
						}
						if missing > 0 {
							t.Errorf("%s, %s, %s: %d places of the cut edge are not in the picture", v.view, what, by, missing)
						}
					}
				}
			}
		})
	}
}

// A liner too shallow for its throat shows its end there, where it is cut: so the
// picture's pocket part is the sheet's too.
func TestALinerThatIsTooShallowShowsItsEnd(t *testing.T) {
	w := Words{Envelope: "c6", PocketDepth: "20"}
	page := loud(t, Look{Words: w}, scene.Open, false)
	r := referee.PNG(t, coded(t, page.Page, "png"), seenAt)
	middle := page.Folds[0].X + 81
	if above, below := r.At(middle, page.Folds[0].Y+19.7), r.At(middle, page.Folds[0].Y+20.3); above > 20 || below < 200 {
		t.Errorf("just over the end %.0f, just under %.0f", above, below)
	}
}

// The pattern in the picture lies on the flap as it does on the sheet: grey for
// grey at thousands of places, and not when either is slid by a millimetre.
func TestThePatternLiesAsOnTheSheet(t *testing.T) {
	for _, w := range []Words{
		{},
		{Pattern: "leaves", Repeat: "toss", Palette: "hop-garden", Seed: "7"},
		{Pattern: "terrazzo", Palette: "rowan-jelly", Seed: "3"},
		{Pattern: "plaid", Turn: "30", Scale: "0.8", Envelope: "dl"},
		{Pattern: "petals", Fade: "ink:20%", Palette: "barn-lantern"},
	} {
		t.Run(fmt.Sprint(w.Pattern, w.Repeat), func(t *testing.T) {
			seen, err := See(t.Context(), Look{Words: w})
			if err != nil {
				t.Fatal(err)
			}
			sc := seen.Scene
			sc.Flat = true
			placed := picturedAs(t, sc, []scene.View{scene.Open})
			picture := referee.PNG(t, coded(t, placed.Page, "png"), seenAt)
			made := makeOf(t, w)
			page := referee.PNG(t, coded(t, made.Pages[0], "png"), seenAt)
			fit := fitted(t, w)
			at := fit.Placements[0]
			onSheet := func(x, y float64) (float64, float64) {
				switch at.Turn {
				case 90:
					return at.DX + y, at.DY + x
				case 180:
					return at.DX - x, at.DY + y
				case 270:
					return at.DX - y, at.DY - x
				}
				return at.DX + x, at.DY - y
			}
			differ := func(slide float64) (mean float64, places int) {
				for y := 1.0; y < fit.Flap.Depth; y += 0.37 {
					for x := 1.0; x < fit.Envelope.Width; x += 0.37 {
						p := [2]float64{x, y}
						if !within(p, fit.Outline) || away(p, fit.Outline) < 1.2 {
							continue
						}
						sx, sy := onSheet(x, y)
						mean += math.Abs(picture.At(placed.Folds[0].X+x+slide, placed.Folds[0].Y-y) - page.At(sx, sy))
						places++
					}
				}
				return mean / float64(places), places
			}
			mean, places := differ(0)
			slid, _ := differ(1)
			if places < 3000 || mean > 1.5 || slid < 4*mean || slid < 3 {
				t.Errorf("%d places differ by %.2f levels, slid by 1 mm by %.2f", places, mean, slid)
			}
		})
	}
}

// within is the even-odd rule.
func within(p [2]float64, ring [][2]float64) bool {
	odd := false
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(b[0]-a[0])*(p[1]-a[1])/(b[1]-a[1]) {
			odd = !odd
		}
	}
	return odd
}

func picturedAs(t *testing.T, sc scene.Scene, views []scene.View) scene.Placed {
	t.Helper()
	placed, err := sc.Picture(t.Context(), views)
	if err != nil {
		t.Fatal(err)
	}
	return placed
}
