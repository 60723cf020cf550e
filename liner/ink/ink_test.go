package ink_test

import (
	"context"
	"math"
	"testing"

	"underflap/liner/ink"
	"underflap/pattern"
	"underflap/pattern/draw"
)

var (
	cream  = draw.Colour{R: 246, G: 236, B: 217}
	red    = draw.Colour{R: 180, G: 71, B: 46}
	green  = draw.Colour{R: 60, G: 110, B: 70}
	amber  = draw.Colour{R: 214, G: 149, B: 58}
	violet = draw.Colour{R: 90, G: 60, B: 120}
)

// precise is what shares keep to.
const precise = 0.002

func design(t testing.TB, name string, art *draw.Art, given map[string]string) pattern.Design {
	t.Helper()
	settings := map[string]pattern.Setting{}
	for k, v := range given {
		settings[k] = pattern.Setting{Field: k, Value: v}
	}
	motif, err := pattern.New(name, settings, art)
	if err != nil {
		t.Fatal(err)
	}
	return pattern.Design{Name: name, Motif: motif, Scale: 1, Colours: pattern.Colours{Ground: cream, Inks: []draw.Colour{red, green, amber, violet}}, Saver: pattern.Saver{Bare: draw.White}}
}

// over measures a design on a rectangle of the space patterns draw in.
func over(d pattern.Design, area draw.Rect) ink.Use {
	return ink.Measure(context.Background(), d, area.Width()*area.Height(), func(d pattern.Design, bare draw.Colour) *draw.Page {
		page := draw.NewPage(area.Width(), area.Height())
		page.Fill(draw.Rectangle(draw.Rect{MaxX: page.Width, MaxY: page.Height}.Grow(1)), bare)
		page.Within(draw.Translate(-area.MinX, -area.MinY), func(s *draw.Surface) {
			s.Clipped(draw.Rectangle(area), func(s *draw.Surface) { d.Draw(s, area) })
		})
		return page
	})
}

// box is 120 by 100 mm, a whole number of each repeat below, beside the origin.
var box = draw.Rect{MinX: -55, MinY: -45, MaxX: 65, MaxY: 55}

// TestSharesAreTheClosedForms holds shares against areas worked out by hand.
func TestSharesAreTheClosedForms(t *testing.T) {
	square := func(side float64, c draw.Colour) draw.Shape {
		return draw.Shape{Path: draw.Rectangle(draw.Rect{MinX: (10 - side) / 2, MinY: (10 - side) / 2, MaxX: (10 + side) / 2, MaxY: (10 + side) / 2}), Colour: c}
	}
	own := &draw.Art{Width: 10, Height: 10, Shapes: []draw.Shape{square(10, violet), square(8, draw.Colour{R: 252, G: 250, B: 251}), square(4, amber)}}
	one := &draw.Art{Width: 10, Height: 10, Ink: 2, Shapes: []draw.Shape{square(10, violet)}}
	tiles := map[string]string{"size": "10", "row-spacing": "10", "spacing": "10", "repeat": "straight"} // a square in 20 x 20
	faded := func(d pattern.Design, to float64) pattern.Design {
		d.Fade, d.Depth = pattern.Fade{Of: pattern.FadeInk, To: to}, box.MaxY
		return d
	}
	saved := func(d pattern.Design, depth float64) pattern.Design {
		d.Saver.Depth = depth
		return d
	}
	stripes := design(t, "stripes", nil, map[string]string{"bands": "5:1,3:0,2:2"})
	dots := design(t, "dots", nil, map[string]string{"size": "6", "spacing": "10", "repeat": "straight"})
	// of 100 mm down, 45 lie over the fold and 55 below it
	const fold, below = 0.45, 0.55
	const veil = 0.8 / 55 // how much stronger the veil of a fade to 0.2 grows each mm
	for name, c := range map[string]struct {
		design pattern.Design
		want   map[int]float64
	}{
		"stripes":          {stripes, map[int]float64{0: 0.3, 1: 0.5, 2: 0.2, 3: 0}},
		"dots":             {dots, map[int]float64{0: 1 - math.Pi*9/100, 1: math.Pi * 9 / 100}},
		"gingham":          {design(t, "gingham", nil, map[string]string{"size": "5", "tone": "40"}), map[int]float64{0: 0.25 + 0.5*0.6, 1: 0.25 + 0.5*0.4}},
		"checks":           {design(t, "checks", nil, map[string]string{"size": "10"}), map[int]float64{0: 0.5, 1: 0.5}},
		"own colours":      {design(t, pattern.Stamps, own, tiles), map[int]float64{0: 0.75, 1: 0, ink.Own: (36.0 + 16) / 400}},
		"art in ink 2":     {design(t, pattern.Stamps, one, tiles), map[int]float64{0: 0.75, 1: 0, 2: 0.25}},
		"stripes fading":   {faded(stripes, 0.2), map[int]float64{0: 0.3 + 0.7*below*0.4, 1: 0.5 * (1 - below*0.4), 2: 0.2 * (1 - below*0.4)}},
		"own art fading":   {faded(design(t, pattern.Stamps, own, tiles), 0.2), map[int]float64{0: 0.75 + (10*12.5*veil+100*20*veil+100*40*veil)/2000, ink.Own: ownFading(veil)}},
		"stripes saved":    {saved(stripes, 20), map[int]float64{0: 0.3 * (fold + 0.25), 1: 0.5 * (fold + 0.25), 2: 0.2 * (fold + 0.25)}},                       // 20 mm, and half of the 10 that fade out
		"own art saved":    {saved(design(t, pattern.Stamps, own, tiles), 15), map[int]float64{0: (30*0.5 + 30 + 5*0.5) / 100, ink.Own: (3 + 0.5) * 52 / 2000}}, // rows at -40, -20, 0, and at 20 half
		"saved and fading": {saved(faded(stripes, 0), 40), map[int]float64{1: 0.5 * (fold + 0.40 - 0.40*0.40/2/below + savedFade(40, 55))}},
	} {
		u := over(c.design, box)
		got := map[int]ink.Row{}
		for _, r := range u.Rows {
			got[r.Ink] = r
		}
		for n, want := range c.want {
			if math.Abs(got[n].Share-want) > precise || math.Abs(got[n].Area-120*want) > 120*precise {
				t.Errorf("%s: ink %d covers %.4f, %.2f cm2; want %.4f", name, n, got[n].Share, got[n].Area, want)
			}
		}
		if u.Region != 120 {
			t.Errorf("%s: %g cm2", name, u.Region)
		}
	}
}

// ownFading is what is left of the rows of art at -40, -20, 0, 20 and 40 mm. A stamp
// is 52 mm2 of its 10 by 10: 6 mm of a line are coloured within 2 mm of its middle,
// 2 mm within 4 mm, and all 10 beyond. There are 2000 mm2 for a column of stamps.
func ownFading(veil float64) float64 {
	lower := 6*2*(1-veil*1) + 2*2*(1-veil*3) + 10*1*(1-veil*4.5) // the half of row 0 below the fold
	return (52*2 + 26 + lower + 52*(1-veil*20) + 52*(1-veil*40)) / 2000
}

// savedFade is the ink of one mm2 a mm of width, of 100, that is left in the
// saver's run of 10 mm below depth, where a fade to nothing at foot goes on:
// the mean of (1 - y/foot)(1 - (3t2 - 2t3)), by Simpson's rule.
func savedFade(depth, foot float64) float64 {
	f := func(t float64) float64 { return (1 - (depth+10*t)/foot) * (1 - t*t*(3-2*t)) }
	sum := 0.0
	const n = 100
	for i := range n {
		a, b := float64(i)/n, float64(i+1)/n
		sum += (f(a) + 4*f((a+b)/2) + f(b)) / 6 / n
	}
	return sum * 10 / 100
}

func TestSharesOfEveryFamilySumToOne(t *testing.T) {
	for _, name := range pattern.Names() {
		if name == pattern.Stamps {
			continue
		}
		d := design(t, name, nil, nil)
		d.Turn, d.Seed = 23, 7
		sum := 0.0
		for _, r := range over(d, box).Rows {
			sum += r.Share
		}
		if math.Abs(sum-1) > precise {
			t.Errorf("%s: %.4f", name, sum)
		}
	}
}

func TestASeedChangesInksRoundAndTheirAreasWithThem(t *testing.T) {
	d := design(t, "stripes", nil, map[string]string{"bands": "4:1,3:2,2:3,1:4"})
	plain := over(d, box)
	moved := false
	for seed := range uint64(6) {
		d.Seed = seed + 1
		u := over(d, box)
		sizes := map[float64]bool{}
		for i, r := range u.Rows[1:] {
			sizes[math.Round(10*r.Share)] = true
			moved = moved || math.Abs(r.Share-plain.Rows[i+1].Share) > 0.05
		}
		if len(sizes) != 4 {
			t.Errorf("seed %d: %+v", d.Seed, u.Rows)
		}
	}
	if !moved {
		t.Error("no seed moved an ink")
	}
}

func TestWhiteTakesNoInk(t *testing.T) {
	d := design(t, "stripes", nil, map[string]string{"bands": "5:1,3:0,2:2"})
	d.Colours.Ground = draw.White
	u := over(d, box)
	if !u.Rows[0].Bare || u.Rows[1].Bare || math.Abs(u.Inked()-120*0.7) > 120*precise {
		t.Errorf("%.2f cm2, %+v", u.Inked(), u.Rows)
	}
	d.Colours.Inks = []draw.Colour{draw.White, green}
	if u = over(d, box); math.Abs(u.Inked()-120*0.2) > 120*precise {
		t.Errorf("%.2f cm2, %+v", u.Inked(), u.Rows)
	}
}

func TestUsesAddUp(t *testing.T) {
	u := over(design(t, "stripes", nil, map[string]string{"bands": "5:1,3:0,2:2"}), box)
	small := over(design(t, "stripes", nil, map[string]string{"bands": "1:1,4:0"}), draw.Rect{MaxX: 20, MaxY: 30})
	sum := u.Times(3).Plus(small)
	if math.Abs(sum.Region-366) > 1e-9 || math.Abs(sum.Rows[1].Area-(180+1.2)) > 0.2 || math.Abs(sum.Rows[1].Share-181.2/366) > precise/2 {
		t.Errorf("%+v", sum)
	}
	if same := u.Times(0).Plus(u); same.Rows[1].Area != u.Rows[1].Area || same.Rows[1].Share != u.Rows[1].Share {
		t.Errorf("%+v", same)
	}
}
